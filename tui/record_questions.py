"""What is said and asked as a record is opened, can't be opened, or is left half typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from textual.app import App

if TYPE_CHECKING:
    from records.session import Session

_LOOK, _LEAVE = "Open it to look only", "Leave"


def say_it_cannot_be_opened(app: App[Any], why: str, look: Callable[[], None] | None) -> None:
    """Say why a record can't be opened.

    Args:
        app: Shows the question; ends if that is the answer.
        why: The reason, a sentence.
        look: Opens it to look only; None: that is not possible either.
    """
    from tui.dialogs.choose import Choose

    answers = [*([_LOOK] if look is not None else []), "Back to the start screen", _LEAVE]

    def taken(at: int | None) -> None:
        answer = answers[at] if at is not None else ""
        if answer == _LEAVE:
            app.exit()
        elif answer == _LOOK and look is not None:
            look()

    app.push_screen(Choose("This record can't be opened", answers, text=why), taken)


def what_to_know(session: Session | None, trouble: str) -> str:
    """Return what a person has to know as a screen is shown first; empty if nothing.

    Args:
        session: The record just opened, if one is.
        trouble: What is wrong with the settings.
    """
    known = [each for each in (trouble, session.file.remark if session else "") if each]
    if session is not None and session.drafts:
        from records.drafts import draft_words

        typed = draft_words(session.drafts, session.record)
        known.append(f"Typed before and not accepted, still in its field: {typed}.")
    return " ".join(known)


def ask_about_drafts(app: App[Any], typed: str, leave: Callable[[], None]) -> None:
    """Ask before leaving with something typed and not accepted.

    Args:
        app: Shows the question.
        typed: What is typed, and where.
        leave: Leaves.
    """
    from tui.dialogs.choose import Choose

    def taken(at: int | None) -> None:
        if at == 1:
            leave()

    text = (
        f"Typed and not accepted: {typed}. It is not part of the record. If you leave, it "
        "stands in its field as a draft the next time you open the record here."
    )
    app.push_screen(Choose("Leave?", ["Go back to it", _LEAVE], text=text), taken)
