"""Where there is no room for all of a text, a sign says so, and no word is cut through."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.app import App, ComposeResult
from textual.content import Content

from records.demo import demo_record
from records.store.file import RecordFile
from tests.tui.driving import blank, wizard
from tests.tui.rest import at_rest, rest
from tui.widgets.cut import Cut, cut
from tui.widgets.drawing import State, draw
from tui.widgets.hint import fitted
from tui.widgets.rows import Link

HINT = "Ask the network operator or the certifier if it is not marked at the intake."
KEYS = "Type y or n, then Enter."


@pytest.mark.parametrize(
    ("width", "height", "shown"),
    [
        (120, 1, f"{HINT} {KEYS}"),
        (60, 2, f"{HINT} {KEYS}"),
        (45, 2, HINT),
        (50, 1, "Ask the network operator or the certifier if … F1"),
        (8, 1, "Ask … F1"),
    ],
)
def test_a_hint_leaves_out_its_keys_then_ends_at_a_word(
    width: int, height: int, shown: str
) -> None:
    found = fitted(HINT, KEYS, width, height)

    assert found.plain == shown
    assert len(found.wrap(width)) <= height


def test_a_row_without_a_hint_has_its_keys() -> None:
    assert fitted("", KEYS, 40, 1).plain == KEYS
    assert fitted("", "", 40, 1).plain == ""


@pytest.mark.parametrize("width", range(34, 100))
def test_a_long_name_never_runs_into_what_is_said_of_it(width: int) -> None:
    name = "House: along the wall of the wash-house, on the north side, behind the water butt"
    drawing = draw([Link("a", name, "6.5 m, flat, 16 mm²", "")], State(), width)
    column = max(line.plain.find("6.5") for line in drawing.lines)

    for line in drawing.lines[:2]:
        assert line.plain[column - 1] == " "
        assert line.cell_length <= width
    told = " ".join(line.plain[:column].strip() for line in drawing.lines)
    assert told == name or (told.endswith(" …") and name.startswith(told.removesuffix(" …")))


class Under(App[None]):
    """A verdict under a field, as high as it needs up to two lines."""

    CSS = "Cut { height: auto; max-height: 2; }"

    def compose(self) -> ComposeResult:
        yield Cut(id="verdict")


async def test_a_verdict_longer_than_its_lines_ends_in_a_sign_at_every_width() -> None:
    app = Under()
    words = "outside: 0.98 Ω is over the limit of 0.80 Ω; look at the joints first"
    async with app.run_test(size=(20, 6)) as pilot:
        at_rest(pilot)
        shown = app.query_one(Cut)
        shown.update(Content(words))
        for width, whole in ((20, False), (50, True), (30, False), (80, True)):
            await pilot.resize_terminal(width, 6)
            await rest(app, timers=True)
            lines = [shown.render_line(at).text.rstrip() for at in range(shown.size.height)]
            told = " ".join(lines).strip()

            assert (told == words) is whole, told
            assert whole or (told.endswith(" …") and words.startswith(told.removesuffix(" …")))


@pytest.mark.parametrize("width", range(6, 40))
@pytest.mark.parametrize("height", [1, 2, 3])
def test_what_is_cut_keeps_its_colours_and_its_width(width: int, height: int) -> None:
    text = Content.assemble(("✗ outside", "bold"), " 0.98 Ω is over the limit of 0.80 Ω")
    whole = text.wrap(width)
    lines = cut(text, width, height).split("\n")

    assert any(span.style == "bold" for span in lines[0].spans)
    if len(whole) > height:
        assert len(lines) == height
        assert lines[-1].plain.endswith(" …")
        assert all(line.cell_length <= max(width, len("outside …")) for line in lines)
    else:
        assert lines == [text]


async def test_a_text_longer_than_its_field_has_a_sign_beside_it(tmp_path: Path) -> None:
    async with blank(tmp_path, step=4) as driver:
        await driver.fill("In the shed, right of the door, behind the third loom")
        await driver.keys("up")
        await driver.settled()
        (line,) = [line for line in driver.screen.splitlines() if "▸ Where" in line]

        assert line.endswith(" …")
        assert "In the shed" in line


async def test_a_verdict_too_long_for_the_strip_ends_in_a_sign_and_runs_lead_back(
    tmp_path: Path,
) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        await driver.keys("f6", "5")
        await driver.settled()
        await driver.keys("down", "down", "down", "enter")
        await driver.settled()
        assert "✗ outside: voltage drop. ΔU 7.33 V" in driver.words
        strip = driver.app.screen.query_one("#strip").region
        assert driver.screen.splitlines()[strip.bottom - 1].endswith(" …")

        await driver.row("1 Beside the feed, then round the drying green")
        await driver.keys("enter")
        await driver.settled()
        await driver.row("‹ back to C4 Flood lights, drying green")
        await driver.keys("enter")
        await driver.settled()
        assert "Circuits › C4 Flood lights, drying green" in driver.words
