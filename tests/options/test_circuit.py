"""What would do for a circuit: ring against radial, and how long each may be."""

import pytest

from records.errors import FarboardError
from records.expected.plan import expected
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.model.circuit import Point
from records.model.wiring import Device, Run
from records.options.cell import Check
from records.options.circuit import METRES, circuit_options
from records.options.feed import feed_options
from records.terms import CableKind, Cpc, DeviceKind, Form, Use, Verdict
from tests.judgement.jobs import ISLAND, SOUND, ZDB, circuit, spoilt

DESIGN = SOUND.model_copy(update={"readings": ()})


def own_lines(record, id):
    lines = design_lines(Facts.of(record, expected(record)))
    return [each for each in lines if each.place.circuit == id and each.what is not None]


def find(choice, form, csa, rating):
    return next(
        each for each in choice.options if (each.form, each.csa, each.rating) == (form, csa, rating)
    )


def test_a_ring_is_offered_beside_a_radial_and_both_are_as_the_review_has_them():
    found = circuit_options(DESIGN, "C1")

    assert {each.form for each in found.options} == {Form.RING, Form.RADIAL}
    for option in found.options:
        bad = [each for each in own_lines(option.record, "C1") if each.verdict is Verdict.OUTSIDE]
        assert bool(bad) == (option.verdict is Verdict.OUTSIDE), (option, bad)


def test_only_devices_of_a_ring_protect_a_ring():
    """BS 7671, Regulation 433.1.204: 30 A or 32 A, at least 2.5 mm² of copper (from memory)."""
    found = circuit_options(DESIGN, "C1")

    assert {each.rating for each in found.options if each.form is Form.RING} == {32.0}
    assert find(found, Form.RING, 1.5, 32.0).verdict is Verdict.OUTSIDE
    assert find(found, Form.RING, 2.5, 32.0).will_do


@pytest.mark.parametrize(
    ("id", "form", "csa", "rating"),
    [("C1", Form.RING, 2.5, 32.0), ("C2", Form.RADIAL, 4.0, 20.0), ("C3", Form.RADIAL, 1.5, 6.0)],
)
def test_the_longest_length_holds_and_half_a_metre_more_does_not(id, form, csa, rating):
    option = find(circuit_options(DESIGN, id), form, csa, rating)
    run = option.record.circuit(id).runs[0]

    def fails(length):
        runs = (run.model_copy(update={"length": length}),)
        points = tuple(
            Point(id=each.id, at=(each.at or 0.0) * length / option.length)
            for each in option.record.circuit(id).points
        )
        record = circuit(option.record, id, runs=runs, points=points)
        return any(each.verdict is Verdict.OUTSIDE for each in own_lines(record, id))

    assert option.longest > 0
    assert not fails(option.longest)
    assert fails(option.longest + METRES)


def test_a_radial_is_as_long_as_is_said_or_as_the_rings_way_to_its_farthest_point():
    by_ring = circuit_options(DESIGN, "C1")
    said = circuit_options(DESIGN, "C1", radial=22.0)

    assert find(by_ring, Form.RADIAL, 4.0, 20.0).length == 45.0
    assert any("farthest point" in each for each in by_ring.notes)
    assert find(said, Form.RADIAL, 4.0, 20.0).length == 22.0
    assert not any("farthest point" in each for each in said.notes)


def test_no_device_smaller_than_the_load_is_offered():
    ratings = {each.rating for each in circuit_options(DESIGN, "C4").options}

    assert min(ratings) == 10.0  # 2 kW at 230 V are 8.7 A
    assert DESIGN.circuit("C4").device.kind is DeviceKind.RCBO_B


def test_readings_of_the_circuit_are_left_out_and_those_of_the_board_count():
    high = spoilt((ZDB, 1.2))
    found, clean = circuit_options(high, "C2"), circuit_options(DESIGN, "C2")

    def loop(choice):
        option = find(choice, Form.RADIAL, 2.5, 20.0)
        return next(each for each in option.cells if each.check is Check.LOOP).result.value

    assert loop(found) > loop(clean) + 0.5
    assert any("Readings of C2" in each for each in found.notes)


