"""How often a key has the screen laid out and painted: counts, which no other program disturbs.

With each paint every widget in sight draws all its lines, changed or not, unless it keeps them: the
fewer do, the sooner it is done. Two layouts or paints for one key are seen one after the other:
Textual waits a frame between them. So a key should take one of each at most, and a character that
changes no line no layout. A verdict that comes after a character is one paint more.
"""

from __future__ import annotations

import asyncio
import tempfile
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from textual.app import App
from textual.screen import Screen
from textual.widget import Widget

from records.demo import demo_record
from records.store.file import RecordFile
from records.terms import Step
from tests.tui.driving import wizard

_WALKS: tuple[tuple[str, Step, Sequence[str], Sequence[str]], ...] = (
    ("form, down", Step.JOB, (), ["down"] * 12),
    ("form, up", Step.JOB, ["down"] * 12, ["up"] * 12),
    ("form with choices, down", Step.ORIGIN, (), ["down"] * 8),
    ("form, a character", Step.JOB, (), ["x", "backspace"] * 4),
    ("bench, down", Step.DEAD_TESTS, ("enter", "enter", "down"), ["down"] * 8),
    ("bench, a digit", Step.DEAD_TESTS, ("enter", "enter"), ["7", "backspace"] * 4),
    ("grid, up", Step.DEAD_TESTS, ("enter", "enter", "f9"), ["up"] * 8),
)
"""What is done, the step, the keys that lead there, and those that are counted."""

_WHAT = "layouts", "paints", "widgets drawn"


def _counted(count: Counter[str]) -> None:
    lay_out: Any = Screen._refresh_layout
    paint: Any = App._display

    def laid_out(self: Any, *more: Any, **named: Any) -> Any:
        count["layouts"] += 1
        return lay_out(self, *more, **named)

    def painted(self: Any, *more: Any, **named: Any) -> Any:
        count["paints"] += 1
        return paint(self, *more, **named)

    draw: Any = Widget.render_lines

    def drawn(self: Any, *more: Any, **named: Any) -> Any:
        count["widgets drawn"] += 1
        return draw(self, *more, **named)

    Widget.render_lines = drawn  # type: ignore[method-assign]
    Screen._refresh_layout = laid_out  # type: ignore[method-assign]
    App._display = painted  # type: ignore[method-assign]


async def _run() -> None:
    count: Counter[str] = Counter()
    _counted(count)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "demo.farboard"
        RecordFile.create(path, demo_record()).close()
        for number, (name, step, before, keys) in enumerate(_WALKS):
            async with wizard(path, Path(folder) / str(number), begin=step) as driver:
                await driver.keys(*before)
                count.clear()
                await driver.keys(*keys)
                each = {what: count[what] / len(keys) for what in _WHAT}
                told = ", ".join(f"{value:.2f} {what}" for what, value in each.items())
                print(f"{name:24} {told} a key")


def main() -> None:
    """Print how often each kind of key lays out and paints."""
    asyncio.run(_run())


if __name__ == "__main__":
    main()
