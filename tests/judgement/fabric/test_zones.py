"""Safe zones, held against BS 7671, Regulations 522.6.202 to 204 (read summaries of them).

150 mm at the top and in corners; level with and straight above or below an accessory that can be
seen, from the other side too where the wall is 100 mm or thinner; 50 mm of depth from any face;
30 mA protection beside a zone, never instead of one; earthed covers and earthed armour are exempt.
"""

from __future__ import annotations

import pytest

from records.model.fabric import Box, Cover, Frame, SurfaceKind
from records.model.wiring import Device, Rcd
from records.terms import ArmourEarthed, DeviceKind, Verdict
from tests.judgement.fabric.walls import job, judged, leg, socket, wall
from tests.judgement.jobs import circuit, sound_job

WITHIN, OUTSIDE, OPEN = Verdict.WITHIN, Verdict.OUTSIDE, Verdict.NOT_TAKEN
NO_RCD = {"rcd": Rcd.blank()}
NO_RCBO = {**NO_RCD, "device": Device(kind=DeviceKind.BREAKER_B, rating=32.0, breaking=6.0)}


def verdict(*legs, **parts):
    return judged(job(*legs, **parts), "zone L1").verdict


@pytest.mark.parametrize(
    ("up", "found"),
    [(2250.0, WITHIN), (2249.0, OUTSIDE), (2251.0, WITHIN), (2400.0, WITHIN)],
)
def test_150_mm_below_the_top_is_a_zone(up, found):
    assert verdict(leg(up=up, to_up=up)) is found


@pytest.mark.parametrize(
    ("along", "found"),
    [(149.0, WITHIN), (150.0, WITHIN), (151.0, OUTSIDE), (3849.0, OUTSIDE), (3850.0, WITHIN)],
)
def test_150_mm_from_a_corner_is_a_zone(along, found):
    assert verdict(leg(along=along, to_along=along, up=100.0, to_up=2000.0)) is found


@pytest.mark.parametrize(
    ("up", "found"),
    [(757.0, WITHIN), (756.0, OUTSIDE), (843.0, WITHIN), (844.0, OUTSIDE)],
)
def test_level_with_a_socket_is_as_high_as_its_plate(up, found):
    """A plate 86 mm high (BS 4662) with its centre at 800: 757 to 843."""
    assert verdict(leg(up=up, to_up=up)) is found


@pytest.mark.parametrize(
    ("along", "found"),
    [(1927.0, WITHIN), (1926.0, OUTSIDE), (2073.0, WITHIN), (2074.0, OUTSIDE)],
)
def test_above_and_below_a_socket_is_as_wide_as_its_plate(along, found):
    """A two-gang plate is 146 mm wide (BS 4662) round 2000."""
    assert verdict(leg(along=along, to_along=along, up=0.0, to_up=2400.0)) is found


def test_a_slope_takes_the_zone_at_the_top_with_it():
    """From 2400 down to 2000 over 4000: at 3000 along the top is at 2100, its zone from 1950."""
    slope = wall(height_far=2000.0)
    across = {"along": 3000.0, "to_along": 3001.5}

    assert verdict(leg(up=1955.0, to_up=1955.0, **across), surfaces=(slope,)) is WITHIN
    assert verdict(leg(up=1945.0, to_up=1945.0, **across), surfaces=(slope,)) is OUTSIDE
    assert (
        verdict(leg(up=2300.0, to_up=2300.0, along=200.0, to_along=900.0), surfaces=(slope,))
        is WITHIN
    )


