"""What feed would do: marks, room, armour, electrode, and what can't be judged yet."""

from __future__ import annotations

from itertools import groupby

import pytest

from records.expected.plan import expected
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.model.record import Record
from records.model.supply import Ground
from records.model.wiring import Device, Run
from records.options.cell import Check
from records.options.cells import FEED_SHARE
from records.options.feed import cautions, feed_options, remarks, with_cable, words
from records.options.rows import telling
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    Method,
    OutbuildingEarth,
    Verdict,
)
from tests.judgement.jobs import HEATER, LIGHTS, SOUND
from tests.options.jobs import BURIED, job

SOCKETS = SOUND.circuit("C2")
_KEY = {
    Check.LOAD: "feed/-/-/design/Ib",
    Check.RATING: "feed/-/-/design/Iz",
    Check.CPC: "feed/-/-/design/cpc size",
}


def cell(option, check):
    return next(each for each in option.cells if each.check is check)


def find(choice, cable, cores, csa, cpc):
    return next(
        each
        for each in choice.options
        if (each.make.cable, each.make.cores, each.make.csa, each.make.cpc)
        == (cable, cores, csa, cpc)
    )


def lines(record):
    return {each.key: each for each in design_lines(Facts.of(record, expected(record)))}


def test_a_cable_that_will_do_leaves_no_failing_check_of_feed_or_drop_in_the_review():
    record = job()
    passing = [each for each in feed_options(record).options if each.will_do]

    assert passing
    for option in passing[::7]:
        bad = [
            key
            for key, line in lines(option.record).items()
            if line.verdict is Verdict.OUTSIDE and key.split("/")[0] in ("feed", "circuit")
        ]
        assert bad == [], option.make


def test_a_cable_that_fails_fails_in_the_review_too():
    failing = [each for each in feed_options(job()).options if each.verdict is Verdict.OUTSIDE]

    assert failing
    for option in failing[::7]:
        found = lines(option.record).values()
        assert any(line.verdict is Verdict.OUTSIDE for line in found), option.make


def test_a_larger_size_never_fails_heating_drop_or_loop_that_a_smaller_one_passes():
    for kind in (DeviceKind.BS_88_2, DeviceKind.BREAKER_B):
        for length in (15.0, 60.0, 120.0):
            run = BURIED.model_copy(update={"length": length})
            found = feed_options(job(run, kind=kind)).options
            family = lambda each: (  # noqa: E731
                each.make.cable,
                each.make.cores,
                each.make.cpc,
                each.make.cpc_csa or 0.0,
            )
            for _, same in groupby(sorted(found, key=family), family):
                sizes = sorted(same, key=lambda each: each.make.csa)
                for check in (Check.RATING, Check.DROP, Check.LOOP):
                    held = [cell(each, check).verdict is not Verdict.OUTSIDE for each in sizes]
                    assert held == sorted(held), (check, sizes[0].make)


def test_armour_against_the_table_is_not_so_six_may_pass_where_ten_fails():
    """BS 5467: two-core armour 22 mm² at 6 mm², 26 mm² at 10 mm²; Table 54.7 × 143/46 asks for
    18.7 and 31.1 mm² (areas as printed by cable makers, from memory).

    Behind a 100 A fuse that takes over 4 s the formula doesn't save the 10 mm² either.
    """
    short = BURIED.model_copy(update={"length": 3.0})
    found = feed_options(job(short, kind=DeviceKind.BS_88_3, rating=100.0, ze=0.28, circuits=()))
    six = cell(find(found, CableKind.SWA_XLPE, 2, 6.0, Cpc.ARMOUR), Check.CPC)
    ten = cell(find(found, CableKind.SWA_XLPE, 2, 10.0, Cpc.ARMOUR), Check.CPC)

    assert (six.figure, six.verdict) == ("22.0 mm²", Verdict.WITHIN)
    assert (ten.figure, ten.verdict) == ("26.0 mm²", Verdict.OUTSIDE)


