"""Protective conductors against BS 7671 and IEC 60364-5-54."""

import math

import pytest

from records.expected.formulas.adiabatic import least_by_table, least_size
from records.tables.conductors import armour_area
from records.tables.protective import (
    k_armour,
    k_core,
    k_live,
    k_separate,
    least_by_line,
)
from records.terms import CableKind

COPPER = (3.45e-3, 234.5, 17.241e-6)
STEEL = (3.8e-3, 202.0, 138e-6)


def iec_k(metal, start, end):
    """k by IEC 60364-5-54, Annex A: √(Qc·(β + 20)/ρ20 · ln((β + θf)/(β + θi)))."""
    heat, beta, resistivity = metal
    return math.sqrt(heat * (beta + 20) / resistivity * math.log((beta + end) / (beta + start)))


@pytest.mark.parametrize(
    ("found", "metal", "start", "end"),
    [
        (k_live(CableKind.FLAT), COPPER, 70, 160),
        (k_live(CableKind.SWA_XLPE), COPPER, 90, 250),
        (k_core(CableKind.FLAT), COPPER, 70, 160),
        (k_core(CableKind.SWA_XLPE), COPPER, 90, 250),
        (k_separate(), COPPER, 30, 160),
        (k_armour(CableKind.SWA_PVC), STEEL, 60, 200),
        (k_armour(CableKind.SWA_XLPE), STEEL, 80, 200),
    ],
)
def test_k_is_that_of_the_iec_formula(found, metal, start, end):
    """BS 7671, Tables 43.1 and 54.2 to 54.4, against IEC 60364-5-54, Annex A (from memory).

    Whole figures are printed, and the steel constants are rounded: 1.2 %.
    """
    assert found.value == pytest.approx(iec_k(metal, start, end), rel=0.012)


def test_adiabatic_example_of_a_1_5_mm2_cpc_in_70_degree_cable():
    """Worked example in the manner of IET Guidance Note 1 (from memory).

    160 A for 0.1 s with k 115: √(160² × 0.1)/115 = 0.44 mm².
    """
    assert least_size(160.0, 0.1, 115) == pytest.approx(0.44, abs=0.005)


def test_adiabatic_example_over_five_seconds():
    """S = √(I²t)/k: 200 A for 5 s with k 143 needs 3.13 mm² (worked by hand)."""
    assert least_size(200.0, 5.0, 143) == pytest.approx(3.127, abs=0.001)


def test_steel_needs_2_255_times_the_copper_for_70_degree_cable():
    """BS 7671, Table 54.7 with k1/k2 = 115/51: 16 mm² of copper become 36.08 mm² of steel.

    Read in a secondary copy.
    """
    least = least_by_table(
        least_by_line(16.0).value,
        k_live(CableKind.SWA_PVC).value,
        k_armour(CableKind.SWA_PVC).value,
    )

    assert least == pytest.approx(36.08, abs=0.01)


@pytest.mark.parametrize(
    ("cores", "line", "meets"),
    [(2, 6, True), (2, 10, False), (2, 16, False), (3, 10, True), (4, 25, True), (2, 95, False)],
)
def test_which_xlpe_armour_meets_table_54_7_by_itself(cores, line, meets):
    """BS 5467 armour areas against Table 54.7 times 143/46 (read in secondary copies).

    2-core 10 and 16 mm² are the known cases that need the calculation instead.
    """
    cable = CableKind.SWA_XLPE
    least = least_by_table(least_by_line(line).value, k_live(cable).value, k_armour(cable).value)

    assert (armour_area(cable, cores, line).value >= least) is meets
