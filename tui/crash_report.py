"""A fault of Farboard itself: the person gets a sentence, the trace goes to a file."""

from __future__ import annotations

import traceback
from pathlib import Path

from rich.text import Text

from records.text import printable


def telling(error: Exception, folder: Path, record: Path | None) -> Exception:
    """Return the error such that it prints as a plain message.

    Args:
        error: What was raised.
        folder: Where its trace is written, if that can be done.
        record: The record that was open; None if none was.
    """
    trace = "".join(traceback.format_exception(error))
    written = _written(folder / "fault.txt", trace)
    said = "Farboard met a fault of its own and had to stop."
    if record is not None:
        said += (
            f" All that you accepted is on disk in {record}; what you had typed and not accepted "
            "is offered again when you open it."
        )
    if written is not None:
        said += f" What happened is in {written}: please pass it on."
    else:
        said += f" What happened: {type(error).__name__}: {error}"
    text = printable(said)
    # Textual prints what an exception's __rich__ returns in place of a trace.
    error.__rich__ = lambda: Text(text)  # type: ignore[attr-defined]
    return error


def _written(path: Path, trace: str) -> Path | None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(trace, encoding="utf-8", errors="replace")
    except OSError:
        return None
    return path
