"""What a line on places does: the changes of the record, and how it was understood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, TypeVar

from pydantic import ValidationError

from records.errors import BadPlace
from records.expected.boxes import placed
from records.judgement.fabric.legs import leg_name, run_of
from records.judgement.fabric.supports import support_words
from records.model.circuit import Point
from records.model.fabric import Buried, Cover, Fabric, Leg, Noted, Surface
from records.model.record import Record, next_id
from records.places.building import KINDS, build_up, building, surface_of
from records.places.refusals import check_hole, check_legs, check_placings, check_surfaces
from records.places.routes import MOVES, ROUTE, bored, changed_leg, legs
from records.places.spots import Placing, placings
from records.places.trenches import changed_trench, trench
from records.places.words import Group, Word, groups
from records.store.edits import append, put, take_out
from records.store.patch import Op

_SETTINGS = ("this", "it")


@dataclass(frozen=True, slots=True)
class Understood:
    """What a line does."""

    ops: tuple[Op, ...]
    echo: str
    """How it was understood, in full."""


def understood(
    record: Record, surface: Surface | None, line: str, today: date | None = None
) -> Understood:
    """Return what a line means on a surface.

    Args:
        record: The job.
        surface: The surface in hand; None if there is none yet.
        line: As typed, such as `S1 450 up 620 along 2g`.
        today: The day on which it is entered; None: it isn't said.
    Raises:
        BadPlace: If it can't be understood, or can't be so; it says what would be right.
    """
    parts = groups(line)
    if not parts:
        raise BadPlace("Type where something is, such as S1 450 up 620 along 2g.")
    try:
        return _understood(record, surface, parts, today)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(each) for each in first["loc"])
        raise BadPlace(f"{where}: {first['msg']}. Type another figure.") from None


def _understood(
    record: Record, surface: Surface | None, parts: tuple[Group, ...], today: date | None
) -> Understood:
    words = _going_on(record, parts[0])
    parts = (words, *parts[1:])
    first, second = words[0].low, words[1].low if len(words) > 1 else ""
    if first == "building":
        made = building(record.fabric, parts)
        check_surfaces(record, made)
        return Understood(_added("surfaces", made), "; ".join(_sized(each) for each in made))
    if first in KINDS and any(each.low == "x" for each in words):
        one = surface_of(record.fabric, parts, KINDS[first])
        check_surfaces(record, (one,))
        back = next((each for each in record.fabric.surfaces if each.id == one.other_side), None)
        of_back = "" if back is None else f", the back of {back.name or back.id}"
        return Understood(_added("surfaces", (one,)), f"{_sized(one)}{of_back}")
    found_leg = changed_leg(record, parts)
    if found_leg is not None:
        return _leg_changed(record, *found_leg, today)
    found_stretch = changed_trench(record, parts)
    if found_stretch is not None:
        at, stretch_now = found_stretch
        pointer = f"/fabric/buried/{at}"
        if stretch_now is None:
            return Understood(tuple(take_out(pointer)), f"{record.fabric.buried[at].id}: removed")
        echo = f"{stretch_now.id}: {_in_ground(stretch_now)}"
        return Understood(tuple(put(pointer, stretch_now)), echo)
    if second in ("hole", "notch"):
        at, cut = bored(record, parts)
        leg = record.fabric.legs[at]
        check_hole(leg, cut)
        behind = next((each for each in record.fabric.surfaces if each.id == leg.surface), None)
        cut = _noted(cut, behind, today)
        kind = "notch" if cut.is_notch else "hole"
        return Understood(
            tuple(append(f"/fabric/legs/{at}/holes", cut)),
            f"{kind} of {cut.size:g} in a {cut.timber} of {cut.deep:g}, {cut.from_face:g} from its "
            f"face, {cut.at:g} along leg {leg.id}{_late(cut)}",
        )
    if second == "ground":
        stretch = trench(record, parts)
        return Understood(_added("buried", (stretch,)), _in_ground(stretch))
    if [each.low for each in words] in (["dwelling"], ["no", "dwelling"]):
        lived_in = len(words) == 1
        what = "heights of sockets and switches"
        echo = f"New dwelling: {what} have a rule" if lived_in else f"No rule for the {what}"
        return Understood(tuple(put("/fabric/dwelling", lived_in)), echo)
    if surface is None:
        raise BadPlace("Enter the building first, such as: building 5000 x 3000 x 2400.")
    if second in ("cable", "leg"):
        run = legs(record, surface, parts)
        check_legs(record, surface, run)
        run = tuple(_noted(each, surface, today) for each in run)
        goes = " → ".join(f"{each.to_along:g}/{each.to_up:g}" for each in run)
        start = f"{run[0].along:g}/{run[0].up:g}"
        deep = "" if run[0].deep is None else f", {_deep(run[0].deep)}"
        name = run[0].circuit or "Feed"
        owner = run_of(record, run[0])
        told = any(
            (each.circuit, each.run) == (run[0].circuit, run[0].run) for each in record.fabric.legs
        )
        held = "" if owner is None or told else support_words(owner.run)
        echo = f"{name} along/up: {start} → {goes}{deep}{_late(run[0])}"
        return Understood(_added("legs", run), f"{echo}. {held}" if held else echo)
    if first in _SETTINGS and second == "off" and len(words) == 2 and len(parts) == 1:
        return _surface_off(record, surface)
    if first in _SETTINGS:
        return _settings(record.fabric, surface, (words[1:], *parts[1:]))
    found = placings(record, surface, parts)
    check_placings(record, surface, found)
    found = tuple(_placed_when(each, surface, today) for each in found)
    return Understood(tuple(_placed(record, found)), "; ".join(_where(each) for each in found))


def _in_ground(stretch: Buried) -> str:
    deep = "depth not entered" if stretch.deep is None else f"{stretch.deep * 1000:g} mm deep"
    cover = "cover not entered" if stretch.cover is None else f"under {stretch.cover}"
    tape = {True: ", tape above it", False: ", no tape", None: ""}[stretch.tape]
    where = f", {stretch.from_what}" if stretch.from_what else ""
    crosses = f", crosses {stretch.crosses}" if stretch.crosses else ""
    run = f", run {stretch.run + 1}" if stretch.run else ""
    return f"{stretch.length:g} m in the ground, {deep}, {cover}{tape}{where}{crosses}{run}"


def _leg_changed(record: Record, at: int, leg: Leg | None, today: date | None) -> Understood:
    before = record.fabric.legs[at]
    surface = next((each for each in record.fabric.surfaces if each.id == before.surface), None)
    where = "" if surface is None else f" ({leg_name(before, surface)})"
    if leg is None:
        return Understood(tuple(take_out(f"/fabric/legs/{at}")), f"Leg {before.id}{where}: removed")
    if surface is not None:
        check_legs(record, surface, (leg,))
    noted = _noted(leg, surface, today)
    said = [_deep(leg.deep)] if leg.deep is not None else []
    said += [str(leg.cover)] if leg.cover is not Cover.NONE else []
    said += [f"supports {leg.clips:g} mm apart"] if leg.clips is not None else []
    said += [f"bent to {leg.bend:g} mm"] if leg.bend is not None else []
    said += [f"run {leg.run + 1}"] if leg.run != before.run else []
    echo = f"Leg {leg.id}{where}: {', '.join(said) or 'no cover'}{_late(noted)}"
    return Understood(tuple(put(f"/fabric/legs/{at}", noted)), echo)


def _deep(deep: float) -> str:
    return "in sight" if deep == 0 else f"{deep:g} mm deep"


def _going_on(record: Record, words: Group) -> Group:
    """Return the words of a line; one that says only where to go is about the cable entered last.

    Raises:
        BadPlace: If there is none yet.
    """
    if words[0].low not in MOVES:
        return words
    legs = record.fabric.legs
    if not legs:
        raise BadPlace(f"“{words[0].text}”: of which cable? {ROUTE}")
    return (Word(legs[-1].circuit or "feed"), Word("cable"), *words)


_Entry = TypeVar("_Entry", bound=Noted)


def _noted(entry: _Entry, surface: Surface | None, today: date | None) -> _Entry:
    """Return an entry with the day it was made on, and whether its surface was covered by then."""
    covered = surface is not None and surface.covered is not None
    return entry.model_copy(update={"entered": today, "memory": covered})


def _placed_when(each: Placing, surface: Surface, today: date | None) -> Placing:
    spot = _noted(each.spot, surface, today)
    fixture = None if each.fixture is None else each.fixture.model_copy(update={"spot": spot})
    return replace(each, spot=spot, fixture=fixture)


def _late(entry: Noted) -> str:
    return ". Its surface is covered: it is marked as from memory" if entry.memory else ""


def _added(name: str, made: Sequence[Any]) -> tuple[Op, ...]:
    return tuple(op for each in made for op in append(f"/fabric/{name}", each))


def _surface_off(record: Record, surface: Surface) -> Understood:
    """Return the change that removes a surface with nothing on it.

    Raises:
        BadPlace: If something is on it, or another one is its back.
    """
    there = [each.name for each in placed(record, surface)]
    there += [f"leg {each.id}" for each in record.fabric.legs if each.surface == surface.id]
    if there:
        more = f" and {len(there) - 3} more" if len(there) > 3 else ""
        raise BadPlace(f"Remove what is on it first: {', '.join(there[:3])}{more}.")
    backs = [each for each in record.fabric.surfaces if each.other_side == surface.id]
    if backs:
        raise BadPlace(f"It is the back of {backs[0].name or backs[0].id}: name another one there.")
    at = [each.id for each in record.fabric.surfaces].index(surface.id)
    return Understood(
        tuple(take_out(f"/fabric/surfaces/{at}")), f"{surface.name or surface.id}: removed"
    )


def _settings(fabric: Fabric, surface: Surface, parts: tuple[Group, ...]) -> Understood:
    values, _ = build_up(tuple(each for each in parts if each), fabric)
    if values.get("other_side") == surface.id:
        raise BadPlace("A wall isn't its own back. Name the surface on its other side.")
    if not values:
        raise BadPlace("Type what to set: this thick 140, board 12.5, screws 38, insulated.")
    if surface.covered is not None:
        values["memory"] = tuple(dict.fromkeys((*surface.memory, *values)))
    changed = Surface.model_validate(surface.model_dump() | values)
    at = [each.id for each in fabric.surfaces].index(surface.id)
    said = ", ".join(
        f"{Surface.model_fields[name].title} {getattr(changed, name)}"
        for name in values
        if name != "memory"
    )
    return Understood(tuple(put(f"/fabric/surfaces/{at}", changed)), f"{surface.name}: {said}")


def _placed(record: Record, found: tuple[Placing, ...]) -> list[Op]:
    ops: list[Op] = []
    points = {each.id: list(each.points) for each in record.circuits}
    for each in found:
        if each.fixture is not None:
            known = [one.id for one in record.fabric.fixtures]
            if each.fixture.id in known:
                ops += put(f"/fabric/fixtures/{known.index(each.fixture.id)}", each.fixture)
            else:
                ops += append("/fabric/fixtures", each.fixture)
            continue
        if each.circuit is None:
            continue
        at = [one.id for one in record.circuits].index(each.circuit.id)
        if each.point is not None:
            number = [one.id for one in each.circuit.points].index(each.point.id)
            ops += put(f"/circuits/{at}/points/{number}/spot", each.spot)
            continue
        name = each.name.partition(" ")[2]
        new = Point(id=next_id("S", points[each.circuit.id]), name=name, spot=each.spot)
        points[each.circuit.id].append(new)
        ops += append(f"/circuits/{at}/points", new)
    return ops


def _where(each: Placing) -> str:
    spot = each.spot
    new = " (added)" if each.point is None and each.fixture is None else ""
    box = "" if spot.box is None else f", {spot.box}"
    unseen = ", out of sight: it makes no zone" if spot.hidden else ""
    where = f"{spot.along:g} along, {spot.up:g} up {spot.to}"
    return f"{each.name}{new}: {where}{box}{unseen}{_late(spot)}"


def _sized(surface: Surface) -> str:
    far = "" if surface.height_far is None else f" to {surface.height_far:g}"
    return f"{surface.name} {surface.width:g} × {surface.height:g}{far}"
