"""From a record as JSON to the record, looking again only at what was touched."""

from __future__ import annotations

from collections.abc import Sequence, Set
from functools import cache
from typing import Any

from jsonpatch import make_patch
from pydantic import BaseModel, ValidationError

from records.errors import BadRecord
from records.model.circuit import Circuit
from records.model.field_types import models_of
from records.model.reading import LiveGate, Reading, Remedy
from records.model.record import Record
from records.store.canonical import canonical
from records.store.messages import explained
from records.store.patch import APPEND_ONLY, Doc, Op, touched
from records.store.pointer_words import spot
from records.store.strict_json import Unfit, check_shape

_ENTRIES: dict[str, type[BaseModel]] = {
    "circuits": Circuit,
    "readings": Reading,
    "certifier_readings": Reading,
    "remedies": Remedy,
    "live_gate": LiveGate,
}
_MANY = 50_000
"""Values over which a record is looked through entry by entry first."""


@cache
def limits() -> dict[tuple[str, ...], int]:
    """Return how many entries each list of a record may have, by the names that lead to it.

    As the model has it: what may be written has to be read again.
    """
    found: dict[tuple[str, ...], int] = {}
    waiting: list[tuple[type[BaseModel], tuple[str, ...]]] = [(Record, ())]
    while waiting:
        model, path = waiting.pop()
        for name, field in model.model_fields.items():
            here = (*path, name)
            for each in field.metadata:
                if (most := getattr(each, "max_length", None)) is not None:
                    found[here] = most
            waiting += [(each, here) for each in models_of(field.annotation)]
    return found


def plain(record: Record) -> Doc:
    """Return a record as JSON, every field written out."""
    return record.model_dump(mode="json")


def read(doc: Doc) -> Record:
    """Return the record that a JSON document says.

    Raises:
        BadRecord: If it says none; the message names the field.
    """
    try:
        if check_shape(doc, limits()) > _MANY:
            _check_entries(doc)
        return Record.model_validate(doc)
    except Unfit as error:
        where = f"{spot(error.path, doc)}: " if error.path else ""
        raise BadRecord(f"{where}{error}") from None
    except ValidationError as error:
        raise BadRecord(explained(error, doc)) from None


def _check_entries(doc: Doc) -> None:
    """Check the entries of a large record one by one, and stop at the first that is none.

    To check all at once gathers every fault before the first one is told.
    """
    for name, model in _ENTRIES.items():
        entries = doc.get(name)
        for at, each in enumerate(entries if isinstance(entries, list) else ()):
            try:
                model.model_validate(each)
            except ValidationError as error:
                raise BadRecord(explained(error, doc, (name, at))) from None


def reread(before: Record, doc: Doc, names: Set[str]) -> Record:
    """Return the record that `doc` says, where only the fields `names` differ from `before`.

    Pieces that were not touched are the same objects as before, so that this costs little and
    what was worked out from them can be kept.

    Raises:
        BadRecord: If it doesn't hold together; the message names the field.
    """
    mixed: dict[str, Any] = {name: getattr(before, name) for name in Record.model_fields}
    for name in names:
        if name in APPEND_ONLY and isinstance(doc.get(name), list):
            kept = getattr(before, name)[: len(doc[name])]
            mixed[name] = [*kept, *doc[name][len(kept) :]]
        elif name in doc:
            mixed[name] = doc[name]
        else:
            mixed.pop(name, None)
    try:
        return Record.model_validate(mixed)
    except ValidationError as error:
        raise BadRecord(explained(error, doc)) from None


def lacking(record: Record, doc: Doc, ops: Sequence[Op]) -> list[Op]:
    """Return the change that writes out in full the fields that `ops` reach into.

    A file made before a field was thought of lacks it, and a change to it would find nothing.
    Entries of lists that only grow stay as they were written.
    """
    found: list[Op] = []
    for name in sorted(touched(ops) & Record.model_fields.keys()):
        if name in APPEND_ONLY and name in doc:
            continue
        full = _field(record, name)
        if canonical(doc.get(name)) != canonical(full):
            found.append({"op": "add", "path": f"/{name}", "value": full})
    return found


def tidied(before: Record, doc: Doc, after: Record, names: Set[str]) -> list[Op] | None:
    """Return the change from `before` to `after` with every field written out.

    A change may leave out what has a default, or write 12 for 12.0; the record on file is
    always complete, so that later changes find what they replace.

    Returns:
        The operations, or None if `doc` says `after` in full as it is.
    """
    old: Doc = {}
    new: Doc = {}
    added: list[Op] = []
    complete = True
    for name in names:
        if name in APPEND_ONLY:
            start = len(getattr(before, name))
            full = [each.model_dump(mode="json") for each in getattr(after, name)[start:]]
            given = doc[name][start:] if isinstance(doc.get(name), list) else None
            added += [{"op": "add", "path": f"/{name}/-", "value": each} for each in full]
        else:
            full = new[name] = _field(after, name)
            old[name] = _field(before, name)
            given = doc.get(name)
        complete = complete and canonical(given) == canonical(full)
    if complete:
        return None
    patch = make_patch(old, new)
    least: list[Op] = patch.patch
    if canonical(patch.apply(old)) != canonical(new):  # 12 and 12.0, say, are one to it
        least = [{"op": "add", "path": f"/{name}", "value": new[name]} for name in sorted(new)]
    return [*least, *added]


def _field(record: Record, name: str) -> Any:
    return record.model_dump(mode="json", include={name})[name]
