"""Runs the wizard. Loads nothing of the command line: the start screen needs none of it."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from records.errors import FarboardError
from tui.commands.ending import FAULT
from tui.commands.terminal import lacking

if TYPE_CHECKING:
    from records.session import Session
    from records.terms import Step


def begun(words: Sequence[str]) -> int | None:
    """Run the wizard if no more is asked for: no word, or one file that will do.

    It does what the command line would, without waiting for that to be loaded.

    Args:
        words: What stands behind `farboard`.

    Returns:
        How it ended; None if it did not run: the command line knows what to do or what to say.
    """
    if len(words) > 1 or "_FARBOARD_COMPLETE" in os.environ or lacking():
        return None
    file = Path(words[0]) if words else None
    if file is not None:
        if words[0].startswith("-") or not file.suffix:
            return None  # an option or a command, even if there is a file of that name
        try:
            check_openable(file)
        except FarboardError:
            return None
    return run(file)


def check_openable(file: Path) -> None:
    """Refuse what is seen at once to be no record; the wizard says the rest.

    Raises:
        FarboardError: With a sentence that says what is wrong.
    """
    from records.store.heading import check_heading, check_is_file

    check_is_file(file)
    check_heading(file, shown=file, unfinished=True, older=True)


def run(
    file: Path | None,
    *,
    read_only: bool = False,
    at: int | None = None,
    begin: Callable[[Session], Step] | None = None,
) -> int:
    """Run the wizard until the person leaves it; return the exit code.

    Args:
        file: The record; None: the start screen.
        read_only: Whether to open it for looking only.
        at: The number of the change after which to look at it; None: as it stands.
        begin: Says at which step of the opened record.
    """
    # Next to nothing of what loading makes is ever let go of: to look through it again and again
    # for what could be is a tenth of the time to the first screen. The app collects from then on.
    gc.disable()
    from tui.stop_signals import note_signals, told_to_stop

    note_signals()
    if file is not None:
        _say_opening(file)
    from tui.app import FarboardApp

    app = FarboardApp(file, read_only, at=at, begin=begin)
    if not told_to_stop():
        app.run()
    return FAULT if app.return_code else 0


def _say_opening(file: Path) -> None:
    """Say where the wizard will be drawn that a record is being opened.

    Plainly, a few milliseconds after the start: a screen of its own would come ten times as late,
    and take a good part of the time that it is seen for.
    """
    from records.text import printable

    with suppress(OSError, ValueError):  # whether the wizard can be drawn there is not for this
        sys.stderr.write(f"Opening {printable(file.name)} …\n")
        sys.stderr.flush()
