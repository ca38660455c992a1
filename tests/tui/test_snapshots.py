"""What each screen says, and that it can be read in the dark, in daylight and without colour.

The text of a screen is kept as a person reads it, so that a change shows in review as the lines
that changed; after a change on purpose `FARBOARD_SNAPSHOTS=write` writes it again. Colour is kept
as no picture but judged: each character that is sent has to stand out from its ground. The plugin
that Textual offers for this keeps SVG: its diffs are unreadable, it accepts any colour that was
accepted once, and it pins a version of another plugin.
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from textual.geometry import Region

from records.terms import Step, Verdict
from tests.tui.driving import NARROW, WIDE, Driver
from tests.tui.legible import Cell, pairs, sent
from tests.tui.seen import SCENES, SNAPSHOTS, Scene, demo, differs, dress, file_of, still, walk
from tui.look import DARK, PAPER, PLAIN
from tui.widgets.verdict_list import VerdictList

SMALL, TOO_SMALL = (60, 20), (47, 13)
AT_OTHERS = ("circuits", "circuit", "caution", "dead_tests", "typed", "grid", "review", "detail")
"""Scenes that are looked at in a wide and in a small window too."""

HALF = next(at for at, each in enumerate(SCENES) if each.step is Step.BEFORE_COVERING)
TEXT = 4.5
"""WCAG 2.1, success criterion 1.4.3 (from memory): text to its ground, at least."""
DRAWN = 3.0
"""WCAG 2.1, success criterion 1.4.11 (from memory): graphics that say something, at least. Rules
between paragraphs and the grid of a picture are order alone, and as faint as they please."""
OF_16 = 2.0
"""With sixteen colours each terminal has its own: no more than "not lost in the ground"."""


@pytest.mark.parametrize("scenes", [SCENES[:HALF], SCENES[HALF:]], ids=["design", "measuring"])
async def test_every_screen_says_the_same_and_is_legible_in_every_look(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, scenes: tuple[Scene, ...]
) -> None:
    wrong: list[str] = []
    looks = [DARK, PAPER, PLAIN]
    async with demo(tmp_path, monkeypatch, NARROW) as driver:
        async for scene, text in walk(driver, scenes):
            wrong += [differs(scene.name, NARROW, text), *_looks(driver, scene.name)]
            for look in looks[1:]:
                dress(driver.app, look)
                other = await still(driver, scene.until)
                wrong += [differs(scene.name, NARROW, other), *_looks(driver, scene.name)]
            looks.reverse()  # a scene begins in the look in which the one before it ended

    assert not any(wrong), "\n".join(filter(None, wrong))


async def test_started_without_colour_it_sends_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wrong: list[str] = []
    async with demo(tmp_path, monkeypatch, NARROW, colour=False) as driver:
        async for scene, text in walk(driver, [each for each in SCENES if each.name == "review"]):
            wrong += [differs(scene.name, NARROW, text), *_looks(driver, scene.name)]
        assert driver.app.theme == PLAIN

    assert not any(wrong), "\n".join(filter(None, wrong))


async def test_wide_and_small_windows_say_what_they_said_wherever_they_stand(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TZ", "Asia/Kathmandu")  # nothing on a screen may follow the machine
    time.tzset()
    wrong = []
    scenes = [each for each in SCENES if each.name in AT_OTHERS]
    sizes = [WIDE, SMALL]
    async with demo(tmp_path, monkeypatch, WIDE) as driver:
        async for scene, text in walk(driver, scenes):
            wrong.append(differs(scene.name, sizes[0], text))
            await driver.pilot.resize_terminal(*sizes[1])
            wrong.append(differs(scene.name, sizes[1], await still(driver, scene.until)))
            sizes.reverse()  # a scene begins in the window in which the one before it ended
    monkeypatch.undo()
    time.tzset()

    assert not any(wrong), "\n".join(filter(None, wrong))


async def test_a_window_too_small_says_how_large_it_has_to_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with demo(tmp_path, monkeypatch, TOO_SMALL) as driver:
        text = await still(driver, "14 lines")

        assert not differs("too_small", TOO_SMALL, text)


def test_no_snapshot_is_kept_that_nothing_looks_at() -> None:
    known = {file_of(each.name, NARROW) for each in SCENES}
    known |= {file_of(each, size) for each in AT_OTHERS for size in (WIDE, SMALL)}
    known.add(file_of("too_small", TOO_SMALL))

    assert {each for each in SNAPSHOTS.rglob("*") if each.is_file()} == known


def test_verdicts_have_words_and_marks_that_tell_them_apart() -> None:
    assert len({each.value for each in Verdict}) == len(Verdict)
    problems = {each.mark for each in Verdict if each.is_finding}
    others = {each.mark for each in Verdict if not each.is_finding}
    assert not problems & others
    assert "" not in problems | others


def _looks(driver: Driver, name: str) -> Iterator[str]:
    """Yield what is wrong with the look of a screen."""
    shown = pairs(driver.app)
    assert shown, name
    rule = driver.app.theme_variables["rule"].casefold()
    for each in shown:
        order = each.is_drawn and each.ink.get_truecolor().hex.casefold() == rule
        least = 0.0 if order else DRAWN if each.is_drawn else TEXT
        if each.contrast < least:
            yield _said(name, each, f"{each.contrast:.2f} to its ground, under {least}")
        if each.contrast_of_16 < (0 if order else OF_16):
            yield _said(name, each, f"with 16 colours {each.contrast_of_16:.2f} to its ground")
    if driver.app.theme == PLAIN:
        for colour in _colours(sent(driver.app)):
            if len(set(colour)) > 1:
                yield f"{name}: {colour} is no grey."
    for each_list in driver.app.screen.query(VerdictList):
        yield from _rows_without_words(driver.screen.splitlines(), each_list.region)


def _said(name: str, cell: Cell, why: str) -> str:
    return f"{name}, line {cell.row + 1}, column {cell.column + 1}: “{cell.text}” has {why}."


def _colours(written: str) -> Iterator[tuple[int, ...]]:
    """Yield every colour that a stream of escape sequences sets, as red, green and blue."""
    for codes in re.findall("\x1b\\[([0-9;]*)m", written):
        plain = re.sub(r"[34]8;2;(\d+);(\d+);(\d+)", "", codes).split(";")
        for each in plain:  # one of the eight or sixteen, or of 256: no grey for sure
            if each and (30 <= int(each) <= 48 or 90 <= int(each) <= 107) and int(each) != 39:
                yield (1, 2, int(each))
        for found in re.findall(r"[34]8;2;(\d+);(\d+);(\d+)", codes):
            yield tuple(map(int, found))


def _rows_without_words(lines: Sequence[str], area: Region) -> Iterator[str]:
    words = "|".join(f"{re.escape(each.mark)} {each.value}" for each in Verdict)
    for whole in lines[area.y : area.bottom]:
        line = whole[area.x : area.right].rstrip()
        if line and not re.match(f"[ ▸]({words})", line):
            yield f"A verdict without its mark and word: {line}"
