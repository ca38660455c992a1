"""Readings entered from the notes of another time: asked once, and shown until it is ended."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.days import moment_words
from records.taking.desk import present
from records.taking.notes_time import read_when
from tui.dialogs.questions import Question, Questions

if TYPE_CHECKING:
    from tui.steps.step import Step

WORDS = (
    "Both times go on record: when it was taken, and when it was entered. It counts for every "
    "reading, re-tests too, until you press l again. A time such as 14:30, or 20 Nov 11:00."
)


async def ask_notes(step: Step) -> None:
    """Ask of when the notes are, or end it; the head of every screen shows it while it counts."""
    session = step.session
    if session.notes_of is not None:
        session.notes_of = None
        step.session_changed()
        step.tell("Readings count as taken now again.")
        return
    answers = await step.app.push_screen_wait(
        Questions(
            "Entered from notes",
            [Question("Of when are the notes?")],
            words=WORDS,
            check=lambda given: read_when(given[0], present()),
            drafts=session.drafts,
        )
    )
    if answers:
        session.notes_of = read_when(answers[0], present())
        step.session_changed()
        step.tell(f"From notes of {moment_words(session.notes_of)}. l ends it.", "good")
