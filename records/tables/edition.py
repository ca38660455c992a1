"""The edition of BS 7671 that the limits come from, and until when it was the text to work to."""

from __future__ import annotations

from datetime import date
from functools import cache

from records.evidence import Source
from records.tables.table import table


@cache
def limits_from() -> str:
    """Return the edition that every limit here comes from, whatever edition a job names."""
    return str(table("edition").printed("limits come from"))


@cache
def current_text() -> str:
    """Return the edition that took its place."""
    return str(table("edition").printed("current text"))


@cache
def current_since() -> date:
    """Return the day on which that one was published."""
    return date.fromisoformat(str(table("edition").printed("current text since")))


@cache
def withdrawn_on() -> date:
    """Return the day on which the edition of the limits was withdrawn."""
    return date.fromisoformat(str(table("edition").printed("withdrawn on")))


def source() -> Source:
    """Return where these days were read."""
    return table("edition").source("withdrawn on")
