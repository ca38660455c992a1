"""What a verdict rests on, beside the value that was said already."""

from __future__ import annotations

import re


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


def parted(why: str) -> tuple[str, str]:
    """Return the sentence on a reading with its expectation and limit, and what the verdict says
    more.

    Args:
        why: As it was judged: `Read 342 ms; limit at most 300 ms. That is too slow.`
    Returns:
        `342 ms; limit at most 300 ms` and `That is too slow.`; the first is empty if `why`
        doesn't begin with a figure that was read.
    """
    found = _READ.match(why)
    return (found[1], why[found.end() :].strip()) if found else ("", why)


# A full stop ends the sentence only before the next one: `d.c.; limit` and `0.8` don't.
_READ = re.compile(r"Read (.+?)\.(?=$| [A-Z“])")


def ended(words: str) -> str:
    """Return words with one full stop at their end: a person may have typed one."""
    return f"{words.rstrip('.')}."
