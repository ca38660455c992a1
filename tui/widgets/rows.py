"""What a form is made of: fields to fill, lists to open, things to do, words to read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.entering.field import Field, Kind
from tui.look import Tone


@dataclass(frozen=True, slots=True)
class Link:
    """An item of a list, or a page of the step, to be opened."""

    key: str
    label: str
    summary: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Act:
    """Something to do."""

    key: str
    label: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Heading:
    """A line over a group of rows."""

    text: str


@dataclass(frozen=True, slots=True)
class Note:
    """Words to read where they matter: a caution, or what is still missing."""

    text: str
    tone: Tone = "plain"


Stop = Field | Link | Act
"""A row that the cursor stops at."""
Row = Stop | Heading | Note


def stops(rows: Sequence[Row]) -> list[int]:
    """Return which of some rows the cursor can stand on."""
    return [at for at, row in enumerate(rows) if isinstance(row, Stop)]


def key_at(rows: Sequence[Row], at: int) -> str:
    """Return the key of a row; none if the cursor can't stand there."""
    row = rows[at]
    return row.key if isinstance(row, Stop) else ""


def first_stop(rows: Sequence[Row]) -> int:
    """Return the row that a page begins at: a line of shorthand stands above it, one ↑ away."""
    there = stops(rows)
    fields = ((at, rows[at]) for at in there)
    plain = (at for at, row in fields if not (isinstance(row, Field) and row.kind is Kind.LINE))
    return next(plain, there[0] if there else -1)


def line_at(rows: Sequence[Row]) -> int | None:
    """Return the row of the page's line of shorthand; None if it has none."""
    found = (at for at, row in enumerate(rows) if isinstance(row, Field) and row.kind is Kind.LINE)
    return next(found, None)