@pytest.mark.parametrize(("thick", "found"), [(100.0, WITHIN), (100.5, OUTSIDE), (None, OUTSIDE)])
def test_points_on_the_other_side_count_in_a_wall_of_100_mm(thick, found):
    """Seen from the other side it is the other way round: 1000 there is 3000 here."""
    here, there = wall(thick=thick), wall(id="W2", name="Store side", other_side="W1", thick=thick)
    box = socket(surface="W2", along=1000.0, up=1500.0, box=Box.ONE_GANG)
    route = leg(along=3000.0, to_along=3000.0, up=200.0, to_up=2200.0, deep=40.0)
    elsewhere = leg(along=1000.0, to_along=1000.0, up=200.0, to_up=2200.0, deep=40.0)

    assert verdict(route, surfaces=(here, there), fixtures=(box,)) is found
    assert verdict(elsewhere, surfaces=(here, there), fixtures=(box,)) is OUTSIDE


def test_a_hidden_joint_box_and_a_door_make_no_zone():
    level = leg(up=800.0, to_up=800.0)

    assert verdict(level, fixtures=(socket(box=Box.JOINT),)) is OUTSIDE
    door = socket(box=None, width=900.0, height=1000.0)
    assert (
        verdict(
            leg(along=100.0, to_along=1500.0),
            fixtures=(door.model_copy(update={"is_opening": True}),),
        )
        is OUTSIDE
    )


@pytest.mark.parametrize(
    ("deep", "found"), [(50.0, WITHIN), (49.9, OUTSIDE), (80.0, WITHIN), (81.0, OUTSIDE)]
)
def test_50_mm_count_from_both_faces(deep, found):
    """In 140 mm, with 10 mm for the cable itself: from 50 to 80 it is 50 from either face."""
    assert verdict(leg(up=500.0, to_up=500.0, deep=deep)) is found


def test_a_depth_in_a_wall_of_unknown_thickness_is_not_deep_yet():
    line = judged(
        job(leg(up=500.0, to_up=500.0, deep=60.0), surfaces=(wall(thick=None),)), "zone L1"
    )

    assert line.verdict is OPEN
    assert "how thick North wall is" in line.next_check


def test_30_ma_alone_replaces_no_zone_and_a_zone_alone_no_30_ma():
    without = circuit(sound_job(), "C1", **NO_RCBO)

    assert verdict(leg(up=500.0, to_up=500.0)) is OUTSIDE
    assert verdict(leg()) is WITHIN
    assert verdict(leg(), record=without) is OUTSIDE


@pytest.mark.parametrize(
    ("rcd", "found"),
    [
        (Rcd(residual=30.0), WITHIN),
        (Rcd(residual=30.1), OUTSIDE),
        (Rcd(residual=30.0, delayed=True), OUTSIDE),
    ],
)
def test_only_30_ma_without_delay_counts(rcd, found):
    assert verdict(leg(), record=circuit(sound_job(), "C1", rcd=rcd)) is found


def test_the_rcd_of_the_board_protects_circuits_and_not_the_feed():
    """A feed of flat cable in a wall: only what stands before it, in the house, protects it."""
    record = circuit(sound_job(), "C1", **NO_RCBO)
    flat = record.circuits[0].runs
    thirty = Rcd(residual=30.0)
    board = record.board.model_copy(update={"rcd": thirty})
    feed = record.feed.model_copy(update={"runs": flat})
    behind = record.model_copy(update={"board": board, "feed": feed})
    before = behind.model_copy(update={"feed": feed.model_copy(update={"rcd": thirty})})

    assert verdict(leg(), record=behind) is WITHIN
    assert verdict(leg(circuit=None), record=behind) is OUTSIDE
    assert verdict(leg(circuit=None), record=before) is WITHIN


@pytest.mark.parametrize("cover", [Cover.PLATE, Cover.CONDUIT])
def test_earthed_metal_needs_no_zone(cover):
    assert verdict(leg(up=500.0, to_up=500.0, cover=cover)) is WITHIN


def test_armour_counts_as_cover_unless_it_is_earthed_nowhere():
    """The feed of the sound job is steel-wire armoured."""
    record = sound_job()
    loose = record.model_copy(
        update={"feed": record.feed.model_copy(update={"armour_earthed": ArmourEarthed.NEITHER})}
    )

    assert verdict(leg(circuit=None, up=500.0, to_up=500.0)) is WITHIN
    assert verdict(leg(circuit=None, up=500.0, to_up=500.0), record=loose) is OUTSIDE