@pytest.mark.parametrize(("load", "in_hand"), [(25.0, 0.0), (20.0, 10.0), (30.0, 25.0)])
def test_the_first_with_room_bears_the_load_that_is_asked_for(load, in_hand):
    record = job(load=load)
    choice = feed_options(record, room=in_hand)
    assert choice.roomy is not None
    ratings = (32.0, 40.0, 50.0)
    rating = next(each for each in ratings if each >= load * (1 + in_hand / 100) - 1e-9)
    grown = choice.roomy.record.feed.model_copy(
        update={
            "load": load * (1 + in_hand / 100),
            "device": Device(kind=DeviceKind.BS_88_2, rating=rating, breaking=80.0),
        }
    )
    found = lines(choice.roomy.record.model_copy(update={"feed": grown}))

    assert [key for key, each in found.items() if each.verdict is Verdict.OUTSIDE] == []
    before = choice.options[: choice.options.index(choice.roomy)]
    assert not any(each.roomy for each in before)


def test_with_no_room_asked_for_every_cable_that_will_do_is_roomy():
    found = feed_options(job(), room=0.0)

    assert [each.roomy for each in found.options] == [each.will_do for each in found.options]


def test_no_device_carries_ten_times_the_load_and_no_cable_is_marked_for_it():
    assert feed_options(job(load=30.0), room=5000.0).roomy is None


def test_with_an_electrode_the_armour_earthed_at_the_house_is_still_the_feeds_own_cpc():
    record = job(earth=OutbuildingEarth.OWN_ELECTRODE)
    found = feed_options(record)
    armoured = [each for each in found.options if each.make.cable.is_armoured]

    assert {each.make.cpc for each in armoured} == {Cpc.NONE}
    assert found.smallest is not None
    loop = cell(find(found, CableKind.SWA_XLPE, 2, 10.0, Cpc.NONE), Check.LOOP)
    # The feed's own fault returns by the armour; what is behind the board by the electrode.
    line = 1.83e-3 * (1 + 0.00393 * 70)
    armour = 6.0e-3 * (1 + 0.0045 * 60) * 1.1
    assert loop.place.part.code == "feed"
    assert loop.result.value == pytest.approx(0.35 + 40 * (line + armour), rel=1e-3)


def test_with_an_electrode_nothing_is_a_bond_and_the_caution_says_where_the_armour_ends():
    record = job(earth=OutbuildingEarth.OWN_ELECTRODE, earthing=Earthing.TN_C_S)
    found = feed_options(record)

    assert all(each.check is not Check.BOND for option in found.options for each in option.cells)
    assert any("house only" in each for each in cautions(record))


def test_pme_exported_to_metal_in_the_ground_asks_for_copper_that_armour_is_not():
    """BS 7671, Table 54.8 (from memory): 10 mm² of copper for a supply neutral up to 35 mm²."""
    record = job(earthing=Earthing.TN_C_S, metal_in_ground=True)
    found = feed_options(record)
    armour = find(found, CableKind.SWA_XLPE, 2, 10.0, Cpc.ARMOUR)
    core = find(found, CableKind.SWA_XLPE, 3, 10.0, Cpc.CORE)

    assert cell(armour, Check.BOND).verdict is Verdict.OUTSIDE
    assert cell(core, Check.BOND).verdict is Verdict.WITHIN
    assert found.smallest is not None
    assert found.smallest.make.csa <= 10
    assert any("PME" in each for each in cautions(record))


def test_pme_bond_is_only_warned_of_while_nobody_said_whether_there_is_metal():
    found = feed_options(job(earthing=Earthing.TN_C_S))
    armour = find(found, CableKind.SWA_XLPE, 2, 10.0, Cpc.ARMOUR)

    assert cell(armour, Check.BOND).verdict is Verdict.NEAR


def test_a_declared_ze_leaves_a_cpc_that_needs_a_current_not_judged_rather_than_failed():
    """A breaker's energy rises with the current, and a declared Ze gives no highest one."""
    record = job(kind=DeviceKind.BREAKER_C, rating=50.0, ze=0.35, circuits=())
    origin = record.origin.model_copy(
        update={"ze_ground": Ground.DECLARED, "fault_current": None, "fault_current_ground": None}
    )
    found = feed_options(record.model_copy(update={"origin": origin}))
    unjudged = [
        each for each in found.options if cell(each, Check.CPC).verdict is Verdict.NOT_TAKEN
    ]

    assert unjudged
    assert any("current" in cell(each, Check.CPC).why for each in unjudged)
    assert not any(each.will_do for each in unjudged)


def test_xlpe_on_terminals_for_90_degrees_carries_more():
    hot = BURIED.model_copy(update={"hot_terminals": True})
    find_it = lambda run: cell(  # noqa: E731
        find(feed_options(job(run)), CableKind.SWA_XLPE, 2, 10.0, Cpc.ARMOUR), Check.RATING
    )

    assert find_it(hot).result.value > find_it(BURIED).result.value


