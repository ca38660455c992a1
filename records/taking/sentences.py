"""What a verdict rests on, beside the value that was said already."""

from __future__ import annotations


def ground(why: str, value: str) -> str:
    """Return the ground of a verdict without its first sentence where that only says the value.

    Args:
        why: As it was judged: `Not correct. It has to be put right.`
        value: What was said just before, such as `not correct`.
    """
    start = ended(value)
    if not why.casefold().startswith(start.casefold()):
        return why
    return why[len(start) :].lstrip(". ")  # a reason may have brought a full stop of its own


def ended(words: str) -> str:
    """Return words with one full stop at their end: a person may have typed one."""
    return f"{words.rstrip('.')}."
