"""Cable in the ground from one line: `feed ground 18 m, deep 450, paving, tape`; `B1 deep 500`."""

from __future__ import annotations

from typing import Any

from records.errors import BadPlace
from records.model.fabric import Buried, GroundCover
from records.model.record import Record, next_id
from records.places.routes import owner
from records.places.words import Group, Word, millimetres, paired, unknown

_RIGHT = (
    "In the ground: feed ground 18 m, deep 450, paving, tape. It may end with: from “1.2 m off the "
    "wall”, crosses “water pipe”."
)
_COVERS = {each.code: each for each in GroundCover}
_METRES = ("m", "metres", "metre")


def trench(record: Record, groups: tuple[Group, ...]) -> Buried:
    """Return a stretch in the ground as a line says it.

    Raises:
        BadPlace: If its length is missing, or a word is not understood.
    """
    circuit = owner(record, groups[0][0])
    values = _values((groups[0][2:], *groups[1:]))
    if "length" not in values:
        raise BadPlace(f"How long is it? {_RIGHT}")
    return Buried(id=next_id("B", record.fabric.buried), circuit=circuit, **values)


def changed_trench(record: Record, groups: tuple[Group, ...]) -> tuple[int, Buried | None] | None:
    """Return a stretch as a line changes it, with its number; None for one that is removed.

    Returns:
        None altogether if the line is about no stretch that is there.
    Raises:
        BadPlace: If it is about one, and not understood.
    """
    words = groups[0]
    known = [each.id.casefold() for each in record.fabric.buried]
    if words[0].low not in known or len(words) < 2:
        return None
    at = known.index(words[0].low)
    if words[1].low == "off" and len(words) == 2 and len(groups) == 1:
        return at, None
    values = _values((words[1:], *groups[1:]))
    return at, Buried.model_validate(record.fabric.buried[at].model_dump() | values)


def _values(groups: tuple[Group, ...]) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for whole in groups:
        group, named = _texts(whole)
        values |= named
        said = paired(group, ("deep", "run"))
        if "deep" in said.roles:
            values["deep"] = said.roles["deep"] / 1000
        if "run" in said.roles:
            run = said.roles["run"]
            if run < 1 or not float(run).is_integer():
                raise BadPlace("Runs are counted from 1: run 2 is the second.")
            values["run"] = int(run) - 1
        words = list(said.words)
        if said.figures:
            if len(said.figures) > 1 or "length" in values:
                raise BadPlace(f"“{said.figures[-1]}”: say what it is. {_RIGHT}")
            metres = [each for each in words if each.low in _METRES]
            words = [each for each in words if each not in metres]
            values["length"] = _long(said.figures[0], metres=bool(metres))
        values |= _said(words)
    return values


def _said(words: list[Word]) -> dict[str, Any]:
    lows = [each.low for each in words]
    odd = [each for each in words if each.low not in (*_COVERS, "tape", "tiles", "no", "under")]
    if odd:
        raise unknown(odd, _RIGHT)
    values: dict[str, Any] = {}
    for low in lows:
        if low in _COVERS:
            values["cover"] = _COVERS[low]
    if "tape" in lows or "tiles" in lows:
        values["tape"] = "no" not in lows
    return values


def _long(figure: str, *, metres: bool) -> float:
    """Return a length [m]; a bare figure is in metres, as a trench is."""
    value = millimetres(f"{figure} m" if metres else figure)
    return value / 1000 if metres or figure.casefold().endswith("m") else value


def _texts(group: Group) -> tuple[Group, dict[str, Any]]:
    """Return the other words of a group, and the texts in quotes after “from” and “crosses”."""
    fields = {"from": "from_what", "crosses": "crosses"}
    left: list[Word] = []
    found: dict[str, Any] = {}
    at = 0
    while at < len(group):
        word = group[at]
        if word.low not in fields:
            left.append(word)
            at += 1
            continue
        if at + 1 >= len(group) or not group[at + 1].quoted:
            raise BadPlace(f"After “{word.text}” type the place in quotes. {_RIGHT}")
        found[fields[word.low]] = group[at + 1].text
        at += 2
    return tuple(left), found
