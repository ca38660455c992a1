"""A fault of Farboard itself: the person gets a sentence, a report without their data is kept.

The report says where in the program it happened and on what kind of machine, what was done last,
and nothing of what stands in the record: an error's own words may quote it, so they are left out
unless they speak of code alone.
"""

from __future__ import annotations

import os
import platform
import sys
import traceback
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from rich.text import Text

from records.disk import PRIVATE, private_folder, state_folder, write_whole
from records.text import printable
from tui.last_steps import last_steps

KEPT = 5
"""Reports that are kept; older ones go."""
_OF_CODE = (AttributeError, ImportError, NameError, RecursionError, MemoryError)
"""Errors whose words name parts of the program, never what a person entered."""
_PACKAGES = ("textual", "pydantic", "pydantic_core", "docxtpl", "click")


def telling(error: Exception, folder: Path, record: Path | None) -> Exception:
    """Return the error such that it prints as a plain message.

    Args:
        error: What was raised.
        folder: Where a report is kept, if that can be done.
        record: The record that was open; None if none was.
    """
    text = report(error, folder, record)
    # Textual prints what an exception's __rich__ returns in place of a trace.
    error.__rich__ = lambda: Text(text)  # type: ignore[attr-defined]
    return error


def report(error: BaseException, folder: Path | None = None, record: Path | None = None) -> str:
    """Keep a report of an error and return what to tell the person.

    Args:
        error: What was raised.
        folder: Where; None: where this system keeps what programs remember.
        record: The record that was open; None if none was.
    """
    written = _written(folder, _about(error))
    said = "Farboard has crashed."
    if record is not None:
        said += (
            f" All that you accepted is on disk in {record}. What you had typed and not accepted "
            "is offered again when you open it."
        )
    if written is not None:
        said += (
            f" A report is in {written}: please pass it on. It holds nothing of what you entered."
        )
    else:
        said += f" No report of it could be kept: {type(error).__name__}."
    return printable(said)


def _about(error: BaseException) -> str:
    from importlib.metadata import PackageNotFoundError, version

    def of(package: str) -> str:
        try:
            return f"{package} {version(package)}"
        except PackageNotFoundError:
            return f"{package} as it lies here"

    env = {name: os.environ.get(name, "") for name in ("TERM", "COLORTERM", "LANG", "LC_ALL")}
    lines = [
        f"{datetime.now().astimezone():%Y-%m-%d %H:%M:%S %z}",
        of("farboard"),
        f"Python {platform.python_version()}, {platform.platform()}",
        ", ".join(of(each) for each in _PACKAGES),
        "terminal: " + ", ".join(f"{name}={value}" for name, value in env.items() if value),
        f"size: {_size()}; encoding: {sys.getfilesystemencoding()}",
        "",
        "Last steps:",
        *(last_steps() or ["none"]),
        "",
        *_trace(error),
    ]
    return "\n".join(printable(line) for line in lines) + "\n"


def _trace(error: BaseException) -> Iterator[str]:
    """Yield where an error came from, and what led to it, without the error's own words."""
    seen: set[int] = set()
    at: BaseException | None = error
    while at is not None and id(at) not in seen:
        seen.add(id(at))
        yield f"{type(at).__module__}.{type(at).__qualname__}{_words(at)}"
        for frame in traceback.extract_tb(at.__traceback__):
            yield f"  {_place(frame.filename)}:{frame.lineno} in {frame.name}: {frame.line}"
        at = at.__cause__ or at.__context__
        if at is not None:
            yield "which came from"


def _words(error: BaseException) -> str:
    if isinstance(error, _OF_CODE):
        return f": {error}"
    if isinstance(error, OSError) and error.errno is not None:
        return f": {os.strerror(error.errno)} ({error.errno})"
    return ""


def _place(file: str) -> str:
    """Return the end of a path that says which part of which package; not whose machine it is."""
    parts = Path(file).parts
    for root in ("site-packages", "records", "tui"):
        if root in parts:
            at = len(parts) - 1 - parts[::-1].index(root)
            return "/".join(parts[at + (root == "site-packages") :])
    return parts[-1] if parts else file


def _size() -> str:
    try:
        size = os.get_terminal_size()
    except (OSError, ValueError):
        return "none"
    return f"{size.columns} by {size.lines}"


def _written(folder: Path | None, text: str) -> Path | None:
    try:
        folder = state_folder() if folder is None else folder
        place = folder / "crashes"
        private_folder(folder)
        private_folder(place)
        number = 1 + max((_number(each) for each in place.iterdir()), default=0)
        path = place / f"crash-{number:04} {datetime.now():%Y-%m-%d %H.%M.%S}.txt"
        write_whole(path, text.encode(errors="replace"), mode=PRIVATE, new=True)
        for each in sorted(place.glob("crash-*.txt"), key=_number)[:-KEPT]:
            with suppress(OSError):
                each.unlink()
    except (OSError, ValueError):
        return None
    return path


def _number(path: Path) -> int:
    digits = path.name.removeprefix("crash-").partition(" ")[0]
    return int(digits) if digits.isdecimal() and digits.isascii() else 0
