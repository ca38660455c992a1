"""What differs between two designs, field by field, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from records.model.kinds import Piece
from records.model.record import Record
from records.model.value_words import value_words

_DESIGN = ("origin", "feed", "board", "circuits")
_OF_JOB = ("edition", "ambient", "instruments")
"""What of the job the verdicts depend on."""
_WORDS = {
    "origin": "Origin",
    "feed": "Feed",
    "board": "Board",
    "device": "device",
    "rcd": "RCD",
    "circuits": "Circuit",
    "runs": "run",
    "points": "point",
    "bonds": "bond",
    "instruments": "Instrument",
}


@dataclass(frozen=True, slots=True)
class Difference:
    """One input that is not what it was."""

    where: str
    """Such as `Circuit C2, run 1, Length`."""
    before: str
    after: str
    circuit: str | None = None
    """Id of the circuit that it belongs to, if it belongs to one."""

    def __str__(self) -> str:
        return f"{self.where}: {self.before} → {self.after}"


def differences(then: Record, now: Record) -> Iterator[Difference]:
    """Yield the design inputs, and those of the job that verdicts depend on, that differ."""
    for name in _OF_JOB:
        yield from _field(then.job, now.job, name, (), None)
    for name in _DESIGN:
        yield from _field(then, now, name, (), None)


def _field(
    then: Piece, now: Piece, name: str, words: tuple[str, ...], circuit: str | None
) -> Iterator[Difference]:
    before, after = getattr(then, name), getattr(now, name)
    if before == after:
        return
    field = type(now).model_fields[name]
    called = field.title or _WORDS.get(name) or name.replace("_", " ")
    if isinstance(before, Piece) and isinstance(after, Piece):
        yield from _piece(before, after, (*words, called), circuit)
    elif isinstance(before, tuple) and isinstance(after, tuple) and _pieces((*before, *after)):
        yield from _list(before, after, (*words, called), circuit, own=name == "circuits")
    else:
        where = ", ".join((*words, called))
        yield Difference(where, value_words(before, field), value_words(after, field), circuit)


def _piece(
    then: Piece, now: Piece, words: tuple[str, ...], circuit: str | None
) -> Iterator[Difference]:
    for name in type(now).model_fields:
        yield from _field(then, now, name, words, circuit)


def _list(
    then: tuple[Piece, ...],
    now: tuple[Piece, ...],
    words: tuple[str, ...],
    circuit: str | None,
    *,
    own: bool,
) -> Iterator[Difference]:
    """Yield what differs between two lists, whose entries are known by id or by their number."""
    before, after = _named(then), _named(now)
    *outer, called = words
    for id in dict.fromkeys((*before, *after)):
        piece = after.get(id) or before[id]
        # A circuit's id is its number on the board; all else is called by its name if it has one.
        name = id if own else getattr(piece, "name", "") or id
        where = (*outer, f"{called} {name}")
        of = id if own else circuit
        if id not in before:
            yield Difference(", ".join(where), "not there", "added", of)
        elif id not in after:
            yield Difference(", ".join(where), "there", "removed", of)
        else:
            yield from _piece(before[id], after[id], where, of)


def _named(pieces: tuple[Piece, ...]) -> dict[str, Piece]:
    return {getattr(each, "id", str(at)): each for at, each in enumerate(pieces, start=1)}


def _pieces(values: tuple[Any, ...]) -> bool:
    return bool(values) and all(isinstance(each, Piece) for each in values)
