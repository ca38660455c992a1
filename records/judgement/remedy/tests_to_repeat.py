"""What a remedy asks for: the tests that the fault or the work on it may have influenced."""

from __future__ import annotations

import math
from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import NONE, Act, Advice, do
from records.judgement.attempts import facts_at
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.remedy.after_work import (
    Index,
    counts_now,
    index,
    named_place,
    places,
    touched,
)
from records.judgement.review_types import key_of
from records.judgement.wording import listed
from records.model.measurements import MEASUREMENTS
from records.model.reading import Figure, Quantity, Remedy, Slot, Tick, slot_of
from records.terms import Part, Stage, Verdict, WorkKind

_KEY = "/earlier tests again"
_AGAIN = (
    Quantity.R1_R2,
    Quantity.R1_RN,
    Quantity.R1,
    Quantity.RN,
    Quantity.R2,
    Quantity.IR_LN,
    Quantity.IR_LE,
    Quantity.IR_NE,
)
"""Continuity and insulation: what work on a circuit can change without being seen."""
_NO_WORK = (
    Quantity.SURGE,
    Quantity.EARTH_BACK,
    Quantity.PUT_BACK,
    Quantity.FUNCTION,
    Quantity.ELECTRODE_BACK,
    Quantity.ELECTRODE_LOOP_BACK,
)


def earlier_tests(facts: Facts) -> Iterator[Pattern]:
    """Tests that were taken before some work that can have touched them, and not again after it.

    The kind of work says which. Where nobody said a kind, only what was outside its limit is taken
    to have needed work: where a reading was only unlikely, reading again may be all that was done.
    """
    by_key = {key_of(slot): slot for slot in facts.all_slots}
    known = index(facts)
    asked: set[Slot] = set()
    # What was worked on twice is asked for once, by the latest work on it.
    for remedy in sorted(facts.record.remedies, key=lambda each: (each.at, each.id), reverse=True):
        if remedy.to_decide or remedy.finding.endswith(_KEY):
            continue
        own = by_key.get(remedy.finding)
        void = dict.fromkeys(_void(facts, known, remedy, own))
        due = tuple(each for each in void if each not in asked and _old(facts, each, remedy))
        asked |= void.keys()
        if due:
            yield _pattern(facts, remedy, due)


def _void(facts: Facts, known: Index, remedy: Remedy, own: Slot | None) -> Iterator[Slot]:
    """Return the tests that a remedy makes void, its own reading aside: that asks for itself."""
    if remedy.kind is None:
        if own is None or own.quantity in _NO_WORK or not _was_outside(facts, own, remedy):
            return
        found = _influenced(facts, own)
    elif remedy.kind is WorkKind.OTHER:
        found = _of_places(facts, remedy) if own is None else _influenced(facts, own)
    else:
        found = touched(facts, known, remedy)
    yield from (each for each in found if each != own and counts_now(facts, each))


def _pattern(facts: Facts, remedy: Remedy, due: tuple[Slot, ...]) -> Pattern:
    at = named_place(facts, remedy.finding) or due[0].place
    place = at.whole
    work = f"{remedy.kind.words}: " if remedy.kind not in (None, WorkKind.OTHER) else ""
    concern = Concern(
        "earlier tests again",
        Verdict.NOT_TAKEN,
        f"After what was done ({work}{remedy.done.rstrip('.')}) repeat the tests before it that "
        f"it may have influenced: {_names(facts, due)}.",
        (),
        _in_order(due),
        cite.RETEST,
        30,
    )
    title = f"{facts.title(place)}: tests to repeat after a repair"
    return Pattern(concern, place, title, due, mark=remedy.id)


def _in_order(due: tuple[Slot, ...]) -> Advice:
    """Return how to repeat tests: dead ones first, and not in what is still live."""
    live = [slot.stage is Stage.LIVE for slot in due]
    if all(live):
        return do(Act.AGAIN, "Repeat them, in the order of the tests.")
    return do(Act.LIFT, "Loads and electronics out. Repeat the dead tests, in their order.") + (
        do(Act.AGAIN, "Then the live ones.") if any(live) else NONE
    )


def _names(facts: Facts, due: tuple[Slot, ...]) -> str:
    """Return what is to be repeated, each kind once; with its place where there are several."""
    parts = {(slot.place.part, slot.place.circuit) for slot in due}
    if len(parts) == 1:
        return listed(list(dict.fromkeys(slot.quantity.value for slot in due)))
    by_place: dict[str, list[str]] = {}
    for slot in due:
        name = facts.title(slot.place.whole)
        by_place.setdefault(name, []).append(slot.quantity.value)
    said = (f"{name}: {listed(list(dict.fromkeys(each)))}" for name, each in by_place.items())
    return "; ".join(said)


def _was_outside(facts: Facts, slot: Slot, remedy: Remedy) -> bool:
    """Whether the reading that the remedy was about was outside its limit."""
    then = facts_at(facts, (remedy.at, math.inf))
    return own_line(then, slot).verdict is Verdict.OUTSIDE


def _of_places(facts: Facts, remedy: Remedy) -> Iterator[Slot]:
    """Return the tests that unnamed work on a part may have influenced."""
    known = [(place.part, place.circuit) for place in places(facts, remedy)]
    for slot in facts.wanted:
        if slot.quantity in _AGAIN and (slot.place.part, slot.place.circuit) in known:
            yield slot


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
        zs = slot_of(Quantity.ZS, slot.place, Stage.LIVE)
        if _order(zs) < own:
            yield zs


def _order(slot: Slot) -> int:
    return _ORDER[slot.place.part, slot.quantity]


_ORDER = {(entry.part, entry.quantity): at for at, entry in enumerate(MEASUREMENTS)}


def _old(facts: Facts, slot: Slot, remedy: Remedy) -> bool:
    """Whether it was tested before the work and not since."""
    tested = [
        reading.at for reading in facts.attempts(slot) if isinstance(reading.taken, Figure | Tick)
    ]
    return bool(tested) and max(tested) <= remedy.at