@pytest.mark.parametrize(
    ("changes", "asked"),
    [
        ({"runs": ()}, "how long C2 is"),
        ({"runs": (Run(),)}, "length of run 1"),
        ({"use": None}, "what C2 feeds"),
        ({"use": Use.FIXED, "power": None, "load": None, "points": ()}, "Enter the load"),
    ],
)
def test_what_only_a_person_can_say_of_a_circuit_is_asked_for(changes, asked):
    found = circuit_options(circuit(DESIGN, "C2", **changes), "C2")

    assert found.options == ()
    assert asked in " ".join(found.lacks)


def test_a_circuit_that_is_not_there_is_named():
    with pytest.raises(FarboardError, match="no circuit C9"):
        circuit_options(DESIGN, "C9")


def test_taking_one_changes_that_circuit_alone():
    option = find(circuit_options(DESIGN, "C2"), Form.RADIAL, 4.0, 20.0)

    others = [each for each in option.record.circuits if each.id != "C2"]
    assert others == [each for each in DESIGN.circuits if each.id != "C2"]
    assert option.record.feed == DESIGN.feed
    assert option.record.circuit("C2").runs[0].csa == 4.0


@pytest.mark.parametrize("id", ["C1", "C2", "C3", "C4"])
def test_a_length_and_a_load_are_enough_and_what_was_assumed_is_said(id):
    own = DESIGN.circuit(id)
    bare = circuit(
        DESIGN, id, runs=(Run(length=12.0),), device=Device(), form=None, fuse=None, points=()
    )
    found = circuit_options(bare, id)
    told = " ".join(found.notes)

    assert any(each.will_do for each in found.options)
    assert "twin-and-earth" in told
    assert "method 102" in told
    assert {each.form for each in found.options} == (
        {Form.RING, Form.RADIAL} if own.use is Use.SOCKETS else {Form.RADIAL}
    )
    taken = found.options[0].record.circuit(id).runs[0]
    assert (taken.cable, taken.cpc, taken.length) == (CableKind.FLAT, Cpc.CORE, 12.0)
    assert taken.method is None, "how it lies is nobody's choice: it is entered, not assumed"
    device = found.options[0].record.circuit(id)
    assert device.device.kind is DeviceKind.RCBO_B
    assert device.rcd.residual == 30.0


def test_without_a_feed_cable_the_first_with_room_is_assumed_and_said():
    """The drop and the loop of a circuit count from the origin."""
    (run,) = DESIGN.feed.runs
    bare_run = Run(length=run.length, method=run.method, ambient=run.ambient)
    feed = DESIGN.feed.model_copy(update={"runs": (bare_run,)})
    bare = DESIGN.model_copy(update={"feed": feed})
    roomy = feed_options(bare).roomy
    assert roomy is not None
    found = circuit_options(bare, "C2")

    assert any("The feed has no cable yet" in each for each in found.notes)
    assert found.options[0].record.feed == feed
    with_it = circuit_options(roomy.record, "C2")
    assert [each.cells for each in found.options] == [each.cells for each in with_it.options]


def test_without_a_feed_at_all_its_length_is_asked_for():
    found = circuit_options(
        DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": ()})}), "C2"
    )

    assert "how long the feed is" in " ".join(found.lacks)


def test_no_lamps_are_put_behind_more_than_16_a():
    """BS 7671, Regulation 559.5.1.204 (from memory)."""
    assert max(each.rating for each in circuit_options(DESIGN, "C3").options) == 16.0


@pytest.mark.parametrize("id", ["C1", "C2", "C3"])
def test_behind_an_electrode_that_is_not_driven_yet_circuits_can_be_chosen(id):
    island = ISLAND.model_copy(update={"readings": ()})
    found = circuit_options(island, id)

    assert any(each.will_do for each in found.options)
    assert any("RA not read yet: 200 Ω is assumed" in each for each in found.notes)
    assert found.options[0].record.readings == ()
