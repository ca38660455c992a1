"""Checks that are answered with right or wrong."""

from __future__ import annotations

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.review_types import Limit, Sense
from records.model.reading import Quantity, Slot
from records.terms import Part, Verdict
from records.units import Unit

_SOURCES = {
    Quantity.POLARITY: cite.POLARITY,
    Quantity.EARTH_BACK: cite.LOOP_METHOD,
    Quantity.RCD_BUTTON: cite.FUNCTION,
    Quantity.SURGE: cite.INSULATION,
    Quantity.FUNCTION: cite.FUNCTION,
}
_WRONG: dict[tuple[Quantity, Part | None], tuple[tuple[str, ...], str]] = {
    (Quantity.POLARITY, Part.CIRCUIT): (
        ("a switch breaks the neutral, or is bridged", "line and neutral crossed at a point",
         "a two-way strapper on the wrong terminal"),
        "Look at the switch and the point; then repeat continuity of this circuit.",
    ),
    (Quantity.POLARITY, Part.BOARD): (
        ("line and neutral crossed in the feed or before it",),
        "Lock off; tell the certifier; if the supply itself is crossed, the network operator.",
    ),
    (Quantity.EARTH_BACK, None): (
        ("the earthing conductor is still off its bar",),
        "Leave everything off. Put the earthing conductor back and tighten it.",
    ),
    (Quantity.RCD_BUTTON, None): (
        ("the mechanism is stuck, or the RCD isn't supplied",), "Change the RCD.",
    ),
    (Quantity.SURGE, None): (
        ("a cartridge left out or spent",), "Put it back; if its flag shows spent, change it.",
    ),
    (Quantity.FUNCTION, None): (
        ("wired wrongly, or an isolator that doesn't cut every pole",),
        "Isolate, find it, and repeat the dead tests of this circuit.",
    ),
}  # fmt: skip


def should(slot: Slot) -> Limit:
    """Return what a check has to be."""
    return Limit(Sense.SHOULD, 1.0, Unit.NUMBER, _SOURCES.get(slot.quantity, cite.COMMON))


def found_wrong(slot: Slot) -> Concern:
    """Return the concern about a check that was found wrong."""
    key = (slot.quantity, slot.place.part)
    causes, check = _WRONG.get(key) or _WRONG.get((slot.quantity, None), ((), ""))
    grave = slot.quantity in (Quantity.POLARITY, Quantity.EARTH_BACK)
    return Concern(
        "wrong", Verdict.OUTSIDE, "It has to be put right.", causes, check,
        should(slot).source, 60 if grave else 20,
    )  # fmt: skip
