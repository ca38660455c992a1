"""What pictures are made of, against the standards' points and against the figures they show."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.demo import demo_record
from records.expected.pictures.curve import (
    DeviceCurve,
    TimeCurrent,
    device_curve,
    residual_band,
    time_current,
)
from records.expected.pictures.loop import LoopBar, loop_bars
from records.expected.pictures.ring import RingPicture, ring_picture
from records.expected.plan import expected
from records.expected.protection import opening
from records.expected.results import NotWorkedOut, What, Worked
from records.judgement.doubtful_readings import doubted, ring_patterns
from records.judgement.review import review
from records.model.reading import Place, Quantity, place_of
from records.model.record import Record
from records.model.wiring import Device, Rcd
from records.store.exchange import from_json
from records.tables import devices
from records.terms import DeviceKind, Part, Stage
from records.units import Ampere, Second, Volt
from tests.taking.job import slot, small_job, with_figure

FEED = place_of(Part.FEED)
C1 = place_of(Part.CIRCUIT, "C1")
FIXTURES = Path(__file__).parents[2] / "fixtures"
FUSES = [each for each in DeviceKind if each.is_fuse]
STEPS = (2.55, 3, 5, 10, 20)
"""Multiples of In at which a breaker's times step down."""
BREAKERS = [each for each in DeviceKind if not each.is_fuse]


def job(name: str) -> Record:
    if name == "loom-shed":
        return demo_record()
    return from_json((FIXTURES / name / "job.json").read_text(encoding="utf-8"))


def curve(record: Record, place: Place) -> TimeCurrent:
    found = time_current(record, expected(record), place)
    assert isinstance(found, TimeCurrent), found
    return found


def bars(record: Record, place: Place) -> tuple[LoopBar, ...]:
    found = loop_bars(record, expected(record), place)
    assert isinstance(found, tuple), found
    return found


def ring(record: Record) -> RingPicture:
    follows = expected(record)
    found = ring_picture(record, follows, C1, doubted(review(record, follows)))
    assert isinstance(found, RingPicture), found
    return found


def drawn_at(found: DeviceCurve, current: float) -> float:
    """Return the time that a straight line through the corners shows, by numpy on logarithms."""
    corners = found.corners(Ampere(1e6))
    currents = [math.log(each[0]) for each in corners]
    times = [math.log(each[1]) for each in corners]
    return math.exp(float(np.interp(math.log(current), currents, times)))


def test_a_fuse_is_drawn_through_the_points_of_the_standard() -> None:
    """BS 7671:2018 Appendix 3, BS 88-2 fuse of 32 A: 220 A for 0.4 s, 125 A for 5 s (memory).

    The latest line is that of the tabulated Zs (Table 41.4), where that asks for more current.
    """
    found = device_curve(DeviceKind.BS_88_2, Ampere(32))

    assert [each[1] for each in found.earliest] == [5.0, 0.4]
    assert found.earliest[0][0] <= 125 <= found.latest[0][0]
    assert found.earliest[1][0] <= 220 <= found.latest[1][0]
    assert [each[1] for each in found.latest] == [5.0, 0.4]
    zs = devices.max_zs(DeviceKind.BS_88_2, Ampere(32), Second(5.0), Volt(230))
    # 1.7 Ω is printed, so anything from 1.65 Ω may stand behind it.
    assert 0.95 * 230 / zs.value <= found.latest[0][0] <= 0.95 * 230 / (zs.value - 0.05) + 1e-9
    assert found.held == 0.4
    assert found.band is None


@pytest.mark.parametrize("kind", FUSES)
def test_between_its_points_a_fuse_is_drawn_where_the_calculation_says(kind: DeviceKind) -> None:
    for rating in devices.ratings(kind):
        found = device_curve(kind, Ampere(rating))
        low, high = found.latest[0][0], 2 * found.held_from
        for current in np.geomspace(low, high, 25):
            latest = opening(kind, Ampere(rating), float(current) * (1 + 1e-9))[0].latest
            assert drawn_at(found, float(current)) == pytest.approx(latest, rel=1e-6), rating


def test_a_fuse_claims_nothing_below_the_lowest_current_of_its_table() -> None:
    found = device_curve(DeviceKind.BS_88_2, Ampere(80))

    assert found.latest == ((found.held_from, 5.0),)
    below = opening(DeviceKind.BS_88_2, Ampere(80), found.held_from * 0.99)[0]
    assert below.latest is None


@pytest.mark.parametrize(
    ("kind", "lower", "upper"),
    [
        (DeviceKind.BREAKER_B, 3, 5),
        (DeviceKind.RCBO_C, 5, 10),
        (DeviceKind.BREAKER_D, 10, 20),
    ],
)
def test_a_breaker_has_the_band_of_its_type(kind: DeviceKind, lower: int, upper: int) -> None:
    """BS EN 60898-1, Table 7: type B 3 to 5, C 5 to 10, D 10 to 20 times In; then 0.1 s."""
    found = device_curve(kind, Ampere(32))

    assert found.band == (32 * lower, 32 * upper)
    assert (found.held_from, found.held) == (32 * upper, 0.1)