def test_a_metal_frame_asks_for_30_ma_at_any_depth():
    """Regulation 522.6.203."""
    deep, metal = leg(up=500.0, to_up=500.0, deep=60.0), wall(frame=Frame.METAL)
    without = circuit(sound_job(), "C1", **NO_RCBO)

    assert verdict(deep, surfaces=(metal,)) is WITHIN
    assert verdict(deep, surfaces=(metal,), record=without) is OUTSIDE
    assert verdict(deep, record=without) is WITHIN


def test_a_hole_in_a_stud_that_brings_the_cable_nearer_counts():
    from records.model.fabric import Hole, Timber

    hole = Hole(timber=Timber.STUD, at=300.0, size=20.0, deep=95.0, from_face=10.0)
    deep = leg(up=500.0, to_up=500.0, deep=60.0)

    assert verdict(deep) is WITHIN
    assert verdict(deep.model_copy(update={"holes": (hole,)})) is OUTSIDE


def test_what_lies_outside_is_one_finding_with_its_place_in_words():
    """500 to 2500 at 500 up, past the strip of the socket's plate (1927 to 2073)."""
    line = judged(job(leg(up=500.0, to_up=500.0)), "zone L1")

    assert "500 up, from 500 to 2500 along" in line.why
    assert line.harm.words == "damage hidden in the fabric"
    assert "522.6.202" in str(line.source)


def test_a_diagonal_is_outside_where_no_zone_holds_it():
    line = judged(job(leg(up=800.0, to_up=2400.0, along=2000.0, to_along=2500.0)), "zone L1")

    assert line.verdict is OUTSIDE


def test_cable_in_sight_or_on_a_ceiling_has_no_zones():
    for record in (
        job(leg(deep=0.0)),
        job(leg(), surfaces=(wall(kind=SurfaceKind.CEILING),)),
    ):
        with pytest.raises(AssertionError):
            judged(record, "zone L1")


def test_a_wall_without_its_size_asks_for_it():
    line = judged(job(leg(), surfaces=(wall(width=None),)), "zone L1")

    assert line.verdict is OPEN
    assert "width and height" in line.next_check


def test_an_rcbo_whose_residual_current_is_not_entered_is_asked_about():
    """The ring of the sound job is on an RCBO: it has a residual current part for certain."""
    line = judged(job(leg(), record=circuit(sound_job(), "C1", **NO_RCD)), "zone L1")

    assert line.verdict is OPEN
    assert "IΔn" in line.why


def test_a_round_cut_out_of_its_own_size_makes_a_zone_and_a_bare_point_none():
    """68 mm wide round 2000, with no kind of box: 1966 to 2034."""
    upright = {"up": 0.0, "to_up": 2400.0}
    cut = socket(box=None, width=68.0, height=68.0)

    assert verdict(leg(along=1966.0, to_along=1966.0, **upright), fixtures=(cut,)) is WITHIN
    assert verdict(leg(along=1965.0, to_along=1965.0, **upright), fixtures=(cut,)) is OUTSIDE
    bare = socket(box=None)
    assert verdict(leg(along=2000.0, to_along=2000.0, **upright), fixtures=(bare,)) is OUTSIDE


def test_a_feed_behind_an_rcbo_that_isnt_read_asks_for_its_label():
    record = sound_job()
    feed = record.feed.model_copy(
        update={
            "device": Device(kind=DeviceKind.RCBO_B, rating=32.0, breaking=6.0),
            "rcd": Rcd.blank(),
            "runs": record.circuit("C2").runs,
        }
    )
    line = judged(
        job(leg(circuit=None), record=record.model_copy(update={"feed": feed})), "zone L1"
    )

    assert line.verdict is OPEN
    assert "IΔn" in line.why
