"""What stands beside the field before a figure is typed."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from records.taking.card import Card
from records.taking.cautions import Caution
from tui.look import style
from tui.widgets.reading_lines import Row

GO_ON = Content.styled("Enter: I have read this. ↑ ↓: look around first.", "bold")
"""What to do about a caution: not among its lines, as those may scroll."""


def card_rows(card: Card, *, warnings: Sequence[str], brief: bool, due: bool) -> list[Row]:
    """Return how a reading is taken.

    Args:
        card: What is to be taken.
        warnings: What makes it unsafe here and now.
        brief: Whether a grid takes the room that the rest would need.
        due: Whether it is to be taken now: then how comes first, else what was found.
    """
    setting = f", {card.setting}" if card.setting else ""
    head: list[Row] = [
        ("", Content.assemble((card.title, "bold $primary"), "" if brief else f"  {card.test}")),
        *(("", Content.styled(f"! {each}", style("bad"))) for each in warnings),
    ]
    if brief:
        judged = Content.styled("! Judged again: the design changed since.", style("warn"))
        return [*head, ("", judged)] if card.changed else head
    found: list[Row] = [("so far", line) for line in card.before]
    if card.changed:
        found.append(("changed", Content.styled(card.changed, style("warn"))))
    how: list[Row] = [
        ("between", card.between),
        ("with", f"{card.instrument}{setting}"),
        ("first", card.first),
    ]
    return [*head, *how, *found] if due else [*head, *found, *how]


def aim_rows(card: Card) -> list[Row]:
    """Return what the meter should show, and what it must not pass."""
    limit = " · ".join(part for part in (card.limit, card.source) if part)
    return [
        ("expect", Content.styled(card.expect, "bold")),
        ("limit", limit or "none"),
    ]


def caution_rows(caution: Caution) -> list[Row]:
    """Return the rows of a caution that must be read first; `GO_ON` stands under the field."""
    return [
        ("", Content.styled(f"! {caution.title}", style("warn"))),
        *(("", f"• {line}") for line in caution.lines),
    ]
