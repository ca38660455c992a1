"""Short names for what can be explained: `zs:C2`, `drop:feed`, `meter-r1+r2:C1`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.expected.results import Expected, Result, What
from records.model.reading import Place, Slot
from records.terms import Part

METER = "meter-"
READ = "read-"
_SHORT = {  # of those whose own name is too long to type
    What.VOLT_DROP: "drop",
    What.VOLT_DROP_LIMIT: "drop-limit",
    What.FAULT_HIGHEST: "fault-highest",
    What.FAULT_LN: "fault-ln",
    What.FAULT_LE: "fault-le",
    What.FAULT_LOWEST: "fault-lowest",
    What.BREAKING: "breaking",
    What.TIME_REQUIRED: "time-required",
    What.TIME: "time",
    What.TIME_RCD: "time-rcd",
    What.CPC_SIZE: "cpc",
    What.CPC_LEAST: "cpc-least",
    What.BOND_LEAST: "bond-least",
    What.CPC_AS_COPPER: "cpc-as-copper",
}


@dataclass(frozen=True, slots=True)
class Explained:
    """One figure under its short name."""

    name: str
    """As one types it."""
    figure: str
    """What it is, in words, without its place."""
    place: Place
    result: Result


def explained(expected: Expected) -> tuple[Explained, ...]:
    """Return every figure of an expectation under its short name.

    The design has the plain names; what a meter should show begins with `meter-`, what follows
    from readings with `read-`. A figure that is the same at two stages of the work is there once.
    """
    found = dict.fromkeys(_all(expected))
    return tuple(found)


def find(known: tuple[Explained, ...], word: str) -> tuple[Explained, ...]:
    """Return the figures that a typed word means; none if it means none.

    Capitals make no difference, and `meter-` may be left out where the design has no such name; the
    question mark that stands before one without a figure does no harm.
    """
    wanted = word.strip().lstrip("?").casefold()
    for name in (wanted, METER + wanted):
        found = tuple(each for each in known if each.name.casefold() == name)
        if found:
            return found
    return ()


def place_name(place: Place) -> str:
    """Return the short name of a place: `feed`, `C2`, `C2.P1`, `board.B1`."""
    whole = place.circuit if place.part is Part.CIRCUIT and place.circuit else place.part.value
    return f"{whole}.{place.point}" if place.point else whole


def _all(expected: Expected) -> Iterator[Explained]:
    for (place, what), result in expected.design.items():
        name = f"{_SHORT.get(what, _of(what))}:{place_name(place)}"
        yield Explained(name, f"{what.value}, from the design", place, result)
    for slot, result in expected.meter.items():
        yield Explained(_meter_name(slot), _meter_words(expected, slot), slot.place, result)
    for (place, what), result in expected.measured.items():
        name = f"{READ}{_SHORT.get(what, _of(what))}:{place_name(place)}"
        yield Explained(name, f"{what.value}, from the readings", place, result)


def _of(what: What) -> str:
    return what.value.casefold().replace(",", "").replace(" ", "-")


def _meter_name(slot: Slot) -> str:
    quantity = slot.quantity.code.casefold().replace(" ", "-")
    return f"{METER}{quantity}:{place_name(slot.place)}"


def _meter_words(expected: Expected, slot: Slot) -> str:
    """Return what a meter should show, with the stage only where that makes a difference."""
    others = {
        result
        for other, result in expected.meter.items()
        if (other.quantity, other.place) == (slot.quantity, slot.place)
    }
    stage = f", {slot.stage.value}" if len(others) > 1 else ""
    return f"{slot.quantity.value} on the meter{stage}"
