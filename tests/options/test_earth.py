"""Both earths of an outbuilding side by side: what is there, what to add, who decides."""

from __future__ import annotations

import pytest

from records.model.outbuilding import Bond
from records.options.earth import State, earth_choice
from records.terms import ArmourEarthed, Cpc, Earthing, OutbuildingEarth
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

    assert need(earth_choice(pme(record)).exported, "bond by the feed").state is state


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
