"""A whole line of shorthand that somebody typed into a field which takes one answer, or a name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.entering.field import Field, Kind

if TYPE_CHECKING:
    from records.shorthand.line import Scope

_ENOUGH, _IN_A_NAME = 3, 4
"""Things that a text has to say to be a line: no answer says so many, and no name."""
_TEXTS = {("name", False), ("where", True)}
"""Fields of text that a page with a line begins with; whether they are those of a run."""


def is_whole_line(text: str, scope: Scope) -> bool:
    """Say whether a text that a field of one answer refused is meant for the line of the page."""
    from records.shorthand.line import read_line

    return len(read_line(text, scope).said) >= _ENOUGH


def is_line_in_text(field: Field, text: str) -> bool:
    """Say whether somebody typed a whole line into a name or a place, all of it understood."""
    from records.shorthand.line import Scope, read_line

    owner, _, name = field.pointer.rpartition("/")
    if field.kind is not Kind.TEXT or (name, "/runs/" in owner) not in _TEXTS:
        return False
    line = read_line(text, Scope.RUN if name == "where" else Scope.CIRCUIT)
    return not line.unknown and not line.queries and len(line.said) >= _IN_A_NAME
