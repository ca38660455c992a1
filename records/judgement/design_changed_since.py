"""What is judged again because a design input changed since, and what it was that changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from records.expected.plan import expected as worked_out
from records.expected.results import Expected
from records.judgement.design.all_checks import design_lines
from records.judgement.differences import Difference, differences
from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged, Review
from records.model.reading import Place, Slot
from records.model.record import Record
from records.terms import Part

_MOST = 4
"""Changes that are told one by one."""


@dataclass(frozen=True, slots=True)
class Then:
    """The design as it was when some readings were entered."""

    record: Record
    """Of its readings nothing is used: they are those of today."""
    readings: frozenset[str]
    """Ids of the readings that were entered under it."""


def judged_again(then: Sequence[Then], record: Record, expected: Expected) -> Mapping[str, str]:
    """Return what to say of each line that a changed design input lets stand differently.

    The readings of today are held against the design of then and that of today, so that only the
    design makes the difference: the verdict, the limit or the expectation.

    Args:
        then: The designs that readings were entered under, the oldest first.
        record: The job as it is now.
        expected: What follows from it.
    Returns:
        By the key of a line a sentence: what changed, and how it stood before.
    """
    now = Facts.of(record, expected)
    found: dict[str, str] = {}
    for each in then:
        changed = tuple(differences(each.record, record))
        if not changed:
            continue
        before = _facts(each, record)
        for was, stands in (*_readings(each, before, now), *_designs(before, now)):
            if _differs(was, stands):
                found[was.key] = _sentence(was, changed)
    return found


def with_changes_said(review: Review, said: Mapping[str, str]) -> Review:
    """Return a review whose lines say what changed since; `said` is what `judged_again` gives."""
    lines = tuple(
        each._replace(judged_again=said[each.key]) if each.key in said else each
        for each in review.lines
    )
    return replace(review, lines=lines)


def _facts(then: Then, record: Record) -> Facts:
    known = {each.id: {point.id for point in each.points} for each in then.record.circuits}
    bonds = {each.id for each in then.record.board.bonds}
    readings = tuple(each for each in record.readings if _has(known, bonds, each.slot.place))
    job = then.record.model_copy(update={"readings": readings})
    return Facts.of(job, worked_out(job))


def _has(circuits: Mapping[str, set[str]], bonds: set[str], place: Place) -> bool:
    if place.part is not Part.CIRCUIT:
        return place.point is None or place.point in bonds
    points = circuits.get(place.circuit or "")
    return points is not None and (place.point is None or place.point in points)


def _readings(then: Then, before: Facts, now: Facts) -> Iterator[tuple[Judged, Judged]]:
    for slot in now.all_slots:
        last = now.last(slot)
        if last is not None and last.id in then.readings and before.last(slot) is not None:
            yield own_line(before, slot), own_line(now, slot)


def _designs(before: Facts, now: Facts) -> Iterator[tuple[Judged, Judged]]:
    """Yield the design checks that were a problem then, as they were and as they are."""
    today = {each.key: each for each in design_lines(now)}
    for each in design_lines(before):
        if each.is_trouble and each.key in today:
            yield each, today[each.key]


def _differs(was: Judged, now: Judged) -> bool:
    return _shown(was) != _shown(now)


def _shown(line: Judged) -> tuple[str, str, str]:
    limit = str(line.limit) if line.limit is not None else ""
    expected = str(line.expected) if line.expected is not None and line.slot is not None else ""
    return line.verdict.value, limit, expected


def _sentence(was: Judged, changed: Sequence[Difference]) -> str:
    told = [each for each in changed if _concerns(each, was.slot, was.place)] or list(changed)
    words = "; ".join(str(each) for each in told[:_MOST])
    more = f"; and {len(told) - _MOST} more" if len(told) > _MOST else ""
    verdict, limit, expected = _shown(was)
    before = ", ".join(
        part
        for part in (
            verdict,
            f"expected {expected}" if expected else "",
            f"limit {limit}" if limit else "",
        )
        if part
    )
    since = "it was read" if was.slot is not None else "then"
    return f"Judged again, for the design changed since {since}: {words}{more}. Before: {before}."


def _concerns(change: Difference, slot: Slot | None, place: Place) -> bool:
    """Whether a change can matter there: another circuit's cable doesn't matter to this one."""
    own = slot.place.circuit if slot is not None else place.circuit
    return change.circuit is None or own is None or change.circuit == own
