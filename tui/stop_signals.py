"""Being told to stop from outside: heard from the first moment on, and acted on once it is safe.

Before the wizard listens, a signal is only noted. Otherwise it would end the program where the
terminal is half taken over, or with a trace.
"""

from __future__ import annotations

import asyncio
import signal
import sys
from collections.abc import Callable
from types import FrameType

_noted: list[int] = []


def _stops() -> tuple[signal.Signals, ...]:
    if sys.platform == "win32":
        return (signal.SIGINT, signal.SIGTERM)
    return (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)


def note_signals() -> None:
    """Only note from now on that the program was told to stop."""
    for each in _stops():
        if signal.getsignal(each) is not signal.SIG_IGN:  # as nohup wants it
            signal.signal(each, _note)


def told_to_stop() -> bool:
    """Say whether a signal was noted."""
    return bool(_noted)


def listen(act: Callable[[], None]) -> None:
    """Act on signals in the running loop; on one that was noted before, at once.

    Args:
        act: What to do.
    """
    loop = asyncio.get_running_loop()
    for each in _stops():
        if signal.getsignal(each) is signal.SIG_IGN:
            continue
        if sys.platform == "win32":
            signal.signal(each, lambda *_: loop.call_soon_threadsafe(act))
        else:
            loop.add_signal_handler(each, act)
    if _noted:
        loop.call_soon(act)


def _note(number: int, _: FrameType | None) -> None:
    _noted.append(number)
