"""The review: every reading, every design check, every pattern, each with its verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from records.expected.results import Expected
from records.judgement.advice import words_of
from records.judgement.attempts import stood
from records.judgement.concern import Concern, Pattern, graver
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.judgement.one_reading import key_of, own_line
from records.judgement.patterns import PATTERNS
from records.judgement.remedy.finding_history import with_remedies
from records.judgement.remedy.tests_to_repeat import earlier_tests
from records.judgement.review_types import Judged, Review
from records.model.reading import Reading, Slot
from records.model.record import Record
from records.terms import Stage, Verdict


def review(record: Record, expected: Expected) -> Review:
    """Return all verdicts on a record.

    Args:
        record: The job.
        expected: What follows from it.
    Returns:
        A line for every reading that the job needs and for every other one that was taken, a
        line for every design check, and a line for every pattern that was found. The order in
        which readings were entered makes no difference; the time they were taken does.
    """
    facts = Facts.of(record, expected)
    found = [each for rule in (*PATTERNS, earlier_tests) for each in rule(facts)]
    more: dict[Slot, list[Concern]] = {}
    for each in found:
        if each.into is not None:
            more.setdefault(each.into, []).append(each.concern)
    own = [_own(facts, slot, more.get(slot, ())) for slot in facts.all_slots]
    patterns = [_line(each) for each in found if each.into is None]
    told = _told(own, found)
    lines = [*design_lines(facts), *told, *_carried(patterns, told)]
    done, settled = with_remedies(facts, lines)
    return Review(done, settled)


def preview(record: Record, expected: Expected, reading: Reading) -> Judged:
    """Return how a reading would stand by itself if it were taken: for a field being typed in.

    Args:
        record: The job, without the reading.
        expected: What follows from it.
        reading: The reading; its time decides where it stands among earlier ones.
    """
    return own_line(Facts.of(record, expected, (reading,)), reading.slot)


def _own(facts: Facts, slot: Slot, more: Sequence[Concern]) -> Judged:
    line = own_line(facts, slot, more)
    return replace(line, stood=stood(facts, line)) if len(line.attempts) > 1 else line


def pattern_key(pattern: Pattern) -> str:
    """Return the key of a pattern's line."""
    if pattern.into is not None:
        return key_of(pattern.into)
    place = pattern.place
    stage = max((slot.stage for slot in pattern.about), key=list(Stage).index)
    parts = (place.part.value, place.circuit or "-", place.point or pattern.mark or "-")
    return "/".join((*parts, stage.value, pattern.concern.pattern))


def _line(pattern: Pattern) -> Judged:
    concern = pattern.concern
    stages = {slot.stage for slot in pattern.about}
    stage = stages.pop() if len(stages) == 1 else None
    return Judged(
        pattern_key(pattern),
        concern.verdict,
        pattern.place,
        pattern.title,
        concern.says,
        causes=concern.causes,
        next_check=words_of(concern.next_check, stage, pattern.place.part),
        source=concern.source,
        patterns=(concern.pattern,),
        weight=concern.weight,
        about=pattern.about,
        once=pattern.once,
    )


def _told(own: Sequence[Judged], patterns: Sequence[Pattern]) -> list[Judged]:
    """Let the lines of readings that a pattern explains point to it."""
    by_slot: dict[Slot, Pattern] = {}
    for pattern in patterns:
        for slot in pattern.tells:
            known = by_slot.get(slot)
            if known is None or pattern.concern.weight > known.concern.weight:
                by_slot[slot] = pattern
    return [_pointing(line, by_slot.get(line.slot) if line.slot else None) for line in own]


def _carried(patterns: Sequence[Judged], told: Sequence[Judged]) -> list[Judged]:
    """Make a line that carries readings as grave as the gravest of them."""
    gravest: dict[str, Verdict] = {}
    for line in told:
        if line.part_of:
            gravest[line.part_of] = graver(gravest.get(line.part_of, line.verdict), line.verdict)
    return [
        replace(each, verdict=graver(each.verdict, gravest.get(each.key, each.verdict)))
        for each in patterns
    ]


def _pointing(line: Judged, pattern: Pattern | None) -> Judged:
    if pattern is None or line.verdict in (Verdict.NOT_TAKEN, Verdict.NOT_NEEDED):
        return line
    if pattern.into == line.slot:
        return line
    # What is outside or near its own limit is so whatever explains it, unless that is as grave.
    concern = pattern.concern
    verdict = graver(line.verdict, concern.verdict)
    hides = pattern.carries or graver(concern.verdict, line.verdict) is concern.verdict
    why = f"{line.why} See “{pattern.title}”."
    return replace(line, verdict=verdict, why=why, part_of=pattern_key(pattern) if hides else "")
