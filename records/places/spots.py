"""Boxes, doors and rows of points from one line: `S1 450 up 620 along 2g`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from records.errors import BadPlace
from records.expected.formulas.zones import top_at
from records.model.circuit import Circuit, Point
from records.model.fabric import Box, Fixture, Mark, Spot, Surface, SurfaceKind
from records.model.record import Record, next_id
from records.places.building import SIDES
from records.places.words import Group, Said, Word, millimetres, paired, unknown

_BOXES = {
    "1g": Box.ONE_GANG,
    "single": Box.ONE_GANG,
    "one-gang": Box.ONE_GANG,
    "2g": Box.TWO_GANG,
    "double": Box.TWO_GANG,
    "two-gang": Box.TWO_GANG,
    "round": Box.ROUND,
    "lamp": Box.LAMP,
    "downlight": Box.LAMP,
    "board": Box.BOARD,
    "joint": Box.JOINT,
    "mf": Box.FREE_JOINT,
}
_ALONE = {"board": Box.BOARD, "joint": Box.JOINT, "mf": Box.FREE_JOINT}
"""What is no point of a circuit and needs no other name."""
_OPENINGS = ("door", "window", "opening")
_ROLES = (
    "up",
    "high",
    "above",
    "along",
    "down",
    "deep",
    "every",
    "from",
    "from-left",
    "from-right",
    "from-floor",
    "from-ceiling",
    "ø",
    *(f"from-{each}" for each in SIDES),
)
_SMALL = frozenset(("at", "in", "the", "and", "to", "its", "floor", "of", "corner"))
_RIGHT = (
    "A box: S1 450 up 620 along 2g. A row: D1-D8 600 in from west, every 900, from 450. "
    "A door: door 3400 to 4200, 2000 high."
)
_ROW = re.compile(r"([A-Za-z]+)([0-9]+)(?:-|–|to)([A-Za-z]*)([0-9]+)", re.IGNORECASE)
_MOST = 40
_FACES = {
    "north": ("west", "east"),
    "east": ("north", "south"),
    "south": ("east", "west"),
    "west": ("south", "north"),
}
"""What lies left and right of whoever faces a wall from inside."""


@dataclass(frozen=True, slots=True)
class Placing:
    """One thing with its place: a point that is there, one to be added, or a fixture."""

    spot: Spot
    name: str
    circuit: Circuit | None = None
    point: Point | None = None
    fixture: Fixture | None = None


def placings(record: Record, surface: Surface, groups: tuple[Group, ...]) -> tuple[Placing, ...]:
    """Return what a line places on a surface.

    Raises:
        BadPlace: If the line can't be understood, or could mean two things.
    """
    first = groups[0][0]
    if first.low in _OPENINGS:
        return (_opening(record, surface, groups),)
    circuit, rest = _circuit(record, groups)
    name, rest = _name(rest)
    said = _said(rest)
    row = _ROW.fullmatch(name)
    if row is None:
        if "every" in said.roles:
            raise BadPlace("“every” is for a row. Name its first and last, such as D1-D8.")
        along, up, mark = _where(surface, said.roles, said.words)
        return (_placing(record, circuit, name, _spot(surface, along, up, mark, said)),)
    return tuple(_row(record, surface, circuit, row, said))


def _circuit(record: Record, groups: tuple[Group, ...]) -> tuple[Circuit | None, tuple[Group, ...]]:
    first = groups[0][0]
    found = next((each for each in record.circuits if each.id.casefold() == first.low), None)
    if found is None or len(groups[0]) < 2:
        return None, groups
    return found, (groups[0][1:], *groups[1:])


def _name(groups: tuple[Group, ...]) -> tuple[str, tuple[Group, ...]]:
    first, *rest = groups
    words, left = first[:1], first[1:]
    if len(left) > 1 and left[0].low in ("to", "-") and not left[1].is_figure:
        return f"{words[0].text}-{left[1].text}", (left[2:], *rest)
    return words[0].text, (left, *rest)


def _said(groups: tuple[Group, ...]) -> Said:
    roles: dict[str, float] = {}
    figures: list[str] = []
    words: list[Word] = []
    for group in groups:
        said = paired(_phrases(group), _ROLES)
        for role, value in said.roles.items():
            if role in roles:
                raise BadPlace(f"“{role}” is there twice. Type it once.")
            roles[role] = value
        figures += said.figures
        words += said.words
    if figures:
        raise BadPlace(f"“{figures[0]}”: is it up or along? {_RIGHT}")
    return Said(roles, (), tuple(words))


def _phrases(group: Group) -> Group:
    """Return the words with `in from west` and `from the left corner` as one word each."""
    found: list[Word] = []
    at = 0
    ends = (*SIDES, "left", "right", "ceiling", "floor")
    while at < len(group):
        word = group[at]
        if word.text[:1] in ("ø", "Ø") and len(word.text) > 1:
            found += [Word("ø"), Word(word.text[1:])]
        elif word.low == "from":
            nearby = [each.low for each in group[at + 1 : at + 3]]
            side = next((each for each in nearby if each in ends), None)
            if side is not None and (nearby[0] == side or nearby[0] == "the"):
                found.append(Word(f"from-{side}"))
                at += nearby.index(side) + 1
            else:
                found.append(word)
        else:
            found.append(word)
        at += 1
    return tuple(found)


def _where(
    surface: Surface, roles: dict[str, float], words: tuple[Word, ...], *, row: bool = False
) -> tuple[float | None, float | None, Mark]:
    """Return along, up and what the height is to; None for one that a row runs along."""
    along: list[float] = [roles["along"]] if "along" in roles else []
    up = [roles[each] for each in ("up", "high", "above", "from-floor") if each in roles]
    left, right = _sides(surface)
    for side, value in ((key[5:], roles[key]) for key in roles if key.startswith("from-")):
        if side in ("left", left):
            along.append(value)
        elif side in ("right", right):
            along.append(_need(surface.width, "width", surface) - value)
        elif surface.kind is SurfaceKind.CEILING and side == "south":
            up.append(value)
        elif surface.kind is SurfaceKind.CEILING and side == "north":
            up.append(_need(surface.height, "height", surface) - value)
        elif side not in ("floor", "ceiling"):
            raise BadPlace(
                f"“from {side}”: Farboard doesn't know where that is on {surface.name}. "
                "Type from left or from right."
            )
    down = [roles[each] for each in ("down", "from-ceiling") if each in roles]
    if "from" in roles and not row:
        along.append(roles["from"])
    if down and along:
        high = _need(surface.height, "height", surface)
        far = high if surface.height_far is None else surface.height_far
        up.append(top_at(along[0], surface.width or 0.0, high, far) - down[0])
    if len(along) > 1 or len(up) > 1:
        raise BadPlace("Two figures say the same distance. Type one along and one up.")
    odd = [
        each
        for each in words
        if each.low
        not in (*_BOXES, *_SMALL, "centre", "center", "underside", "hidden", surface.kind or "")
    ]
    if odd:
        raise unknown(odd, _RIGHT)
    if not row and (not along or not up):
        lacks = "along" if not along else "up"
        raise BadPlace(f"How far {lacks}? {_RIGHT}")
    lows = {each.low for each in words}
    centre = bool(lows & {"centre", "center"}) or surface.kind is SurfaceKind.CEILING
    mark = Mark.CENTRE if centre and "underside" not in lows else Mark.UNDERSIDE
    return along[0] if along else None, up[0] if up else None, mark


def _sides(surface: Surface) -> tuple[str, str]:
    """Return the sides of the compass that are left and right of whoever faces a surface."""
    if surface.kind is SurfaceKind.CEILING:
        return "west", "east"
    name = surface.name.casefold()
    side = next((each for each in SIDES if name.startswith(each)), None)
    if side is None:
        return "", ""
    left, right = _FACES[side]
    return (right, left) if surface.kind is SurfaceKind.OUTSIDE else (left, right)


def _need(value: float | None, what: str, surface: Surface) -> float:
    if value is None:
        raise BadPlace(f"Enter the {what} of {surface.name} first.")
    return value


def _spot(surface: Surface, along: float | None, up: float | None, mark: Mark, said: Said) -> Spot:
    box = next((_BOXES[each.low] for each in said.words if each.low in _BOXES), None)
    if along is None or up is None or min(along, up) < 0:
        raise BadPlace(f"That is outside {surface.name}. Measure from its corner and the floor.")
    wide = said.roles.get("ø")
    return Spot(
        surface=surface.id,
        along=along,
        up=up,
        to=mark,
        box=box,
        width=wide,
        height=wide,
        deep=said.roles.get("deep"),
        hidden=any(each.low == "hidden" for each in said.words),
    )


def _with_box_of(spot: Spot, before: Spot | None) -> Spot:
    """Return a place with the box that stood there, where the line doesn't say another."""
    if before is None or spot.box is not None or spot.width is not None:
        return spot
    same = {"box", "width", "height", *(["deep"] if spot.deep is None else [])}
    return spot.model_copy(update=before.model_dump(include=same))


