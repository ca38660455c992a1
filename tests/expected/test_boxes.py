"""Edges of boxes and plates on a surface: zones go by the plate, the saw by the hole.

Plates of 86 mm and 146 × 86 mm: BS 4662. Holes: usual dry-lining boxes (common practice).
"""

from __future__ import annotations

import pytest

from records.expected.boxes import Rect, hole, overlap, plate
from records.model.fabric import Box, Mark, Spot


def spot(box: Box | None, to: Mark = Mark.CENTRE, **more: float) -> Spot:
    return Spot(surface="W1", along=1000.0, up=450.0, to=to, box=box, **more)


@pytest.mark.parametrize(
    ("box", "seen", "cut"),
    [
        (Box.ONE_GANG, (86, 86), (75, 75)),
        (Box.TWO_GANG, (146, 86), (135, 75)),
        (Box.ROUND, (85, 85), (68, 68)),
        (Box.LAMP, (90, 90), (70, 70)),
        (Box.JOINT, (85, 85), (85, 85)),
        (Box.FREE_JOINT, (85, 85), (85, 85)),
        (Box.BOARD, (250, 300), (250, 300)),
        (None, (0, 0), (0, 0)),
    ],
)
def test_a_box_is_seen_as_wide_as_its_plate_and_cut_as_wide_as_its_hole(
    box: Box | None, seen: tuple[int, int], cut: tuple[int, int]
) -> None:
    shown, sawn = plate(spot(box)), hole(spot(box))

    assert (shown.right - shown.left, shown.top - shown.bottom) == seen
    assert (sawn.right - sawn.left, sawn.top - sawn.bottom) == cut
    assert shown.centre == sawn.centre == (1000.0, 450.0)


def test_a_height_is_to_the_middle_or_to_the_underside_of_the_hole() -> None:
    middle, under = hole(spot(Box.ONE_GANG)), hole(spot(Box.ONE_GANG, Mark.UNDERSIDE))

    assert (middle.bottom, middle.top) == (412.5, 487.5)
    assert (under.bottom, under.top) == (450.0, 525.0)
    assert (under.left, under.right) == (962.5, 1037.5)
    shown = plate(spot(Box.ONE_GANG, Mark.UNDERSIDE))
    assert (shown.bottom, shown.top) == (444.5, 530.5)


def test_a_size_of_its_own_counts_and_the_plate_covers_it() -> None:
    wide = spot(Box.ONE_GANG, width=120.0, height=60.0)

    assert hole(wide) == Rect(940.0, 420.0, 1060.0, 480.0)
    assert plate(wide) == Rect(940.0, 407.0, 1060.0, 493.0)


@pytest.mark.parametrize(
    ("other", "over"),
    [
        (Rect(10, 10, 20, 20), (10, 10)),
        (Rect(15, 12, 40, 18), (5, 6)),
        (Rect(20, 10, 30, 20), None),  # side by side
        (Rect(10, 20, 20, 30), None),
        (Rect(19, 19, 30, 30), (1, 1)),
        (Rect(0, 0, 5, 5), None),
    ],
)
def test_two_overlap_where_both_ways_something_is_in_common(
    other: Rect, over: tuple[float, float] | None
) -> None:
    assert overlap(Rect(10, 10, 20, 20), other) == over
    assert overlap(other, Rect(10, 10, 20, 20)) == over
