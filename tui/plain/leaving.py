"""How the installation is left, asked line by line at the end of the live tests."""

from __future__ import annotations

from records.session import Session
from records.taking.desk import Desk
from records.taking.how_left import (
    BLOCKS,
    KEY,
    NOT_SAID,
    TITLE,
    WHY,
    asks,
    leave,
    left_words,
)
from tui.plain.talk import Talk

_ANSWERS = {"y": True, "yes": True, "n": False, "no": False}


def say_how_left(session: Session, desk: Desk, talk: Talk) -> None:
    """Ask how it is left if something was live; an answer that doesn't come is one not given.

    Raises:
        FarboardError: If it could not be put on disk, or can't be printed.
    """
    if not asks(session.record):
        return
    talk.say(*BLOCKS)
    off = _ANSWERS.get((talk.ask(f"{TITLE} yes or no") or "").strip().casefold())
    if off is None:
        talk.say(NOT_SAID)
        return
    leave(session, desk, off=off, words=talk.ask(KEY if off else WHY) or "")
    talk.say(left_words(session.record))