def _placing(record: Record, circuit: Circuit | None, name: str, spot: Spot) -> Placing:
    low = name.casefold()
    if circuit is None and low in _ALONE:
        spot = spot.model_copy(update={"box": _ALONE[low]})
        made = Fixture(id=next_id("X", record.fabric.fixtures), name=low.capitalize(), spot=spot)
        same = [each for each in record.fabric.fixtures if each.name == made.name == "Board"]
        return Placing(
            spot, made.name, fixture=same[0].model_copy(update={"spot": spot}) if same else made
        )
    found = [
        (each, point)
        for each in record.circuits
        for point in each.points
        if (circuit is None or each.id == circuit.id)
        and low
        in (
            point.name.casefold(),
            point.name.casefold().partition(" ")[0],
            point.id.casefold() if circuit is not None else None,
        )
    ]
    if len(found) > 1:
        names = " or ".join(f"{each.id} {name}" for each, _ in found)
        raise BadPlace(f"Several points are called {name}. Type {names}.")
    if found:
        kept = _with_box_of(spot, found[0][1].spot)
        return Placing(kept, f"{found[0][0].id} {name}", *found[0])
    if circuit is None:
        ids = ", ".join(each.id for each in record.circuits) or "none is entered yet"
        raise BadPlace(
            f"No point is called {name}. Type its circuit before it ({ids}), and it is added; or "
            "board, joint, door, window."
        )
    return Placing(spot, f"{circuit.id} {name}", circuit, None)


