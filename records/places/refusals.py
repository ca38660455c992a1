"""What a line says that can't be so: it is refused at once, with what would be right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from records.errors import BadPlace
from records.expected.boxes import Placed, hole, overlap, placed
from records.judgement.fabric.entries import leg_trouble, spot_trouble
from records.judgement.fabric.surfaces import opening_in_the_way
from records.model.fabric import Hole, Leg, Surface
from records.model.record import Record
from records.places.spots import Placing


def check_placings(record: Record, surface: Surface, found: Sequence[Placing]) -> None:
    """Refuse boxes that don't fit on their surface, or into each other.

    Raises:
        BadPlace: If one doesn't; it says which, and what it runs into.
    """
    others = [
        each for each in placed(record, surface) if not any(_same(each, new) for new in found)
    ]
    for at, new in enumerate(found):
        opening = new.fixture is not None and new.fixture.is_opening
        trouble = spot_trouble(new.spot, surface, opening=opening)
        if trouble:
            raise BadPlace(
                f"{new.name}: {trouble} Measure again, or change the size of the surface."
            )
        beside = [(each.name, each.spot, each.is_opening) for each in others]
        beside += [(each.name, each.spot, False) for each in found[:at]]
        for name, spot, is_opening in beside:
            over = overlap(hole(new.spot), hole(spot))
            if over is None or (opening and is_opening):
                continue
            raise BadPlace(
                f"{new.name} would overlap {name} by {over[0]:.0f} × {over[1]:.0f} mm. Measure "
                "again, or move the other one first."
            )


def _same(each: Placed, new: Placing) -> bool:
    if new.fixture is not None:
        return each.fixture is not None and each.fixture.id == new.fixture.id
    if new.point is None or new.circuit is None:
        return False
    return (
        each.circuit is not None
        and each.point is not None
        and ((each.circuit.id, each.point.id) == (new.circuit.id, new.point.id))
    )


def check_legs(record: Record, surface: Surface, legs: Iterable[Leg]) -> None:
    """Refuse legs that leave their surface or run through a door.

    Raises:
        BadPlace: If one does.
    """
    openings = [each for each in placed(record, surface) if each.is_opening]
    for leg in legs:
        trouble = leg_trouble(leg, surface)
        door = opening_in_the_way(openings, leg)
        if trouble:
            raise BadPlace(f"{trouble} Measure again, or change the size of the surface.")
        if door:
            raise BadPlace(f"It would run through {door}. Go round it.")


def check_hole(leg: Leg, cut: Hole) -> None:
    """Refuse a hole beyond the end of its leg, or larger than its timber.

    Raises:
        BadPlace: If it is either.
    """
    long = leg.length * 1000
    if cut.at > long + 1:
        raise BadPlace(f"Leg {leg.id} is {long:.0f} mm long; the hole would be at {cut.at:g} mm.")
    if not cut.size:
        raise BadPlace("A hole of 0 mm is none. Type its diameter, or the depth of the notch.")
    if cut.from_face + cut.size > cut.deep:
        raise BadPlace(
            f"{cut.size:g} mm, {cut.from_face:g} mm from the face: the timber is {cut.deep:g} mm "
            "deep. Measure again."
        )
    if cut.span is not None and cut.from_support is not None and cut.from_support > cut.span:
        raise BadPlace(
            f"{cut.from_support:g} mm from a support is outside the span of {cut.span:g} mm."
        )


def check_surfaces(record: Record, made: Iterable[Surface]) -> None:
    """Refuse a surface without a size, or of a name that is there already.

    Raises:
        BadPlace: If one is.
    """
    names = {each.name.casefold().strip() for each in record.fabric.surfaces}
    for each in made:
        if not each.width or not each.height or each.height_far == 0:
            raise BadPlace(f"{each.name} would be 0 mm wide or high. Type what the tape shows.")
        if each.name.casefold().strip() in names:
            raise BadPlace(
                f"{each.name} is entered already. Go to it (Tab) and type what changes after "
                "“this”, such as: this board 12.5. Or give the new one another name."
            )
