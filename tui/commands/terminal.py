"""What the terminal can show, and whether there is one."""

from __future__ import annotations

import codecs
import os
import sys

from records.errors import FarboardError

_PLAINER = {
    "Ω": "ohm",
    "²": "2",
    "°": "deg ",
    "Δ": "d",
    "✓": "ok",
    "✗": "x",
    "·": "-",
    "–": "-",
    "—": "-",
    "−": "-",
    "→": "->",
    "×": "x",
    "“": '"',
    "”": '"',
    "’": "'",
    "…": "...",
    "§": "section ",
    "α": "alpha",
    "θ": "theta",
    "√": "sqrt",
    "μ": "u",
    "µ": "u",
    "≤": "<=",
    "≥": ">=",
}


def settle_streams() -> None:
    """Let output reach a terminal that lacks a sign of the trade: Ω comes out as ohm."""
    _fill_gaps()
    codecs.register_error("farboard", _plainer)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="farboard")


def _fill_gaps() -> None:
    """Where a standard stream was closed, let the next file that is opened not take its place."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)


def colour_wanted() -> bool | None:
    """Return False where the person asked for no colour (NO_COLOR), else None: as it fits."""
    return False if os.environ.get("NO_COLOR") else None


def lacking() -> str:
    """Return why nobody could see the wizard or type into it here; empty if they can."""
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout)):
        return (
            "The wizard needs a terminal to show itself in and to be typed into; here, input or "
            "output goes elsewhere. These work without one: bench --plain, check, explain, "
            "readings, schedule, verify, history, export, import, schema, rescue, serve, sources."
        )
    if sys.stderr is None or not sys.stderr.isatty():
        return "The wizard draws where errors go, and those go into a file here: leave 2> out."
    return ""


def need_terminal() -> None:
    """Refuse to start the wizard where nobody could see it or type into it.

    Raises:
        FarboardError: If input or output is no terminal.
    """
    if why := lacking():
        raise FarboardError(why)


def _plainer(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    given = error.object[error.start : error.end]
    return "".join(_PLAINER.get(char, "?") for char in given), error.end
