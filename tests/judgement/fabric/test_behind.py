"""After covering: what a fall of insulation points to, and where a circuit is split.

That a screw is the likeliest cause, and that halving finds a fault soonest, is common practice.
"""

from __future__ import annotations

from datetime import date

import pytest

from records.judgement.fabric.behind import halving, look_along, surfaces_behind
from records.model.circuit import Point
from records.model.reading import Quantity
from records.terms import Part, Stage
from tests.judgement.fabric.walls import job, leg, wall
from tests.judgement.jobs import RING, at, place, sound_job, spoilt
from tests.judgement.test_load_checks import lines

NEW, OLD = date(2026, 3, 12), date(2026, 3, 2)


def walls(**screws):
    return (
        wall(id="W1", name="North wall, inside", covered=OLD, screw=screws.get("north")),
        wall(id="W2", name="East wall, inside", covered=NEW, screw=screws.get("east")),
    )


def ring(record=None, **screws):
    legs = (leg(), leg(id="L2", surface="W2", up=900.0, to_up=900.0))
    return job(*legs, surfaces=walls(**screws), fixtures=(), record=record or sound_job())


def test_what_was_covered_last_is_looked_at_first():
    text = look_along(ring(), place("C1")).text()

    assert text.startswith("Look first at East wall, inside (covered 12 Mar 2026).")
    assert "Then North wall, inside." in text


def test_screws_that_reach_the_cable_come_before_the_day():
    text = look_along(ring(north=45.0, east=30.0), place("C1")).text()

    assert text.startswith("Look first at North wall, inside (covered 2 Mar 2026; its 45 mm screws")
    assert "reach the cable at 500 to 2500 along, 800 up" in text


def test_a_circuit_whose_route_is_not_entered_is_looked_along():
    assert "recorded route" in look_along(ring(), place("C2")).text()
    assert surfaces_behind(ring(), place("C2")) == []


def test_a_fall_since_covering_names_circuit_pair_and_surface():
    fallen = spoilt((at(Quantity.IR_LE, "C1"), 1.8))
    line = lines(ring(fallen, north=45.0))["circuit/C1/-/dead/ir-le"]

    assert "insulation-fallen" in line.patterns
    assert "C1" in line.title
    assert "Before covering this pair showed > 999 MΩ, more than 550 times as much" in line.why
    assert "North wall, inside" in line.next_check
    assert "Split it at S3: 25 m to one side, 25 m to the other" in line.next_check


@pytest.mark.parametrize(
    ("now", "said"),
    [
        (0.9, "more than a thousand times as much"),
        (0.999, "more than a thousand times as much"),
        (1.0, "more than 990 times as much"),
        (9.98, "more than 100 times as much"),
        (10.0, "more than 99 times as much"),
    ],
)
def test_how_many_times_is_said_with_no_more_figures_than_a_meter_has(now, said):
    """Before covering the meter showed > 999 MΩ."""
    fallen = spoilt((at(Quantity.IR_LE, "C1"), now))

    assert said in lines(ring(fallen))["circuit/C1/-/dead/ir-le"].why


@pytest.mark.parametrize(
    ("ends", "found"),
    [
        ((0.0, None), ("S3", 25.0, 25.0)),
        ((25.0, None), ("S4", 11.0, 14.0)),
        ((0.0, 25.0), ("S2", 15.0, 10.0)),
        ((15.0, 25.0), None),
    ],
)
def test_the_point_that_halves_the_cable_in_doubt(ends, found):
    """The ring of 50 m has points at 6, 15, 25, 36 and 45 m."""
    assert halving(RING, *ends) == found


def test_without_distances_it_is_only_split():
    bare = RING.model_copy(update={"points": (Point(id="P1"),)})

    assert halving(bare) is None
    assert place(part=Part.FEED).circuit is None
    assert at(Quantity.IR_LE, "C1").stage is Stage.DEAD
