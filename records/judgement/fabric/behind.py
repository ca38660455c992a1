"""Where a cable that went bad after covering runs, and where to split it: what is likely first."""

from __future__ import annotations

from datetime import date

from records.days import day_words
from records.judgement.advice import Act, Advice, do
from records.judgement.advice.phrases import SPLIT
from records.judgement.fabric.legs import from_face, leg_name, run_of, surface_name
from records.model.circuit import Circuit
from records.model.fabric import Cover, Leg, Surface
from records.model.reading import Place
from records.model.record import Record

_MOST = 3
"""Surfaces that are named."""


def look_along(record: Record, place: Place) -> Advice:
    """Return where to look for what harmed a cable: its surfaces, the likeliest first.

    First those whose screws reach it, then those that were covered last.

    Args:
        record: The job.
        place: The feed, or a circuit.
    """
    found = surfaces_behind(record, place)
    if not found:
        return do(Act.LOOK, "Look along the recorded route, first at new fixings.")
    (first, legs), *others = found[:_MOST]
    reached = next((each for each in legs if _reached(each, first)), None)
    said = [f"covered {day_words(first.covered)}"] if first.covered is not None else []
    if reached is not None:
        where = leg_name(reached, first).partition(", ")[2]
        where = where.removeprefix(f"{surface_name(first).partition(', ')[2]}, ")
        said.append(f"its {first.screw:g} mm screws reach the cable at {where}")
    why = f" ({'; '.join(said)})" if said else ""
    then = f" Then {' and '.join(surface_name(each) for each, _ in others)}." if others else ""
    return do(Act.LOOK, f"Look first at {surface_name(first)}{why}.{then}")


def surfaces_behind(record: Record, place: Place) -> list[tuple[Surface, list[Leg]]]:
    """Return the surfaces that a cable is hidden behind, with its legs there, likeliest first."""
    surfaces = {each.id: each for each in record.fabric.surfaces}
    legs: dict[str, list[Leg]] = {}
    for leg in record.fabric.legs:
        run = run_of(record, leg)
        if run is not None and run.place == _whole(place) and leg.deep != 0:
            legs.setdefault(leg.surface, []).append(leg)
    found = [(surfaces[id], those) for id, those in legs.items() if id in surfaces]
    return sorted(
        found,
        key=lambda each: (
            not any(_reached(leg, each[0]) for leg in each[1]),
            -(each[0].covered or date.min).toordinal(),
        ),
    )


def _whole(place: Place) -> Place:
    return place.model_copy(update={"point": None}) if place.point is not None else place


def _reached(leg: Leg, surface: Surface) -> bool:
    deep = from_face(leg, surface)
    known = surface.screw is not None and deep is not None and leg.cover is Cover.NONE
    return known and surface.screw is not None and deep is not None and surface.screw >= deep


def split_at(record: Record, place: Place) -> Advice:
    """Return the advice to split a circuit, at the point that halves the cable in doubt.

    Args:
        record: The job.
        place: The feed, or a circuit; without distances of its points it is only split.
    """
    circuit = next((each for each in record.circuits if each.id == place.circuit), None)
    found = None if circuit is None else halving(circuit)
    if found is None:
        return SPLIT
    name, before, after = found
    return do(
        Act.OPEN,
        f"Split it at {name}: {before:.3g} m to one side, {after:.3g} m to the other. Test each "
        "half. Tighten what you open.",
    )


def halving(
    circuit: Circuit, low: float = 0.0, high: float | None = None
) -> tuple[str, float, float] | None:
    """Return the point that halves the length of cable in doubt, and what lies to each side [m].

    Args:
        circuit: A circuit whose points have their distances along its cable.
        low: Where the cable in doubt begins [m].
        high: Where it ends [m]; None: at the end of the circuit.
    Returns:
        None if no point lies within it, or the lengths aren't entered.
    """
    lengths = [each.length for each in circuit.runs]
    if high is None:
        if not lengths or None in lengths:
            return None
        high = sum(each for each in lengths if each is not None)
    inner = [
        (abs(each.at - (low + high) / 2), each)
        for each in circuit.points
        if each.at is not None and low < each.at < high and each.spur is None
    ]
    if not inner:
        return None
    _, best = min(inner, key=lambda each: each[0])
    at = best.at or 0.0
    return best.name or best.id, at - low, high - at
