"""Two or three designs side by side: what is entered differently, and which checks differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.judgement.differences import differences
from records.judgement.remedy.smallest_change import worse
from records.judgement.review_types import Judged
from records.model.record import Record
from records.options.check_changes import stands
from records.options.edge import checks


@dataclass(frozen=True, slots=True)
class Side:
    """One design in one row."""

    text: str
    check: Judged | None = None
    """The check behind it; None for an input, or where there is no such check."""
    worse: bool = False
    """Whether it is worse there than in the first design."""


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that is not alike in all designs."""

    what: str
    """`Feed, run 1, Line conductor`, or the title of a check."""
    sides: tuple[Side, ...]
    is_check: bool


def compared(records: Sequence[Record]) -> tuple[Row, ...]:
    """Return what differs between designs: inputs first, then checks, those that get worse first.

    Args:
        records: The design as it is, then others of the same job.
    """
    return (*_inputs(records), *_checks(records))


def _inputs(records: Sequence[Record]) -> list[Row]:
    first, others = records[0], records[1:]
    found: dict[str, list[str | None]] = {}
    now: dict[str, str] = {}
    for at, other in enumerate(others):
        for each in differences(first, other):
            now[each.where] = each.before
            found.setdefault(each.where, [None] * len(others))[at] = each.after
    return [
        Row(where, tuple(Side(text) for text in (now[where], *_or_same(after, now[where]))), False)
        for where, after in found.items()
    ]


def _or_same(texts: Sequence[str | None], now: str) -> list[str]:
    return [now if each is None else each for each in texts]


def _checks(records: Sequence[Record]) -> list[Row]:
    each_one = [checks(record) for record in records]
    first = each_one[0]
    rows = []
    for key in dict.fromkeys(key for one in each_one for key in one):
        lines = [one.get(key) for one in each_one]
        texts = [stands(line) for line in lines]
        if len(set(texts)) == 1:
            continue
        title = next(line.title for line in lines if line is not None)
        sides = [
            Side(text, line, at > 0 and line is not None and worse(first.get(key), line))
            for at, (text, line) in enumerate(zip(texts, lines, strict=True))
        ]
        rows.append(Row(title, tuple(sides), True))
    return sorted(rows, key=lambda row: not any(side.worse for side in row.sides))


def taken_over(record: Record, design: Record) -> Record:
    """Return a job with another design's feed, board and circuits; supply and readings stay.

    Args:
        record: The job.
        design: Of the same job, or of one like it.
    """
    parts = {name: getattr(design, name) for name in ("feed", "board", "circuits")}
    return record.model_copy(update=parts)
