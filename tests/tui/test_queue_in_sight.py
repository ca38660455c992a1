"""The reading in hand is always among those that the bench's list shows."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.containers import Vertical

from records.judgement.review_types import Review
from records.taking.queue import Order, queue
from records.terms import Stage
from tests.taking.job import small_job
from tests.tui.rest import at_rest
from tui.look import DARK, THEMES
from tui.widgets.reading_queue import ReadingQueue

LINE = queue(small_job(), Review(()), Stage.DEAD, Order.BY_TEST)


class Bench(App[None]):
    """The list alone, of a height that can change."""

    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = DARK

    def compose(self) -> ComposeResult:
        with Vertical():
            yield ReadingQueue(id="list")


def in_sight(shown: ReadingQueue) -> bool:
    return shown.current in shown.window and len(shown.window) <= shown.size.height


async def test_it_is_in_sight_however_low_the_list_becomes() -> None:
    app = Bench()
    async with app.run_test(size=(60, 24)) as pilot:
        at_rest(pilot)
        shown = app.query_one(ReadingQueue)
        for at in (0, len(LINE.entries) // 2, len(LINE.entries) - 1):
            shown.show(LINE, at)
            for height in (15, 6, 3, 2, 9, 3):
                shown.styles.height = height
                await pilot.pause()
                assert shown.size.height == height
                assert in_sight(shown), f"{at}: {height} lines, {shown.window}"

        shown.styles.height = 6
        shown.show(LINE, 0)
        shown.show(LINE, len(LINE.entries) - 1)
        await pilot.pause()
        assert in_sight(shown), "from the first to the last at once"


async def test_it_is_in_sight_at_once_when_the_list_opens_and_the_card_takes_its_room() -> None:
    app = Bench()
    live = queue(small_job(), Review(()), Stage.LIVE, Order.BY_TEST)
    async with app.run_test(size=(60, 24)) as pilot:
        at_rest(pilot)
        shown = app.query_one(ReadingQueue)
        for height in (2, 3, 5):
            for at in (len(LINE.entries) - 1, 0, len(LINE.entries) // 2):
                shown.show(live, 0)
                shown.styles.height = 20
                await pilot.pause()
                shown.show(LINE, at)
                shown.styles.height = height  # no paint between the two
                await pilot.pause()
                assert in_sight(shown), f"{height} lines, {at} in {shown.window}"