def test_runs_are_varied_one_at_a_time():
    house = Run(
        cable=CableKind.FLAT, csa=16.0, cpc=Cpc.CORE, length=8.0, method=Method.C, ambient=30.0
    )
    record = job()
    feed = record.feed.model_copy(update={"runs": (house, BURIED)})
    record = record.model_copy(update={"feed": feed})
    second = feed_options(record, 1)

    assert {each.make.cable for each in second.options} == {CableKind.SWA_XLPE, CableKind.SWA_PVC}
    assert all(each.record.feed.runs[0] == house for each in second.options)
    first = feed_options(record, 0)
    assert CableKind.FLAT in {each.make.cable for each in first.options}
    assert any("Run 2 has no cable yet" in each for each in first.notes)
    assert all(each.record.feed.runs[1].cable is each.make.cable for each in first.options[:20])


def test_nothing_is_offered_that_no_table_has():
    for earth in OutbuildingEarth:
        for option in feed_options(job(earth=earth)).options:
            assert cell(option, Check.RATING).figure, option.make
            assert "tabulated" not in "".join(each.why for each in option.cells), option.make


@pytest.mark.parametrize(("protected", "least"), [(None, 4.0), (False, 4.0), (True, 2.5)])
def test_a_separate_cpc_is_as_thick_as_where_it_lies_asks_for(protected, least):
    """BS 7671, Regulation 543.1.1: 2.5 mm² protected from damage, else 4 mm²."""
    run = BURIED.model_copy(update={"protected": protected})
    found = [each.make.cpc_csa for each in feed_options(job(run)).options if each.make.cpc_csa]

    assert min(found) == least


def test_a_blank_record_with_a_distance_and_a_load_has_a_choice_and_says_what_it_assumed():
    record = Record()
    feed = record.feed.model_copy(update={"runs": (Run(length=46.0),), "load": 26.0})
    found = feed_options(record.model_copy(update={"feed": feed}))

    assert found.smallest is not None
    told = " ".join(found.notes)
    for word in ("TN-S", "0.8 Ω", "exported", "method D", "32 A", f"{FEED_SHARE:g} %"):
        assert word in told
    assert found.smallest.record.origin == record.origin
    assert found.smallest.record.feed.device == record.feed.device


@pytest.mark.parametrize(
    ("runs", "load", "asked"),
    [
        ((), 26.0, "a run of cable"),
        ((Run(),), 26.0, "length of run 1"),
        ((Run(length=46.0),), None, "Ib of the feed"),
    ],
)
def test_without_distance_or_load_nothing_is_offered_but_what_to_enter(runs, load, asked):
    feed = Record().feed.model_copy(update={"runs": runs, "load": load})
    found = feed_options(Record().model_copy(update={"feed": feed}))

    assert found.options == ()
    assert asked in " ".join(found.lacks)


def test_a_supply_that_nobody_named_is_warned_of_as_pme_and_fails_nothing_for_it():
    """Most supplies in Great Britain are PME: armour that is no bond there has to be seen."""
    unsaid = job(metal_in_ground=True)
    unsaid = unsaid.model_copy(
        update={"origin": unsaid.origin.model_copy(update={"earthing": None})}
    )
    found = feed_options(unsaid)
    armour = cell(find(found, CableKind.SWA_XLPE, 2, 10.0, Cpc.ARMOUR), Check.BOND)
    core = cell(find(found, CableKind.SWA_XLPE, 3, 10.0, Cpc.CORE), Check.BOND)

    assert armour.verdict is Verdict.NEAR
    assert "if the supply is PME" in armour.why
    assert core.verdict is Verdict.WITHIN
    named = feed_options(job(metal_in_ground=True))
    assert all(each.check is not Check.BOND for one in named.options for each in one.cells)


def test_sockets_without_load_or_device_count_with_the_most_they_can_take():
    bare = SOCKETS.model_copy(update={"device": Device(), "load": None})
    found = feed_options(job(load=None, rating=63.0, circuits=(bare,)))
    loaded = feed_options(job(load=32.0, rating=63.0, circuits=(bare,)))

    assert found.lacks == ()
    assert any(f"{bare.id}: neither load nor device" in each for each in found.notes)
    drop = lambda choice: cell(choice.options[0], Check.DROP).result.value  # noqa: E731
    assert drop(found) == pytest.approx(drop(loaded))
    assert found.options[0].record.circuit(bare.id).device.kind is None


