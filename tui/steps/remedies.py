"""What the review puts on record about a verdict: work done, a reason, a question passed on.

What can be put on record, and what is asked for it, is decided by `records.taking.remedies`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from records.errors import FarboardError
from records.judgement.review_types import Judged
from records.taking.outcome import Outcome
from records.taking.remedies import (
    NOTES,
    Asked,
    check_decision,
    check_work,
    done_about,
    kinds_for,
    record_note,
    record_work,
    remedy_asked,
    what_was_done,
)
from records.taking.typed_work import check_said
from records.terms import WorkKind
from tui.dialogs.pick import Pick
from tui.dialogs.questions import Question, Questions

if TYPE_CHECKING:
    from tui.steps.step import Step


async def ask_remedy(step: Step, current: Judged) -> None:
    """Record what was done about a verdict: which kind of work, what, and when."""
    try:
        asked = remedy_asked(current)
    except FarboardError as error:
        step.tell(str(error), "warn")
        return
    if asked is not Asked.WORK:
        await _note(step, current, asked)
        return
    named = [(each.value, each.words) for each in kinds_for(current)]
    chosen = await step.app.push_screen_wait(Pick("What kind of work was it?", named))
    if chosen is not None:
        await _work_done(step, current, WorkKind(chosen))


async def ask_decision(step: Step, current: Judged) -> None:
    """Pass a verdict to the certifier to decide; it stays a finding."""
    try:
        check_decision(current)
    except FarboardError as error:
        step.tell(str(error), "warn")
        return
    await _note(step, current, Asked.DECISION)


async def _work_done(step: Step, current: Judged, kind: WorkKind) -> None:
    session = step.session
    answers = await step.app.push_screen_wait(
        Questions(
            current.title,
            [Question(what_was_done(kind)), Question("When? A time or a day; Enter: now")],
            words=done_about(kind),
            check=lambda given: check_work(session, current, kind, *given),
            drafts=session.drafts,
        )
    )
    if answers is not None:
        _say(step, lambda: record_work(session, current, kind, *answers))


async def _note(step: Step, current: Judged, asked: Asked) -> None:
    """Ask for a few words and put them on record."""
    session, note = step.session, NOTES[asked]
    answers = await step.app.push_screen_wait(
        Questions(
            current.title,
            [Question(note.question)],
            words=note.words,
            check=lambda given: check_said(given[0]),
            drafts=session.drafts,
        )
    )
    if answers is not None:
        _say(step, lambda: record_note(session, current, asked, answers[0]))


def _say(step: Step, act: Callable[[], Outcome]) -> None:
    try:
        outcome = act()
    except FarboardError as error:
        step.tell(str(error), "bad")
        return
    step.tell(outcome.words, outcome.tone)
