"""How people spell units, held against a general-purpose units library and the SI prefixes."""

from __future__ import annotations

import subprocess
import sys

import pytest
from pint import UnitRegistry
from pint.errors import PintError

from records.units import Unit, factor, spellings

SI = {"m": 1e-3, "k": 1e3, "M": 1e6, "G": 1e9}
"""SI Brochure (9th edition), Table 7: prefixes."""

PLAIN = {
    Unit.OHM: "ohm",
    Unit.MEGOHM: "megaohm",
    Unit.METRE: "metre",
    Unit.MILLIMETRE: "millimetre",
    Unit.SQUARE_MILLIMETRE: "millimetre ** 2",
    Unit.AMPERE: "ampere",
    Unit.MILLIAMPERE: "milliampere",
    Unit.KILOAMPERE: "kiloampere",
    Unit.VOLT: "volt",
    Unit.SECOND: "second",
    Unit.MILLISECOND: "millisecond",
    Unit.KILOWATT: "kilowatt",
    Unit.KELVIN_METRE_PER_WATT: "kelvin * metre / watt",
    Unit.PERCENT: "percent",
}

TRADE = {
    # What the trade writes and the library reads otherwise, or not at all: common practice.
    (Unit.OHM, "R"): 1.0,
    (Unit.OHM, "r"): 1.0,
    (Unit.OHM, "k"): SI["k"],
    (Unit.OHM, "K"): SI["k"],
    (Unit.OHM, "kilohm"): SI["k"],
    (Unit.OHM, "megohm"): SI["M"],
    (Unit.OHM, "megohms"): SI["M"],
    (Unit.MEGOHM, "M"): 1.0,
    (Unit.MEGOHM, "meg"): 1.0,
    (Unit.MEGOHM, "megohm"): 1.0,
    (Unit.MEGOHM, "megohms"): 1.0,
    (Unit.MEGOHM, "G"): SI["G"] / SI["M"],
    (Unit.MEGOHM, "gigohm"): SI["G"] / SI["M"],
    (Unit.MEGOHM, "k"): SI["k"] / SI["M"],
    (Unit.MEGOHM, "K"): SI["k"] / SI["M"],
    (Unit.MEGOHM, "kilohm"): SI["k"] / SI["M"],
    (Unit.SQUARE_MILLIMETRE, "mm"): 1.0,
    (Unit.SQUARE_MILLIMETRE, "mm2"): 1.0,
    (Unit.SQUARE_MILLIMETRE, "sqmm"): 1.0,
    (Unit.SQUARE_MILLIMETRE, "sq mm"): 1.0,
    (Unit.AMPERE, "a"): 1.0,
    (Unit.AMPERE, "amps"): 1.0,
    (Unit.MILLIAMPERE, "ma"): 1.0,
    (Unit.MILLIAMPERE, "amps"): SI["k"],
    (Unit.KILOAMPERE, "ka"): 1.0,
    (Unit.KILOAMPERE, "amps"): 1 / SI["k"],
    (Unit.KILOAMPERE, "k"): 1.0,
    (Unit.KILOAMPERE, "KA"): 1.0,
    (Unit.VOLT, "v"): 1.0,
    (Unit.KILOWATT, "kw"): 1.0,
    (Unit.KILOWATT, "KW"): 1.0,
    (Unit.KILOWATT, "w"): 1 / SI["k"],
    (Unit.KELVIN_METRE_PER_WATT, "K.m/W"): 1.0,
    (Unit.KELVIN_METRE_PER_WATT, "Km/W"): 1.0,
}


@pytest.fixture(scope="module")
def library():
    return UnitRegistry()


def _all():
    return [(unit, word) for unit in Unit for word in spellings(unit)]


@pytest.mark.parametrize(("unit", "word"), _all())
def test_each_spelling_means_what_the_library_or_the_trade_says(library, unit, word):
    if unit is Unit.CELSIUS:
        assert factor(word, unit) == 1.0  # an offset unit: nothing but itself may be typed
        return
    given = TRADE.get((unit, word))
    if given is None:
        given = library.Quantity(1, word).to(PLAIN[unit]).magnitude

    assert factor(word, unit) == pytest.approx(given, rel=1e-12)


def test_what_the_trade_writes_is_what_the_library_would_misread(library):
    """Why the table of the trade's words is needed: the library takes R for the gas constant."""
    wrong = 0
    for (unit, word), meant in TRADE.items():
        try:
            magnitude = library.Quantity(1, word).to(PLAIN[unit]).magnitude
        except PintError:
            wrong += 1
        else:
            wrong += magnitude != pytest.approx(meant)

    assert wrong > len(TRADE) / 2


@pytest.mark.parametrize("unit", [each for each in Unit if each is not Unit.NUMBER])
def test_a_field_takes_its_own_unit_first_and_as_it_is_printed(unit):
    assert spellings(unit)[0] == unit.value
    assert factor(unit.value, unit) == 1.0
    assert factor("", unit) == 1.0


@pytest.mark.parametrize(
    ("word", "unit"),
    [
        ("m", Unit.OHM),  # milliohm or metre
        ("M", Unit.OHM),  # megohm or a slip
        ("m", Unit.MEGOHM),
        ("MOHM", Unit.OHM),  # milli and mega differ by their case alone
        ("MA", Unit.MILLIAMPERE),
        ("V", Unit.AMPERE),
        ("ohm", Unit.METRE),
        ("m²", Unit.SQUARE_MILLIMETRE),
        ("degF", Unit.CELSIUS),
        ("K", Unit.CELSIUS),
        ("x", Unit.NUMBER),
    ],
)
def test_a_word_that_says_something_else_or_two_things_has_no_factor(word, unit):
    assert factor(word, unit) is None


def test_both_code_points_of_the_ohm_sign_are_one():
    assert factor("\N{OHM SIGN}", Unit.OHM) == 1.0
    assert factor("M\N{OHM SIGN}", Unit.MEGOHM) == 1.0
    assert factor("k\N{OHM SIGN}", Unit.OHM) == pytest.approx(1e3)


def test_the_library_is_not_loaded_before_a_unit_other_than_the_fields_own_is_typed():
    code = (
        "import sys; from records.units import Unit, factor; "
        "factor('', Unit.OHM); factor('Ω', Unit.OHM); print('pint' in sys.modules); "
        "factor('mohm', Unit.OHM); print('pint' in sys.modules)"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.split() == ["False", "True"]
