"""Points in one line: `S1 door 6m, S2 bench 11m, spur S3 4m`, `L1-L10 from 3m every 1.2m`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from records.errors import BadQuantity
from records.typed import read_typed
from records.units import Unit

MOST_AT_ONCE = 40
_DISTANCE = re.compile(r"(\+?)([0-9][0-9.,]*)(m|metres?|mm|cm)?")
_ROW = re.compile(r"([a-z]+)([0-9]+)(?:-|–|to)([a-z]*)([0-9]+)")
_OTHER_UNIT = re.compile(r"\+?[0-9][0-9.,]* ?(ft|feet|foot|yds?|yards?|inch|inches|['’′\"”″])")
"""A length in another unit than metres: never taken for a name, nor its figure for metres."""
_TOO_FAR = 150.0
"""From here a figure without its unit may be millimetres."""
_MOST = 2_000.0
"""The farthest that a record takes [m]."""


@dataclass(frozen=True, slots=True)
class NewPoint:
    """A point as a line says it."""

    name: str
    at: float | None
    """Distance from the board along the cable [m]; that of the point it leaves, for a spur."""
    spur: float | None = None
    """Length of the spur to it [m]."""
    leaves: str = ""
    """Name of the point that the spur leaves."""

    def __str__(self) -> str:
        if self.spur is not None:
            return f"{self.name}: spur of {self.spur:g} m off {self.leaves}"
        if self.at is None:
            return f"{self.name}: distance not said"
        return f"{self.name}: {self.at:g} m from the board"


@dataclass(frozen=True, slots=True)
class Points:
    """What a line of points says."""

    points: tuple[NewPoint, ...]
    unknown: tuple[str, ...]
    """The items that were not understood, as typed."""
    reasons: tuple[str, ...]
    """A sentence for each of them."""

    @property
    def echo(self) -> str:
        """The points in full."""
        return "; ".join(map(str, self.points)) + "." if self.points else ""

    @property
    def left(self) -> str:
        """What stays in the line."""
        return ", ".join(self.unknown)


class _NotClear(BadQuantity):
    """An item that is no point, or could be two things."""


def read_points(text: str, there: Sequence[NewPoint] = ()) -> Points:
    """Return the points that a line names, in its order.

    A distance is from the board along the cable; with `+` from the point before. A spur leaves
    the point before it unless `off` names another. From the first item that is not clear on,
    nothing is taken: what follows may be measured from it.

    Args:
        text: As typed; items are parted by a comma or a semicolon.
        there: The points that the circuit has already.
    """
    found: list[NewPoint] = []
    items = [each.strip() for each in re.split(r";|,(?![0-9])", text) if each.strip()]
    for at, item in enumerate(items):
        try:
            new = _item(item, [*there, *found])
            _check(new, [*there, *found])
        except BadQuantity as error:
            return Points(tuple(found), tuple(items[at:]), (str(error),))
        found += new
    return Points(tuple(found), (), ())


def _check(new: Sequence[NewPoint], there: Sequence[NewPoint]) -> None:
    known = {each.name.casefold() for each in there}
    for each in new:
        if each.name.casefold() in known:
            raise _NotClear(f"“{each.name}” is there already: give the point another name.")
        if (each.at or 0) > _MOST or (each.spur or 0) > _MOST:
            raise _NotClear(f"“{each.name}”: {_MOST:,.0f} m is the most.")


def _item(item: str, before: Sequence[NewPoint]) -> list[NewPoint]:
    words = item.split()
    folded = [each.casefold() for each in words]
    row = _row(folded)
    if row is not None:
        return _spaced(item, folded, *row)
    spur = "spur" in folded
    off = folded.index("off") if "off" in folded else None
    parent = _parent(item, folded, off, before) if spur or off is not None else None
    skip = {off, off + 1} if off is not None else set()
    left, distances = _parted(item, [each for at, each in enumerate(words) if at not in skip])
    name = " ".join(left)
    if not name:
        raise _NotClear(f"“{item}”: name the point, like S1 door 6m.")
    if len(distances) > 1:
        raise _NotClear(f"“{item}” has two distances: type one, like S1 door 6m.")
    if parent is not None:
        length = distances[0][1] if distances else None
        if length is None:
            raise _NotClear(f"“{item}”: say how long the spur is, like spur S3 4m.")
        return [NewPoint(name, parent.at, length, parent.name)]
    if not distances:
        return [NewPoint(name, None)]
    further, value = distances[0]
    if further:
        last = _last_on_cable(before)
        if last is not None and last.at is None:
            raise _NotClear(f"“{item}”: {last.name} has no distance, so + has nothing to add to.")
        value += last.at if last is not None and last.at is not None else 0.0
    return [NewPoint(name, _rounded(value))]


def _parted(item: str, words: Sequence[str]) -> tuple[list[str], list[tuple[bool, float]]]:
    """Return the words of a name, and the distances: bare figures only if none has a unit."""
    left: list[str] = []
    sure: list[tuple[bool, float]] = []
    bare: list[str] = []
    at = 0
    while at < len(words):
        word, folded = words[at], words[at].casefold()
        after = words[at + 1].casefold() if at + 1 < len(words) else ""
        for text in (folded, f"{folded} {after}"):
            if _OTHER_UNIT.fullmatch(text):
                raise _NotClear(f"“{text}” is no length in metres: type it like 6m.")
        apart = after in ("m", "metres")
        text = f"{folded}m" if apart and folded[-1:].isdigit() else folded
        match = _DISTANCE.fullmatch(text)
        at += 2 if match and text != folded else 1
        if match and (match[1] or match[3]):
            sure.append(_distance(item, text))
            continue
        if folded in ("spur", "at"):
            continue
        left.append(word)
        if match is not None:
            bare.append(word)
    if sure:
        return left, sure
    return [each for each in left if each not in bare], [_distance(item, each) for each in bare]


def _parent(item: str, folded: list[str], off: int | None, before: Sequence[NewPoint]) -> NewPoint:
    if off is None:
        if not before:
            raise _NotClear(f"“{item}”: a spur leaves a point. Name that one first.")
        return before[-1]
    named = folded[off + 1] if off + 1 < len(folded) else ""
    fit = [each for each in before if named and each.name.casefold().split()[0] == named]
    if len(fit) != 1:
        known = ", ".join(each.name for each in before) or "none yet"
        raise _NotClear(f"“{item}”: “{named}” is no one point. There are: {known}.")
    return fit[0]


def _last_on_cable(before: Sequence[NewPoint]) -> NewPoint | None:
    return next((each for each in reversed(before) if each.spur is None), None)


def _distance(item: str, word: str) -> tuple[bool, float]:
    match = _DISTANCE.fullmatch(word)
    assert match is not None
    further, number, unit = match.groups()
    value = read_typed(f"{number} {unit or 'm'}", Unit.METRE).value
    if not unit and value >= _TOO_FAR:
        raise _NotClear(
            f"“{item}”: is {number} metres or millimetres? Type {number}m or {number}mm."
        )
    return bool(further), value


def _row(folded: list[str]) -> tuple[str, int, int] | None:
    """Return the letters and the numbers of a row such as L1-L10."""
    for text in ("".join(folded[:1]), "".join(folded[:3])):
        match = _ROW.fullmatch(text)
        if match and match[3] in ("", match[1]):
            return match[1].upper(), int(match[2]), int(match[4])
    return None


def _spaced(item: str, folded: list[str], letters: str, first: int, last: int) -> list[NewPoint]:
    count = last - first + 1
    if not 2 <= count <= MOST_AT_ONCE:
        raise _NotClear(f"“{item}”: type 2 to {MOST_AT_ONCE} points, like L1-L10.")
    start, step, rest = None, None, []
    in_one_word = any(sign in folded[0] for sign in ("-", "–", "to"))  # "L1-L10", else "L1 to L10"
    words = re.findall(r"from|every|[^\s]+", " ".join(folded[1 if in_one_word else 3 :]))
    at = 0
    while at < len(words):
        word, after = words[at], words[at + 1] if at + 1 < len(words) else ""
        unit = words[at + 2] if at + 2 < len(words) else ""
        joined = unit in ("m", "metres") and bool(re.fullmatch(r"[0-9][0-9.,]*", after))
        value = f"{after}m" if joined else after
        if word in ("from", "every") and _DISTANCE.fullmatch(value) and value[0] != "+":
            _, metres = _distance(item, value)
            if word == "from":
                start = metres
            else:
                step = metres
            at += 3 if joined else 2
        else:
            rest.append(word)
            at += 1
    if rest:
        raise _NotClear(f"“{item}”: “{' '.join(rest)}” is not understood.")
    if start is None or not step:
        raise _NotClear(f"“{item}”: say where the row starts and its spacing: from 3m every 1.2m.")
    return [
        NewPoint(f"{letters}{first + each}", _rounded(start + each * step)) for each in range(count)
    ]


def _rounded(value: float) -> float:
    # 3 + 2 × 1.2 is 5.4 in the field, whatever binary makes of it.
    return float(f"{value:.9g}")
