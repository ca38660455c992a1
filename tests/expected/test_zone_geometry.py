"""The geometry of zones, held against shapely over generated walls and routes."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, unary_union

from records.expected.formulas.zones import (
    below_top,
    distance,
    inside,
    outside,
    rectangle,
    top_at,
)

pytestmark = pytest.mark.slow

_MM = st.integers(0, 6000).map(float)
_BOXES = st.lists(st.tuples(_MM, _MM, st.integers(10, 900), st.integers(10, 900)), max_size=8)


def _pairs(boxes, width, left, right):
    """The same zones for both: ours, and shapely's polygons."""
    ours = [rectangle(x, y, x + w, y + h, "box") for x, y, w, h in boxes]
    theirs = [Polygon([(x, y), (x + w, y), (x + w, y + h), (x, y + h)]) for x, y, w, h in boxes]
    ours.append(below_top(width, left, right, 150.0, "top"))
    theirs.append(Polygon([(0, left - 150), (width, right - 150), (width, right), (0, left)]))
    return ours, theirs


@settings(max_examples=300, deadline=None)
@given(
    boxes=_BOXES,
    ends=st.tuples(_MM, _MM, _MM, _MM),
    width=st.integers(500, 6000),
    left=st.integers(1800, 3500),
    right=st.integers(1800, 3500),
)
def test_what_lies_in_no_zone_is_as_long_as_shapely_says(boxes, ends, width, left, right):
    """Gaps under 1 mm are rounding for us: one for each zone may go missing."""
    ours, theirs = _pairs(boxes, width, left, right)
    route = LineString([ends[:2], ends[2:]])
    found = outside(ends, ours)

    length = sum(high - low for low, high in found)
    assert length == pytest.approx(
        route.difference(unary_union(theirs)).length, abs=1.0 + len(theirs)
    )


@settings(max_examples=200, deadline=None)
@given(boxes=_BOXES, ends=st.tuples(_MM, _MM, _MM, _MM))
def test_each_stretch_named_lies_outside_every_zone(boxes, ends):
    ours, theirs = _pairs(boxes, 4000, 2400, 2000)
    route, held = LineString([ends[:2], ends[2:]]), unary_union(theirs)
    for low, high in outside(ends, ours):
        middle = route.interpolate((low + high) / 2)
        assert held.buffer(-1e-6).disjoint(middle)


@settings(max_examples=200, deadline=None)
@given(ends=st.tuples(_MM, _MM, _MM, _MM), at=st.tuples(_MM, _MM))
def test_distances_are_those_of_shapely(ends, at):
    theirs = LineString([ends[:2], ends[2:]]).distance(Point(at))

    assert distance(ends, *at) == pytest.approx(theirs, abs=1e-6)


@settings(max_examples=200, deadline=None)
@given(
    box=st.tuples(_MM, _MM, st.integers(1, 900), st.integers(1, 900)),
    ends=st.tuples(_MM, _MM, _MM, _MM),
)
def test_the_part_inside_one_zone_is_that_of_shapely(box, ends):
    x, y, w, h = box
    route = LineString([ends[:2], ends[2:]])
    found = inside(ends, rectangle(x, y, x + w, y + h, "box"))
    theirs = route.intersection(Polygon([(x, y), (x + w, y), (x + w, y + h), (x, y + h)])).length

    ours = 0.0 if found is None else (found[1] - found[0]) * route.length
    assert ours == pytest.approx(theirs, abs=1e-6)


def test_a_top_is_as_high_as_its_slope_says():
    assert top_at(0, 4000, 2400, 2000) == 2400
    assert top_at(4000, 4000, 2400, 2000) == 2000
    assert top_at(1000, 4000, 2400, 2000) == 2300
    assert top_at(1000, 0, 2400, 2000) == 2400
