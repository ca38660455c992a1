"""What a loop is held against: R1+R2 of its own circuit as it was read."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.loop.loop_facts import high_range, is_calculated, read_r1_r2
from records.model.reading import Quantity
from records.model.record import Record
from tests.judgement.jobs import at, own, read, spoilt, without, zs


def unread(record: Record, id: str, *quantities: Quantity) -> Record:
    """Return a record without what was read of a circuit, at first fix as well."""
    kept = tuple(
        each
        for each in record.readings
        if each.slot.place.circuit != id or each.slot.quantity not in quantities
    )
    return record.model_copy(update={"readings": kept})


POINTS = [at(Quantity.CROSS_LE, "C1", point=f"P{number}") for number in range(1, 6)]


def r1_r2(record: Record, id: str) -> float | None:
    return read_r1_r2(Facts.of(record, expected(record)), record.circuit(id))


def test_of_a_ring_the_highest_reading_at_a_point_counts() -> None:
    """Its furthest point has the longest loop: a quarter of r1 and r2 is less there with a spur."""
    record = spoilt((POINTS[1], 0.71), (POINTS[3], 0.93))

    assert r1_r2(record, "C1") == 0.93


def test_without_points_it_is_a_quarter_of_the_ends() -> None:
    """(r1 + r2) / 4: IET Guidance Note 3, ring final circuits (from memory)."""
    r1, r2 = at(Quantity.R1, "C1"), at(Quantity.R2, "C1")
    record = without(*POINTS, record=spoilt((r1, 0.40), (r2, 0.64)))

    assert r1_r2(record, "C1") == pytest.approx(0.26)
    assert r1_r2(unread(record, "C1", Quantity.R1), "C1") is None
    assert r1_r2(unread(record, "C1", Quantity.R2), "C1") is None


def test_of_a_radial_it_is_what_was_read() -> None:
    where = at(Quantity.R1_R2, "C2")

    assert r1_r2(spoilt((where, 0.47)), "C2") == 0.47
    assert r1_r2(unread(spoilt(), "C2", Quantity.R1_R2), "C2") is None


@pytest.mark.parametrize(
    ("method", "calculated", "high"),
    [
        ("", False, False),
        ("Calculated", True, False),
        ("worked out from Zdb", True, False),
        ("no-trip", False, False),
        ("High current, two-wire", False, True),
    ],
)
def test_how_a_loop_was_read_is_known_by_its_method(
    method: str, calculated: bool, high: bool
) -> None:
    made = read(1, zs("C2"), 0.7, method=method)

    assert is_calculated(made) is calculated
    assert high_range(made) is high


LOOP = zs("C2")


@pytest.mark.parametrize(
    ("values", "minutes", "unsteady"),
    [
        ((0.70, 0.80, 0.70), 1, False),  # 0.1 Ω apart
        ((0.70, 0.81, 0.70), 1, True),
        ((0.70, 0.81), 1, False),  # two may be a slip
        ((0.70, 0.81, 0.70), 10, True),
        ((0.70, 0.81, 0.70), 11, False),  # not at one go
    ],
)
def test_three_readings_at_one_go_that_spread_by_more_than_a_tenth_are_a_loose_contact(
    values: tuple[float, ...], minutes: float, unsteady: bool
) -> None:
    """A tenth of an ohm, and ten minutes for one go: common practice."""
    record = without(LOOP)
    many = (read(900 + n, LOOP, value, 900 + n * minutes) for n, value in enumerate(values))
    found = own(spoilt(*many, record=record), LOOP)

    assert ("loop-unsteady" in found.patterns) is unsteady
