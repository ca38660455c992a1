"""The loop as a bar: how much of its limit is source, feed and circuit."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from records.expected.pictures.figure_text import ohms
from records.expected.pictures.loop import LoopBar
from tui.look import style
from tui.widgets.canvas import plain_text

_INKS = (
    ("█", "#", "$primary"),
    ("▒", "=", "$secondary"),
    ("░", "-", "$foreground"),
    ("·", ".", ""),
)
"""What each part is drawn with, in order: sign, plain sign, style."""
_LIMIT = ("┃", "|")
_OVER = ("✗", "X")
_THUMB = ("╎", "'")
_ROOM = 1.12
"""How far the widest bar, or the limit, stands from the right edge."""


def draw_loop(bars: Sequence[LoopBar], width: int, height: int, *, plain: bool = False) -> Content:
    """Return the bars one under another, all to the scale of their own limits.

    Args:
        bars: One or more loops.
        width: In cells.
        height: In cells: where there is room the bars are thicker.
        plain: Whether to do without block characters.
    """
    most = max(1.0, *(each.share for each in bars)) * _ROOM
    thick = 2 if height >= 7 * len(bars) + 1 else 1
    blocks = [_bar(each, width, most, thick, plain) for each in bars]
    return Content("\n\n").join(blocks)


def _bar(bar: LoopBar, width: int, most: float, thick: int, plain: bool) -> Content:
    said = f": {ohms(bar.total)}, {bar.share:.0%} of {_LIMIT[plain]} {ohms(bar.limit)}, "
    head = Content.assemble((f"by the {bar.name}, {bar.state}", "bold"), said + bar.limit_name)
    if bar.share > 1:
        head = Content.assemble(head, (f" {_OVER[plain]} over the limit", style("bad")))
    lines = [head, *[_stretch(bar, width, most, plain)] * thick, _legend(bar, plain)]
    lines.append(Content.styled(f"  {_how(bar)}", style("dim")))
    if bar.rule_of_thumb is not None and bar.rule_of_thumb != bar.limit:
        thumb = f"{_THUMB[plain]} {ohms(bar.rule_of_thumb)} is 0.8 of the table, a rule of thumb"
        lines.append(Content.styled(thumb, style("dim")))
    if bar.note:
        lines.append(Content.styled(f"! {bar.note}", style("warn")))
    if plain:
        lines = [Content.assemble(*_plain(line)) for line in lines]
    # Wrapped here, so that a long line takes from no bar its place.
    return Content("\n").join(part for line in lines for part in line.wrap(max(width, 20)))


def _how(bar: LoopBar) -> str:
    """Return how the parts are known, those that are known alike together."""
    together: dict[str, list[str]] = {}
    for part in bar.parts:
        together.setdefault(part.how, []).append(part.name)
    return "; ".join(f"{' and '.join(names)}: {how}" for how, names in together.items())


def _stretch(bar: LoopBar, width: int, most: float, plain: bool) -> Content:
    cells: list[tuple[str, str]] = [(" ", "")] * width

    def at(value: float) -> int:
        return min(round(value / bar.limit / most * width), width)

    drawn = 0.0
    for part, ink in zip(bar.parts, _INKS, strict=False):
        for cell in range(at(drawn), at(drawn + part.ohms)):
            cells[cell] = (ink[plain], ink[2])
        drawn += part.ohms
    if bar.rule_of_thumb is not None and bar.rule_of_thumb < bar.limit:
        cells[min(at(bar.rule_of_thumb), width - 1)] = (_THUMB[plain], "bold")
    cells[min(at(bar.limit), width - 1)] = (_LIMIT[plain], "bold $warning")
    joined: list[tuple[str, str]] = []
    for text, look in cells:
        if joined and joined[-1][1] == look:
            joined[-1] = (joined[-1][0] + text, look)
        else:
            joined.append((text, look))
    return Content.assemble(*joined)


def _legend(bar: LoopBar, plain: bool) -> Content:
    parts: list[tuple[str, str]] = []
    for part, ink in zip(bar.parts, _INKS, strict=False):
        parts += [(ink[plain], ink[2]), (f" {part.name} {ohms(part.ohms)}   ", "")]
    return Content.assemble(*parts)


def _plain(line: Content) -> list[tuple[str, str]]:
    parts, at = [], 0
    for span in sorted(line.spans, key=lambda each: each.start):
        parts += [
            (line.plain[at : span.start], ""),
            (line.plain[span.start : span.end], span.style),
        ]
        at = span.end
    parts.append((line.plain[at:], ""))
    return [(plain_text(text), str(look)) for text, look in parts if text]
