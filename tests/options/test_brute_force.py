"""The feed table cell by cell, by plain formulas and by power-grid-model, which know none of ours.

The published figures that go in (resistance by metre, mV/A/m, rating, Zs limit) are read from the
same tables, which have checks of their own in tests/published; what is made of them is not.
"""

from __future__ import annotations

from functools import cache

import pytest

from records.expected.results import Worked
from records.options.cell import Check
from records.options.cells import FEED_SHARE
from records.options.feed import Choice, feed_options
from records.tables import conductors, devices, ratings
from records.tables.drop import drop_limit, volt_drop
from records.terms import CableKind, Cpc, DeviceKind, Method, Verdict
from tests.options.jobs import BURIED, job
from tests.published.grid import U0, loop_impedance, voltage_drop

LENGTH, LOAD, ZE, IN = 80.0, 12.0, 0.35, 32.0
CONDUCTOR = {CableKind.SWA_XLPE: 90.0, CableKind.SWA_PVC: 70.0}
ARMOUR = {CableKind.SWA_XLPE: 80.0, CableKind.SWA_PVC: 60.0}
"""°C in service: BS 7671, Tables 54.3 and 54.4 (from memory: the armour's assumed initial
temperature is 80 °C with 90 °C insulation, 60 °C with 70 °C)."""
COPPER, STEEL, SEPARATE = 0.00393, 0.0045, 30.0
ARMOUR_AC = 1.1
"""PD CLC/TR 50480: armour up to 95 mm² of cable resists a.c. 1.1 times as much as d.c."""


@cache
def choice() -> Choice:
    return feed_options(job(BURIED.model_copy(update={"length": LENGTH}), load=LOAD, circuits=()))


def options():
    found = choice().options
    assert len(found) > 100
    return found


def cells(option):
    return {each.check: each for each in option.cells}


def warm(r20: float, alpha: float, theta: float) -> float:
    return r20 * (1 + alpha * (theta - 20))


def way_there_and_back(make) -> complex:
    """Line and cpc by metre in service [Ω/m]; with the reactance of thick ones."""
    line = warm(conductors.copper(make.csa, flexible=False).value, COPPER, CONDUCTOR[make.cable])
    armour = (
        warm(
            conductors.armour_resistance(make.cable, make.cores, make.csa).value,
            STEEL,
            ARMOUR[make.cable],
        )
        * ARMOUR_AC
    )
    back = {
        Cpc.ARMOUR: armour,
        Cpc.CORE: line,
        Cpc.CORE_AND_ARMOUR: 1 / (1 / line + 1 / armour),
    }.get(make.cpc)
    if make.cpc is Cpc.SEPARATE:
        back = warm(conductors.copper(make.cpc_csa, flexible=False).value, COPPER, SEPARATE)
    x = 0.0
    if make.csa >= 25:
        x = 0.3e-3 if make.cpc is Cpc.ARMOUR else 2 * 0.08e-3
    return complex(line + back, x)


def test_the_loop_is_what_the_engine_finds():
    for option in options():
        edge = ZE + way_there_and_back(option.make) * LENGTH
        found = cells(option)[Check.LOOP].result
        assert isinstance(found, Worked)

        # We add magnitudes, the engine phasors: ours is never under it, and at most 2 % over.
        engine = loop_impedance([(1, 2, edge)], 2)
        assert engine * (1 - 1e-6) <= found.value <= engine * 1.02, option.make


def test_a_loop_fails_exactly_where_the_limit_of_the_fuse_says_so():
    limit = devices.max_zs(DeviceKind.BS_88_2, IN, 5.0, U0).value
    seen = set()
    for option in options():
        cell = cells(option)[Check.LOOP]
        assert isinstance(cell.result, Worked)
        seen.add(cell.verdict)

        assert (cell.verdict is Verdict.OUTSIDE) == (cell.result.value > limit), option.make
    assert seen == {Verdict.OUTSIDE, Verdict.WITHIN}


