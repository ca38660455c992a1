"""JSON Patch (RFC 6902) on a record in place, each change with the change that takes it back."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from jsonpatch import (
    AddOperation,
    JsonPatchException,
    JsonPatchTestFailed,
    RemoveOperation,
    ReplaceOperation,
    TestOperation,
)
from jsonpointer import JsonPointer, JsonPointerException

from records.errors import BadRecord
from records.store.canonical import canonical

Op = dict[str, Any]
Doc = dict[str, Any]

_STAYS = {
    "readings": "A reading",
    "certifier_readings": "A reading of the certifier",
    "remedies": "A remedy",
    "live_gate": "An answer before the live tests",
    "left": "How it was left",
    "cautions_read": "A caution that was read",
}
APPEND_ONLY = tuple(_STAYS)
"""Lists of the record that only grow: what was read or done is never altered."""

_OPERATIONS = {
    "add": AddOperation,
    "remove": RemoveOperation,
    "replace": ReplaceOperation,
    "test": TestOperation,
}


def copied(ops: Sequence[Op]) -> list[Op]:
    """Return a deep copy of patch operations that holds nothing but JSON.

    Raises:
        BadRecord: If they hold anything else, such as NaN.
    """
    try:
        copy = json.loads(canonical(list(ops)))
    except (TypeError, ValueError) as error:
        raise BadRecord(f"This change can't be written down as JSON: {error}.") from None
    if not all(isinstance(op, dict) for op in copy):
        raise BadRecord("A change is a list of JSON Patch operations (RFC 6902).")
    return list(copy)


def apply(
    doc: Doc, ops: Sequence[Op], *, undoing: bool = False, replaying: bool = False
) -> tuple[list[Op], list[Op]]:
    """Change `doc` in place; either all of the operations are applied or none.

    Args:
        doc: A record as JSON.
        ops: RFC 6902 operations.
        undoing: Whether this takes an earlier change back or puts it on again; only then may
            the last entries of a list that only grows go.
        replaying: Whether this was done before, so that nothing in it is idle; the values in
            `ops` then become part of `doc`.
    Returns:
        What was done, in `add`, `remove` and `replace` alone, and what takes it back.
    Raises:
        BadRecord: If an operation doesn't fit the record, or alters what must stay.
    """
    done: list[Op] = []
    back: list[Op] = []
    try:
        for given in ops:
            for op in _plain(doc, given):
                reverse = _step(doc, op if replaying else _apart(op), undoing)
                if reverse is not None and (undoing or replaying or not _same(op, reverse)):
                    done.append(op)
                    back.append(reverse)
    except (BadRecord, JsonPatchException, JsonPointerException, TypeError) as error:
        for op in reversed(back):
            _step(doc, op, undoing=True)
        if isinstance(error, BadRecord):
            raise
        if isinstance(error, JsonPatchTestFailed):
            raise BadRecord("The record is no longer what this change expects.") from None
        where = str(given.get("path"))[:80]
        raise BadRecord(f"This change doesn't fit the record at {where}.") from None
    return done, back[::-1]


def touched(ops: Sequence[Op]) -> set[str]:
    """Return the names of the record's own fields that the operations reach into."""
    paths = [path for op in ops for path in (op.get("path"), op.get("from")) if path]
    return {path.split("/", 2)[1] for path in paths if isinstance(path, str) and "/" in path}


def _plain(doc: Doc, op: Op) -> list[Op]:
    name, path = op.get("op"), op.get("path")
    if not isinstance(path, str) or not isinstance(name, str):
        raise BadRecord("Each operation of a change needs an op and a path (RFC 6902).")
    if not path.startswith("/"):
        raise BadRecord("A change names a part of the record, such as /job/place, never all of it.")
    if name in ("move", "copy"):
        start = op.get("from")
        if not isinstance(start, str) or not start.startswith("/"):
            raise BadRecord(f"To {name}, a change needs a from (RFC 6902).")
        if start == path:
            return []
        if name == "move" and path.startswith(start + "/"):
            raise BadRecord("Nothing can be moved into itself.")
        value = json.loads(json.dumps(JsonPointer(start).resolve(doc)))
        add = {"op": "add", "path": path, "value": value}
        return [add] if name == "copy" else [{"op": "remove", "path": start}, add]
    if name not in _OPERATIONS:
        raise BadRecord(f"“{name[:20]}” is no operation of JSON Patch (RFC 6902).")
    if name == "remove":
        return [{"op": name, "path": path}]
    if "value" not in op:
        raise BadRecord(f"To {name}, a change needs a value (RFC 6902).")
    return [{"op": name, "path": path, "value": op["value"]}]


def _apart(op: Op) -> Op:
    """Return an operation whose value can be reached into without changing what was done."""
    if isinstance(op.get("value"), dict | list):
        return {**op, "value": json.loads(json.dumps(op["value"]))}
    return op


def _step(doc: Doc, op: Op, undoing: bool) -> Op | None:
    """Apply one operation and return its reverse; None if it only looked."""
    pointer = JsonPointer(op["path"])
    parent, part = pointer.to_last(doc)
    name = op["op"]
    if not isinstance(parent, dict | list):
        raise BadRecord(f"This change doesn't fit the record: {op['path']} leads nowhere.")
    if pointer.parts[0] in APPEND_ONLY and not undoing and name != "test":
        _only_appends(pointer, name, parent)
    reverse = _reverse(op, parent, part)
    operation: Any = {**op, "path": pointer}
    _OPERATIONS[name](operation).apply(doc)
    return reverse


def _reverse(op: Op, parent: dict[str, Any] | list[Any], part: Any) -> Op | None:
    name, path = op["op"], op["path"]
    if name == "test":
        return None
    if name == "add" and isinstance(parent, list):
        at = len(parent) if part == "-" else part
        return {"op": "remove", "path": f"{path.rpartition('/')[0]}/{at}"}
    if name == "add" and isinstance(parent, dict) and part not in parent:
        return {"op": "remove", "path": path}
    try:
        old = parent[part]
    except (KeyError, IndexError, TypeError):
        raise BadRecord(f"This change doesn't fit the record: there is no {path}.") from None
    return {"op": "add" if name == "remove" else "replace", "path": path, "value": old}


def _same(op: Op, reverse: Op) -> bool:
    over = op["op"] != "remove" and reverse["op"] == "replace"
    return over and canonical(op["value"]) == canonical(reverse["value"])


def _only_appends(pointer: JsonPointer, name: str, parent: dict[str, Any] | list[Any]) -> None:
    at_end = isinstance(parent, list) and pointer.parts[-1] in ("-", str(len(parent)))
    if name == "add" and (
        (len(pointer.parts) == 2 and at_end)
        or (len(pointer.parts) == 1 and pointer.parts[0] not in parent)
    ):
        return
    what = _STAYS[pointer.parts[0]]
    raise BadRecord(f"{what} that was recorded stays as it is: add a new one after it.")
