"""What was done last, for the report of a crash; never anything that a person typed."""

from __future__ import annotations

from collections import deque
from time import strftime

_steps: deque[str] = deque(maxlen=40)


def note_step(what: str) -> None:
    """Remember what was done.

    Args:
        what: Words of the program, such as the name of a screen.
    """
    _steps.append(f"{strftime('%H:%M:%S')} {what}")


def last_steps() -> tuple[str, ...]:
    """Return what was done last, the latest at the end."""
    return tuple(_steps)
