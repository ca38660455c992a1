"""Text that a person gave: taken as it is, or refused; never cleaned up behind their back."""

from __future__ import annotations

import unicodedata

from records.errors import BadText

LONGEST = 2000
"""Characters a free text may have; a schedule cell can't sensibly carry more."""

_BIDI = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")


def printable(text: str) -> str:
    """Return one line as it can be shown: what moves a cursor or turns text round becomes `�`.

    What `checked_text` takes stays as it is.
    """
    if text.isprintable():
        return text
    return "".join("�" if _is_unfit(each) else each for each in text)


def printable_lines(text: str) -> str:
    """Return several lines as `printable` does one."""
    return "\n".join(map(printable, text.split("\n")))


def checked_text(text: str, longest: int = LONGEST) -> str:
    """Return `text`, stripped of blanks at both ends, if every screen and document can carry it.

    Raises:
        BadText: If it holds control, direction-changing or unpaired surrogate characters, or is
            longer than `longest` characters. The message names the first such character.
    """
    text = text.strip()
    if len(text) > longest:
        raise BadText(f"This text has {len(text):,} characters; {longest:,} is the most.")
    if text.isprintable():  # so nearly all are, and no character need be looked at by itself
        return text
    for at, char in enumerate(text, start=1):
        if _is_unfit(char):
            raise BadText(
                f"Character {at} (U+{ord(char):04X}) is a control character that can't be shown or "
                "printed. Delete it and type the text again, on one line."
            )
    return text


def _is_unfit(char: str) -> bool:
    return unicodedata.category(char) in ("Cc", "Cs", "Cn", "Co", "Zl", "Zp") or char in _BIDI


NOTE_LENGTH = 400
"""Characters of a note, a reason, an answer: a few lines of the schedule."""


def says_something(text: str) -> bool:
    """Whether a text says anything: a dash, a figure or two letters don't."""
    return len(text.strip()) >= 3 and any(each.isalpha() for each in text)
