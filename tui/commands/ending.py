"""How a command ends: its exit code, and a sentence in place of a traceback, whatever happened."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import NoReturn

from records.errors import FarboardError, NotWritten
from tui.commands.trouble import ReaderGone

CANNOT = 2
"""What was asked for can't be done as things are."""
LOST = 4
"""The output could not be written."""
FAULT = 5
"""Farboard itself failed."""
INTERRUPTED = 130
"""Ctrl+C: 128 and the number of the signal, as shells count it (POSIX, "Exit Status")."""

CODES = (
    "Exit codes: 0 done, and nothing to deal with; 1 findings, or the record has gone on; "
    "2 what was asked for can't be done or read; 3 another record; 4 the output could not be "
    "written; 5 Farboard has crashed; 6 the text of a document differs from its record; "
    "130 left by Ctrl+C."
)


def ending(act: Callable[[], int]) -> NoReturn:
    """Do something and end the program with the code that it returns, or that its failing has.

    Raises:
        SystemExit: Always.
    """
    try:
        code = _tried(act)
        _flush()
    except NotWritten as error:
        _drop_output()
        # Whoever reads only the first lines has no need to be told; the code still says it.
        code = LOST if isinstance(error, ReaderGone) else _failed(str(error), LOST)
    sys.exit(code)


def _tried(act: Callable[[], int]) -> int:
    try:
        return act()
    except NotWritten:
        raise
    except FarboardError as error:
        return _failed(str(error), CANNOT)
    except KeyboardInterrupt:
        return _failed("Left.", INTERRUPTED)
    except Exception as error:
        from tui.crash_report import report

        return _failed(report(error), FAULT)


def _failed(sentence: str, code: int) -> int:
    from tui.commands.output import say

    with suppress(NotWritten):  # where errors can't be written either, the code still says it
        say(f"farboard: {sentence}", err=True)
    return code


def _flush() -> None:
    """See that all printed is out, while something can still be said of it.

    Raises:
        NotWritten: If it is not.
    """
    try:
        if sys.stdout is not None and not sys.stdout.closed:
            sys.stdout.flush()
    except BrokenPipeError:
        raise ReaderGone("Nobody reads the output any more.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise NotWritten(f"The output could not be written completely: {reason}.") from None


def _drop_output() -> None:
    """Let what is still to be written go: at the very end, Python would fail over it again."""
    with suppress(OSError, ValueError, AttributeError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
