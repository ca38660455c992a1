"""Supports, bends, heights, lamps and cable in insulation.

Spacing: IET On-Site Guide Table D1, sheathed as reprinted in Whitfield's Electricians' Guide Table
4.10 (read), armoured from memory. Bends: a maker's sheet for BS 5467 (read); Table D5 from memory.
Heights: Approved Document M, new dwellings (read summaries). Insulation: BS 7671, Table 52.2.
"""

from __future__ import annotations

import pytest

from records.judgement.fabric.supports import least_bend_of, support_words, supports_of
from records.model.circuit import Point
from records.model.fabric import Box, Lagging, Spot
from records.model.wiring import Run
from records.places.line import understood
from records.terms import CableKind, Method, Verdict
from tests.judgement.fabric.walls import job, judged, leg, wall
from tests.judgement.jobs import circuit, sound_job
from tests.places.test_line import NORTH, after

WITHIN, NEAR, OUTSIDE = Verdict.WITHIN, Verdict.NEAR, Verdict.OUTSIDE


def cable(kind, csa, cores=2):
    return Run(cable=kind, csa=csa, cores=cores)


@pytest.mark.parametrize(
    ("run", "along", "up"),
    [
        (cable(CableKind.FLAT, 1.5), 250, 400),
        (cable(CableKind.FLAT, 2.5), 250, 400),  # 10 mm wide from memory: the stricter row
        (cable(CableKind.FLAT, 6.0), 300, 400),
        (cable(CableKind.FLAT, 10.0), 350, 450),
        (cable(CableKind.SWA_XLPE, 4.0), 350, 450),
        (cable(CableKind.SWA_XLPE, 10.0, 3), 400, 550),
        (cable(CableKind.SWA_XLPE, 35.0), 450, 600),
    ],
)
def test_supports_by_the_size_of_the_cable(run, along, up):
    assert supports_of(run).value == (along, up)


@pytest.mark.parametrize(
    ("run", "least"),
    [
        (cable(CableKind.FLAT, 2.5), 30),
        (cable(CableKind.FLAT, 6.0), 52.8),
        (cable(CableKind.SWA_XLPE, 16.0), 122.4),
        (cable(CableKind.SWA_XLPE, 25.0), 163.2),
    ],
)
def test_bends_by_kind_and_diameter(run, least):
    """2-core 16 mm² is 20.4 mm across and bends at six diameters; shaped conductors at eight."""
    assert least_bend_of(run).value == pytest.approx(least)


def test_what_is_not_listed_has_no_rule():
    for run in (cable(CableKind.FLEX, 1.5), cable(CableKind.SWA_XLPE, 16.0, 7), Run()):
        assert supports_of(run) is None
        assert support_words(run) == ""
    assert "250 mm apart along, 400 up" in support_words(cable(CableKind.FLAT, 2.5))


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({"clips": 250.0}, WITHIN),
        ({"clips": 251.0}, NEAR),
        ({"clips": 400.0, "to_along": 500.0, "to_up": 1800.0}, WITHIN),
        ({"clips": 401.0, "to_along": 500.0, "to_up": 1800.0}, NEAR),
        ({"clips": 300.0, "to_up": 2000.0}, NEAR),  # a slant counts as along
    ],
)
def test_supports_further_apart_than_the_guidance(changes, found):
    assert judged(job(leg(**changes)), "clips L1").verdict is found


@pytest.mark.parametrize(("bend", "found"), [(30.0, WITHIN), (29.9, OUTSIDE)])
def test_a_bend_that_is_entered(bend, found):
    assert judged(job(leg(bend=bend)), "bend L1").verdict is found


@pytest.mark.parametrize(("short", "found"), [(60.0, None), (59.0, NEAR)])
def test_two_bends_need_a_leg_as_long_as_both(short, found):
    """2.5 mm² flat bends at 30 mm inside: two of them on one leg need 60 mm."""
    legs = (
        leg(),
        leg(id="L2", along=2500.0, to_along=2500.0, to_up=800.0 + short),
        leg(id="L3", along=2500.0, to_along=3500.0, up=800.0 + short, to_up=800.0 + short),
    )
    record = job(*legs)
    if found is None:
        with pytest.raises(AssertionError):
            judged(record, "bend L2")
    else:
        assert judged(record, "bend L2").verdict is found
        with pytest.raises(AssertionError):
            judged(record, "bend L1")


def test_clips_and_bends_are_typed_and_the_echo_says_what_is_right():
    made = after("C1 cable from 600 500 up 900, deep 40, clips 350, bend 40")
    route = made.fabric.legs[0]

    assert (route.clips, route.bend) == (350, 40)
    said = understood(job(surfaces=(NORTH,)), NORTH, "C1 cable from 600 500 up 900").echo
    assert "Supports at most 250 mm apart along, 400 up (guidance)" in said


