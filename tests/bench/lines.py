"""A line drawn as `ContentLines` draws it, against what Textual offers to draw one.

Both by the time of the processor, turn about in one run.
"""

from __future__ import annotations

import asyncio
import statistics
import time
from collections.abc import Callable

from textual.app import App, ComposeResult
from textual.content import Content
from textual.strip import Strip
from textual.visual import Visual

from tui.look import DARK, THEMES
from tui.widgets.content_lines import ContentLines

_LINES = (
    Content.assemble(("between  ", "$quiet"), "L and cpc at the furthest point"),
    Content.assemble(("Reading ▸", "bold $primary"), " " * 15, ("= 0.22 Ω", "bold")),
    Content("at least 200 mA, 4–24 V"),
)
_TIMES = 300


class _Alone(App[None]):
    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = DARK

    def compose(self) -> ComposeResult:
        yield ContentLines(id="lines")


def _took(draw: Callable[[int], Strip]) -> float:
    """Return the seconds that a line takes."""
    start = time.process_time()
    for _ in range(_TIMES):
        for at in range(len(_LINES)):
            draw(at)
    return (time.process_time() - start) / _TIMES / len(_LINES)


async def _run(rounds: int) -> None:
    app = _Alone()
    async with app.run_test(size=(80, 24)):
        drawn = app.query_one(ContentLines)
        drawn.put(_LINES)

        def offered(at: int) -> Strip:
            return Visual.to_strips(drawn, _LINES[at], 80, 1, drawn.visual_style)[0]

        for at in range(len(_LINES)):
            assert offered(at).text.rstrip() == drawn.render_line(at).text.rstrip()
        ours, theirs = [], []
        for _ in range(rounds):
            theirs.append(_took(offered))
            ours.append(_took(drawn.render_line))
        own, other = statistics.median(ours), statistics.median(theirs)
        print(f"a line {own * 1e6:.1f} µs, by Textual {other * 1e6:.1f} µs: {own / other:.2f} ×")


def main() -> None:
    """Print the ratio."""
    asyncio.run(_run(9))


if __name__ == "__main__":
    main()
