"""Resistance and reactance of a cable by length, against the published figures.

Copper: IEC 60228, Table 2. Steel armour: BS 5467 (XLPE). Reactance: PD CLC/TR 50480, 0.08 mΩ/m for
a conductor and 0.3 mΩ/m for line and armour together, from 25 mm² up (BS 7671, Appendix 4, from
memory). Coefficients: 0.00393 for copper, 0.0045 for steel (BS EN 60228; BS 5467, from memory).
"""

from __future__ import annotations

import pytest

from records.errors import OutOfRange
from records.expected.runs import State, of_cable
from records.tables import conductors
from records.terms import CableKind, Cpc

COLD, WARM = State(20.0, False, "cold"), State(20.0, True, "cold")
SWA, FLAT, SINGLES = CableKind.SWA_XLPE, CableKind.FLAT, CableKind.SINGLES
COPPER = {1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83, 16.0: 1.15, 25.0: 0.727}


@pytest.mark.parametrize(("csa", "ohms_per_km"), COPPER.items())
def test_the_line_has_what_the_standard_prints(csa: float, ohms_per_km: float) -> None:
    found = of_cable(SINGLES, 1, csa, Cpc.SEPARATE, csa, COLD)

    assert found.line * 1000 == pytest.approx(ohms_per_km)
    assert found.back == pytest.approx(found.line)


@pytest.mark.parametrize(
    ("cpc", "csa", "ac", "neutral", "back"),
    [
        (Cpc.CORE, 16.0, True, 0.0, 0.0),
        (Cpc.ARMOUR, 16.0, True, 0.0, 0.0),
        (Cpc.CORE, 25.0, True, 0.16, 0.16),
        (Cpc.ARMOUR, 25.0, True, 0.16, 0.3),
        (Cpc.CORE_AND_ARMOUR, 25.0, True, 0.16, 0.16),
        (Cpc.ARMOUR, 25.0, False, 0.0, 0.0),
        (Cpc.ARMOUR, 35.0, True, 0.16, 0.3),
    ],
)
def test_from_25_mm2_the_loop_has_reactance_and_by_the_armour_more(
    cpc: Cpc, csa: float, ac: bool, neutral: float, back: float
) -> None:
    found = of_cable(SWA, 3, csa, cpc, None, WARM if ac else COLD)

    assert found.x_neutral * 1000 == pytest.approx(neutral)
    assert found.x_back * 1000 == pytest.approx(back)


def test_alternating_current_makes_the_armour_a_tenth_worse_and_leaves_a_core() -> None:
    cold, warm = (of_cable(SWA, 3, 10.0, Cpc.ARMOUR, None, each) for each in (COLD, WARM))
    assert cold.back is not None
    assert warm.back == pytest.approx(1.1 * cold.back)

    cold, warm = (of_cable(SWA, 3, 10.0, Cpc.CORE, None, each) for each in (COLD, WARM))
    assert warm.back == cold.back == pytest.approx(1.83e-3)


def test_core_and_armour_are_side_by_side() -> None:
    core, armour, both = (
        of_cable(SWA, 3, 10.0, each, None, COLD).back
        for each in (Cpc.CORE, Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR)
    )

    assert core is not None
    assert armour is not None
    assert both == pytest.approx(1 / (1 / core + 1 / armour))


@pytest.mark.parametrize(("csa", "cpc"), [(1.5, 1.0), (2.5, 1.5), (4.0, 1.5), (6.0, 2.5)])
def test_flat_cable_has_the_cpc_it_is_made_with(csa: float, cpc: float) -> None:
    """BS 6004, flat cable with a bare cpc (from memory)."""
    found = of_cable(FLAT, 2, csa, Cpc.CORE, None, COLD)

    assert found.back == pytest.approx(conductors.copper(cpc).value)
    smaller = of_cable(FLAT, 2, csa, Cpc.CORE, 1.0, COLD)
    assert smaller.back == pytest.approx(18.1e-3)


def test_a_cable_is_warmer_in_service_and_a_cpc_beside_it_less_so() -> None:
    """70 °C for PVC (BS 7671, Table 54.2 and 54.3, from memory): 1 + 50 × 0.00393 is 1.1965."""
    hot = State(None, False, "hot")
    bunched = of_cable(FLAT, 2, 2.5, Cpc.CORE, None, hot)
    assert bunched.line * 1000 == pytest.approx(7.41 * (1 + 50 * 0.00393), rel=1e-3)
    apart = of_cable(FLAT, 2, 2.5, Cpc.SEPARATE, 2.5, hot)
    assert apart.back is not None
    assert apart.back < bunched.line
    singles = of_cable(SINGLES, 1, 2.5, Cpc.SEPARATE, 2.5, hot)
    assert singles.back == pytest.approx(singles.line)


def test_without_a_cpc_there_is_no_way_back_and_flat_cable_has_no_armour() -> None:
    assert of_cable(FLAT, 2, 2.5, Cpc.NONE, None, COLD).back is None
    with pytest.raises(OutOfRange, match="no armour"):
        of_cable(FLAT, 2, 2.5, Cpc.ARMOUR, None, COLD)


@pytest.mark.parametrize("theta", [0.0, 10.0, 30.0])
def test_colder_or_warmer_copper_and_steel_follow_their_coefficients(theta: float) -> None:
    at = State(theta, False, "at the tests")
    found, at_20 = (of_cable(SWA, 3, 10.0, Cpc.ARMOUR, None, each) for each in (at, COLD))
    assert found.back is not None
    assert at_20.back is not None

    assert found.line == pytest.approx(at_20.line * (1 + 0.00393 * (theta - 20)), rel=1e-3)
    assert found.back == pytest.approx(at_20.back * (1 + 0.0045 * (theta - 20)), rel=1e-2)
