"""The pictures in the terminal: cells against the physics, words that stand whole, keys."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from rich.cells import cell_len

from records.demo import demo_record
from records.expected.pictures.curve import (
    TIMES,
    FaultPoint,
    TimeCurrent,
    device_curve,
    residual_band,
    time_current,
)
from records.expected.pictures.figure_text import amperes, seconds
from records.expected.pictures.loop import loop_bars
from records.expected.pictures.ring import RingPicture, ring_picture
from records.expected.plan import expected
from records.expected.protection import opening
from records.judgement.doubtful_readings import doubted
from records.judgement.review import review
from records.model.reading import place_of
from records.model.record import Record
from records.model.wiring import Rcd
from records.terms import DeviceKind, Part
from records.units import Ampere, Second
from tests.expected.test_picture import FIXTURES, job
from tui.widgets.canvas import Canvas, Pen, plain_wanted
from tui.widgets.curve import _CURVE, _HELD, curve_words, draw_curve, scales
from tui.widgets.loop_bar import draw_loop
from tui.widgets.ring_curve import draw_ring, ring_words

SMALL = (58, 16)
JOBS = sorted(each.name for each in FIXTURES.iterdir() if each.is_dir())
DEVICES = [
    (DeviceKind.BS_88_2, 32),
    (DeviceKind.BS_88_2, 63),
    (DeviceKind.BS_88_3, 100),
    (DeviceKind.BS_3036, 5),
    (DeviceKind.BS_3036, 30),
    (DeviceKind.BS_1362, 13),
    (DeviceKind.BREAKER_B, 6),
    (DeviceKind.RCBO_B, 32),
    (DeviceKind.BREAKER_C, 16),
    (DeviceKind.BREAKER_D, 40),
]


def of_device(
    kind: DeviceKind, rating: float, *points: FaultPoint, rcd: Rcd | None = None, off: float = 0.4
) -> TimeCurrent:
    return TimeCurrent(
        f"{kind.value}, {rating:g} A",
        device_curve(kind, Ampere(rating)),
        Second(off),
        points,
        None if rcd is None else residual_band(rcd),
    )


def at_current(name: str, kind: DeviceKind, rating: float, current: float) -> FaultPoint:
    found = opening(kind, Ampere(rating), current)[0]
    return FaultPoint(name, Ampere(current), found.latest, found.words, None, "")


def pictured(record: Record) -> list[TimeCurrent]:
    follows = expected(record)
    places = [place_of(Part.FEED), *(place_of(Part.CIRCUIT, x.id) for x in record.circuits)]
    found = (time_current(record, follows, each) for each in places)
    return [each for each in found if isinstance(each, TimeCurrent)]


def ring_of(record: Record) -> RingPicture:
    follows = expected(record)
    against = doubted(review(record, follows))
    found = ring_picture(record, follows, place_of(Part.CIRCUIT, "C1"), against)
    assert isinstance(found, RingPicture)
    return found


# The canvas.


def test_dots_of_a_cell_make_one_braille_character() -> None:
    canvas = Canvas(2, 1)
    canvas.line([(0.25, 0.0), (0.25, 0.99)], Pen("", "|"))
    assert canvas.text == "⡇"


def test_words_lie_over_dots_and_nothing_leaves_the_canvas() -> None:
    canvas = Canvas(6, 2)
    canvas.line([(-5.0, 0.5), (50.0, 0.5)], Pen("", "-"))
    canvas.write(3, 0, "abcdef")
    canvas.write(-2, 1, "xyz")
    canvas.write(0, 7, "far away")
    assert canvas.text.splitlines() == ["⠤⠤⠤abc", "z"]


def test_cells_of_one_style_are_one_stretch() -> None:
    canvas = Canvas(30, 1)
    canvas.line([(0.0, 0.5), (30.0, 0.5)], Pen("bold", "-"))
    assert [style for _, style in canvas.rows()[0]] == ["bold"]


def test_words_beside_a_cell_find_room_until_there_is_none() -> None:
    canvas = Canvas(20, 3)
    found = [canvas.place(9, 1, "label", "", edge=(0, 19)) for _ in range(9)]
    assert found.count(True) == canvas.text.count("label") == 6
    assert not found[-1]


def test_wide_characters_take_two_cells() -> None:
    canvas = Canvas(6, 1)
    canvas.write(0, 0, "織機x")
    assert canvas.text == "織機x"
    assert all(cell_len("".join(text for text, _ in row)) == 6 for row in canvas.rows())


# The curve.


@pytest.mark.parametrize(("kind", "rating"), DEVICES)
@pytest.mark.parametrize("size", [SMALL, (76, 20), (130, 40)])
def test_the_curve_runs_through_the_cells_that_the_physics_says(
    kind: DeviceKind, rating: float, size: tuple[int, int]
) -> None:
    """A current anywhere on the axis: its column is drawn at the time of opening, within a cell."""
    picture = of_device(kind, rating)
    canvas, to = draw_curve(picture, *size), scales(picture, *size)
    low, high = picture.range()
    checked = 0
    for current in np.geomspace(10**low, 0.99 * 10**high, 200):
        latest = opening(kind, Ampere(rating), float(current))[0].latest
        if latest is None or not 10 ** TIMES[0] <= latest <= 10 ** TIMES[1]:
            continue
        column, row = to.cell(float(current), latest)
        near = [
            canvas.pen(x, y)
            for x, y in itertools.product((column - 1, column, column + 1), (row - 1, row, row + 1))
            if 0 <= x < canvas.width and 0 <= y < canvas.height
        ]
        assert _CURVE in near or _HELD in near, (current, latest)
        checked += 1
    assert checked > 20


@pytest.mark.parametrize(("kind", "rating"), DEVICES)
def test_nothing_is_drawn_below_what_is_known_of_a_device(kind: DeviceKind, rating: float) -> None:
    picture = of_device(kind, rating)
    canvas, to = draw_curve(picture, *SMALL), scales(picture, *SMALL)
    first = math.floor(to.x(picture.curve.latest[0][0]))
    drawn = [
        x
        for x, y in itertools.product(range(canvas.width), range(canvas.height))
        if canvas.pen(x, y) in (_CURVE, _HELD)
    ]
    assert min(drawn) >= first


@pytest.mark.parametrize("size", [SMALL, (76, 20), (130, 40)])
@pytest.mark.parametrize("name", JOBS)
def test_every_label_of_every_job_stands_whole(name: str, size: tuple[int, int]) -> None:
    """Labels that overlapped would be broken: none may be, at the smallest size either."""
    for picture in pictured(job(name)):
        canvas = draw_curve(picture, *size)
        lines = canvas.text.splitlines()
        assert len(lines) == size[1]
        assert max(map(cell_len, lines)) <= size[0]
        for point in picture.points:
            assert f"{point.name} {amperes(point.current)}" in canvas.text
        if picture.required is not None:
            assert f"off within {seconds(picture.required)}" in canvas.text
        if picture.rcd is not None:
            assert picture.rcd.name in canvas.text
        for power in range(TIMES[0], TIMES[1] + 1):
            assert any(each.strip().startswith(seconds(10.0**power)) for each in lines)
        low, high = picture.range()
        decades = " ".join(amperes(10.0**each) for each in range(low, high + 1))
        assert " ".join(lines[-1].split()) == decades


@pytest.mark.parametrize(
    ("design", "read"), [(160, 161), (100, 4000), (11, 12), (9000, 9900), (160, 160)]
)
def test_labels_keep_apart_wherever_the_points_are(design: float, read: float) -> None:
    kind, rating = DeviceKind.RCBO_B, 32
    picture = of_device(
        kind,
        rating,
        at_current("design", kind, rating, design),
        at_current("readings", kind, rating, read),
        rcd=Rcd(residual=30),
    )
    words = draw_curve(picture, *SMALL).text
    for name, current in (("design", design), ("readings", read)):
        assert f"{name} {amperes(current)}" in words
    for other in ("off within 0.4 s", "RCD 30 mA: within 40 ms"):
        assert other in words


def test_a_point_stands_on_the_curve_in_its_own_cell() -> None:
    kind = DeviceKind.BS_3036
    picture = of_device(kind, 30, at_current("design", kind, 30, 120.0), off=5.0)
    canvas, to = draw_curve(picture, *SMALL), scales(picture, *SMALL)
    time = picture.points[0].time
    assert time is not None
    column, row = to.cell(120.0, time)
    assert canvas.text.splitlines()[row][column] == "◇"


@pytest.mark.parametrize(("plain", "mark"), [(False, "◈"), (True, "&")])
def test_two_points_in_one_cell_are_both_seen_to_be_there(plain: bool, mark: str) -> None:
    kind = DeviceKind.BS_3036
    near = at_current("design", kind, 30, 120.0), at_current("readings", kind, 30, 120.5)
    picture = of_device(kind, 30, *near, off=5.0)
    time = picture.points[0].time
    assert time is not None
    column, row = scales(picture, *SMALL).cell(120.0, time)

    assert draw_curve(picture, *SMALL, plain=plain).text.splitlines()[row][column] == mark


def test_a_fault_that_nothing_switches_off_stands_at_the_top() -> None:
    kind = DeviceKind.BREAKER_B
    point = at_current("readings", kind, 32, 20.0)
    picture = of_device(kind, 32, point)
    assert point.time is None
    assert "◆" in draw_curve(picture, *SMALL).text.splitlines()[0]
    assert any("may not open at all" in each.plain for each in curve_words(picture))


def test_the_words_under_the_curve_say_what_it_shows() -> None:
    words = "\n".join(each.plain for each in curve_words(pictured(demo_record())[1]))
    assert "RCBO type B, 32 A · must be off within 0.4 s" in words
    assert "between 96 A and 160 A it may trip at once, or not" in words
    assert "by the readings: 250 A at least: within 0.1 s; RCD within 40 ms" in words


def test_everything_can_be_drawn_in_plain_characters() -> None:
    for picture in pictured(demo_record()):
        drawn = draw_curve(picture, *SMALL, plain=True).text
        assert drawn.isascii()
        assert "*" in drawn
        assert "".join(each.plain for each in curve_words(picture, plain=True)).isascii()
    record = demo_record()
    bars = loop_bars(record, expected(record), place_of(Part.CIRCUIT, "C1"))
    assert isinstance(bars, tuple)
    assert draw_loop(bars, *SMALL, plain=True).plain.isascii()
    ring = ring_of(record)
    assert draw_ring(ring, *SMALL, plain=True).text.isascii()
    assert "".join(each.plain for each in ring_words(ring, plain=True)).isascii()


@pytest.mark.parametrize("term", ["linux", "dumb"])
def test_a_terminal_without_braille_gets_plain_characters(
    term: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", term)
    assert plain_wanted()
