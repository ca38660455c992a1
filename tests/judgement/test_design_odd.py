"""Entries that can't be so beside each other: common practice, and no more than arithmetic."""

from __future__ import annotations

from datetime import date

import pytest

from records.judgement.todo.progress import progress
from records.model.circuit import Point
from records.terms import Cpc, Form, Step, Verdict
from tests.judgement.jobs import (
    RING,
    SOUND,
    circuit,
    findings,
    flat,
    line,
    reviewed,
    sound_job,
)


def with_points(id: str, *points: Point):
    return circuit(SOUND, id, points=points)


def test_a_sound_job_has_no_such_line():
    names = ("distance", "order", "armour", "calibration days")

    assert not [
        each.key
        for each in reviewed(sound_job()).lines
        if each.key.rpartition("/design/")[2].startswith(names)
    ]


def test_a_point_beyond_the_end_of_its_ring():
    far = with_points("C1", *RING.points[:4], Point(id="P5", name="S5", at=60.0))
    found = line(far, "circuit/C1/P5/design/distance")

    assert found.verdict is Verdict.OUTSIDE
    assert found.why.startswith("It is entered at 60 m from the board; the ring is only 50 m long.")


@pytest.mark.parametrize(("at", "is_found"), [(18.0, False), (18.1, True)])
def test_a_point_at_the_end_of_a_radial_and_beyond_it(at, is_found):
    record = with_points("C2", Point(id="P1", at=at))

    assert ("circuit/C2/P1/design/distance" in findings(record)) is is_found


def test_no_point_is_beyond_a_run_whose_length_is_not_entered():
    record = circuit(
        SOUND,
        "C2",
        points=(Point(id="P1", at=50.0),),
        runs=(flat(2.5, 18.0), flat(2.5, 18.0).model_copy(update={"length": None})),
    )

    assert not [each for each in findings(record) if each.endswith("/design/distance")]


@pytest.mark.parametrize("form", [Form.RADIAL, Form.FCU, Form.RING])
def test_points_out_of_the_order_of_the_cable(form):
    points = (Point(id="P1", name="S1", at=10.0), Point(id="P2", name="S2", at=5.0))
    found = line(circuit(SOUND, "C2", form=form, points=points), "circuit/C2/P2/design/order")

    assert found.verdict is Verdict.UNLIKELY
    assert "at 5 m from the board, after S1 at 10 m" in found.why


@pytest.mark.parametrize("cpc", [Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR])
def test_the_armour_of_a_flat_cable(cpc):
    run = flat(2.5, 18.0).model_copy(update={"cpc": cpc})
    found = line(circuit(SOUND, "C2", runs=(run,)), "circuit/C2/-/design/armour of run 1")

    assert found.verdict is Verdict.OUTSIDE
    assert f"has no armour; its cpc is entered as “{cpc.value}”" in found.why


def test_the_armour_of_a_flat_run_of_the_feed_stands_at_the_feed():
    run = flat(10.0, 18.0).model_copy(update={"cpc": Cpc.ARMOUR})
    feed = SOUND.feed.model_copy(update={"runs": (*SOUND.feed.runs, run)})
    record = SOUND.model_copy(update={"feed": feed})

    assert findings(record)["feed/-/-/design/armour of run 2"] == "outside"


@pytest.mark.parametrize(
    ("calibrated", "due", "is_found"),
    [
        (date(2025, 3, 1), date(2024, 3, 1), True),
        (date(2025, 3, 1), date(2025, 3, 1), False),
        (date(2025, 3, 1), None, False),
    ],
)
def test_a_calibration_due_before_the_last_one(calibrated, due, is_found):
    meter = SOUND.job.instruments[0].model_copy(update={"calibrated": calibrated, "due": due})
    record = SOUND.model_copy(
        update={"job": SOUND.job.model_copy(update={"instruments": (meter,)})}
    )
    key = "board/-/-/design/calibration days of M1"

    assert (key in findings(record)) is is_found
    if is_found:
        assert "due on 1 Mar 2024, before the day of the last one" in line(record, key).why


def test_it_shows_at_the_step_where_it_is_entered():
    far = with_points("C2", Point(id="P1", at=60.0))

    assert progress(far, reviewed(far))[Step.CIRCUITS].open == 1
