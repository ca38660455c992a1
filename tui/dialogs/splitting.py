"""Splitting a circuit until the bad length of cable is found: one question after the other."""

from __future__ import annotations

from textual.app import App
from textual.content import Content

from records.judgement.fabric.bisection import (
    HOW_TO_SPLIT,
    NONE_TO_SPLIT,
    Doubt,
    found_words,
    in_doubt,
)
from records.model.record import Record
from tui.dialogs.choose import Choose
from tui.dialogs.reader import Reader


def ask_split(app: App[None], record: Record) -> str:
    """Ask which circuit is bad, then where to split it; return why that can't be done, or nothing.

    Args:
        app: Where the questions are shown.
        record: The job.
    """
    found = in_doubt(record)
    if not found:
        return NONE_TO_SPLIT
    names = [f"{each.circuit.id} {each.circuit.name}".strip() for each in found]

    def chosen(at: int | None) -> None:
        if at is not None:
            _split(app, record, found[at])

    app.push_screen(Choose("Which circuit reads bad?", names), chosen)
    return ""


def _split(app: App[None], record: Record, doubt: Doubt) -> None:
    where = doubt.split
    if where is None:
        app.push_screen(Reader("Where to look", [Content(found_words(record, doubt))]))
        return

    def taken(at: int | None) -> None:
        left = doubt.answered(at)
        if left is not None:
            _split(app, record, left)

    title = f"Split {doubt.circuit.id} at {where[0]}"
    app.push_screen(Choose(title, doubt.answers, text=HOW_TO_SPLIT), taken)
