"""Asks how the installation is left, over whatever screen is there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.app import App

from records.errors import FarboardError
from records.session import Session
from records.taking.desk import Desk
from records.taking.how_left import BLOCKS, KEY, NO, TITLE, WHY, YES, asks, leave
from records.terms import Stage
from tui.dialogs.questions import Answers, Question, Questions
from tui.dialogs.yes_no import YesNo


def ask_first(app: App[Any], session: Session | None, then: Callable[[], object]) -> None:
    """Ask how it is left if somebody has to say so, then go on; Esc stays.

    Args:
        app: Over whose screen it is asked.
        session: The opened record, if any.
        then: What is done afterwards, or at once if nothing has to be said.
    """
    if session is None or session.read_only or not asks(session.record):
        then()
    else:
        _ask(app, session, then)


def _ask(app: App[Any], session: Session, then: Callable[[], object]) -> None:
    def answered(off: bool | None) -> None:
        if off is None:
            return
        app.push_screen(
            Questions("How it is left", [Question(KEY if off else WHY)], drafts=session.drafts),
            lambda answers: kept(off, answers),
        )

    def kept(off: bool, answers: Answers | None) -> None:
        words = answers[0] if answers else ""
        try:
            leave(session, Desk(session, Stage.LIVE), off=off, words=words)
        except FarboardError as error:
            app.notify(str(error), severity="error", markup=False)
            return
        then()

    app.push_screen(YesNo(TITLE, BLOCKS, yes=YES, no=NO), answered)
