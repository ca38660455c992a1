"""What a value that is typed would do to the checks, before it is accepted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from records.options.changes import changed_checks
from records.store.edits import put
from tui.dialogs.reader import Reader
from tui.look import style

if TYPE_CHECKING:
    from textual.screen import Screen

    from records.session import Session
    from tui.widgets.rows import Field


def changes(screen: Screen[None], session: Session, field: Field, value: object) -> None:
    """Show the checks that a value would change.

    Args:
        screen: What it is shown over.
        session: The opened record.
        field: Where the value would stand.
        value: As Enter would accept it.
    Raises:
        BadRecord: If the record would not hold together.
    """
    after = session.tried(put(field.pointer, value))
    found = changed_checks(session.record, after)
    blocks = [Content("Not kept yet: Esc closes this, Enter in the field keeps it.")]
    for each in found:
        text = Content(str(each))
        blocks.append(text.stylize(style("bad")) if each.is_worse else text)
    if not found:
        blocks.append(Content("No check of the design changes."))
    screen.app.push_screen(Reader(f"{field.label}: what it would do", blocks))
