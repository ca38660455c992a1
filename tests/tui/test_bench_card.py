"""What stands over and under the field of a reading: all of it reachable, none of it cut unseen."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.app import App, ComposeResult
from textual.content import Content
from textual.events import MouseScrollDown

from records.model.reading import Quantity
from records.terms import Step
from tests.tui.at_bench import at, bench, past_cautions, to_slot
from tui.look import DARK, THEMES
from tui.widgets.below_field import below_field
from tui.widgets.bench_card import BenchCard, Face

WIDTH = 20
AIM = [("expect", "0.35 Ω"), ("limit", "at most 0.72 Ω")]


def lines(count: int, name: str) -> list[Content]:
    return [Content(f"{name} {at}") for at in range(count)]


@pytest.mark.parametrize("height", range(1, 9))
@pytest.mark.parametrize("words", range(8))
@pytest.mark.parametrize("typing", [False, True])
def test_what_is_under_the_field_is_always_as_high_and_says_if_it_goes_on(
    height: int, words: int, typing: bool
) -> None:
    shown = below_field(
        lines(words, "word"),
        lines(2, "around"),
        lines(2, "key"),
        WIDTH,
        height,
        typing=typing,
    )
    told = [each.plain for each in shown]
    seen = sum("word" in each for each in told)

    assert len(shown) == height
    assert seen == words or told[seen - 1].endswith(" …")
    assert seen == min(words, height) or "key 1" in told
    assert told.count("around 0") == told.count("around 1") or words == 0
    if not typing and height >= 5:
        assert told[-2:] == ["key 0", "key 1"]


def test_a_verdict_takes_the_place_of_the_keys_only_while_something_is_typed() -> None:
    for typing, keys in ((True, False), (False, True)):
        shown = below_field(lines(5, "word"), [], lines(2, "key"), WIDTH, 5, typing=typing)

        assert any("key" in each.plain for each in shown) is keys


class Alone(App[None]):
    """A card of six lines: its edge, and five to read in."""

    CSS = "BenchCard { height: 6; }"

    def __init__(self) -> None:
        super().__init__()
        self.ends = 0

    def compose(self) -> ComposeResult:
        yield BenchCard(self.end, id="card")

    def end(self) -> None:
        self.ends += 1

    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = DARK

    @property
    def told(self) -> list[str]:
        card = self.query_one(BenchCard)
        return [card.render_line(at).text.strip() for at in range(card.size.height)]


def rows(count: int) -> list[tuple[str, str]]:
    return [("", f"row {at}") for at in range(count)]


@pytest.mark.parametrize(("count", "fits"), [(3, True), (4, False)])
async def test_the_edge_says_if_there_is_more_and_the_aim_stays_in_sight(
    count: int, fits: bool
) -> None:
    app = Alone()
    async with app.run_test(size=(40, 12)) as pilot:
        app.query_one(BenchCard).show(Face(rows(count), AIM, more="w has all"), typing=False)
        await pilot.pause()

        assert ("more: w has all" in app.told[0]) is not fits
        assert bool(app.ends) is fits
        assert app.told[-2:] == ["expect   0.35 Ω", "limit    at most 0.72 Ω"]


async def test_the_wheel_reads_on_and_only_the_end_of_it_counts_as_read() -> None:
    app = Alone()
    async with app.run_test(size=(40, 12)) as pilot:
        card = app.query_one(BenchCard)
        card.show(Face(rows(12), more="PageDown"), typing=False)
        await pilot.pause()
        for first in (3, 6, 7):
            assert app.ends == 0
            card.post_message(MouseScrollDown(card, 1, 3, 0, 0, 0, False, False, False))
            await pilot.pause()
            assert app.told[1] == f"row {first}"

        assert app.ends == 1
        assert app.told[-1] == "row 11"


@pytest.mark.parametrize("typing", [False, True])
async def test_no_letter_is_named_for_more_while_letters_are_typed(typing: bool) -> None:
    app = Alone()
    async with app.run_test(size=(40, 12)) as pilot:
        card = app.query_one(BenchCard)
        card.show(Face(rows(9), more="w has all"), typing=False)
        await pilot.pause()
        card.while_typing(typing)

        assert ("w has all" in app.told[0]) is not typing
        assert " more" in app.told[0]


async def test_what_must_be_in_sight_makes_the_card_higher_and_then_low_again() -> None:
    app = Alone()
    async with app.run_test(size=(40, 24)) as pilot:
        card = app.query_one(BenchCard)
        for least, height in ((8, 11), (1, 6), (60, 13)):
            card.show(Face(rows(60), AIM, least, "w has all"), typing=False)
            await pilot.pause()

            assert card.size.height == height, least


@pytest.mark.parametrize("height", range(3, 9))
async def test_a_low_card_cuts_the_longest_first_and_loses_no_limit(height: int) -> None:
    app = Alone()
    long = [("expect", "0.35 Ω " + "because of this " * 8), ("limit", "at most 0.72 Ω, of a table")]
    async with app.run_test(size=(30, 24)) as pilot:
        card = app.query_one(BenchCard)
        card.styles.height = height
        card.show(Face(rows(1), long, more="w has all"), typing=False)
        await pilot.pause()
        told = " ".join(app.told)

        assert "at most 0.72 Ω" in told
        assert "0.35 Ω" in told or height == 3
        assert " …" in told
        assert len(app.told) == height


@pytest.mark.parametrize("size", [(48, 14), (48, 23), (60, 20), (69, 24), (80, 24), (110, 40)])
async def test_field_and_limit_are_in_sight_in_every_window_and_view(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=size) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1, "C1")
        await past_cautions(driver)
        for view in ("list", "grid"):
            for words in ("Reading ▸", "C1 Bench sockets · r1", "limit", "expect"):
                assert words in driver.words, (view, words)
            await driver.type("9")
            await driver.settled()
            assert "unlikely" in driver.words or "outside" in driver.words, view
            await driver.keys("escape", "f9")
            await driver.settled()


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 20)])
async def test_w_has_all_that_the_card_has_and_what_is_unsafe(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=size) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LE, "C1")
        await past_cautions(driver)
        assert bench(driver).must_read.caution is None
        await driver.type("w")
        await driver.settled()
        told = driver.words
        for _ in range(8):
            await driver.keys("pagedown")
            told += driver.words

        for words in ("How it is taken", "Limit", "By: "):
            assert words in told
