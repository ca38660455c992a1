"""A cause is named only if the figures allow it; what was entered is called by its name.

Resistances: IEC 60228, class 1 and 2 (2.5 mm² 7.41, 1.5 mm² 12.1, 10 mm² 1.83 mΩ/m at 20 °C).
"""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.cable_path import MOST_SPUR, line_ohms, spur_metres
from records.judgement.facts import FEED, Facts
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    SOUND,
    ZDB,
    at,
    circuit,
    flat,
    over,
    own,
    place,
    read,
    sound_job,
    spoilt,
    zs,
)

RUN = at(Quantity.R1_R2, "C2")
LE = at(Quantity.IR_LE, stage=Stage.BEFORE_COVERING, part=Part.FEED)
P3 = at(Quantity.CROSS_LN, "C1", point="P3")


def facts(record: Record) -> Facts:
    return Facts.of(record, expected(record))


# Spurs.


def _with_extra(metres: float) -> Record:
    """P3 with so much of a spur in the ring's cable: both conductors of it, 2 × 7.41 mΩ/m."""
    return spoilt((P3, round(0.18 + metres * 2 * 7.41e-3 * 0.98, 3)))


@pytest.mark.parametrize(("metres", "named"), [(8, True), (19, True), (22, False), (76, False)])
def test_no_spur_is_blamed_that_would_have_to_be_76_metres_long(metres, named):
    """A spur longer than 20 m would have been entered: common practice."""
    found = own(_with_extra(metres), P3)

    assert "ring-point-high" in found.patterns
    assert any("spur" in each for each in found.causes) is named
    if named:
        assert f"a spur of about {metres} m that isn't entered" in found.causes


def test_a_spurs_length_follows_from_its_cable():
    """1 Ω over what 2.5 mm² has, both ways: 1 / (2 × 7.41 mΩ/m), at 15 °C 2 % less."""
    found = spur_metres(facts(sound_job()), P3, 1.0)

    assert found == pytest.approx(1 / (2 * 7.41e-3 * 0.98), rel=0.005)
    assert MOST_SPUR == 20


# A parallel path shortens the way back, never the line.


def test_the_line_conductor_by_itself():
    """30 m of 10 mm² and 18 m of 2.5 mm² at 15 °C: 1.83 and 7.41 mΩ/m, less 2 %."""
    known = facts(sound_job())

    assert line_ohms(known, FEED) == pytest.approx(30 * 1.83e-3 * 0.98, rel=0.002)
    assert line_ohms(known, place("C2")) == pytest.approx(18 * 7.41e-3 * 0.98, rel=0.002)
    assert line_ohms(known, place("C1")) == pytest.approx(50 * 7.41e-3 * 0.98 / 4, rel=0.002)
    bare = circuit(sound_job(), "C2", runs=(flat(2.5, 18.0).model_copy(update={"length": None}),))
    assert line_ohms(facts(bare), place("C2")) is None


@pytest.mark.parametrize(
    ("value", "named"), [(0.14, True), (0.12, True), (0.10, False), (0.0, False)]
)
def test_r1_r2_below_its_own_line_has_no_parallel_path(value, named):
    """R1 of C2 is 0.13 Ω; a tenth or 0.02 Ω is left to the length on paper."""
    found = own(spoilt((RUN, value)), RUN)

    assert "r1r2-low" in found.patterns
    assert ("the cpc has a parallel path through metalwork" in found.causes) is named


@pytest.mark.parametrize(("value", "named"), [(0.19, True), (0.17, True), (0.16, False)])
def test_a_loop_below_its_own_line_conductors_has_no_parallel_path(value, named):
    """R1 of the feed and of C2: 0.054 + 0.131 = 0.185 Ω, a tenth less 0.166."""
    found = own(spoilt((zs("C2"), value)), zs("C2"))

    assert found.verdict is Verdict.UNLIKELY
    assert any("parallel path" in each for each in found.causes) is named


@pytest.mark.parametrize(("value", "named"), [(0.06, True), (0.03, False)])
def test_a_board_loop_below_the_feeds_line_has_no_parallel_path(value, named):
    found = own(spoilt((ZDB, value)), ZDB)

    assert any("a parallel path: bonded" in each for each in found.causes) is named


# Open circuits.