def test_the_cable_of_now_is_marked_and_tried_also_where_nobody_makes_it():
    choice = feed_options(job())
    own = choice.options[40]
    again = feed_options(own.record)
    odd = own.record.feed.runs[0].model_copy(update={"csa": 7.0})
    feed = own.record.feed.model_copy(update={"runs": (odd,)})
    unmade = feed_options(own.record.model_copy(update={"feed": feed}))

    assert choice.present is None
    assert again.present is again.options[40]
    assert again.present.cells == own.cells
    assert unmade.present is not None
    assert unmade.present.make.csa == 7.0
    assert not unmade.present.will_do
    assert unmade.present in tuple(telling(unmade))
    assert len(unmade.options) == len(choice.options)


def test_a_thinner_cable_that_only_lacks_a_figure_is_named_beside_the_smallest():
    """Two-core XLPE has 26 mm² of armour at 10 mm², the table asks for 31: a current decides."""
    record = job(kind=DeviceKind.BREAKER_B, load=26.0, circuits=())
    origin = record.origin.model_copy(
        update={"ze_ground": Ground.DECLARED, "fault_current": None, "fault_current_ground": None}
    )
    run = BURIED.model_copy(update={"length": 46.0})
    feed = record.feed.model_copy(update={"runs": (run,)})
    choice = feed_options(record.model_copy(update={"origin": origin, "feed": feed}))
    told = " ".join(remarks(choice))

    assert choice.smallest is not None
    assert "2-core 10 mm² armoured (XLPE), cpc: armour, may do too" in told
    assert "Needs a current" in told
    assert "rarely stocked" in told
    assert tuple(remarks(feed_options(job()))) == ()


def test_a_circuit_without_its_cable_holds_the_feed_to_its_share():
    bare = HEATER.model_copy(update={"runs": ()})
    found = feed_options(job(circuits=(bare, LIGHTS)))
    passing = [each for each in found.options if each.will_do]

    assert passing
    assert any("C4 not all entered" in each for each in found.notes)
    alone = [each for each in feed_options(job(circuits=())).options if each.will_do]
    assert {each.make for each in passing} <= {each.make for each in alone}


def test_readings_of_another_cable_are_not_held_against_one_that_is_tried():
    from tests.judgement.jobs import SOUND, ZDB, spoilt

    bad = spoilt((ZDB, 9.0))
    clean = SOUND.model_copy(update={"readings": ()})
    found = feed_options(bad)

    assert found.smallest is not None
    assert found.smallest.make == feed_options(clean).smallest.make
    assert any("Readings" in each for each in found.notes)


def test_a_cable_put_in_changes_nothing_else():
    record = job()
    option = feed_options(record).options[5]

    assert option.record == with_cable(record, 0, option.make)
    run = option.record.feed.runs[0]
    assert (run.length, run.method, run.ambient) == (40.0, Method.D, 20.0)


def test_a_feed_that_lets_a_fault_burst_the_devices_behind_it_does_not_pass():
    """8 kA at the house; a short thick feed leaves more than the 6 kA of the RCBOs' labels."""
    record = job(BURIED.model_copy(update={"length": 1.0}))
    origin = record.origin.model_copy(update={"fault_current": 8.0, "ze": 0.03})
    found = feed_options(record.model_copy(update={"origin": origin}))
    thick = find(found, CableKind.SWA_XLPE, 3, 50.0, Cpc.CORE)

    assert thick.verdict is Verdict.OUTSIDE
    assert cell(thick, Check.BREAKING).verdict is Verdict.OUTSIDE
    far = feed_options(record.model_copy(update={"origin": record.origin}))
    assert all(each.check is not Check.BREAKING for one in far.options for each in one.cells)


def test_where_no_cable_will_do_it_is_said_with_what_stops_the_thickest():
    """A Ze of 2 Ω is over what a 32 A fuse needs, whatever the cable (Table 41.4: 1.7 Ω)."""
    choice = feed_options(job(ze=2.0, circuits=()))
    told = tuple(remarks(choice))

    assert choice.smallest is None
    assert told[0].startswith("No cable is sure to do")
    assert "Zs" in told[0]
    nearest = min(cell(each, Check.LOOP).used for each in choice.options)
    named = [each for each in choice.options if cell(each, Check.LOOP).used == nearest]
    assert words(named[0].make) in told[0]
