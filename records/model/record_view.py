"""A record through which it is noted which of its fields are asked for."""

from __future__ import annotations

from collections.abc import Mapping
from inspect import isfunction
from types import MethodType
from typing import Any, cast

from records.model.reading import Reading, Slot
from records.model.record import Record
from records.reuse import Once


def seen_by(reuse: Once, record: Record) -> Record:
    """Return a record as the parts of a calculation are to look at it."""
    if not reuse.notes:
        return record
    fields = {name: getattr(record, name) for name in Record.model_fields}
    return cast("Record", _View(record, reuse.now("record", fields)))


class _View:
    """Stands for a record; its fields are looked up where that is noted, by its methods too."""

    def __init__(self, record: Record, fields: Mapping[str, Any]) -> None:
        self._record = record
        self._fields = fields

    def taken(self, slot: Slot) -> tuple[Reading, ...]:
        """Return all readings of a slot, as `Record.taken`."""
        self._fields["readings"]
        return self._record.taken(slot)

    def __getattr__(self, name: str) -> Any:
        if name in Record.model_fields:
            return self._fields[name]
        method = vars(Record).get(name)
        if isfunction(method):
            return MethodType(method, self)
        self._fields.items()  # what pydantic does with a record can rest on all of it
        return getattr(self._record, name)