def test_the_voltage_drop_is_what_the_engine_finds():
    most = FEED_SHARE / 100 * U0
    for option in options():
        per_metre = volt_drop(option.make.cable, option.make.csa).value
        by_hand = per_metre * LENGTH * LOAD
        engine = voltage_drop([(1, 2, complex(per_metre * LENGTH, 0))], {2: LOAD}, 2)
        cell = cells(option)[Check.DROP]
        assert isinstance(cell.result, Worked)

        assert cell.result.value == pytest.approx(by_hand, rel=1e-6)
        assert cell.result.value == pytest.approx(engine, rel=1e-4)
        assert (cell.verdict is Verdict.OUTSIDE) == (by_hand > most), option.make


def test_the_rating_is_that_of_the_table_for_buried_cable_at_70_degrees():
    for option in options():
        it = ratings.tabulated_rating(
            option.make.cable, Method.D, option.make.csa, as_70_degrees=True
        ).value
        cell = cells(option)[Check.RATING]
        assert isinstance(cell.result, Worked)

        # 20 °C, 0.7 m, 2.5 K·m/W, one circuit, no rewirable fuse: every factor is 1, but for Cc.
        cc = devices_in_ground()
        assert cell.result.value == pytest.approx(it * cc, rel=1e-9), option.make
        assert (cell.verdict is Verdict.OUTSIDE) == (it * cc < IN), option.make


def devices_in_ground() -> float:
    """Cc of a buried cable, but for a rewirable fuse (BS 7671, Appendix 4, section 5.1)."""
    return 0.9


def test_a_cpc_by_the_table_is_the_line_or_by_the_ratio_of_k():
    """Table 54.7: S up to 16 mm², 16 up to 35, then half; armour by k1/k2 = 143/46 and 115/51."""
    k = {CableKind.SWA_XLPE: 143 / 46, CableKind.SWA_PVC: 115 / 51}
    seen = 0
    for option in options():
        make = option.make
        asked = make.csa if make.csa <= 16 else max(16.0, make.csa / 2 if make.csa > 35 else 16.0)
        if make.cpc is Cpc.ARMOUR:
            has = conductors.armour_area(make.cable, make.cores, make.csa).value
            asked *= k[make.cable]
        else:
            has = make.cpc_csa or make.csa
        if has >= asked:
            seen += 1
            assert cells(option)[Check.CPC].verdict is Verdict.WITHIN, make
    assert seen > 50


def test_what_passes_is_what_no_formula_fails_and_the_mark_is_on_the_first():
    limit = devices.max_zs(DeviceKind.BS_88_2, IN, 5.0, U0).value
    plain = []
    for option in options():
        make = option.make
        it = ratings.tabulated_rating(make.cable, Method.D, make.csa, as_70_degrees=True).value
        zs = abs(way_there_and_back(make)) * LENGTH + ZE
        drop = volt_drop(make.cable, make.csa).value * LENGTH * LOAD
        if it * 0.9 >= IN and zs <= limit and drop <= FEED_SHARE / 100 * U0:
            plain.append(option)
    passing = [each for each in options() if each.will_do]

    assert set(map(id, passing)) <= set(map(id, plain))
    # What the three formulas let by and we don't is stopped by the cpc's size alone.
    for each in plain:
        if each not in passing:
            assert each.decides.check in (Check.CPC, Check.TIME), each.make
    smallest = choice().smallest
    assert smallest is passing[0]
    assert smallest.make.csa == min(each.make.csa for each in passing)
    same = [each for each in passing if each.make.csa == smallest.make.csa]
    assert smallest.make.conductors == min(each.make.conductors for each in same)


def test_the_limit_of_voltage_drop_with_circuits_is_theirs():
    found = cells(feed_options(job()).options[0])[Check.DROP]

    assert drop_limit(lighting=True).value == 0.03
    assert "6.90 V" in found.why
