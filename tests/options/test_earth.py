"""Both earths of an outbuilding side by side: what is there, what to add, who decides."""

from __future__ import annotations

import pytest

from records.model.outbuilding import Bond
from records.model.record import Record
from records.options.earth import State, earth_choice
from records.terms import (
    ArmourEarthed,
    Cpc,
    Earthing,
    EarthingLaid,
    LoadKind,
    OutbuildingEarth,
)
from tests.judgement.jobs import ISLAND, SOUND, circuit, sound_job


def need(needs, topic):
    return next(each for each in needs if each.topic == topic)


def pme(record=SOUND, **board):
    origin = record.origin.model_copy(update={"earthing": Earthing.TN_C_S})
    changed = record.board.model_copy(update=board)
    return record.model_copy(update={"origin": origin, "board": changed})


def test_pme_is_for_the_operator_and_the_certifier_to_decide_and_tn_s_is_not():
    assert need(earth_choice(pme()).exported, "supply").state is State.DECIDE
    assert need(earth_choice(SOUND).exported, "supply").state is State.THERE


def test_the_supply_that_nobody_entered_is_asked_for():
    origin = SOUND.origin.model_copy(update={"earthing": None})
    found = earth_choice(SOUND.model_copy(update={"origin": origin}))

    assert need(found.exported, "supply").state is State.ADD


@pytest.mark.parametrize(("csa", "state"), [(10.0, State.THERE), (6.0, State.ADD)])
def test_on_pme_the_feeds_cpc_has_to_be_worth_the_bond(csa, state):
    """BS 7671, Table 54.8 (from memory): 10 mm² of copper up to 35 mm² of supply neutral."""
    run = SOUND.feed.runs[0].model_copy(update={"csa": csa})
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": (run,)})})

    metal = pme(record, metal_in_ground=True)
    assert need(earth_choice(metal).exported, "bond by the feed").state is state
    without = pme(record, metal_in_ground=False)
    assert need(earth_choice(without).exported, "bond by the feed").state is State.THERE


def test_metal_in_the_ground_is_no_thing_to_bond_on_pme_before_it_is_decided():
    bonds = (Bond(id="B1", what="pipe", csa=10.0, length=3.0),)
    on_pme = earth_choice(pme(metal_in_ground=True, bonds=bonds))

    assert need(on_pme.exported, "metal in the ground").state is State.DECIDE
    assert "bond nothing" in need(on_pme.exported, "metal in the ground").text
    assert need(on_pme.electrode, "metal in the ground").state is State.THERE


def test_an_electrode_needs_an_rcd_before_every_circuit():
    bare = circuit(SOUND, "C3", rcd=SOUND.circuits[0].rcd.model_copy(update={"residual": None}))

    assert need(earth_choice(SOUND).electrode, "RCDs").state is State.THERE
    assert need(earth_choice(bare).electrode, "RCDs").state is State.ADD
    assert "C3" in need(earth_choice(bare).electrode, "RCDs").text


def test_a_cpc_all_the_way_has_to_end_insulated_and_armour_at_the_house():
    assert need(earth_choice(SOUND).electrode, "armour, separation").state is State.ADD
    ends = ISLAND.feed.model_copy(update={"armour_earthed": ArmourEarthed.HOUSE})
    there = earth_choice(ISLAND.model_copy(update={"feed": ends}))

    assert need(earth_choice(ISLAND).electrode, "armour, separation").state is State.ADD
    assert need(there.electrode, "armour, separation").state is State.THERE


def test_ra_is_held_against_what_the_rcd_allows():
    """50 V / 100 mA: 500 Ω (BS 7671, Regulation 411.5.3)."""
    planned = need(earth_choice(ISLAND).electrode, "RA")
    read = need(earth_choice(sound_job(ISLAND)).electrode, "RA")

    assert planned.state is State.ADD
    assert "500" in planned.text
    assert read.state is State.THERE
    assert "40 Ω" in read.text


def test_exporting_needs_a_cpc_in_every_run():
    assert need(earth_choice(ISLAND).exported, "cpc of the feed").state is State.ADD
    assert need(earth_choice(SOUND).exported, "cpc of the feed").state is State.THERE
    run = SOUND.feed.runs[0].model_copy(update={"cpc": Cpc.ARMOUR})
    feed = SOUND.feed.model_copy(update={"runs": (run,)})
    assert (
        need(
            earth_choice(SOUND.model_copy(update={"feed": feed})).exported, "cpc of the feed"
        ).state
        is State.ADD
    )


def test_it_says_what_the_record_has_and_recommends_nothing():
    found = earth_choice(ISLAND)

    assert found.chosen is OutbuildingEarth.OWN_ELECTRODE
    texts = " ".join(each.text for each in (*found.exported, *found.electrode))
    assert "better" not in texts
    assert "recommend" not in texts
    assert any(each.state is State.DECIDE for each in found.exported)
    assert any(each.state is State.DECIDE for each in found.electrode)


def test_nothing_is_taken_for_separate_before_the_feed_is_entered():
    """Said of an empty feed it would be a promise that nobody can keep."""
    bare = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": ()})})
    half = ISLAND.feed.runs[0].model_copy(update={"cpc": None})
    unsaid = ISLAND.model_copy(update={"feed": ISLAND.feed.model_copy(update={"runs": (half,)})})

    for record in (bare, unsaid, Record()):
        found = need(earth_choice(record).electrode, "armour, separation")
        assert found.state is State.ADD
        assert "Enter the cable" in found.text


def test_an_outdoor_point_without_30_ma_is_no_thing_that_is_there():
    outside = circuit(SOUND, "C2", outdoors=True)
    bare = circuit(outside, "C2", rcd=SOUND.circuits[1].rcd.model_copy(update={"residual": 100.0}))

    assert need(earth_choice(outside).electrode, "outdoor points").state is State.THERE
    assert need(earth_choice(bare).electrode, "outdoor points").state is State.ADD
    assert "C2: a 30 mA RCD to add" in need(earth_choice(bare).exported, "outdoor points").text


def test_charging_a_vehicle_on_pme_is_to_be_decided_and_elsewhere_not():
    """BS 7671, Regulation 722.411.4.1 (from memory)."""
    charging = circuit(SOUND, "C4", kind=LoadKind.VEHICLE)

    assert need(earth_choice(pme(charging)).exported, "vehicle charging").state is State.DECIDE
    assert need(earth_choice(charging).exported, "vehicle charging").state is State.THERE
    assert need(earth_choice(pme(charging)).electrode, "vehicle charging").state is State.THERE
    assert all(each.topic != "vehicle charging" for each in earth_choice(SOUND).exported)


@pytest.mark.parametrize(
    ("csa", "laid", "state"),
    [
        (16.0, EarthingLaid.SHEATHED, State.THERE),
        (6.0, EarthingLaid.SHEATHED, State.ADD),
        (None, None, State.ADD),
    ],
)
def test_an_earthing_conductor_too_thin_for_the_ground_is_no_thing_that_is_there(csa, laid, state):
    """BS 7671, Table 54.1 (from memory): 16 mm² of copper in the ground, if it has a sheath."""
    board = ISLAND.board.model_copy(update={"earthing_csa": csa, "earthing_laid": laid})
    found = earth_choice(ISLAND.model_copy(update={"board": board}))

    assert need(found.electrode, "earthing conductor").state is state


def test_the_cautions_name_what_may_not_be_mixed_and_who_is_told():
    told = " ".join(earth_choice(SOUND).cautions)

    for word in ("never both", "rod", "notifiable", "certifier"):
        assert word in told
