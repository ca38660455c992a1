"""Surfaces on the screen: lines are typed, the wall is drawn, and it says what is missing."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Stage, Step
from tests.document.walls_job import NORTH, walls
from tests.judgement.fabric.test_cover import sound
from tests.judgement.fabric.test_ring_cables import cables, half_in
from tests.judgement.jobs import at as slot_at
from tests.judgement.jobs import without
from tests.tui.at_bench import at, bench
from tests.tui.driving import NARROW
from tui.dialogs.surfaces import Surfaces
from tui.steps.bench_step import BenchStep
from tui.widgets.wall_picture import Seen, fitting, picture, things

ROWS = (56, 18)


def drawn(record=None, seen=None, size=ROWS, plain=False):
    record = record or walls()
    rows = picture(record, NORTH, seen or Seen(), *size, plain=plain)
    return ["".join(text for text, _ in row) for row in rows]


def test_the_whole_wall_fits_beside_nothing_and_every_box_is_named_with_its_figures():
    rows = drawn()

    assert len(rows) <= ROWS[1]
    assert max(map(len, rows)) <= ROWS[0]
    picture = "\n".join(rows)
    for name in ("Board", "S1", "S2", "S3", "S4", "S5", "L1", "Door"):
        assert name in picture
    for figure in (450, 900, 1400, 1900, 2400, 2900, 4550):
        assert str(figure) in "\n".join(rows[-2:])
    assert any(row.startswith("1900┤") for row in rows)


def test_circuits_are_told_apart_by_their_numbers_and_the_bad_route_by_crosses():
    rows = drawn()
    (bad,) = [row for row in rows if "2" in row and "×" in row]

    assert bad.count("×") >= 3
    assert not any("×" in row for row in rows if row is not bad)
    assert any("─1─" in row for row in rows)


def test_one_circuit_alone_leaves_the_others_out():
    rows = "\n".join(drawn(seen=Seen(circuit="C3")))

    assert "×" not in rows
    assert "S1" in rows
    assert "3" in rows


def test_columns_and_rows_are_to_scale():
    """100 mm a column: S1 at 900 stands in column 9 of the wall, S5 at 4550 in 45."""
    rows = drawn()
    line = next(row for row in rows if "■" in row and "□S4" in row)

    assert line.index("■") - 5 == 9
    assert line.rindex("■") - 5 == 45
    assert fitting(NORTH, *ROWS) == 100


def test_ascii_has_only_ascii():
    assert "\n".join(drawn(plain=True)).isascii()


@pytest.mark.parametrize("size", [(1, 1), (40, 14), (80, 24), (200, 60), (39, 20)])
@pytest.mark.parametrize("scale", [0, 5, 50, 250])
def test_every_size_zoom_and_pan_draws_something(size, scale):
    for column, row in ((0, 0), (10_000, 10_000)):
        rows = drawn(seen=Seen(scale=scale, column=column, row=row, at=3, zones=True), size=size)
        assert rows
        assert max(map(len, rows)) <= size[0]
        assert len(rows) <= max(size[1], 1)


def test_the_cursor_goes_from_left_to_right():
    names = [each.name for each in things(walls(), NORTH)]

    assert names == ["Board", "S1", "S3", "S2", "L1", "S4", "Door", "S5"]


async def test_a_room_is_entered_by_lines_and_drawn(tmp_path: Path) -> None:
    async with at(tmp_path, Step.BEFORE_COVERING, Record()) as driver:
        await driver.keys("s")
        await driver.settled()
        assert "building 5000 x 3000 x 2400" in driver.screen
        await driver.keys("n")
        await driver.fill("building 5000 x 3000 x 2400, fall 300 to south")
        assert len(driver.record.fabric.surfaces) == 5
        await driver.fill("board 1400 up 450 along", "door 3400 to 4200, 2000 high")
        await driver.type("board 1400\n")
        assert "✗" in driver.screen
        await driver.keys("escape")
        await driver.settled()
        assert "North wall, inside" in driver.screen
        assert "Door" in driver.screen
        assert "▓" in driver.screen or "[" in driver.screen
        await driver.keys("ctrl+z")
        assert len(driver.record.fabric.fixtures) == 1


async def test_the_wall_is_whole_without_colour_turned_round_ticked_off_and_says_what_is_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    missing = slot_at(Quantity.IR_LE, "C1", Stage.BEFORE_COVERING)
    record = walls().model_copy(update={"readings": without(missing).readings})
    async with at(tmp_path, Step.BEFORE_COVERING, record, size=NARROW) as driver:
        await driver.keys("s")
        await driver.settled()
        assert isinstance(driver.app.screen, Surfaces)
        for name in ("Board", "S1", "S5", "1 column", "n enter", "v safe to cover?"):
            assert name in driver.screen, driver.screen
        assert "450 along" in driver.words
        await driver.keys("d")
        assert "4350 along from the other corner" in driver.words
        await driver.keys("d", "o")
        assert "from behind" in driver.screen
        assert "4490 along" in driver.words  # North face is 5080 wide: 2540 - (450 - 2400)
        await driver.keys("o", "t", "1")
        await driver.settled()
        assert ": taken." in driver.words, "the drawn length"
        lengths = [run.length for each in driver.record.circuits for run in each.runs]
        assert lengths != [run.length for each in walls().circuits for run in each.runs]
        await driver.keys("ctrl+z")
        lengths = [run.length for each in driver.record.circuits for run in each.runs]
        assert lengths == [run.length for each in walls().circuits for run in each.runs]
        await driver.keys("right", "plus", "shift+right", "0", "z", "3", "a", "tab", "tab")
        assert "North wall" in driver.screen
        while not isinstance(driver.app.screen, BenchStep):
            await driver.keys("escape")

        await driver.keys("s", "c")
        await driver.settled()
        assert "450 – 525" in driver.screen
        assert "Board" not in driver.screen.partition("edges")[2]  # it stands on the face
        await driver.keys("enter")
        await driver.settled()
        assert "[x] S1" in driver.screen
        assert driver.record.circuit("C1").points[0].spot.cut is True, "the tick is on record"
        while not isinstance(driver.app.screen, BenchStep):
            await driver.keys("escape")

        await driver.keys("s", "v")
        await driver.settled()
        assert "NOT YET" in driver.screen
        assert "before the board goes on" in driver.words
        await driver.keys("enter")
        await driver.settled()
        assert bench(driver).entry is not None
        assert bench(driver).entry.slot == missing, "a key away"


async def test_a_wall_is_covered_on_a_day_what_comes_later_is_from_memory_a_bad_length_split(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.BEFORE_COVERING, sound()) as driver:
        await driver.keys("s", "b", "1")
        await driver.settled()
        assert "Split C1 at S3" in driver.screen
        assert "proved dead" in driver.words
        await driver.keys("1")
        await driver.settled()
        assert "Split C1 at S2" in driver.screen
        await driver.keys("2")
        await driver.settled()
        assert "between S2 and S3: 10 m of cable" in driver.words, "closed in by its answers"
        while not isinstance(driver.app.screen, BenchStep):
            await driver.keys("escape")

        await driver.keys("s", "v")
        await driver.settled()
        assert "Safe to cover North wall: YES" in driver.screen
        await driver.keys("2")
        await driver.fill("32 Mar 2026")
        assert "✗" in driver.screen
        await driver.keys("ctrl+a", "ctrl+k")
        await driver.fill("9 Mar 2026")
        await driver.settled()
        assert driver.record.fabric.surfaces[0].covered == date(2026, 3, 9)
        await driver.keys("n")
        await driver.fill("C1 S9 1200 up 3500 along 1g")
        assert "from memory" in driver.words
        await driver.keys("escape", "v")
        await driver.settled()
        assert "covered 9 Mar 2026" in driver.screen
        await driver.keys("end", "enter")
        await driver.settled()
        assert driver.record.fabric.surfaces[0].covered is None


async def test_a_single_cable_of_a_ring_is_a_key_from_its_reading(tmp_path: Path) -> None:
    async with at(tmp_path, Step.BEFORE_COVERING, half_in()) as driver:
        await driver.keys("s", "v", "enter")
        await driver.settled()
        assert bench(driver).entry is not None
        assert bench(driver).entry.slot == cables("P1")
