"""Voltage drop with the loads where they are, and R1+R2 of a ring with its spurs where they are."""

import pytest

from records.expected.context import circuit_place
from records.expected.plan import expected
from records.expected.results import What
from tests.expected.jobs import circuit, device, job, ring, run

PLACE = circuit_place(job().circuits[0])
FEED_25 = 7.9e-3 * 30 * 25
"""6 mm² two-core XLPE, 30 m, 25 A: BS 7671, Table 4E4B (read in a secondary copy)."""
Z_1_5, Z_2_5 = 29e-3, 18e-3
"""V/A/m of flat cable: BS 7671, Table 4D5 (read in a secondary copy)."""


def drop(one):
    return expected(job(circuits=[one])).design[PLACE, What.VOLT_DROP]


def own(one):
    return drop(one).value - FEED_25


def lamps(*places, **more):
    """A lamp circuit of 1.5 mm² and 60 m; each place is (distance, load, spur)."""
    points = [
        {"id": f"P{n}", "at": at, "load": load, "spur": spur}
        for n, (at, load, spur) in enumerate(places, start=1)
    ]
    start = {"use": "lighting", "device": device(rating=6.0), "points": points}
    return circuit(**{**start, "runs": [run(csa=1.5, length=60.0)], **more})


def test_all_at_the_far_end_stays_the_default_and_says_that_it_is_the_worst_case():
    found = drop(lamps((20.0, None, None), (60.0, None, None), load=3.0))

    assert found.value == pytest.approx(FEED_25 + Z_1_5 * 60 * 3)
    assert found.note.startswith("Worst case: all of the load at the furthest point.")


def test_loads_at_their_points_are_taken_where_they_are():
    """1 A at 20 m and 2 A at 50 m, each over its own length (Appendix 4, section 6)."""
    assert own(lamps((20.0, 1.0, None), (50.0, 2.0, None))) == pytest.approx(Z_1_5 * (20 + 100))


def test_what_of_ib_is_at_no_point_is_at_the_far_end():
    found = own(lamps((20.0, 1.0, None), load=3.0))

    assert found == pytest.approx(Z_1_5 * (20 + 60 * 2))


@pytest.mark.parametrize(("ib", "counts"), [(3.0, 20 + 100), (2.9, 0.9 * 20 + 100), (1.5, 75)])
def test_loads_that_come_to_more_than_ib_count_from_the_furthest_on(ib, counts):
    found = own(lamps((20.0, 1.0, None), (50.0, 2.0, None), load=ib))

    assert found == pytest.approx(Z_1_5 * counts)


def test_a_load_without_a_place_is_at_the_far_end():
    assert own(lamps((None, 2.0, None))) == pytest.approx(Z_1_5 * 60 * 2)


def test_a_branch_to_a_lamp_counts_with_its_own_load():
    assert own(lamps((20.0, 1.0, 10.0))) == pytest.approx(Z_1_5 * 30)


def test_a_load_in_watts_is_the_same_as_its_current():
    one = lamps((60.0, None, None))
    one["points"][0]["power"] = 0.23
    assert own(one) == pytest.approx(Z_1_5 * 60)
    assert expected(job(circuits=[one])).design[PLACE, What.IB].value == pytest.approx(1.0)


def test_sockets_can_still_take_all_of_in_and_the_rest_is_at_the_far_end():
    points = [{"id": "P1", "at": 5.0, "load": 8.0}]
    one = circuit(device=device(rating=20.0), points=points)

    assert own(one) == pytest.approx(Z_2_5 * (5 * 8 + 20 * 12))


def test_lamps_without_loads_of_their_own_show_what_they_would_give_shared_alike():
    found = drop(lamps((20.0, None, None), (40.0, None, None), (60.0, None, None), load=3.0))

    assert found.low == pytest.approx(FEED_25 + Z_1_5 * (20 + 40 + 60))
    assert drop(lamps((60.0, None, None), load=3.0)).low is None
    assert drop(lamps((20.0, None, None), (None, None, None), load=3.0)).low is None


# Rings: 2.5 mm², 40 m; feed at 32 A, the ring's own Ib.
FEED_32 = 7.9e-3 * 30 * 32


