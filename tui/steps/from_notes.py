"""Readings entered from the notes of another time: asked once, and shown until it is ended."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.taking.act_names import KEYS
from records.taking.desk import present
from records.taking.notes_time import begin_notes, end_notes, read_when
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
        outcome = end_notes(session)
    else:
        answers = await step.app.push_screen_wait(
            Questions(
                "Entered from notes",
                [Question("Of when are the notes?")],
                words=WORDS,
                check=lambda given: read_when(given[0], present()),
                drafts=session.drafts,
            )
        )
        if not answers:
            return
        outcome = begin_notes(session, answers[0], present(), KEYS)
    step.session_changed()
    step.tell(outcome.words, outcome.tone)
