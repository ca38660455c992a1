"""All that a command prints or writes: shown harmlessly, on disk whole, or said to be lost."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import IO, Any

import click

from records.disk import write_whole
from records.errors import NotWritten
from records.text import printable_lines
from tui.commands.lines import fitted
from tui.commands.trouble import ReaderGone, Trouble


def say(
    text: str = "", *, err: bool = False, nl: bool = True, fg: str | None = None, bold: bool = False
) -> None:
    """Print lines; what in them could move a cursor or turn text round comes out as `�`.

    Args:
        text: One or several lines; names, notes and paths of unknown origin may stand in them.
        err: Whether they go where errors go.
        nl: Whether to end the last line.
        fg: A colour.
        bold: Whether to print in bold.
    Raises:
        NotWritten: If nobody can have read it: a full disk, a closed pipe.
    """
    stream = sys.stderr if err else sys.stdout
    safe = printable_lines(fitted(text, stream))
    if fg or bold:
        safe = click.style(safe, fg=fg, bold=bold)
    _put(stream, lambda: click.echo(safe, file=stream, nl=nl))


def send(text: str) -> None:
    """Send a file's text to standard output as it is: UTF-8, whatever the terminal speaks.

    Raises:
        NotWritten: If it did not get there whole.
    """
    _put(sys.stdout, lambda: click.echo(text.encode(), nl=False))


def check_free(path: Path, *, force: bool) -> None:
    """Refuse a place that no file can go to, and to write over one unless the person said so.

    Raises:
        Trouble: If there is something already, or no folder for it.
    """
    from records.store.showing import file_name

    if path.is_dir():
        raise Trouble(f"{file_name(path)} is a folder; name the file in it.")
    if not path.parent.is_dir():
        raise Trouble(f"There is no folder {file_name(path.parent)}: make it first.")
    if not force and os.path.lexists(path):
        raise Trouble(f"{file_name(path)} is there already; --force writes over it.")


def write_text(path: Path, text: str, *, force: bool) -> None:
    """Write a text to a file: all of it, or nothing.

    Raises:
        Trouble: If there is something already, and it was not said to write over it.
        NotWritten: If it can't be written; what stood there before still does.
    """
    write_bytes(path, text.encode(), force=force)


def write_bytes(path: Path, data: bytes, *, force: bool) -> None:
    """Write bytes to a file: all of them, or nothing.

    Raises:
        Trouble: If there is something already, and it was not said to write over it.
        NotWritten: If it can't be written; what stood there before still does.
    """
    from records.store.showing import file_name

    check_free(path, force=force)
    try:
        write_whole(path, data, new=not force)
    except FileExistsError:
        raise Trouble(f"{file_name(path)} is there already; --force writes over it.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise NotWritten(f"{file_name(path)} can't be written: {reason}.") from None


def _put(stream: IO[Any] | None, act: Any) -> None:
    if stream is None or getattr(stream, "closed", False):
        raise NotWritten("The output goes nowhere: standard output is closed.")
    try:
        act()
    except BrokenPipeError:
        raise ReaderGone("Nobody reads the output any more.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise NotWritten(f"The output could not be written completely: {reason}.") from None
