"""What the review puts on record about a verdict: work done, a reason, a question passed on."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from records.errors import BadText, FarboardError
from records.judgement.review_types import Judged, slots_of
from records.taking.desk import Desk, desk_for
from records.taking.finding_text import tests_after
from records.taking.typed_work import Work
from records.terms import Verdict, WorkKind
from tui.dialogs.pick import Pick
from tui.dialogs.questions import Answers, Question, Questions

if TYPE_CHECKING:
    from tui.steps.step import Step


async def ask_remedy(step: Step, current: Judged) -> None:
    """Record what was done about a verdict: which kind of work, what, and when."""
    if "earlier tests again" in current.patterns and current.is_finding:
        words = "Say why they are not needed. The schedule prints it with your name."
        if await _note(step, current, "Why?", words, to_decide=False):
            step.tell("On record: not needed, with your reason.", "good")
        return
    if not current.verdict.is_finding or current.verdict is Verdict.NOT_TAKEN:
        step.tell("There is nothing to put right here.", "warn")
        return
    kinds = [each for each in WorkKind if each is not WorkKind.MISREAD or slots_of(current)]
    named = [(each.value, each.words) for each in kinds]
    chosen = await step.app.push_screen_wait(Pick("What kind of work was it?", named))
    if chosen is not None:
        await _work_done(step, current, WorkKind(chosen))


async def _work_done(step: Step, current: Judged, kind: WorkKind) -> None:
    desk = desk_for(step.session, current)
    wrong = kind is WorkKind.MISREAD
    asked = "Why was the first reading wrong?" if wrong else "What was done about it?"
    answers = await step.app.push_screen_wait(
        Questions(
            current.title,
            [Question(asked), Question("When? A time or a day; Enter: now")],
            words=f"{kind.words.capitalize()}. It stands in the schedule beside the reading, "
            "with your name.",
            check=lambda answers: _said_and_timed(desk, current, answers),
            drafts=step.session.drafts,
        )
    )
    if answers is None:
        return
    try:
        at = _timed(desk, current, answers)
        made = desk.remedy(current, answers[0], Work(kind, at))
    except FarboardError as error:
        step.tell(str(error), "bad")
        return
    again = "Press a to test again." if slots_of(current) else "The design decides the rest."
    repeat = tests_after(step.session.record, step.session.review, made)
    then = f" Then repeat {repeat}." if repeat else ""
    step.tell(f"On record. {again}{then}", "good")


async def ask_decision(step: Step, current: Judged) -> None:
    """Pass a verdict to the certifier to decide; it stays a finding."""
    if not current.is_finding:
        step.tell("There is nothing to decide here.", "warn")
        return
    words = "It stays a finding, marked “to decide by the certifier”, with your note beside it."
    if await _note(step, current, "What must the certifier know?", words, to_decide=True):
        step.tell("On record: to decide by the certifier. It stays a finding.", "good")


async def _note(step: Step, current: Judged, asked: str, words: str, *, to_decide: bool) -> bool:
    """Ask for a few words and put them on record; False if they were not given or kept."""
    answers = await step.app.push_screen_wait(
        Questions(
            current.title,
            [Question(asked)],
            words=words,
            check=_said_something,
            drafts=step.session.drafts,
        )
    )
    if answers is None:
        return False
    desk = desk_for(step.session, current)
    try:
        desk.remedy(current, answers[0], to_decide=to_decide)
    except FarboardError as error:
        step.tell(str(error), "bad")
        return False
    return True


def _said_and_timed(desk: Desk, current: Judged, answers: Answers) -> None:
    _said_something(answers)
    _timed(desk, current, answers)


def _timed(desk: Desk, current: Judged, answers: Answers) -> datetime:
    return desk.work(current, f"{WorkKind.OTHER.value}, {answers[1]}").at


def _said_something(answers: Answers) -> None:
    if len(answers[0]) < 3:
        raise BadText("Say it in a few words.")
