"""A typed line taken apart: words, names in quotes, and the commas between them."""

from __future__ import annotations

import re
from dataclasses import dataclass

_RAW = re.compile(
    r'"[^"]*"|“[^”]*”'  # a name in quotes, also as a word processor writes them
    r"|[+-]?[0-9]+(?:[.,][0-9]+){2,}[^\s;,\"“”]*"  # two figures, or none: not guessed
    r"|[+-]?[0-9]+,[0-9][^\s;,\"“”]*"  # a decimal comma belongs to its figure
    r'|[^\s;,"“”]+|[;,"“”]'
)


@dataclass(frozen=True, slots=True)
class Raw:
    """A piece of a line."""

    text: str
    """As typed."""
    start: int
    end: int

    @property
    def is_break(self) -> bool:
        """Whether it is a comma or a semicolon."""
        return self.text in (",", ";")

    @property
    def quoted(self) -> str | None:
        """What stands in quotes; None if it isn't in quotes."""
        if len(self.text) > 1 and self.text[0] in '"“' and self.text[-1] in '"”':
            return self.text[1:-1].strip()
        return None


def split(line: str) -> tuple[Raw, ...]:
    """Return the pieces of a line in their order, breaks too."""
    return tuple(Raw(each.group(), each.start(), each.end()) for each in _RAW.finditer(line))
