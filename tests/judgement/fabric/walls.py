"""A wall of our own making with one cable behind it, to move one thing at a time."""

from __future__ import annotations

from typing import Any

from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.review_types import Judged
from records.model.fabric import (
    Box,
    Fabric,
    Fixture,
    Frame,
    Leg,
    Mark,
    Spot,
    Surface,
    SurfaceKind,
)
from records.model.record import Record
from tests.judgement.jobs import sound_job

WALL = Surface(
    id="W1",
    name="North wall",
    kind=SurfaceKind.WALL,
    width=4000.0,
    height=2400.0,
    thick=140.0,
    board=12.5,
    screw=30.0,
    frame=Frame.TIMBER,
    centres=600.0,
    frame_depth=95.0,
)
LEVEL = Leg(
    id="L1",
    circuit="C1",
    surface="W1",
    along=500.0,
    up=800.0,
    to_along=2500.0,
    to_up=800.0,
    deep=40.0,
)
SOCKET = Spot(surface="W1", along=2000.0, up=800.0, to=Mark.CENTRE, box=Box.TWO_GANG)


def with_fabric(record: Record, **parts: Any) -> Record:
    return record.model_copy(update={"fabric": Fabric(**parts)})


def wall(**changes: Any) -> Surface:
    return WALL.model_copy(update=changes)


def leg(**changes: Any) -> Leg:
    return LEVEL.model_copy(update=changes)


def socket(**changes: Any) -> Fixture:
    return Fixture(id="X1", name="S9", spot=SOCKET.model_copy(update=changes))


def job(*legs: Leg, surfaces: tuple[Surface, ...] = (WALL,), **parts: Any) -> Record:
    """The sound job with these legs, and a two-gang socket beside the middle of the wall."""
    parts.setdefault("fixtures", (socket(),))
    return with_fabric(parts.pop("record", sound_job()), surfaces=surfaces, legs=legs, **parts)


def judged(record: Record, name: str, place: str = "") -> Judged:
    """Return the line of one check on where things are, of one circuit if several have it."""
    found = [
        each
        for each in review(record, expected(record)).lines
        if each.key.endswith(f"/design/{name}") and place in each.key
    ]
    assert len(found) == 1, [each.key for each in found]
    return found[0]
