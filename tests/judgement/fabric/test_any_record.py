"""Whatever a record says of where things are, every answer about it is a text and no crash.

A record may come from another program as JSON: surfaces without a size, legs of nothing, boxes
larger than their wall, ids that are there twice.
"""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from records.document.walls.cut_sheet import cut_pages, cut_text, keep_out_lines
from records.document.walls.drawing import drawing
from records.document.walls.figure import surface_figures
from records.document.walls.plain_words import hiding_places
from records.document.walls.svg import svg
from records.expected.plan import expected
from records.judgement.fabric.cover import safe_to_cover
from records.judgement.review import review
from records.model.circuit import Point
from records.model.fabric import (
    Box,
    Buried,
    Cover,
    Fabric,
    Fixture,
    Frame,
    GroundCover,
    Hole,
    Lagging,
    Leg,
    Mark,
    Spot,
    Surface,
    SurfaceKind,
    Timber,
)
from tests.judgement.jobs import RING, SOUND
from tui.widgets.wall_picture import Seen, picture, words

_across = st.sampled_from((0.0, 0.5, 75.0, 149.9, 150.0, 600.0, 2400.0, 4000.0, 50_000.0))
_thin = st.sampled_from((0.0, 0.1, 12.5, 38.0, 50.0, 95.0, 140.0, 1000.0))
_ids = st.sampled_from(("W1", "W2", "W3"))
_owners = st.sampled_from((None, "C1", "C2", "C9"))


def maybe(values):
    return st.one_of(st.none(), values)


def enums(kind):
    return st.sampled_from(tuple(kind))


_spots = st.builds(
    Spot,
    surface=_ids,
    along=_across,
    up=_across,
    to=enums(Mark),
    box=maybe(enums(Box)),
    width=maybe(st.sampled_from((0.1, 68.0, 10_000.0))),
    deep=maybe(_thin),
    hidden=st.booleans(),
    memory=st.booleans(),
)
_holes = st.builds(
    Hole,
    timber=enums(Timber),
    at=_across,
    size=_thin,
    is_notch=st.booleans(),
    deep=_thin,
    from_face=_thin,
    span=maybe(_across),
    from_support=maybe(_across),
)
_legs = st.builds(
    Leg,
    id=st.sampled_from(("L1", "L2", "L3", "L4")),
    circuit=_owners,
    surface=_ids,
    run=st.integers(0, 2),
    along=_across,
    up=_across,
    to_along=_across,
    to_up=_across,
    deep=maybe(_thin),
    cover=enums(Cover),
    clips=maybe(_thin),
    bend=maybe(_thin),
    holes=st.lists(_holes, max_size=2).map(tuple),
    entered=st.none(),
)
_surfaces = st.builds(
    Surface,
    id=_ids,
    name=st.sampled_from(("", "North wall", "<&> {{ x }}")),
    kind=maybe(enums(SurfaceKind)),
    width=maybe(_across),
    height=maybe(_across),
    height_far=maybe(_across),
    thick=maybe(_thin),
    other_side=maybe(_ids),
    board=maybe(_thin),
    frame=maybe(enums(Frame)),
    centres=maybe(st.sampled_from((0.0, 400.0, 600.0))),
    first_stud=maybe(_across),
    frame_depth=maybe(_thin),
    lagging=maybe(enums(Lagging)),
    foil=maybe(st.booleans()),
    screw=maybe(_thin),
    covered=maybe(st.just(date(2026, 3, 9))),
    memory=st.sampled_from(((), ("board",), ("no such field",))),
)
_buried = st.builds(
    Buried,
    id=st.just("B1"),
    circuit=_owners,
    run=st.integers(0, 2),
    length=st.just(18.0),
    deep=maybe(st.just(0.45)),
    cover=maybe(enums(GroundCover)),
    tape=maybe(st.booleans()),
)
_fabrics = st.builds(
    Fabric,
    surfaces=st.lists(_surfaces, max_size=3).map(tuple),
    fixtures=st.lists(
        st.builds(
            Fixture, id=st.just("X1"), name=st.just("Board"), is_opening=st.booleans(), spot=_spots
        ),
        max_size=2,
    ).map(tuple),
    legs=st.lists(_legs, max_size=5).map(tuple),
    buried=st.lists(_buried, max_size=1).map(tuple),
    dwelling=maybe(st.booleans()),
)


@pytest.mark.slow
@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(_fabrics, st.lists(maybe(_spots), max_size=3))
def test_every_answer_about_any_record_is_a_text(fabric, spots):
    points = tuple(
        Point(id=f"P{at}", name=f"S{at}", at=float(at), spot=spot)
        for at, spot in enumerate(spots, start=1)
    )
    ring = RING.model_copy(update={"points": points})
    record = SOUND.model_copy(
        update={"fabric": fabric, "circuits": (ring, *SOUND.circuits[1:]), "readings": ()}
    )
    verdicts = review(record, expected(record))
    assert all(each.why for each in verdicts.lines)
    assert all(isinstance(each, str) for each in hiding_places(record))
    surface_figures(record)
    for surface in fabric.surfaces:
        answer = safe_to_cover(record, verdicts, surface)
        assert all(each.what for each in answer.first)
        pages = [*cut_pages(record, surface), drawing(record, surface, from_behind=True)]
        assert svg([*pages, drawing(record, surface)]).startswith("<?xml")
        assert cut_text(record, surface, from_far=True)
        assert keep_out_lines(record, surface)
        for behind in (False, True):
            seen = Seen(behind=behind, far=True, zones=True)
            assert picture(record, surface, seen, 76, 18, plain=True)
            assert words(record, surface, seen)
