"""Errors of the command line: one plain sentence, never a traceback."""

from __future__ import annotations

from records.errors import FarboardError, NotWritten


class Trouble(FarboardError):
    """Something in how a command was given that the person can put right."""


class ReaderGone(NotWritten):
    """Who read the output has left, as `head` does."""
