"""The units Farboard speaks. The only module that knows pint, which loads when a unit is typed.

Inside, a figure is a plain float and its type says the unit. In a record it stands in the unit
that the trade writes (MΩ, mm², mA, ms); `Unit` names those, and how people spell them.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any, NewType

if TYPE_CHECKING:
    from pint import UnitRegistry

Ohm = NewType("Ohm", float)
OhmPerMetre = NewType("OhmPerMetre", float)
Metre = NewType("Metre", float)
Ampere = NewType("Ampere", float)
Volt = NewType("Volt", float)
Second = NewType("Second", float)
Celsius = NewType("Celsius", float)
Watt = NewType("Watt", float)
SquareMillimetre = NewType("SquareMillimetre", float)
"""The one unit outside SI: the trade's tables, and k in A·√s/mm², are in mm²."""


class Unit(StrEnum):
    """A unit as it is printed."""

    OHM = "Ω"
    MEGOHM = "MΩ"
    METRE = "m"
    MILLIMETRE = "mm"
    SQUARE_MILLIMETRE = "mm²"
    AMPERE = "A"
    MILLIAMPERE = "mA"
    KILOAMPERE = "kA"
    VOLT = "V"
    CELSIUS = "°C"
    SECOND = "s"
    MILLISECOND = "ms"
    KILOWATT = "kW"
    KELVIN_METRE_PER_WATT = "K·m/W"
    PERCENT = "%"
    NUMBER = ""


_SPELT: dict[Unit, dict[str, str]] = {
    # What people type -> what pint calls it. Only these reach pint: it takes free text for a sum,
    # reads R as the gas constant and M as molar. A lone m or M is absent on purpose: see typed.py.
    Unit.OHM: {
        "Ω": "ohm", "ohm": "ohm", "ohms": "ohm", "R": "ohm", "r": "ohm",
        "mΩ": "milliohm", "mohm": "milliohm", "mohms": "milliohm", "milliohm": "milliohm",
        "milliohms": "milliohm", "kΩ": "kiloohm", "kohm": "kiloohm", "kilohm": "kiloohm",
        "k": "kiloohm", "K": "kiloohm", "MΩ": "megaohm", "Mohm": "megaohm", "megohm": "megaohm",
        "megohms": "megaohm",
    },
    Unit.MEGOHM: {
        "MΩ": "megaohm", "Mohm": "megaohm", "Mohms": "megaohm", "megohm": "megaohm",
        "megohms": "megaohm", "meg": "megaohm", "M": "megaohm", "GΩ": "gigaohm",
        "Gohm": "gigaohm", "gigohm": "gigaohm", "G": "gigaohm", "kΩ": "kiloohm",
        "kohm": "kiloohm", "kilohm": "kiloohm", "k": "kiloohm", "K": "kiloohm",
        "Ω": "ohm", "ohm": "ohm", "ohms": "ohm",
    },
    Unit.METRE: {
        "m": "metre", "metre": "metre", "metres": "metre", "meter": "metre", "meters": "metre",
        "cm": "centimetre", "mm": "millimetre", "km": "kilometre",
    },
    Unit.MILLIMETRE: {
        "mm": "millimetre", "millimetre": "millimetre", "millimetres": "millimetre",
        "cm": "centimetre", "m": "metre", "metre": "metre", "metres": "metre",
    },
    Unit.SQUARE_MILLIMETRE: {
        "mm²": "millimetre**2", "mm2": "millimetre**2", "mm^2": "millimetre**2",
        "sqmm": "millimetre**2", "sq mm": "millimetre**2", "mm": "millimetre**2",
    },
    Unit.AMPERE: {
        "A": "ampere", "a": "ampere", "amp": "ampere", "amps": "ampere", "ampere": "ampere",
        "amperes": "ampere", "mA": "milliampere", "kA": "kiloampere",
    },
    Unit.MILLIAMPERE: {
        "mA": "milliampere", "ma": "milliampere", "A": "ampere", "amp": "ampere", "amps": "ampere",
    },
    Unit.KILOAMPERE: {
        "kA": "kiloampere", "ka": "kiloampere", "KA": "kiloampere", "k": "kiloampere",
        "A": "ampere", "amp": "ampere", "amps": "ampere",
    },
    Unit.VOLT: {
        "V": "volt", "v": "volt", "volt": "volt", "volts": "volt", "mV": "millivolt",
        "kV": "kilovolt",
    },
    Unit.CELSIUS: {"°C": "degC", "C": "degC", "c": "degC", "°": "degC", "degC": "degC"},
    Unit.SECOND: {"s": "second", "sec": "second", "seconds": "second", "ms": "millisecond"},
    Unit.MILLISECOND: {
        "ms": "millisecond", "millisecond": "millisecond", "milliseconds": "millisecond",
        "s": "second", "sec": "second", "seconds": "second",
    },
    Unit.KILOWATT: {
        "kW": "kilowatt", "kw": "kilowatt", "KW": "kilowatt", "W": "watt", "w": "watt",
        "watt": "watt", "watts": "watt",
    },
    Unit.KELVIN_METRE_PER_WATT: {
        "K·m/W": "kelvin*metre/watt", "K.m/W": "kelvin*metre/watt", "Km/W": "kelvin*metre/watt",
    },
    Unit.PERCENT: {"%": "percent", "percent": "percent"},
    Unit.NUMBER: {},
}  # fmt: skip


def spellings(unit: Unit) -> tuple[str, ...]:
    """Return the ways to write a unit that a field of this unit takes, its own first."""
    return tuple(_SPELT[unit])


def factor(word: str, unit: Unit) -> float | None:
    """Return what a figure in the unit spelt `word` is multiplied by to stand in `unit`.

    Args:
        word: A unit as a person typed it, without the figure; "" means `unit` itself.
        unit: The unit of the field.
    Returns:
        The factor, or None if the field doesn't take that word. Celsius has no factor but 1.
    """
    name = _SPELT[unit].get(word.replace("\N{OHM SIGN}", "Ω"))
    if not word or (name and (word == unit.value or unit is Unit.CELSIUS)):
        return 1.0
    return None if name is None else _pint_factor(name, _SPELT[unit][unit.value])


@cache
def _pint_factor(given: str, wanted: str) -> float:
    return float(_registry().Quantity(1, given).to(wanted).magnitude)


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry  # slow to load: not before a unit was typed

    # pint's own list of units takes half a second to read, in the middle of somebody's typing.
    registry: UnitRegistry[Any] = UnitRegistry(None)
    for line in _DEFINITIONS:
        registry.define(line)
    return registry


_DEFINITIONS = (
    "milli- = 1e-3",
    "centi- = 1e-2",
    "kilo- = 1e3",
    "mega- = 1e6",
    "giga- = 1e9",
    "metre = [length]",
    "second = [time]",
    "gram = [mass]",
    "ampere = [current]",
    "kelvin = [temperature]",
    "volt = kilogram * metre ** 2 / second ** 3 / ampere",
    "ohm = volt / ampere",
    "watt = volt * ampere",
    "percent = 0.01",
)
"""What the words of `_SPELT` stand for (SI brochure); tests hold it against pint's own list."""