def ring_own(points, **more):
    found = drop(ring(points=points, **more))
    return found.value - 7.9e-3 * 30 * max(more.get("load", 32.0), 25.0)


def test_a_spur_adds_the_drop_of_its_own_length():
    """20 A half way round, 12 A spread, and 20 A along 8 m of spur half way round."""
    found = ring_own([{"id": "P1", "at": 20.0, "spur": 8.0}])

    assert found == pytest.approx(Z_2_5 * (40 * (20 / 4 + 12 / 8) + 8 * 20))


@pytest.mark.parametrize(("spur", "worst"), [(1.0, "half way"), (20.0, "spur")])
def test_a_spur_near_the_board_counts_only_where_it_is_the_worst(spur, worst):
    """At 4 of 40 m: x (1 - x) = 0.09."""
    at_spur = Z_2_5 * (40 * 0.09 * (20 + 12 / 2) + spur * 20)
    half_way = Z_2_5 * 40 * 0.25 * (20 + 12 / 2)

    found = ring_own([{"id": "P1", "at": 4.0, "spur": spur}])

    assert found == pytest.approx(at_spur if worst == "spur" else half_way)


def test_a_spur_without_a_place_is_half_way_round():
    found = ring_own([{"id": "P1", "spur": 8.0}])

    assert found == pytest.approx(Z_2_5 * (40 * (20 / 4 + 12 / 8) + 8 * 20))


def test_the_loads_of_a_ring_are_taken_where_they_are():
    """10 A at a quarter and 10 A at three quarters: at each 40 m · (0.1875 + 0.0625) · 10 A."""
    points = [{"id": f"P{n}", "at": at, "load": 10.0} for n, at in ((1, 10.0), (2, 30.0))]

    assert ring_own(points, load=20.0) == pytest.approx(Z_2_5 * 40 * 10 * 0.25)


# Zs of a ring: r1 + r2 of 2.5 with 1.5 mm² at 70 °C.
HOT = (7.41 + 12.1) / 1000 * (1 + 0.00393 * 50)
"""[Ω/m] IEC 60228 and α = 0.00393 (read in a secondary copy)."""


@pytest.mark.parametrize(
    ("at", "spur", "metres"),
    [
        (20.0, 5.0, 10 + 5),
        (4.0, 5.0, 10.0),  # 0.09 × 40 + 5 m is less than half way round
        (4.0, 6.4, 10.0),
        (4.0, 6.5, 0.09 * 40 + 6.5),
        (36.0, 12.0, 0.09 * 40 + 12),
        (None, 5.0, 10 + 5),
    ],
)
def test_zs_takes_each_spur_at_its_own_place(at, spur, metres):
    """R1+R2 at x of a ring: (r1 + r2) · x · (1 - x), the spur's own on top (worked out)."""
    one = ring(points=[{"id": "P1", "at": at, "spur": spur}])

    found = expected(job(circuits=[one])).design[PLACE, What.R1_R2]

    assert found.value == pytest.approx(HOT * metres, rel=1e-3)


@pytest.mark.parametrize(
    ("at", "branch", "metres"),
    [(5.0, 14.0, 20.0), (5.0, 15.0, 20.0), (5.0, 16.0, 21.0), (None, 4.0, 24.0)],
)
def test_a_branch_off_a_radial_counts_where_it_reaches_further_than_the_cable(at, branch, metres):
    """20 m of 2.5 with 1.5 mm², and a branch: the far point is the end of the longer way."""
    one = circuit(points=[{"id": "P1", "at": at, "spur": branch}])
    found = expected(job(circuits=[one])).design

    assert found[PLACE, What.R1_R2].value == pytest.approx(HOT * metres, rel=1e-3)
    assert found[PLACE, What.VOLT_DROP].value == pytest.approx(FEED_32 + Z_2_5 * metres * 32)


@pytest.mark.parametrize(("fuse", "through"), [(None, 20.0), (13.0, 13.0), (3.0, 3.0)])
def test_a_fused_spur_carries_no_more_than_its_fuse(fuse, through):
    found = ring_own([{"id": "P1", "at": 20.0, "spur": 8.0, "fuse": fuse}])

    assert found == pytest.approx(Z_2_5 * (40 * (20 / 4 + 12 / 8) + 8 * through))
