"""R1+R2 of a feed by one of its two parallel ways back: only where both are joined."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import Worked
from records.expected.runs import State, of_cable
from records.model.reading import Quantity
from records.terms import CableKind, Cpc, Part, Stage
from tests.expected.jobs import ARMOUR, BOTH, CORE, XLPE, device, job, run
from tests.judgement.jobs import ISLAND

COLD = State(20.0, False, "cold")


def lengths(*cpcs: str) -> dict[Quantity, float]:
    """Return what each test of a feed should read, of runs of 30 m with these ways back."""
    record = job(
        feed={"device": device(), "runs": [run(XLPE, 6.0, 30.0, cpc=each) for each in cpcs]}
    )
    return {
        slot.quantity: found.value
        for slot, found in expected(record).meter.items()
        if isinstance(found, Worked) and slot.place.part is Part.FEED and slot.stage is Stage.DEAD
    }


def metre(cpc: Cpc) -> float:
    found = of_cable(CableKind.SWA_XLPE, 3, 6.0, cpc, None, COLD)
    assert found.back is not None
    return found.line + found.back


def test_with_both_joined_either_alone_reads_more_than_both() -> None:
    found = lengths(BOTH)

    assert found[Quantity.R1_R2] == pytest.approx(30 * metre(Cpc.CORE_AND_ARMOUR))
    assert found[Quantity.R1_R2_CORE] == pytest.approx(30 * metre(Cpc.CORE))
    assert found[Quantity.R1_R2_ARMOUR] == pytest.approx(30 * metre(Cpc.ARMOUR))


def test_what_is_the_only_way_back_of_a_run_stays_in_it() -> None:
    """An armour that is not joined along one run is no way back there, whatever is lifted."""
    found = lengths(BOTH, CORE)

    assert found[Quantity.R1_R2_ARMOUR] == pytest.approx(30 * (metre(Cpc.ARMOUR) + metre(Cpc.CORE)))
    found = lengths(BOTH, ARMOUR)
    assert found[Quantity.R1_R2_CORE] == pytest.approx(30 * (metre(Cpc.CORE) + metre(Cpc.ARMOUR)))


def test_where_the_earth_is_not_exported_the_armour_is_there_all_the_same() -> None:
    """30 m of 10 mm² at 15 °C: its armour is tested to the house, and its core is no way back."""
    meter = expected(ISLAND).meter
    found = {slot.quantity: each for slot, each in meter.items() if slot.place.part is Part.FEED}
    each = of_cable(CableKind.SWA_XLPE, 3, 10.0, Cpc.ARMOUR, None, State(15.0, False, "cold"))
    armour = found[Quantity.R1_R2_ARMOUR]

    assert isinstance(armour, Worked)
    assert each.back is not None
    assert armour.value == pytest.approx(30 * (each.line + each.back))
    assert Quantity.R1_R2_CORE not in found
