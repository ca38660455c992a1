"""Drawings of surfaces: the SVG is parsed and distances are measured back by its own scale bar."""

from __future__ import annotations

import io
import math
import xml.etree.ElementTree as ET

import pytest
from PIL import Image

from records.document.walls.cut_sheet import cut_pages, cut_text
from records.document.walls.drawing import drawing
from records.document.walls.raster import pdf, png
from records.document.walls.svg import svg
from records.expected.boxes import hole
from tests.document.walls_job import NORTH, walls

_SVG = "{http://www.w3.org/2000/svg}"


def parsed(**more):
    return ET.fromstring(svg([drawing(walls(), NORTH, **more)]).encode())


def of(root, tag, kind):
    return [each for each in root.iter(f"{_SVG}{tag}") if each.get("class") == kind]


def ends(line):
    return tuple(float(line.get(each)) for each in ("x1", "y1", "x2", "y2"))


def long(line):
    x0, y0, x1, y1 = ends(line)
    return math.hypot(x1 - x0, y1 - y0)


@pytest.fixture(scope="module")
def root():
    return parsed()


@pytest.fixture(scope="module")
def mm(root):
    """How many mm of wall one mm of paper is, by the scale bar and its figure."""
    (bar,) = of(root, "line", "scale-bar")
    return float(bar.get("data-name")) / long(bar)


def test_every_leg_is_as_long_on_paper_as_it_is_entered(root, mm):
    drawn = {each.get("data-name"): long(each) * mm for each in of(root, "line", "cable")}
    entered = {each.id: each.length * 1000 for each in walls().fabric.legs}

    assert drawn.keys() == entered.keys()
    for id, length in entered.items():
        assert drawn[id] == pytest.approx(length, abs=0.5), id


def test_the_outline_has_its_width_and_both_heights(root, mm):
    (outline,) = of(root, "polygon", "outline")
    corners = [tuple(map(float, each.split(","))) for each in outline.get("points").split()]
    xs = [x for x, _ in corners]
    (left, low), (_, top_left), (_, top_right), _ = corners

    assert (max(xs) - min(xs)) * mm == pytest.approx(4800, abs=0.5)
    assert (low - top_left) * mm == pytest.approx(2400, abs=0.5)
    assert (low - top_right) * mm == pytest.approx(2100, abs=0.5)
    assert left == min(xs)


def test_boxes_stand_where_they_are_entered_and_their_dimension_lines_reach_them(root, mm):
    (outline,) = of(root, "polygon", "outline")
    corner, floor = map(float, outline.get("points").split()[0].split(","))
    boxes = {
        each.get("data-name"): [tuple(map(float, p.split(","))) for p in each.get("points").split()]
        for each in of(root, "polygon", "box")
    }
    across = {round((ends(each)[0] - corner) * mm) for each in of(root, "line", "dimension-along")}
    upward = {round((floor - ends(each)[1]) * mm) for each in of(root, "line", "dimension-up")}
    for point in walls().circuit("C1").points:
        cut, drawn = hole(point.spot), boxes[point.name]
        xs, ys = zip(*drawn, strict=True)
        assert (min(xs) - corner) * mm == pytest.approx(cut.left, abs=0.5)
        assert (max(xs) - corner) * mm == pytest.approx(cut.right, abs=0.5)
        assert (floor - max(ys)) * mm == pytest.approx(cut.bottom, abs=0.5)
        assert (floor - min(ys)) * mm == pytest.approx(cut.top, abs=0.5)
        assert round(point.spot.along) in across
        assert round(point.spot.up) in upward


def test_only_the_route_outside_the_zones_is_crossed(root):
    assert {each.get("data-name") for each in of(root, "line", "outside")} == {"L7"}


def test_circuits_are_told_apart_without_colour(root):
    looks = {
        (each.get("stroke-width"), each.get("stroke-dasharray"))
        for each in of(root, "line", "sample")
    }

    assert len(looks) == len(of(root, "line", "sample")) == 3
    assert {"C1 Ring", "C2 Radial", "C3 Lights"} <= {each.text for each in root.iter(f"{_SVG}text")}


def test_a_box_on_the_other_side_is_drawn_the_other_way_round(root, mm):
    """5080 outside and 4800 inside have their middle in one place: 1000 there is 3940 here."""
    (outline,) = of(root, "polygon", "outline")
    corner = float(outline.get("points").split()[0].split(",")[0])
    (back,) = of(root, "polygon", "back")
    xs = [float(each.split(",")[0]) for each in back.get("points").split()]

    assert back.get("data-name") == "Lamp <out> & co"
    assert (sum(xs) / 4 - corner) * mm == pytest.approx(3940, abs=0.5)


def test_strips_reach_50_mm_to_each_side_of_a_cable(mm):
    strips = of(parsed(strips=True), "polygon", "strip")
    wide = {
        round((max(xs) - min(xs)) * mm)
        for each in strips
        if (xs := [float(p.split(",")[0]) for p in each.get("points").split()])
    }

    assert len(strips) == len(walls().fabric.legs)
    assert 100 in wide


def test_a_surface_without_a_size_says_what_to_enter():
    bare = NORTH.model_copy(update={"width": None})

    assert "Enter width and height of North wall" in svg([drawing(walls(), bare)])


def test_png_and_pdf_are_pages_of_a4():
    pages = cut_pages(walls(), NORTH)
    image = Image.open(io.BytesIO(png(pages[:1])))

    assert image.size == (2970, 2100)
    assert len({value for _, value in image.convert("L").getcolors(256)}) > 3
    assert pdf(pages).startswith(b"%PDF")
    assert pdf(pages).count(b"/Type /Page\n") == len(pages) == 1


def test_the_cut_out_sheet_says_edges_sides_and_how_deep_the_blade_may_go():
    text = cut_text(walls(), NORTH)
    (row,) = [each for each in text.splitlines() if each.startswith("[ ] S1 ")]

    assert "832.5 – 967.5" in row
    assert "450 – 525" in row
    assert "C1 ←→ 40 deep" in row
    assert "12.5 mm (common practice)" in text
    assert "750 to 850 up: cable of C2 Radial" in text
    far = cut_text(walls(), NORTH, from_far=True)
    (row,) = [each for each in far.splitlines() if each.startswith("[ ] S1 ")]
    assert "3832.5 – 3967.5" in row
    assert "from the other corner" in far
