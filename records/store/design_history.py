"""Under which design each reading was entered, from the history of a record."""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from typing import Any

from records.judgement.design_changed_since import Then
from records.store.chain import Change
from records.store.patch import Doc, Op
from records.store.replay import replay
from records.store.state import read

_DESIGN = ("job", "origin", "feed", "board", "circuits")


def designs(changes: Iterable[Change]) -> tuple[Then, ...]:
    """Return the designs that readings were entered under and that changed afterwards.

    Args:
        changes: All of them from the first on, as `RecordFile.history` gives them.
    """
    doc: Doc = {}
    kept: list[tuple[Doc, set[str]]] = []
    entered: set[str] = set()
    for change in changes:
        if change.number == 1:
            whole = change.ops[0]["value"]
            doc = deepcopy({name: whole[name] for name in _DESIGN if name in whole})
            entered = {each["id"] for each in whole.get("readings", ())}
            continue
        of_design = [op for op in change.ops if _head(op) in _DESIGN]
        if of_design:
            if entered:
                kept.append((deepcopy(doc), entered))
            entered = set()
            replay(doc, of_design, undoing=change.undoes is not None)
        new = {id for op in change.ops if (id := _reading(op))}
        for _, ids in kept:
            ids.difference_update(new)  # taken back, and the id given again
        entered |= new
    return tuple(Then(read(each), frozenset(ids)) for each, ids in kept if ids)


def _head(op: Op) -> str:
    return str(op["path"]).split("/")[1]


def _reading(op: Op) -> str:
    value: Any = op.get("value")
    if op["op"] == "add" and _head(op) == "readings" and isinstance(value, dict):
        return str(value.get("id", ""))
    return ""
