"""What a value that is typed would do to the checks, before it is accepted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from records.options.check_changes import changed_checks
from tui.dialogs.reader import Reader
from tui.look import style

if TYPE_CHECKING:
    from textual.screen import Screen

    from records.session import Ops, Session


def changes(screen: Screen[None], session: Session, label: str, ops: Ops) -> None:
    """Show the checks that changes of the record would change; nothing is kept.

    Args:
        screen: What it is shown over.
        session: The opened record.
        label: Of the field in which it is typed.
        ops: As Enter would make them.
    Raises:
        BadRecord: If the record would not hold together.
    """
    found = changed_checks(session.record, session.tried(ops))
    blocks = [Content("Not kept yet: Esc closes this, Enter in the field keeps it.")]
    for each in found:
        text = Content(str(each))
        blocks.append(text.stylize(style("bad")) if each.is_worse else text)
    if not found:
        blocks.append(Content("No check of the design changes."))
    screen.app.push_screen(Reader(f"{label}: what it would do", blocks))
