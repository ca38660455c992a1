"""A review in lines of 80 columns, grouped by where in the installation it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from pathlib import Path

from records.days import day_words, moment_words
from records.expected.results import NotWorkedOut
from records.judgement.remedy.smallest_change import Mends
from records.judgement.review_types import Judged, Review, Sense
from records.judgement.todo.walking import left, stop_words
from records.judgement.trust import MEANING, mark_of, memory_note
from records.judgement.wording import done_line, in_full
from records.model.reading import Reading, Slot, place_of
from records.model.record import Record
from records.model.slots import measured_by, title
from records.notices import NOT_A_CERTIFICATE
from records.store.record_in import Found
from records.store.showing import file_name
from records.tables.edition import limits_from
from records.taking.card import limit_line
from records.taking.finding_text import found_lines, how_bad, short_name
from records.taking.sentences import ground, parted
from records.terms import Stage, Verdict
from tui.commands.lines import wrapped

_ORDER = tuple(Verdict)
_CAUSES = 3
"""Likely causes that are told; more than that nobody checks one by one."""
Line = tuple[str, str | None]
"""A line, and the verdict that it states, if it states one."""


def lines(
    file: Path, found: Found, review: Review, *, everything: bool, details: bool = True
) -> Iterator[Line]:
    """Yield the review line by line.

    Args:
        file: Where the record was read.
        found: The record.
        review: Its review.
        everything: Whether to tell also what is within limits or not needed.
        details: Whether all about each comes after the list of what to deal with.
    """
    record = found.record
    shown = review.lines if everything else review.findings
    yield from _plain(wrapped(_head(file, found)))
    if found.fingerprint:
        yield f"Fingerprint {found.fingerprint}", None
    yield from _plain(wrapped(_counts(review)))
    never = [each for each in shown if _is_never_taken(each)]
    yield from _to_do(record, [each for each in shown if each not in never])
    yield from _never(record, {each.slot for each in never if each.slot})
    if details:
        yield from _details(record, review, [each for each in shown if each not in never])
    yield "", None
    if any(map(mark_of, shown)):
        yield from _plain(wrapped(f"{MEANING} `farboard sources --decisive FILE` lists them all."))
    yield from _plain(
        wrapped(f"Limits: {limits_from()}; the certifier confirms them.{_entered(record)}")
    )
    yield from _plain(wrapped(f"{NOT_A_CERTIFICATE} Local rules come first."))
    # Once more: a terminal shows the end of what is longer than it is.
    yield from _plain(wrapped(_counts(review)))


def _to_do(record: Record, told: Sequence[Judged]) -> Iterator[Line]:
    """Yield what somebody has to deal with, one line each, worst first."""
    findings = [each for each in told if each.is_finding]
    if not findings:
        return
    yield "", None
    yield "What to deal with, worst first", None
    for each in findings:
        early = each.slot is not None and each.slot.stage is Stage.BEFORE_COVERING
        parts = (
            short_name(record, each, how_bad(each)),
            "(before covering)" if early else "",
            mark_of(each),
        )
        yield from _list(each.verdict, [" ".join(filter(None, parts))])


def _details(record: Record, review: Review, told: Sequence[Judged]) -> Iterator[Line]:
    """Yield all about each verdict, by where in the installation it is."""
    mends = Mends(record)
    for place, group in _groups(record, told):
        yield "", None
        yield from _plain(wrapped(place))
        bare = [each for each in group if _is_bare(each)]
        for each in group:
            if each not in bare:
                yield from _told(mends, each, _name(each, place))
        for verdict in (Verdict.NOT_TAKEN, Verdict.WITHIN, Verdict.NOT_NEEDED):
            names = [
                f"{_name(each, place)} {mark_of(each)}".rstrip()
                for each in bare
                if each.verdict is verdict
            ]
            if names:
                yield from _list(verdict, names)
    yield from _put_right(record, review)


def _entered(record: Record) -> str:
    """Return the edition that somebody entered for the job, where it is another one."""
    entered = record.job.edition
    return f" Entered as worked to: {entered}." if entered not in ("", limits_from()) else ""


def _groups(record: Record, shown: Sequence[Judged]) -> list[tuple[str, list[Judged]]]:
    """Return what is shown by part and circuit, the one with the worst verdict first."""
    groups: dict[str, list[Judged]] = {}
    for each in shown:
        whole = place_of(each.place.part, each.place.circuit)
        groups.setdefault(title(record, whole), []).append(each)
    for group in groups.values():
        group.sort(key=lambda each: each.rank)
    return sorted(groups.items(), key=lambda item: item[1][0].rank)


def _put_right(record: Record, review: Review) -> Iterator[Line]:
    """Yield what was found and is no finding any more: as it was, what was done, and since."""
    done = [each for each in review.put_right if each.found or each.verdict is Verdict.WITHIN]
    if not done:
        return
    yield "", None
    yield from _plain(wrapped("Found, and put right since"))
    for each in done:
        yield from _list(each.verdict, [each.title])
        for line in found_lines(each):
            yield from _plain(_under(f"Found: {line}"))
        for remedy in each.remedies:
            yield from _plain(_under(f"Done {day_words(remedy.at)}: {done_line(remedy)}"))
        if each.attempts:
            last = each.attempts[-1]
            yield from _plain(_under(f"Since: {_said(last)}, {moment_words(last.at)}"))


def _is_never_taken(each: Judged) -> bool:
    """Say whether nothing at all was entered for a reading, and nothing more is to be told."""
    return each.slot is not None and not each.attempts and _is_bare(each)


def _never(record: Record, wanted: Set[Slot]) -> Iterator[Line]:
    """Yield what is still to test, by the places to go to."""
    for stage in Stage:
        stops = [
            replace(stop, slots=inside)
            for stop in left(record, stage)
            if (inside := tuple(each for each in stop.slots if each in wanted))
        ]
        if stops:
            yield "", None
            yield from _plain(wrapped(f"Still to test: {stage.value}"))
        for stop in stops:
            yield from _list(
                Verdict.NOT_TAKEN, [f"{stop.heading} · {'; '.join(stop_words(record, stop))}"]
            )


def _is_bare(each: Judged) -> bool:
    """Say whether the name and the verdict say it all, so that it can stand in a list."""
    quiet = (Verdict.NOT_TAKEN, Verdict.WITHIN, Verdict.NOT_NEEDED)
    told = each.remedies or each.judged_again or _is_not_calculated(each)
    return each.verdict in quiet and not told


def _is_not_calculated(each: Judged) -> bool:
    """Say whether it is a check of the design that lacks something: the reason says what."""
    return each.slot is None and each.verdict is Verdict.NOT_TAKEN and bool(each.why)


def _told(mends: Mends, each: Judged, name: str) -> Iterator[Line]:
    verdict = each.verdict
    yield from _list(verdict, [f"{name} {mark_of(each)}".rstrip()])
    facts = []
    if each.attempts:
        facts.append("measured " + ", then ".join(_measured(each)))
    if each.expected is not None and not isinstance(each.expected, NotWorkedOut):
        facts.append(f"expected {each.expected}")
    if each.limit is not None:
        named = "" if each.limit.sense is Sense.SHOULD else "limit "
        facts.append(f"{named}{limit_line(each.limit)}")
    yield from _plain(_under(" · ".join(facts)))
    if each.next_check:
        yield from _plain(_under("Do next: " + each.next_check))
    if each.causes:
        yield from _plain(_under("Likely cause: " + "; ".join(each.causes[:_CAUSES])))
    value = _said(each.attempts[-1]) if each.attempts else ""
    read, reason = parted(each.why)
    # The reading, what was expected and the limit were said in the first line.
    yield from _plain(_under(reason if read else ground(each.why, value)))
    yield from _plain(_under(each.judged_again))
    for mend in mends.of(each):
        yield from _plain(_under(f"Would put it right: {mend}"))
    for remedy in each.remedies:
        what = "Passed on" if remedy.to_decide else "Done"
        yield from _plain(_under(f"{what} {day_words(remedy.at)}: {done_line(remedy)}"))
    if each.remedies and each.life is not None:
        yield from _plain(_under(f"State: {each.life.value}"))
    source = each.limit.source if each.limit is not None else each.source
    if source is not None:
        yield from _plain(_under(f"Source: {source}"))
    yield from _plain(_under(memory_note(each)))


def _list(verdict: Verdict, names: list[str]) -> Iterator[Line]:
    first, *rest = wrapped(
        "; ".join(names), indent=" " * 15, first=f"{verdict.mark} {verdict.value:<13}"
    )
    yield first, verdict.value
    yield from _plain(rest)


def _name(each: Judged, group: str) -> str:
    """Return what is judged, without the words of the heading that it stands under."""
    name = each.title.removeprefix(group).lstrip(":, ") or each.title
    if each.slot is None:
        return name
    stage = each.slot.stage.value
    return f"{name.removesuffix(f', {stage}')} ({stage})"


def _measured(each: Judged) -> Iterator[str]:
    """Yield each reading; those before the last with how they stood when they were taken."""
    for at, taken in enumerate(each.attempts):
        earlier = at < len(each.attempts) - 1
        if earlier and each.stood:
            yield f"{_said(taken)} ({each.stood[at].words})"
        else:
            yield f"{_said(taken)} {'' if earlier else each.meter_mark}".strip()


def _said(reading: Reading) -> str:
    return in_full(reading.taken, measured_by(reading.slot))


def _under(text: str) -> list[str]:
    return wrapped(text, indent="    ") if text else []


def _plain(texts: list[str]) -> Iterator[Line]:
    for text in texts:
        yield text, None


def _head(file: Path, found: Found) -> str:
    job = found.record.job
    about = ", ".join(filter(None, (job.reference, job.place))) or "no reference yet"
    return f"{file_name(file)}: {about}"


def _counts(review: Review) -> str:
    count = Counter(each.verdict for each in review.lines)
    told = [f"{count[verdict]} {verdict.value}" for verdict in _ORDER if count[verdict]]
    return " · ".join(told) or "Nothing to check yet: the design has not been entered."