@given(
    st.sampled_from(BREAKERS),
    st.sampled_from([6, 16, 32, 40, 63]),
    st.floats(1.46, 25).filter(lambda each: min(abs(each - x) for x in STEPS) > 0.01),
)
def test_a_breaker_is_drawn_where_the_calculation_says(
    kind: DeviceKind, rating: int, multiple: float
) -> None:
    found = device_curve(kind, Ampere(rating))

    assert drawn_at(found, multiple * rating) == pytest.approx(
        opening(kind, Ampere(rating), multiple * rating)[0].latest, rel=1e-6
    )


def test_an_rcd_has_the_break_times_of_its_standard() -> None:
    """BS EN 61008-1, Table 1: 300 ms at IΔn, 40 ms at five times; type S 50 to 150 ms at five."""
    plain, delayed = (residual_band(Rcd(residual=30, delayed=each)) for each in (False, True))

    assert plain.at(Ampere(0.029)) is None
    assert plain.at(Ampere(0.03)) == (0, 0.3)
    assert plain.at(Ampere(200)) == (0, 0.04)
    assert delayed.at(Ampere(200)) == (0.05, 0.15)


def test_a_circuit_is_drawn_with_both_its_fault_currents_and_the_time_it_has() -> None:
    record, follows = demo_record(), expected(demo_record())
    found = curve(record, C1)

    design, read = found.points
    assert (design.name, read.name) == ("design", "readings")
    for point, figures in ((design, follows.design), (read, follows.measured)):
        current = figures[C1, What.FAULT_LOWEST]
        assert isinstance(current, Worked)
        assert point.current == current.value
        assert point.time == 0.1
        assert point.by_rcd == 0.04
    assert found.required == 0.4
    assert found.rcd is not None
    assert found.range() == (1, 4)


def test_a_point_on_a_circuit_is_drawn_as_its_circuit() -> None:
    record = small_job()
    assert curve(record, place_of(Part.CIRCUIT, "C1", "P2")) == curve(record, C1)


def test_an_island_with_its_own_electrode_reaches_down_to_its_small_current() -> None:
    found = curve(job("smithy-tt-island"), C1)

    assert found.range()[0] == 0
    assert found.points[0].time is None
    assert found.points[0].by_rcd == 0.04


def test_what_has_no_device_says_where_to_enter_it() -> None:
    record = small_job()
    record = record.model_copy(update={"feed": record.feed.model_copy(update={"device": Device()})})
    follows = expected(record)

    for found in (time_current(record, follows, FEED), loop_bars(record, follows, FEED)):
        assert isinstance(found, NotWorkedOut)
        assert "Feed" in found.why
    board = place_of(Part.BOARD)
    assert isinstance(time_current(record, follows, board), NotWorkedOut)
    assert isinstance(loop_bars(record, follows, board), NotWorkedOut)


@pytest.mark.parametrize("place", [FEED, C1, place_of(Part.CIRCUIT, "C3")])
def test_the_parts_of_a_designed_loop_add_up_to_its_zs(place: Place) -> None:
    """Zs = Ze + feed + circuit: IET Guidance Note 3 (from memory)."""
    record = demo_record()
    found = bars(record, place)[0]
    unread = record.model_copy(update={"readings": (), "remedies": ()})
    whole = expected(unread).design[place, What.ZS]
    assert isinstance(whole, Worked)

    assert found.total == pytest.approx(whole.value)
    assert found.parts[0].ohms == record.origin.ze
    assert [each.name for each in found.parts] == ["source", "feed", "circuit"][: len(found.parts)]
    assert all(each.ohms > 0 for each in found.parts)


def test_the_parts_of_a_loop_as_read_are_the_differences_of_the_readings() -> None:
    record = small_job()
    for quantity, circuit, value in (
        (Quantity.ZE, None, 0.30),
        (Quantity.ZDB, None, 0.41),
        (Quantity.ZS, "C1", 0.66),
    ):
        record = with_figure(record, slot(quantity, Stage.LIVE, circuit), value)
    design, read = bars(record, C1)

    assert [(each.name, round(each.ohms, 2)) for each in read.parts] == [
        ("source", 0.30),
        ("feed", 0.11),
        ("circuit", 0.25),
    ]
    assert read.total == pytest.approx(0.66)
    # The rule of thumb for a 32 A type B: 0.8 of 1.37 Ω, cut to 1.09 Ω (BS 7671 Appendix 3).
    assert read.rule_of_thumb == 1.09
    assert 1.09 < read.limit < design.limit == 1.37


