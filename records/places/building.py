"""Surfaces from one line: a wall, or the four walls and the ceiling of a building at once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from records.errors import BadPlace
from records.model.fabric import Fabric, Frame, Lagging, Surface, SurfaceKind
from records.model.record import next_id
from records.places.words import Group, Word, millimetres, paired, unknown

SIDES = ("north", "east", "south", "west")
KINDS = {each.code: each for each in SurfaceKind}
_ROLES = {
    "thick": "thick",
    "board": "board",
    "screw": "screw",
    "screws": "screw",
    "centres": "centres",
    "first": "first_stud",
    "studs": "frame_depth",
    "far": "height_far",
}
_FRAMES = {each.code: each for each in Frame} | {"brick": Frame.MASONRY, "block": Frame.MASONRY}
_LAGGING = {"insulated": Lagging.ONE_SIDE, "lagged": Lagging.AROUND, "uninsulated": Lagging.NONE}
_RIGHT = (
    "A wall: wall north 4800 x 2400, thick 140, timber, studs 95, centres 600, board 12.5, "
    "screws 38, foil, insulated."
)


def surface_of(fabric: Fabric, groups: tuple[Group, ...], kind: SurfaceKind) -> Surface:
    """Return a new surface: `wall north 4800 x 2400, thick 140, timber`.

    Raises:
        BadPlace: If something in the line is not understood.
    """
    first, *rest = groups
    sizes, others = _sizes(first[1:])
    if len(sizes) != 2:
        raise BadPlace(f"Type its width and height, such as 4800 x 2400. {_RIGHT}")
    values, name = build_up((tuple(others), *rest), fabric, naming=True)
    title = name or kind.words
    side = title.casefold()
    if kind is SurfaceKind.OUTSIDE and side in SIDES and "other_side" not in values:
        inner = [
            each for each in fabric.surfaces if each.name.casefold().startswith(f"{side} wall")
        ]
        if len(inner) == 1:
            values["other_side"] = inner[0].id
    title = (
        f"{title.capitalize()} {kind.words}" if title in SIDES else title[:1].upper() + title[1:]
    )
    return Surface.model_validate(
        {
            "id": next_id("W", fabric.surfaces),
            "name": title,
            "kind": kind,
            "width": sizes[0],
            "height": sizes[1],
            **values,
        }
    )


def build_up(
    groups: tuple[Group, ...], fabric: Fabric, *, naming: bool = False
) -> tuple[dict[str, Any], str]:
    """Return what a line says of how a surface is built, and the words that may be its name.

    Args:
        groups: The words of the line, without what it is about.
        fabric: The surfaces that are known: one may be its back.
        naming: Whether words of the first group may be a name.
    Raises:
        BadPlace: If something in it is not understood.
    """
    values: dict[str, Any] = {}
    name: list[str] = []
    for number, whole in enumerate(groups):
        group, named = _names(whole, fabric)
        values |= named
        said = paired(group, _ROLES)
        values |= {_ROLES[role]: value for role, value in said.roles.items()}
        if said.figures:
            raise BadPlace(f"“{said.figures[0]}”: say what it is. {_RIGHT}")
        for word in said.words:
            if word.low in _FRAMES:
                values["frame"] = _FRAMES[word.low]
            elif word.low in _LAGGING:
                values["lagging"] = _LAGGING[word.low]
            elif word.low == "foil":
                values["foil"] = True
            elif word.low in KINDS and not naming:
                values["kind"] = KINDS[word.low]
            elif naming and number == 0:
                name.append(word.text)
            else:
                raise unknown([word], _RIGHT)
    return values, " ".join(name)


def _names(group: Group, fabric: Fabric) -> tuple[Group, dict[str, Any]]:
    """Return the other words of a group, and what it names: a back, a corner, a name of its own.

    Raises:
        BadPlace: If no name follows, or no surface is called so.
    """
    left: list[Word] = []
    found: dict[str, Any] = {}
    at = 0
    while at < len(group):
        word = group[at]
        if word.low not in ("back", "corner", "called"):
            left.append(word)
            at += 1
            continue
        if at + 1 >= len(group):
            raise BadPlace(f"“{word.text}”: which? Type a name, in quotes if it has several words.")
        name = group[at + 1].text.strip()
        if word.low == "back":
            found["other_side"] = _surface(fabric, name).id
        else:
            found["corner" if word.low == "corner" else "name"] = name
        at += 2
    return tuple(left), found


def _surface(fabric: Fabric, name: str) -> Surface:
    low = name.casefold()
    exact = [each for each in fabric.surfaces if low in (each.id.casefold(), each.name.casefold())]
    found = exact or [each for each in fabric.surfaces if each.name.casefold().startswith(low)]
    if len(found) != 1:
        known = "; ".join(each.name or each.id for each in fabric.surfaces) or "none yet"
        many = "Several surfaces are" if found else "No surface is"
        raise BadPlace(f"{many} called {name}. There are: {known}.")
    return found[0]


def building(fabric: Fabric, groups: tuple[Group, ...]) -> tuple[Surface, ...]:
    """Return four walls and a ceiling: `building 5000 x 3000 x 2400, fall 300 to south`.

    The length runs from west to east. The first height is the highest; a mono-pitch roof falls to
    one side. A wall is measured from its left corner, seen from inside; the ceiling from west and
    from south, along its slope.

    Raises:
        BadPlace: If a size is missing, or the fall is more than the height.
    """
    first, *rest = groups
    sizes, others = _sizes(first[1:])
    if len(sizes) != 3 or others:
        raise BadPlace("Type length x width x height, such as: building 5000 x 3000 x 2400.")
    long, wide, high = sizes
    fall, to, more = _fall(tuple(rest))
    if fall >= high:
        raise BadPlace(f"A fall of {fall:g} mm is more than the height of {high:g} mm.")
    values, _ = build_up(more, fabric)
    low = high - fall
    at = {
        (ns, ew): low if to in (ns, ew) else high
        for ns in ("north", "south")
        for ew in ("west", "east")
    }
    corners = {
        "north": (("north", "west"), ("north", "east"), long),
        "east": (("north", "east"), ("south", "east"), wide),
        "south": (("south", "east"), ("south", "west"), long),
        "west": (("south", "west"), ("north", "west"), wide),
    }
    made: list[Surface] = []
    start = int(next_id("W", fabric.surfaces)[1:])
    for number, (side, (left, right, across)) in enumerate(corners.items()):
        far = at[right] if at[right] != at[left] else None
        made.append(
            Surface(
                id=f"W{start + number}",
                name=f"{side.capitalize()} wall, inside",
                kind=SurfaceKind.WALL,
                width=across,
                height=at[left],
                **{"height_far": far} | values,
            )
        )
    slope_ns = (wide**2 + (fall if to in ("north", "south") else 0) ** 2) ** 0.5
    slope_ew = (long**2 + (fall if to in ("east", "west") else 0) ** 2) ** 0.5
    made.append(
        Surface(
            id=f"W{start + 4}",
            name="Ceiling",
            kind=SurfaceKind.CEILING,
            corner="its south-west corner",
            width=round(slope_ew, 1),
            height=round(slope_ns, 1),
            **_of_ceiling(values),
        )
    )
    return tuple(made)


def _of_ceiling(values: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in values.items() if key in ("board", "screw", "foil")}


def _fall(groups: tuple[Group, ...]) -> tuple[float, str, tuple[Group, ...]]:
    fall, to, more = 0.0, "south", []
    for group in groups:
        lows = [each.low for each in group]
        if "fall" not in lows:
            more.append(group)
            continue
        said = paired(group, ("fall",))
        sides = [each.low for each in said.words if each.low in SIDES]
        odd = [each for each in said.words if each.low not in (*SIDES, "to", "the")]
        if "fall" not in said.roles or len(sides) > 1 or odd or said.figures:
            raise BadPlace("Type the fall and its side, such as: fall 300 to south.")
        fall, to = said.roles["fall"], sides[0] if sides else "south"
    return fall, to, tuple(more)


def _sizes(words: Group) -> tuple[list[float], list[Word]]:
    """Return the sizes joined by x, and the other words."""
    sizes: list[float] = []
    others: list[Word] = []
    for at, word in enumerate(words):
        beside = [words[each].low for each in (at - 1, at + 1) if 0 <= each < len(words)]
        if word.is_figure and "x" in beside:
            sizes.append(millimetres(word.text))
        elif word.low != "x":
            others.append(word)
    return sizes, others
