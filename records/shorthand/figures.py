"""What a figure can mean: by its unit, by the word beside it, by the sizes that are sold."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence, Set
from functools import cache

from records.errors import BadQuantity
from records.shorthand.vocabulary import NEAR_DEPTH, NEAR_GROUP, NEAR_LOAD, Reading, phrases
from records.tables import conductors, devices
from records.terms import CableKind, DeviceKind, Method
from records.typed import read_typed
from records.units import Unit

_FIGURE = re.compile(r"([+-]?[0-9.,]+)\s*-?\s*(.*)", re.DOTALL)
_PAIR = re.compile(r"([0-9.,]+)/([0-9.,]+)(?:mm2|mm²|mm)?")
_TIMES = re.compile(r"([0-9.,]+)[x×*]([0-9.,]+)")
_DEVICE = re.compile(r"(?:([bcd])\s*([0-9.,]+)|([0-9.,]+)\s*([bcd]))a?")
_BREAKING = {3000.0: 3.0, 4500.0: 4.5, 6000.0: 6.0, 10000.0: 10.0}
"""Numbers in a box on the label of a breaker, in A (BS EN 60898-1), and the same in kA."""
_SHALLOW = 150.0
"""From here a bare depth is in millimetres; up to 3 it is in metres."""

_BOUNDS: dict[str, tuple[float, float]] = {
    # As the model has them: above the first (at it for ambient), up to the second.
    "length": (0, 2_000),
    "csa": (0, 300),
    "cpc_csa": (0, 300),
    "rating": (0, 1_000),
    "fuse": (0, 1_000),
    "load": (0, 1_000),
    "power": (0, 100),
    "residual": (0, 1_000),
    "breaking": (0, 100),
    "ambient": (-10.001, 80),
    "depth": (0, 3),
    "cores": (0, 40),
    "grouped": (0, 40),
}

Found = tuple[tuple[Reading, ...], str]
"""What a figure can mean, and why it means nothing where there is more to say."""


def is_figure(word: str) -> bool:
    """Whether a word begins as a figure does."""
    return bool(re.match(r"[+-]?[.,]?[0-9]", word))


@cache
def unit_words() -> Set[str]:
    """Return the words that belong to a figure written before them."""
    return frozenset(_UNITS)


def figure_readings(word: str, before: str, after: str, line: Sequence[str]) -> Found:
    """Return what a figure can mean beside its neighbours; nothing for what is no figure.

    Args:
        word: In small letters, with its unit.
        before: The word or phrase before it; empty at the start.
        after: The one after it.
        line: All words of the line.
    """
    if match := _DEVICE.fullmatch(word):
        return _device(match), ""
    if match := _PAIR.fullmatch(word):
        return _pair(match, line), ""
    if match := _TIMES.fullmatch(word):
        cores, size = match.groups()
        return (), (
            f"“{word}”: type {cores}c {size} for one cable of {cores} cores. "
            "Cables in parallel are not calculated here."
        )
    match = _FIGURE.fullmatch(word)
    if match is None or not is_figure(word):
        return (), ""
    number, unit = match.groups()
    beside = (before, after)
    if unit not in _UNITS and unit:
        return (), ""
    try:
        found = _UNITS[unit](number, beside, line) if unit else _bare(number, beside, line)
    except BadQuantity as error:
        return (), str(error)
    return tuple(each for each in found if _possible(each)), ""


def _possible(reading: Reading) -> bool:
    return all(
        _BOUNDS[slot][0] < value <= _BOUNDS[slot][1]
        for slot, value in reading.items()
        if slot in _BOUNDS and isinstance(value, int | float)
    )


def _device(match: re.Match[str]) -> tuple[Reading, ...]:
    curve, number = (match[1], match[2]) if match[1] else (match[4], match[3])
    try:
        rating = read_typed(number, Unit.AMPERE).value
    except BadQuantity:
        return ()
    found: list[Reading] = []
    if match[3] and curve == "c" and not match[0].endswith("a"):
        if rating in (2, 3, 4, 5):
            return ({"cores": int(rating)},)
        found.append({"ambient": rating})
    if rating in devices.ratings(DeviceKind.BREAKER_B):
        found.append({"curve": curve.upper(), "rating": rating})
    return tuple(each for each in found if _possible(each))


def _pair(match: re.Match[str], line: Sequence[str]) -> tuple[Reading, ...]:
    try:
        csa, cpc = (read_typed(each, Unit.SQUARE_MILLIMETRE).value for each in match.groups())
    except BadQuantity:
        return ()
    if not _is_size(csa) or not _is_size(cpc) or cpc > csa:
        return ()
    sizes = {"csa": csa, "cpc_csa": cpc}
    if any(_says(each, CableKind.SINGLES) for each in line):
        return ({**sizes, "cable": CableKind.SINGLES},)
    return ({**sizes, "cable": CableKind.FLAT},)


def _bare(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(number, Unit.NUMBER).value
    if value in _BREAKING and value > _BOUNDS["length"][1]:
        return ({"breaking": _BREAKING[value]},)
    near: list[Reading] = []
    if _near(beside, NEAR_DEPTH) and (value >= _SHALLOW or value <= _BOUNDS["depth"][1]):
        near.append({"depth": value / 1000 if value >= _SHALLOW else value})
    if _near(beside, NEAR_GROUP) and value.is_integer():
        near.append({"grouped": int(value)})
    if _near(beside, NEAR_LOAD):
        near.append({"load": value})
    if any(_is_device(each) for each in beside) and value in _ratings():
        near.append({"rating": value})
    if _is_cable(beside[1]) and _is_size(value):
        near.append({"csa": value})
    if near:
        return tuple(near)
    found: list[Reading] = []
    if _is_size(value):
        found.append({"csa": value})
    if value in _ratings():
        found.append({"rating": value})
    if number in [each.code for each in Method]:
        found.append({"method": Method(number)})
    return (*found, {"length": value})


def _metres(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(f"{number} m", Unit.METRE).value
    if any(each in ("deep", "down", "depth") for each in beside):
        return ({"depth": value},)
    if _near(beside, NEAR_DEPTH) and value <= _BOUNDS["depth"][1]:
        return ({"depth": value}, {"length": value})
    return ({"length": value},)


def _millimetres(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(f"{number} mm", Unit.MILLIMETRE).value
    if value >= _SHALLOW or any(each in ("deep", "down", "depth") for each in beside):
        return ({"depth": value / 1000},)
    return ({"csa": value},) if _is_size(value) else ()


def _square(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(number, Unit.SQUARE_MILLIMETRE).value
    return ({"csa": value},) if _is_size(value) else ()


def _cores(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(number, Unit.NUMBER).value
    return ({"cores": int(value)},) if value.is_integer() and 1 <= value <= 5 else ()


def _amperes(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
    value = read_typed(number, Unit.AMPERE).value
    fused = any(says_form(each) for each in line)
    if any(says_form(each) for each in beside):
        return ({"fuse": value},)
    if fused and "fuse" in beside:
        return ({"fuse": value},)
    if any(_is_device(each) for each in beside) and value in _ratings():
        return ({"rating": value},)
    if _near(beside, NEAR_LOAD):
        return ({"load": value},)
    found: list[Reading] = [{"fuse": value}] if fused and value in (3.0, 13.0) else []
    if value in _ratings():
        found.append({"rating": value})
    return (*found, {"load": value})


def _simple(slot: str, unit: Unit, written: str) -> _Read:
    def read(number: str, beside: tuple[str, str], line: Sequence[str]) -> tuple[Reading, ...]:
        return ({slot: read_typed(f"{number} {written}", unit).value},)

    return read


_Read = Callable[[str, tuple[str, str], Sequence[str]], tuple[Reading, ...]]
_AMBIENT = _simple("ambient", Unit.CELSIUS, "°C")
_UNITS: dict[str, _Read] = {
    **dict.fromkeys(("m", "metre", "metres"), _metres),
    "mm": _millimetres,
    **dict.fromkeys(("mm2", "mm²", "mm^2", "sq", "sqmm", "sq mm", "sq. mm"), _square),
    **dict.fromkeys(("core", "cores", "c"), _cores),
    **dict.fromkeys(("a", "amp", "amps"), _amperes),
    "ma": _simple("residual", Unit.MILLIAMPERE, "mA"),
    **dict.fromkeys(("ka", "k"), _simple("breaking", Unit.KILOAMPERE, "kA")),
    "kw": _simple("power", Unit.KILOWATT, "kW"),
    "w": _simple("power", Unit.KILOWATT, "W"),
    **dict.fromkeys(("°c", "°", "degrees", "deg", "degc"), _AMBIENT),
}


def _near(beside: tuple[str, str], words: Set[str]) -> bool:
    return any(each in words for each in beside)


def _says(word: str, cable: CableKind) -> bool:
    return any(each.get("cable") is cable for each in phrases().get(word, ()))


def _is_cable(word: str) -> bool:
    return any("cable" in each for each in phrases().get(word, ()))


def _is_device(word: str) -> bool:
    """Whether a word is of a protective device: its family or its curve."""
    return any({"family", "curve"} & set(each) for each in phrases().get(word, ()))


def says_form(word: str) -> bool:
    """Whether a word is of a fused connection unit."""
    return word.endswith("fcu") or "fused" in word or word.endswith("connection unit")


@cache
def _sizes() -> Set[float]:
    return frozenset(size for cable in CableKind for size in conductors.line_sizes(cable))


@cache
def _ratings() -> Set[float]:
    return frozenset(rating for kind in DeviceKind for rating in devices.ratings(kind))


def _is_size(value: float) -> bool:
    return value in _sizes()
