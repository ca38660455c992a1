"""Doing again what was done before, fast: opening a record replays all changes ever made to it.

The few kinds of operation that a record file holds almost always are done here directly; anything
else, and anything that doesn't fit, is left to the library, which also says what is wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from records.store.patch import APPEND_ONLY, Doc, Op, apply

_APPEND_ONLY = frozenset(APPEND_ONLY)


def replay(doc: Doc, ops: Sequence[Op], *, undoing: bool) -> list[Op]:
    """Change `doc` in place as a change did that was accepted before.

    Args:
        doc: A record as JSON, as it was before the change.
        ops: The operations of the change; their values become part of `doc`.
        undoing: Whether the change takes another one back.
    Returns:
        What takes the change back.
    Raises:
        BadRecord: If it doesn't fit; `doc` is as it was.
    """
    if len(ops) == 1:
        back = _at_once(doc, ops[0], undoing)
        if back is not None:
            return [back]
    return apply(doc, ops, undoing=undoing, replaying=True)[1]


def _at_once(doc: Doc, op: Any, undoing: bool) -> Op | None:
    """Do one operation and return its reverse; None, and nothing done, if it is not a plain one."""
    if type(op) is not dict:
        return None
    name, path = op.get("op"), op.get("path")
    if type(path) is not str or "~" in path or name not in ("add", "replace", "remove"):
        return None
    start, *parts = path.split("/")
    if start or not parts or (name != "remove" and "value" not in op):
        return None
    if not undoing and parts[0] in _APPEND_ONLY and (name != "add" or parts[1:] != ["-"]):
        return None
    parent: Any = doc
    for part in parts[:-1]:
        key = _key(parent, part)
        if key is None:
            return None
        parent = parent[key]
    last = parts[-1]
    if name == "add" and type(parent) is list and last == "-":
        parent.append(op["value"])
        return {"op": "remove", "path": f"{path[:-1]}{len(parent) - 1}"}
    if name == "add" and type(parent) is dict and last not in parent:
        parent[last] = op["value"]
        return {"op": "remove", "path": path}
    key = _key(parent, last)
    if key is None or (name == "add" and type(parent) is list):
        return None
    old = parent[key]
    if name == "remove":
        del parent[key]
        return {"op": "add", "path": path, "value": old}
    parent[key] = op["value"]
    return {"op": "replace", "path": path, "value": old}


def _key(parent: Any, part: str) -> str | int | None:
    """Return what leads to an entry that is there; None if there is none."""
    if type(parent) is dict:
        return part if part in parent else None
    if type(parent) is list and part.isdecimal() and part.isascii():
        at = int(part) if len(part) < 7 and (part[0] != "0" or part == "0") else len(parent)
        return at if at < len(parent) else None
    return None
