"""Every error a person can meet, as one tree; each message says what would be right."""

from __future__ import annotations


class FarboardError(Exception):
    """Something a person can put right; the message is shown to them as it stands."""


class BadPlace(FarboardError):
    """A line that says where something is can't be taken as it stands."""


class BadQuantity(FarboardError):
    """What was typed is no figure of the kind asked for."""


class BadText(FarboardError):
    """A text has characters that a screen or a document can't carry, or is too long."""


class NotTabulated(FarboardError):
    """The published table has no such row, and nothing is made up in its place."""


class OutOfRange(FarboardError):
    """A value for which the formula has no meaning."""


class BadRecord(FarboardError):
    """A record, or a change to one, that doesn't hold together."""


class CannotOpen(FarboardError):
    """The file can't be read or written as a record."""


class LookOnly(CannotOpen):
    """The file can't be written now, but it can be opened to look."""


class CannotWrite(FarboardError):
    """The value could not be put on disk; it has not been accepted."""


class NotWritten(CannotWrite):
    """What was to be written did not get there: a full disk, a closed pipe, no permission."""


class StaysOwed(FarboardError):
    """A step back or forth that would hide what has to be answered for safety."""


class BadTemplate(FarboardError):
    """A document template asks for what a record has not, or can't be filled."""