def test_a_loop_says_whether_it_was_measured_or_added_up() -> None:
    record = with_figure(small_job(), slot(Quantity.ZDB, Stage.LIVE), 0.41)
    summed = with_figure(record, slot(Quantity.R1_R2, Stage.DEAD, "C2"), 0.35)
    read = with_figure(summed, slot(Quantity.ZS, Stage.LIVE, "C2"), 0.78)
    c2 = place_of(Part.CIRCUIT, "C2")

    assert bars(summed, c2)[1].parts[0].how == "added up from readings"
    assert bars(read, c2)[1].parts[0].how == "as measured"


def test_a_loop_lower_than_the_one_before_it_is_drawn_whole_and_says_so() -> None:
    record = small_job()
    for quantity, circuit, value in (
        (Quantity.ZE, None, 0.30),
        (Quantity.ZDB, None, 0.41),
        (Quantity.ZS, "C1", 0.28),
    ):
        record = with_figure(record, slot(quantity, Stage.LIVE, circuit), value)
    read = bars(record, C1)[1]

    assert [each.name for each in read.parts] == ["the whole loop"]
    assert read.total == 0.28
    assert "0.41 Ω" in read.note


def test_readings_that_differ_by_less_than_a_meter_does_are_put_together() -> None:
    read = bars(job("boathouse-tt"), C1)[1]

    assert [each.name for each in read.parts] == ["source and feed", "circuit"]
    assert read.note == ""
    assert read.limit_name == "50 V / IΔn"


def test_a_loop_over_its_limit_has_a_share_over_one() -> None:
    assert all(each.share > 1 for each in bars(job("joinery"), C1))


def test_a_ring_is_expected_at_a_quarter_of_the_sum_half_way_round() -> None:
    """(r1 + r2)/4 half way, r1·r2/(r1 + r2) at the board: IET Guidance Note 3 (from memory)."""
    record = small_job()
    for quantity, value in ((Quantity.R1, 0.30), (Quantity.RN, 0.30), (Quantity.R2, 0.50)):
        record = with_figure(record, slot(quantity, Stage.DEAD, "C1"), value)
    found = ring(record)

    line_neutral, line_cpc = (dict(each.line) for each in found.lines)
    assert line_neutral[0.0] == line_neutral[0.5] == pytest.approx(0.15)
    assert line_cpc[0.5] == pytest.approx(0.20)
    assert line_cpc[0.0] == line_cpc[1.0] == pytest.approx(0.30 * 0.50 / 0.80)
    assert found.ground == "by the ends as measured"
    assert found.around == 40.0
    assert [each.x for each in found.lines[0].points] == [0.25, 0.5, 0.75]


def test_the_readings_of_a_ring_stand_in_it_and_the_odd_one_is_doubted() -> None:
    found = ring(demo_record())

    assert [(name, each.name, each.value) for name, each in found.doubted] == [
        ("L-cpc", "S5 dye shelf", 0.36)
    ]
    assert [each.name for each in found.lines[0].points if each.spur] == [
        "S6 yarn store, on a spur"
    ]


def test_ring_ends_joined_on_the_same_leg_are_told_as_a_whole() -> None:
    record = job("schoolroom-rings")
    follows = expected(record)
    told = ring_patterns(review(record, follows), "C1")

    assert len(told) == 1
    assert "same leg" in told[0].why
    assert ring_patterns(review(record, follows), "C2") == ()


def test_points_without_distances_stand_evenly_in_their_order() -> None:
    record = small_job()
    circuit = record.circuits[0]
    points = tuple(each.model_copy(update={"at": None}) for each in circuit.points)
    circuit = circuit.model_copy(update={"points": points})
    found = ring(record.model_copy(update={"circuits": (circuit, *record.circuits[1:])}))

    assert found.around is None
    assert [each.x for each in found.lines[0].points] == [0.25, 0.5, 0.75]


def test_what_is_no_ring_has_no_picture_of_one() -> None:
    record = small_job()
    found = ring_picture(record, expected(record), place_of(Part.CIRCUIT, "C2"), ())
    assert isinstance(found, NotWorkedOut)


@pytest.mark.parametrize("name", sorted(each.name for each in FIXTURES.iterdir() if each.is_dir()))
def test_every_part_of_every_job_has_pictures_or_a_reason(name: str) -> None:
    record = job(name)
    follows = expected(record)
    marked = doubted(review(record, follows))
    for place in (FEED, *(place_of(Part.CIRCUIT, each.id) for each in record.circuits)):
        found = (
            time_current(record, follows, place),
            loop_bars(record, follows, place),
            ring_picture(record, follows, place, marked),
        )
        assert all(each.why for each in found if isinstance(each, NotWorkedOut))
