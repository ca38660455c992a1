"""The physics on plain numbers: properties, edges, and what is refused."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.errors import OutOfRange
from records.expected.formulas import (
    adiabatic,
    capacity,
    disconnection,
    drop,
    electrode,
    fault,
    loop,
    resistance,
    ring,
)

SOME = settings(deadline=None, max_examples=60)
ohms = st.floats(0.001, 50)


@SOME
@given(cold=ohms, one=st.floats(-10, 40), other=st.floats(40, 90))
def test_cold_is_never_over_hot(cold, one, other):
    assert resistance.at_temperature(cold, 0.00393, one) <= resistance.at_temperature(
        cold, 0.00393, other
    )


@SOME
@given(one=ohms, other=ohms)
def test_a_second_way_never_raises_a_resistance(one, other):
    assert resistance.side_by_side(one, other) <= min(one, other)


@SOME
@given(upstream=ohms, own=ohms, angle=st.floats(0, math.pi / 2))
def test_magnitudes_bound_the_vector_sum_from_both_sides(upstream, own, angle):
    vector = abs(upstream * complex(math.cos(angle), math.sin(angle)) + own)

    assert loop.least_sum(upstream, own) <= vector * (1 + 1e-12)
    assert vector <= loop.loop_impedance(upstream, own) * (1 + 1e-12)


@SOME
@given(impedance=ohms)
def test_the_lowest_current_is_under_what_a_meter_shows_and_the_highest_over(impedance):
    shown = fault.prospective(230.0, impedance)

    assert fault.lowest(230.0, impedance, 0.95) < shown < fault.highest(230.0, impedance, 1.1)


@SOME
@given(first=ohms, second=ohms, x=st.floats(0, 1))
def test_a_crossed_ring_never_reads_over_a_quarter_of_the_sum(first, second, x):
    quarter = (first + second) / 4

    assert ring.cross_connected(first, second, x) <= quarter * (1 + 1e-9)
    assert ring.in_service(first, second, x) <= quarter * (1 + 1e-9)


@SOME
@given(first=ohms, second=ohms, x=st.floats(0, 1))
def test_a_ring_reads_the_same_from_either_leg(first, second, x):
    assert ring.cross_connected(first, second, x) == pytest.approx(
        ring.cross_connected(first, second, 1 - x)
    )


@SOME
@given(current=st.floats(1, 5000), time=st.floats(0.1, 5), k=st.sampled_from([46, 115, 143]))
def test_more_current_or_time_never_needs_less_copper(current, time, k):
    least = adiabatic.least_size(current, time, k)

    assert adiabatic.least_size(current * 1.1, time, k) > least
    assert adiabatic.least_size(current, time / 2, k) <= least
    assert k**2 * least**2 == pytest.approx(current**2 * time)


def test_less_than_a_tenth_of_a_second_counts_as_a_tenth():
    assert adiabatic.least_size(100.0, 0.01, 115) == adiabatic.least_size(100.0, 0.1, 115)


def test_the_highest_cold_reading_leaves_room_for_the_rise():
    """1.37 Ω, R1+R2 0.5 Ω rising by 1.2: 1.27 Ω cold are 1.37 Ω hot (worked by hand)."""
    assert loop.highest_cold(1.37, 0.5, 1.2) == pytest.approx(1.27)


def test_electrode_limits():
    assert electrode.highest_electrode(50.0, 0.03) == pytest.approx(1666.67, abs=0.01)


def test_capacity_is_the_product():
    assert capacity.capacity(27.0, [0.8, 0.94]) == pytest.approx(20.304)
    assert capacity.current_of(2300.0, 230.0) == 10


def test_a_ring_on_a_rewirable_fuse_of_30_a_needs_27_6_a_of_cable():
    """BS 7671, 433.1.202: In over 0.725 (read in a secondary copy): 20 A ask for 27.6 A."""
    assert capacity.capacity(27.6, [0.725]) == pytest.approx(20.0, abs=0.02)


def test_the_fraction_round_a_ring():
    assert ring.fraction(10, 40) == 0.25
    with pytest.raises(OutOfRange, match="41 m"):
        ring.fraction(41, 40)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: resistance.at_temperature(-1.0, 0.00393, 20.0),
        lambda: resistance.at_temperature(1.0, 0.00393, 251.0),
        lambda: resistance.of_length(0.01, 0.0),
        lambda: resistance.of_length(0.01, math.nan),
        lambda: resistance.side_by_side(0.0, 1.0),
        lambda: loop.loop_impedance(-0.1, 1.0),
        lambda: loop.least_sum(0.1, -1.0),
        lambda: loop.highest_cold(1.0, -0.1, 1.2),
        lambda: loop.highest_cold(1.0, 0.1, 0.9),
        lambda: fault.prospective(230.0, 0.0),
        lambda: fault.source_impedance(230.0, 0.0),
        lambda: ring.cross_connected(0.5, 0.5, 1.1),
        lambda: ring.cross_connected(0.0, 0.5, 0.5),
        lambda: ring.with_spur(0.5, -0.1),
        lambda: ring.fraction(1, 0),
        lambda: drop.radial_drop([drop.LoadAt(-1.0, 0.1, 0.0)], 0.2),
        lambda: drop.radial_drop([], -0.1),
        lambda: drop.ring_drop([drop.LoadAt(1.0, 0.3, 0.0)], 0.2, movable=0.0, spread=0.0),
        lambda: drop.ring_drop([], 0.2, movable=-1.0, spread=0.0),
        lambda: capacity.capacity(0.0, [1.0]),
        lambda: capacity.current_of(-1.0, 230.0),
        lambda: adiabatic.least_size(100.0, 5.1, 115),
        lambda: adiabatic.least_size(100.0, -1.0, 115),
        lambda: adiabatic.least_size_for_energy(1.0, 0),
        lambda: adiabatic.least_by_table(16.0, 115, 0),
        lambda: electrode.highest_electrode(50.0, 0.0),
        # Each part by itself, and just beyond the edge.
        lambda: resistance.at_temperature(1.0, 0.00393, -41.0),
        lambda: resistance.of_length(0.01, -1.0),
        lambda: resistance.side_by_side(1.0, 0.0),
        lambda: loop.loop_impedance(1.0, -0.1),
        lambda: loop.least_sum(-0.1, 1.0),
        lambda: loop.highest_cold(1.0, 0.1, 0.999),
        lambda: fault.prospective(0.0, 0.4),
        lambda: fault.source_impedance(0.0, 1000.0),
        lambda: ring.cross_connected(0.5, 0.5, -0.001),
        lambda: ring.cross_connected(0.5, 0.0, 0.5),
        lambda: ring.crossed_between((0.1, -0.1), (0.1, 0.1)),
        lambda: ring.crossed_between((0.1, 0.1), (-0.1, 0.1)),
        lambda: ring.crossed_between((0.0, 0.0), (0.0, 0.0)),
        lambda: ring.same_leg_joined(0.5, 0.0, 0.5),
        lambda: ring.in_service(0.0, 0.5, 0.5),
        lambda: ring.with_spur(-0.1, 0.5),
        lambda: ring.fraction(-1, 40),
        lambda: drop.radial_drop([drop.LoadAt(1.0, -0.1, 0.0)], 0.2),
        lambda: drop.radial_drop([drop.LoadAt(1.0, 0.1, -0.1)], 0.2),
        lambda: drop.ring_drop([], 0.2, movable=0.0, spread=-1.0),
        lambda: drop.ring_drop([], 0.2, movable=0.0, spread=0.0, spurs=[(0.3, 0.1)]),
        lambda: drop.ring_drop([], 0.2, movable=0.0, spread=0.0, spurs=[(0.1, -0.1)]),
        lambda: capacity.capacity(20.0, [0.0]),
        lambda: capacity.current_of(100.0, 0.0),
        lambda: adiabatic.least_size_for_energy(-1.0, 115),
        lambda: adiabatic.least_by_table(16.0, 0, 115),
        lambda: electrode.highest_electrode(0.0, 0.03),
        lambda: disconnection.step_at(-1.0, 32.0, TYPE_B),
        lambda: disconnection.step_at(100.0, 0.0, TYPE_B),
        lambda: disconnection.fuse_opening(-1.0, ()),
    ],
)
def test_what_has_no_meaning_is_refused_in_words(refused):
    with pytest.raises(OutOfRange, match=r"\w+ .+"):
        refused()


@pytest.mark.parametrize(
    ("found", "value"),
    [
        (lambda: resistance.at_temperature(0.0, 0.00393, 250.0), 0.0),
        (lambda: resistance.at_temperature(1.0, 0.00393, -40.0), 1 - 60 * 0.00393),
        (lambda: loop.loop_impedance(0.0, 0.4), 0.4),
        (lambda: loop.loop_impedance(0.4, 0.0), 0.4),
        (lambda: loop.least_sum(0.0, 0.4), 0.4),
        (lambda: loop.least_sum(0.3, 0.4), 0.5),  # at right angles
        (lambda: loop.highest_cold(1.0, 0.0, 1.2), 1.0),
        (lambda: loop.highest_cold(1.0, 0.5, 1.0), 1.0),
        (lambda: ring.cross_connected(0.5, 0.5, 0.0), 0.25),
        (lambda: ring.cross_connected(0.5, 0.5, 1.0), 0.25),
        (lambda: ring.with_spur(0.0, 0.0), 0.0),
        (lambda: ring.fraction(0, 40), 0.0),
        (lambda: ring.fraction(40, 40), 1.0),
        (lambda: drop.radial_drop([], 0.0), 0.0),
        (lambda: drop.radial_drop([drop.LoadAt(10.0, 0.2, 0.0)], 0.2), 2.0),
        (lambda: drop.ring_drop([drop.LoadAt(0.0, 0.2, 0.0)], 0.2, movable=0.0, spread=0.0), 0.0),
        (lambda: capacity.current_of(0.0, 230.0), 0.0),
        (lambda: adiabatic.least_size(100.0, 5.0, 100), math.sqrt(5.0)),
        (lambda: adiabatic.least_size(1000.0, 0.0, 100), math.sqrt(0.1) * 10),  # as 0.1 s
        (lambda: adiabatic.least_size(1000.0, 0.1, 100), math.sqrt(0.1) * 10),
        (lambda: adiabatic.least_size_for_energy(0.0, 100), 0.0),
    ],
)
def test_on_the_edge_of_what_has_a_meaning_there_is_a_figure(found, value):
    assert found() == pytest.approx(value)


THERMAL = ((1.45, 3600.0), (2.55, 60.0))
TYPE_B = disconnection.breaker_steps((3.0, 5.0), THERMAL)


@pytest.mark.parametrize(
    ("current", "earliest", "latest"),
    [
        (0.0, 0.0, None),
        (46.0, 0.0, None),  # 1.45 In is 46.4 A
        (46.4, 0.1, 3600.0),
        (81.5, 0.1, 3600.0),  # 2.55 In is 81.6 A
        (81.6, 0.1, 60.0),
        (95.9, 0.1, 60.0),
        (96.0, 0.0, 60.0),  # 3 In: it may open at once
        (159.9, 0.0, 60.0),
        (160.0, 0.0, 0.1),  # 5 In
    ],
)
def test_a_type_b_breaker_of_32_a_opens_as_its_standard_says(current, earliest, latest):
    """BS EN 60898-1, Table 7: 1.45 In within an hour, 2.55 In within 60 s (In up to 32 A), at once
    from 5 In, and not sooner than 0.1 s below 3 In."""
    found = disconnection.step_at(current, 32.0, TYPE_B)

    assert (found.earliest, found.latest) == (earliest, latest)
