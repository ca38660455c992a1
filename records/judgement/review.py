"""The review: every reading, every design check, every pattern, each with its verdict."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from records.expected.results import Expected
from records.judgement.attempts import stood
from records.judgement.concern import Concern, Pattern
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.judgement.one_cause import with_causes
from records.judgement.one_reading import own_line
from records.judgement.patterns import PATTERNS
from records.judgement.patterns.instruments import LATE
from records.judgement.patterns.out_of_order import out_of_order
from records.judgement.reading_verdicts import reading_verdicts
from records.judgement.remedy.finding_history import with_remedies
from records.judgement.remedy.found_before import not_undone, remedies_of, unexplained
from records.judgement.remedy.tests_to_repeat import earlier_tests
from records.judgement.review_types import Judged, Review
from records.judgement.symptoms import with_symptoms
from records.judgement.trust import with_grounds
from records.model.reading import Reading, Slot
from records.model.record import Record
from records.reuse import Once


def review(record: Record, expected: Expected, reuse: Once | None = None) -> Review:
    """Return all verdicts on a record.

    Args:
        record: The job.
        expected: What follows from it.
        reuse: Has what was worked out for the record as it was before, and gets what is worked out
            now; None: all is worked out, for this time only. The verdicts are the same.
    Returns:
        A line for every reading that the job needs and for every other one that was taken, a
        line for every design check, and a line for every pattern that was found. The order in
        which readings were entered makes no difference; the time they were taken does.
    """
    facts = Facts.of(record, expected, reuse=reuse)
    return facts.reuse.unkept(partial(_review, facts))


def _review(facts: Facts) -> Review:
    once = facts.reuse.once
    found = [each for rule in (*PATTERNS, earlier_tests) for each in facts.found_by(rule)]
    more: dict[Slot, list[Concern]] = {}
    for each in found:
        if each.into is not None:
            more.setdefault(each.into, []).append(each.concern)
    known = remedies_of(facts)
    asked = dict.fromkeys((*facts.all_slots, *more))
    own = [
        not_undone(once(slot, partial(_own, facts, slot, beside), *beside), known)
        for slot in asked
        for beside in (more.get(slot, ()),)
    ]
    own = _marked(own, found)
    found += unexplained(facts, own)
    design = design_lines(facts)
    lines = with_symptoms(facts, [*design, *with_causes(own, found)])
    done, settled = with_remedies(facts, lines)
    verdicts = reading_verdicts(done)
    facts = facts.unnoted()
    early = list(out_of_order(facts, reading_verdicts(lines, to_repeat=False)))
    if early:  # what a reading shows is one thing, whether it could be taken then another
        lines = with_symptoms(facts, [*design, *with_causes(own, [*found, *early])])
        done, settled = with_remedies(facts, lines)
    return Review(with_grounds(facts, done), settled, verdicts)


def preview(record: Record, expected: Expected, reading: Reading) -> Judged:
    """Return how a reading would stand by itself if it were taken: for a field being typed in.

    Args:
        record: The job, without the reading.
        expected: What follows from it.
        reading: The reading; its time decides where it stands among earlier ones.
    """
    facts = Facts.of(record, expected, (reading,))
    return with_grounds(facts, [own_line(facts, reading.slot)])[0]


def _marked(own: Sequence[Judged], found: Sequence[Pattern]) -> list[Judged]:
    """Mark the readings from a meter that was out of calibration; their verdicts are their own."""
    late = {slot for each in found if each.concern.pattern == "calibration" for slot in each.about}
    return [each._replace(meter_mark=LATE) if each.slot in late else each for each in own]


def _own(facts: Facts, slot: Slot, more: Sequence[Concern]) -> Judged:
    line = own_line(facts, slot, more)
    return line._replace(stood=stood(facts, line)) if len(line.attempts) > 1 else line
