"""The list of what to buy: metres, devices, glands, boxes, and what can't be listed yet."""

from __future__ import annotations

from math import ceil

import pytest

from records.demo import demo_record
from records.model.circuit import Point
from records.model.fabric import Box, Spot
from records.model.outbuilding import Bond
from records.model.wiring import Run
from records.options.buy import Sort, buy_list
from records.terms import CableKind, Cpc, OutbuildingEarth
from tests.judgement.jobs import SOUND, circuit


def items(record, sort, allowance=0.0):
    found = buy_list(record, allowance).items
    return {each.what: each.quantity for each in found if each.sort is sort}


@pytest.mark.parametrize("allowance", [0.0, 10.0, 25.0])
def test_every_metre_entered_is_on_the_list_with_the_allowance(allowance):
    """Sum by hand: 50 + 18 + 9 m of 2.5 mm², 25 m of 1.5 mm², 30 m of armoured."""
    found = items(SOUND, Sort.CABLE, allowance)
    by_hand = {
        "2.5 mm² twin-and-earth": 77,
        "1.5 mm² twin-and-earth": 25,
        "3-core 10 mm² armoured (XLPE)": 30,
    }

    assert found == {
        name: ceil(metres * (100 + allowance) / 100) for name, metres in by_hand.items()
    }


def test_a_separate_cpc_and_both_poles_of_single_cores_are_bought():
    run = Run(cable=CableKind.SINGLES, csa=10.0, cpc=Cpc.SEPARATE, cpc_csa=6.0, length=12.0)
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (run,)})})
    found = items(record, Sort.CABLE)

    assert found["10 mm² single core, line and neutral colours"] == 24
    assert found["6 mm² single core, green-and-yellow"] == 12


def test_an_armoured_run_has_a_gland_at_each_end_by_its_cable():
    assert list(items(SOUND, Sort.GLAND).values()) == [2]
    assert "3-core 10 mm² armoured" in next(iter(items(SOUND, Sort.GLAND)))


def test_equal_devices_are_one_line_with_what_they_are_for():
    found = buy_list(demo_record()).items
    six = next(each for each in found if "RCBO type B, 6 A" in each.what)

    assert (six.quantity, six.uses) == (2, ("C3", "C4"))


def test_boxes_come_by_kind_from_the_places_that_there_are():
    spot = Spot(surface="S1", along=100.0, up=450.0, box=Box.TWO_GANG)
    points = (Point(id="P1", spot=spot), Point(id="P2", spot=spot), Point(id="P3"))

    assert items(circuit(SOUND, "C2", points=points), Sort.BOX) == {"two-gang box": 2}
    assert items(SOUND, Sort.BOX) == {}


def test_bonds_and_the_electrode_are_listed():
    board = SOUND.board.model_copy(
        update={
            "bonds": (Bond(id="B1", what="pipe", csa=10.0, length=4.0),),
            "earth": OutbuildingEarth.OWN_ELECTRODE,
            "electrode": "two rods, joined",
        }
    )
    record = SOUND.model_copy(update={"board": board})

    assert items(record, Sort.CABLE)["10 mm² single core, green-and-yellow"] == 4
    assert "electrode: two rods, joined" in items(record, Sort.EARTH)


def test_what_is_not_entered_is_named_and_not_guessed():
    bare = circuit(SOUND, "C2", runs=(Run(cable=CableKind.FLAT, csa=2.5, cpc=Cpc.CORE),))
    found = buy_list(bare, 0.0)

    assert any("C2: the length" in each for each in found.missing)
    assert items(bare, Sort.CABLE)["2.5 mm² twin-and-earth"] == 59
    assert buy_list(SOUND).missing == ()
