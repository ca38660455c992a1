"""A whole line of shorthand that somebody typed where a name goes."""

from __future__ import annotations

from tui.widgets.rows import Field, Kind

_WHOLE = 4
"""Things that a text has to say to be a line of shorthand: no name says so many."""


def is_line_in_text(field: Field, text: str) -> bool:
    """Say whether somebody typed a whole line into a name or a place, all of it understood."""
    from records.shorthand.line import Scope, read_line

    owner, _, name = field.pointer.rpartition("/")
    if field.kind is not Kind.TEXT or (name, "/runs/" in owner) not in _TEXTS:
        return False
    line = read_line(text, Scope.RUN if name == "where" else Scope.CIRCUIT)
    said = line.values.keys() - line.implied
    return not line.unknown and not line.queries and len(said) >= _WHOLE


_TEXTS = {("name", False), ("where", True)}
"""Fields of text that a page with a line begins with; whether they are those of a run."""
