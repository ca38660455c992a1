"""Splitting a circuit until the bad length of cable is found: one question after the other."""

from __future__ import annotations

from textual.app import App
from textual.content import Content

from records.judgement.fabric.bisection import Doubt, found_words, whole
from records.model.record import Record
from tui.dialogs.choose import Choose
from tui.dialogs.reader import Reader

_HOW = (
    "Isolated, locked off, proved dead; loads out. Open it, part its cables, test each side: L-N, "
    "L-E, N-E. Nothing is put on record here: enter what you read in the tests."
)


def ask_split(app: App[None], record: Record) -> str:
    """Ask which circuit is bad, then where to split it; return why that can't be done, or nothing.

    Args:
        app: Where the questions are shown.
        record: The job.
    """
    found = [each for each in map(whole, record.circuits) if each is not None]
    if not found:
        return "Enter the lengths of the cable and the distances of the points first (Circuits)."
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
    name, before, after = where
    near, far = doubt.ends
    answers = [
        f"Bad towards {near}: {before:.3g} m",
        f"Bad towards {far}: {after:.3g} m",
        "Both sides read high: it was the joint or what hung on it",
    ]

    def taken(at: int | None) -> None:
        if at in (0, 1):
            _split(app, record, doubt.after(near_is_bad=at == 0))

    app.push_screen(Choose(f"Split {doubt.circuit.id} at {name}", answers, text=_HOW), taken)