@pytest.mark.parametrize("quantity", [Quantity.R1, Quantity.RN, Quantity.R2])
def test_there_is_no_switch_and_no_link_in_a_ring_end_to_end(quantity):
    slot = at(quantity, "C1")
    causes = " ".join(own(spoilt((slot, over(99.9))), slot).causes)

    assert "switch" not in causes
    assert "link" not in causes
    assert "terminal missed" in causes


def test_there_is_no_switch_in_a_cpc():
    slot = at(Quantity.R2_LONG, "C2")
    causes = " ".join(own(spoilt(read(900, slot, over(99.9), 900)), slot).causes)

    assert "switch" not in causes
    assert "the long lead is open" in causes


@pytest.mark.parametrize(
    ("name", "switch"),
    [
        ("C2", "the socket's own switch left off"),
        ("C3", "a switch left open"),
        ("C4", "a switch left open"),
    ],
)
def test_the_switch_that_is_named_is_one_that_the_path_has(name, switch):
    slot = at(Quantity.R1_R2, name)

    assert switch in own(spoilt((slot, over(99.9))), slot).causes


# What was entered is called by its name.


def three_runs() -> Record:
    runs = (
        flat(10.0, 6.0, where="the loft"),
        SOUND.feed.runs[0].model_copy(update={"where": "the trench"}),
        flat(10.0, 3.0),
    )
    return sound_job(
        SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    )


def test_joints_and_glands_that_were_entered_are_named():
    record = three_runs()

    assert own(spoilt((FEED_R1_R2, 0.9), record=record), FEED_R1_R2).causes[0] == (
        "a bad contact: the joint of the loft and the trench"
    )
    assert (
        "the joint of the loft and the trench"
        in own(spoilt((ZDB, 0.9), record=record), ZDB).causes[0]
    )
    assert own(spoilt((LE, 12.0), record=record), LE).causes[0] == (
        "water in the joint of the loft and the trench"
    )
    assert (
        "conductor snapped at the joint of the loft"
        in own(spoilt((FEED_R1_R2, over(99.9)), record=record), FEED_R1_R2).causes[0]
    )


def test_a_feed_of_one_armoured_run_has_glands_and_no_joint():
    causes = " ".join(own(spoilt((FEED_R1_R2, 0.9)), FEED_R1_R2).causes)

    assert "a gland of run 1" in causes
    assert "joint" not in causes


def test_a_circuit_of_one_flat_run_has_neither_joint_nor_gland():
    slot = at(Quantity.IR_LE, "C2")
    causes = " ".join(own(spoilt((slot, 12.0)), slot).causes)

    assert "joint" not in causes
    assert "gland" not in causes


def test_a_long_name_doesn_t_push_the_cause_off_the_line():
    runs = tuple(
        flat(10.0, 5.0, where="along the north wall behind the old dairy " * 2) for _ in range(3)
    )
    record = sound_job(
        SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    )

    for slot, value in ((FEED_R1_R2, 0.9), (LE, 12.0), (FEED_R1_R2, over(99.9)), (ZDB, 0.9)):
        assert all(
            len(each) <= 110 for each in own(spoilt((slot, value), record=record), slot).causes
        )


# Megohms that climb.


@pytest.mark.parametrize(
    ("first", "then", "water"),
    [
        (5.0, 12.0, True),
        (60.0, 99.0, True),
        (60.0, 100.0, False),
        (300.0, 600.0, False),
        (50.0, 64.0, False),
        (50.0, 66.0, True),
    ],
)
def test_megohms_that_still_climb_after_seconds_are_water_and_no_charging_cable(first, then, water):
    """Charged at 1 mA (BS EN 61557-2), 100 m of cable take microseconds; above 100 MΩ the
    insulation itself takes up charge for a while (common practice)."""
    slot = at(Quantity.IR_LE, "C2")
    found = own(spoilt(read(900, slot, first, 900), read(901, slot, then, 901)), slot)

    assert ("insulation-climbing" in found.patterns) is water
    assert ("water" in found.why) is water
    if water:
        assert "charges that long" in found.why
        assert "Open and dry the joint box" in found.next_check
        assert "over several days" in found.next_check


def test_a_note_that_it_still_climbs_is_as_good_as_two_readings():
    slot = at(Quantity.IR_LE, "C2")
    climbs = own(spoilt(read(900, slot, 12.0, 900, note="still climbing after 30 s")), slot)
    steady = own(spoilt(read(900, slot, 12.0, 900, note="steady, not climbing")), slot)

    assert "insulation-climbing" in climbs.patterns
    assert "insulation-climbing" not in steady.patterns