def at_height(up, *, dwelling, box=Box.ONE_GANG):
    record = circuit(
        sound_job(),
        "C1",
        points=(Point(id="P1", name="S1", spot=Spot(surface="W1", along=900.0, up=up, box=box)),),
    )
    made = job(leg(), record=record, fixtures=())
    fabric = made.fabric.model_copy(update={"dwelling": dwelling})
    return made.model_copy(update={"fabric": fabric})


@pytest.mark.parametrize(
    ("up", "named"),
    [(450.0, False), (449.0, True), (1119.5, False), (1120.0, True)],
)
def test_heights_of_a_new_dwelling(up, named):
    """450 to 1200 mm: underside of the box, top of the plate (80.5 mm above it for 86 over 75)."""
    record = at_height(up, dwelling=True)
    if named:
        assert judged(record, "height C1S1").verdict is NEAR
    else:
        with pytest.raises(AssertionError):
            judged(record, "height C1S1")


@pytest.mark.parametrize("dwelling", [None, False])
def test_an_outbuilding_has_no_rule_for_heights(dwelling):
    with pytest.raises(AssertionError):
        judged(at_height(100.0, dwelling=dwelling), "height C1S1")


def test_that_it_is_a_dwelling_is_typed():
    assert after("dwelling").fabric.dwelling is True
    assert after("no dwelling").fabric.dwelling is False


def lamps(**surface):
    ceiling = wall(kind="ceiling", **surface)
    spot = Spot(surface="W1", along=1500.0, up=800.0, box=Box.LAMP)
    record = circuit(sound_job(), "C3", points=(Point(id="P1", name="D1", spot=spot),))
    return ceiling, record


def test_a_cable_of_another_circuit_across_a_downlight_is_moved():
    ceiling, record = lamps()
    parts = {"surfaces": (ceiling,), "record": record, "fixtures": ()}

    assert judged(job(leg(up=834.0, to_up=834.0), **parts), "lamp L1").verdict is NEAR
    for other in (leg(up=871.0, to_up=871.0), leg(circuit="C3"), leg(deep=0.0)):
        with pytest.raises(AssertionError):
            judged(job(other, **parts), "lamp L1")


def test_a_downlight_under_insulation_is_asked_about():
    ceiling, record = lamps(lagging=Lagging.ONE_SIDE)
    found = judged(job(leg(circuit="C3"), surfaces=(ceiling,), record=record), "lamp W1 C3D1")

    assert found.verdict is NEAR
    assert "may cover it" in found.next_check


def lagged(length, *, lagging=Lagging.AROUND, **changes):
    """C2, 2.5 mm² flat by method C, with so many mm behind the insulated wall."""
    record = sound_job()
    run = record.circuit("C2").runs[0].model_copy(update=changes)
    record = circuit(record, "C2", runs=(run,))
    long = leg(circuit="C2", along=500.0, to_along=500.0 + length)
    return job(long, surfaces=(wall(lagging=lagging, width=6000.0),), record=record)


@pytest.mark.parametrize(
    ("length", "carries"),
    [(50.0, "23.7"), (100.0, "21.0"), (200.0, "17.0"), (400.0, "13.7"), (2000.0, "13.5")],
)
def test_the_length_in_insulation_says_how_much_it_carries(length, carries):
    """27 A clipped, times 0.88, 0.78, 0.63, 0.51 (Table 52.2), cut to tenths; all of it 13.5 A."""
    assert carries in judged(lagged(length), "insulation 0").why


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({"insulated": 299.0}, True),
        ({"insulated": 300.0}, False),
        ({"method": Method.M103}, False),
        ({"method": Method.M102}, True),  # it only touches insulation, by that method
        ({"method": Method.A}, True),
    ],
)
def test_cable_on_the_wrong_side_of_insulation_isnt_let_by_for_its_method(changes, wrong):
    record = lagged(300.0, **changes)
    if wrong:
        assert judged(record, "insulation 0").verdict is OUTSIDE
    else:
        with pytest.raises(AssertionError):
            judged(record, "insulation 0")


@pytest.mark.parametrize("method", [Method.A, Method.M100, Method.M102, Method.M103])
def test_insulation_on_one_side_is_in_those_methods(method):
    with pytest.raises(AssertionError):
        judged(lagged(300.0, lagging=Lagging.ONE_SIDE, method=method), "insulation 0")
    assert judged(lagged(300.0, lagging=Lagging.ONE_SIDE), "insulation 0").verdict is OUTSIDE


@pytest.mark.parametrize(("insulated", "wrong"), [(499.0, True), (500.0, False)])
def test_half_a_metre_in_insulation_is_as_much_as_any_more(insulated, wrong):
    """Table 52.2 ends at 500 mm: from there on the cable carries half, however long it is."""
    record = lagged(2000.0, insulated=insulated)
    if wrong:
        assert "Enter 500 mm" in judged(record, "insulation 0").next_check
    else:
        with pytest.raises(AssertionError):
            judged(record, "insulation 0")
