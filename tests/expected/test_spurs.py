"""A spur has no place in the order of the ring's points, and needs no distance."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import NotWorkedOut, Worked
from records.judgement.todo.walking import far_point
from records.model.circuit import Point
from records.model.reading import Quantity
from tests.judgement.jobs import RING, SOUND, at, circuit, findings, own, sound_job, spoilt

SPUR = Point(id="P9", name="Freezer", spur=4.0)


def with_spur(where: int, spur: Point = SPUR):
    points = (*RING.points[:where], spur, *RING.points[where:])
    return circuit(SOUND, "C1", points=points)


@pytest.mark.parametrize("where", [0, 2, 5])
def test_a_spur_stands_anywhere_among_the_points(where):
    record = with_spur(where, SPUR.model_copy(update={"at": 20.0}))

    assert not [key for key in findings(record) if key.endswith("/design/order")]


def test_a_point_on_the_ring_itself_still_has_its_place():
    record = with_spur(0, Point(id="P9", name="S9", at=20.0))

    assert [key for key in findings(record) if key.endswith("/design/order")]


def test_a_spur_without_a_place_has_an_expectation_from_the_board_to_half_way_round():
    """r1·r2/(r1+r2) at the board, (r1+r2)/4 half way, and the spur's own cable: 7.41 and 12.1
    mΩ/m (IEC 60228), 15 °C 2 % less."""
    meter = expected(with_spur(2)).meter
    r1, r2 = 50 * 7.41e-3 * 0.98, 50 * 12.1e-3 * 0.98
    spur = 4 * (7.41 + 12.1) * 0.98e-3
    found = meter[at(Quantity.CROSS_LE, "C1", point="P9")]

    assert isinstance(found, Worked)
    assert found.low == pytest.approx(r1 * r2 / (r1 + r2) + spur, abs=0.002)
    assert found.high == pytest.approx((r1 + r2) / 4 + spur, abs=0.002)
    crossed = meter[at(Quantity.CROSS_LN, "C1", point="P9")]
    assert isinstance(crossed, Worked)
    assert crossed.value == pytest.approx(r1 / 2 + 4 * 2 * 7.41e-3 * 0.98, abs=0.002)


def test_a_point_of_a_ring_of_one_cable_needs_no_distance():
    """r1·r2/(r1+r2) at the board, (r1+r2)/4 half way; between equal conductors a quarter of
    their sum at every point (IET Guidance Note 3, from memory). IEC 60228, 15 °C 2 % less."""
    meter = expected(with_spur(2, Point(id="P9", name="Freezer"))).meter
    r1, r2 = 50 * 7.41e-3 * 0.98, 50 * 12.1e-3 * 0.98
    found = meter[at(Quantity.CROSS_LE, "C1", point="P9")]
    crossed = meter[at(Quantity.CROSS_LN, "C1", point="P9")]

    assert isinstance(found, Worked)
    assert isinstance(crossed, Worked)
    assert found.low == pytest.approx(r1 * r2 / (r1 + r2), abs=0.002)
    assert found.high == pytest.approx((r1 + r2) / 4, abs=0.002)
    assert crossed.low == crossed.high == pytest.approx(r1 / 2, abs=0.002)


def test_where_the_cable_changes_a_point_without_a_distance_is_asked_for_by_its_name():
    record = with_spur(2, Point(id="P9", name="Freezer"))
    (ring,) = [each for each in record.circuits if each.id == "C1"]
    thick = ring.runs[0].model_copy(update={"csa": 4.0, "length": 10.0})
    changed = ring.model_copy(update={"runs": (*ring.runs, thick)})
    circuits = tuple(changed if each.id == "C1" else each for each in record.circuits)
    mixed = record.model_copy(update={"circuits": circuits})
    found = expected(mixed).meter[at(Quantity.CROSS_LE, "C1", point="P9")]

    assert isinstance(found, NotWorkedOut)
    assert "Freezer" in found.why
    assert "P9" not in found.why


def test_its_reading_is_judged():
    record = sound_job(with_spur(2))
    slot = at(Quantity.CROSS_LN, "C1", point="P9")

    assert own(record, slot).verdict.value == "within"
    assert own(spoilt((slot, 0.5), record=record), slot).verdict.value == "unlikely"


@pytest.mark.parametrize(("length", "far"), [(4.0, "P9"), (0.1, "P9"), (None, "P3")])
def test_the_far_point_is_the_spur_counted_from_half_way_round(length, far):
    points = (*RING.points, Point(id="P9", at=5.0 if length is None else None, spur=length))
    found = far_point(RING.model_copy(update={"points": points}))

    assert found is not None
    assert found.id == far
