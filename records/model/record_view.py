"""A record through which it is noted what of it is asked for: each field of each of its pieces."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from inspect import isfunction
from types import MethodType
from typing import Any, cast

from records.model.circuit import Circuit
from records.model.kinds import Piece
from records.model.reading import Reading, Slot
from records.model.record import Record
from records.reuse import Once


def seen_by(reuse: Once, record: Record) -> Record:
    """Return a record as the parts of a calculation are to look at it."""
    if not reuse.notes:
        return record
    return cast("Record", _RecordView(record, reuse.now("record", _fields(record), _alike)))


def whole(record: Record) -> Record:
    """Return the record itself; with that, all of it is asked for."""
    if isinstance(record, _RecordView):
        record._fields.items()
        return record._record
    return record


def key_of_piece(piece: object) -> Hashable:
    """Return what a piece of a record is known by, for what is kept of it by name."""
    return piece._at if isinstance(piece, _PieceView) else id(piece)


def _fields(record: Record) -> dict[Hashable, Any]:
    """Return all that can be asked for, by its place in the record."""
    found: dict[Hashable, Any] = {}
    for name in Record.model_fields:
        value = getattr(record, name)
        if isinstance(value, Piece):
            found.update({(name, field): each for field, each in value.__dict__.items()})
        elif name == "circuits":
            found[name] = tuple([each.id for each in value])
            for circuit in value:
                found.update(
                    {(name, circuit.id, field): each for field, each in circuit.__dict__.items()}
                )
        else:
            found[name] = value
    return found


def _alike(one: object, other: object) -> bool:
    """Return whether two parts of a record say the same, to the last digit and time zone.

    A change of one circuit has all of them made anew. What is written out is compared, for 0.0 is
    equal to -0.0, and noon here to eleven there.
    """
    if one is other:
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    return repr(one) == repr(other)


class _PieceView:
    """Stands for a piece of a record."""

    __slots__ = ("_at", "_fields", "_piece")

    def __init__(self, at: tuple[str, ...], piece: Piece, fields: Mapping[Hashable, Any]) -> None:
        self._at = at
        self._piece = piece
        self._fields = fields

    def __getattr__(self, name: str) -> Any:
        if name in self._piece.__dict__:
            return self._fields[(*self._at, name)]
        for field in self._piece.__dict__:  # what else it has or does can rest on all of it
            self._fields[(*self._at, field)]
        return getattr(self._piece, name)


class _RecordView:
    """Stands for a record; its methods look at it as their parts do."""

    def __init__(self, record: Record, fields: Mapping[Hashable, Any]) -> None:
        self._record = record
        self._fields = fields
        self._pieces = {
            name: _PieceView((name,), value, fields)
            for name in Record.model_fields
            if isinstance(value := getattr(record, name), Piece)
        }
        self._circuits = tuple(
            _PieceView(("circuits", each.id), each, fields) for each in record.circuits
        )

    @property
    def circuits(self) -> tuple[Circuit, ...]:
        """The circuits, of which each notes by itself what of it is asked for."""
        self._fields["circuits"]
        return cast("tuple[Circuit, ...]", self._circuits)

    def taken(self, slot: Slot) -> tuple[Reading, ...]:
        """Return all readings of a slot, as `Record.taken`."""
        self._fields["readings"]
        return self._record.taken(slot)

    def __getattr__(self, name: str) -> Any:
        piece = self._pieces.get(name)
        if piece is not None:
            return piece
        if name in Record.model_fields:
            return self._fields[name]
        method = vars(Record).get(name)
        if isfunction(method):
            return MethodType(method, self)
        return getattr(whole(cast("Record", self)), name)  # what pydantic does with all of it
