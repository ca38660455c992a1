"""Puts a text where the person wants it: whole, or not at all; over nothing by accident."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from tui.commands.trouble import Trouble


def check_free(path: Path, *, force: bool) -> None:
    """Refuse to write over a file unless the person said so.

    Raises:
        Trouble: If there is something already.
    """
    from records.store.showing import file_name

    if path.is_dir():
        raise Trouble(f"{file_name(path)} is a folder; name the file in it.")
    if not force and os.path.lexists(path):
        raise Trouble(f"{file_name(path)} is there already; --force writes over it.")


def write_text(path: Path, text: str, *, force: bool) -> None:
    """Write a text to a file, beside its place first and then there in one step.

    Raises:
        Trouble: If it can't be written; what stood there before still does.
    """
    from records.store.showing import file_name

    check_free(path, force=force)
    beside = path.with_name(f".farboard-{secrets.token_hex(6)}")
    try:
        with beside.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise Trouble(f"{file_name(path)} can't be written: {error.strerror}.") from None
