"""What a remedy asks for: the earlier tests that the fault or its repair may have influenced."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.judgement import cite
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import Facts
from records.judgement.one_reading import key_of, own_line
from records.judgement.wording import listed
from records.model.measurements import MEASUREMENTS
from records.model.reading import Figure, Quantity, Remedy, Slot, Tick
from records.terms import Part, Stage, Verdict

_AGAIN = (
    Quantity.R1_R2,
    Quantity.R1,
    Quantity.RN,
    Quantity.R2,
    Quantity.IR_LN,
    Quantity.IR_LE,
    Quantity.IR_NE,
)
"""Continuity and insulation: what work on a circuit can change without being seen."""
_NO_WORK = (Quantity.SURGE, Quantity.EARTH_BACK, Quantity.FUNCTION)


@dataclass(frozen=True, slots=True)
class _Before:
    """A remedy of a reading that was outside its limit, and that reading's slot."""

    remedy: Remedy
    slot: Slot


def earlier_tests(facts: Facts) -> Iterator[Pattern]:
    """Continuity and insulation that were read before a repair, and not again after it.

    Asked for where the reading was outside its limit, which takes work to mend. Where it was only
    unlikely, reading again may be all that was done.
    """
    for each in _repairs(facts):
        due = tuple(slot for slot in _influenced(facts, each.slot) if _old(facts, slot, each))
        if not due:
            continue
        names = listed([slot.quantity.value for slot in due])
        concern = Concern(
            "earlier tests again", Verdict.NOT_TAKEN,
            f"After what was done ({each.remedy.done.rstrip('.')}) the tests before it that it may "
            f"have influenced are to be repeated: {names}.",
            (), "Repeat them, in the order of the tests.", cite.RETEST, 30,
        )  # fmt: skip
        title = f"{facts.title(each.slot.place)}: tests to repeat after a repair"
        yield Pattern(concern, each.slot.place, title, due, mark=each.remedy.id)


def _repairs(facts: Facts) -> Iterator[_Before]:
    by_key = {key_of(slot): slot for slot in facts.all_slots}
    latest: dict[Slot, Remedy] = {}
    for remedy in sorted(facts.record.remedies, key=lambda each: (each.at, each.id)):
        slot = by_key.get(remedy.finding)
        if slot is not None and slot.quantity not in _NO_WORK and not remedy.to_decide:
            latest[slot] = remedy
    for slot, remedy in latest.items():
        if _was_outside(facts, slot, remedy):
            yield _Before(remedy, slot)


def _was_outside(facts: Facts, slot: Slot, remedy: Remedy) -> bool:
    """Whether the reading that the remedy was about was outside its limit."""
    before = tuple(each for each in facts.record.readings if each.at <= remedy.at)
    record = facts.record.model_copy(update={"readings": before})
    return own_line(Facts.of(record, facts.expected), slot).verdict is Verdict.OUTSIDE


def _influenced(facts: Facts, slot: Slot) -> Iterator[Slot]:
    """Return the earlier tests of the same place that a repair there may have influenced."""
    stage = Stage.DEAD if slot.stage is Stage.LIVE else slot.stage
    own = _order(slot)
    for each in facts.wanted:
        same = (each.place.part, each.place.circuit) == (slot.place.part, slot.place.circuit)
        if not same or each.quantity not in _AGAIN or each.stage is not stage or each == slot:
            continue
        if slot.stage is Stage.LIVE or _order(each) < own:
            yield each
    if slot.stage is Stage.LIVE and slot.place.part is Part.CIRCUIT:
        zs = Slot(quantity=Quantity.ZS, place=slot.place, stage=Stage.LIVE)
        if _order(zs) < own:
            yield zs


def _order(slot: Slot) -> int:
    kinds = [(entry.part, entry.quantity) for entry in MEASUREMENTS]
    return kinds.index((slot.place.part, slot.quantity))


def _old(facts: Facts, slot: Slot, each: _Before) -> bool:
    """Whether it was tested before the repair and not since."""
    tested = [
        reading.at for reading in facts.attempts(slot) if isinstance(reading.taken, Figure | Tick)
    ]
    return bool(tested) and max(tested) <= each.remedy.at