def _row(
    record: Record, surface: Surface, circuit: Circuit | None, row: re.Match[str], said: Said
) -> Iterator[Placing]:
    letter, first, other, last = row.groups()
    low, high = int(first), int(last)
    if other and other.casefold() != letter.casefold():
        raise BadPlace(f"{row[0]}: a row has one letter, such as D1-D8.")
    if not low < high < low + _MOST:
        raise BadPlace(f"{row[0]}: from a lower to a higher number, at most {_MOST}.")
    if "every" not in said.roles or "from" not in said.roles:
        raise BadPlace("Say where the row starts and how far apart: from 450, every 900.")
    along, up, mark = _where(surface, said.roles, said.words, row=True)
    if (along is None) is (up is None):
        raise BadPlace("Say one distance that all of them share, such as 600 in from west.")
    for count, number in enumerate(range(low, high + 1)):
        at = said.roles["from"] + count * said.roles["every"]
        x, y = (at, up) if along is None else (along, at)
        yield _placing(record, circuit, f"{letter}{number}", _spot(surface, x, y, mark, said))


def _opening(record: Record, surface: Surface, groups: tuple[Group, ...]) -> Placing:
    """A door or a window: `door 3400 to 4200, 2000 high`; a window says how far up as well."""
    first, *rest = groups
    kind = first[0].low
    figures = [each for each in first[1:] if each.is_figure]
    odd = [each for each in first[1:] if not each.is_figure and each.low not in ("to", "from")]
    if len(figures) != 2 or odd:
        raise BadPlace(f"Say from where to where: {kind} 3400 to 4200, 2000 high.")
    left, right = (millimetres(each.text) for each in figures)
    roles: dict[str, float] = {}
    for group in rest:
        said = paired(group, ("high", "up"))
        if said.figures or said.words:
            raise unknown([*(Word(each) for each in said.figures), *said.words], _RIGHT)
        roles |= said.roles
    if right <= left or not roles.get("high"):
        raise BadPlace(f"Say from left to right, and how high: {kind} 3400 to 4200, 2000 high.")
    spot = Spot(
        surface=surface.id,
        along=(left + right) / 2,
        up=roles.get("up", 0.0),
        width=right - left,
        height=roles["high"],
    )
    name = kind.capitalize()
    made = Fixture(id=next_id("X", record.fabric.fixtures), name=name, is_opening=True, spot=spot)
    return Placing(spot, name, fixture=made)
