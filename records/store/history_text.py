"""The history in words: who changed what, when, from what to what."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from records.judgement.wording import in_full
from records.model.reading import Reading
from records.model.slots import measured_by
from records.model.value_words import value_words
from records.store.chain import Change
from records.store.patch import Doc, Op, apply
from records.store.pointer_words import spot


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One change in words."""

    change: Change
    words: tuple[str, ...]
    """One line for each thing that changed."""


def history_lines(changes: Iterable[Change]) -> Iterator[HistoryLine]:
    """Return changes in words.

    Args:
        changes: All of them from the first on, as `RecordFile.history` gives them.
    """
    doc: Doc = {}
    undoing: dict[int, bool] = {}
    for change in changes:
        if change.number == 1:
            doc = change.ops[0]["value"]
            yield HistoryLine(change, ("The record is made",))
            continue
        done, back = apply(doc, change.ops, undoing=change.undoes is not None)
        # `doc` is already past the change: places are named as they are after it.
        words = [_step(op, old, doc) for op, old in zip(done, reversed(back), strict=True)]
        if change.undoes is not None:
            again = undoing.get(change.undoes, False)
            undoing[change.number] = not again
            verb = "Puts on again what change {} took back" if again else "Takes back change {}"
            words.insert(0, verb.format(change.undoes))
        yield HistoryLine(change, tuple(words))


def _step(op: Op, back: Op, doc: Doc) -> str:
    path = [_unescaped(part) for part in op["path"].split("/")[1:]]
    if op["op"] == "add" and path[-1] == "-":
        path[-1] = back["path"].rpartition("/")[2]
    if op["op"] == "remove":
        return f"{spot(path, doc, gone=back['value'])} is removed"
    where = spot(path, doc)
    if path[0] in ("readings", "certifier_readings") and len(path) == 2:
        return f"{where}: {reading_words(op['value'])}"
    if op["op"] == "add" and back["op"] == "remove":
        return f"{where} is added"
    old, new = value_words(back.get("value"), where.field), value_words(op["value"], where.field)
    if old == new:
        return f"{where}: entered again"
    return f"{where}: {old} → {new}"


def reading_words(value: Any) -> str:
    """Return a reading as JSON in words."""
    try:
        reading = Reading.model_validate(value)
    except ValidationError:
        return "a reading"
    slot = reading.slot
    place = " ".join(filter(None, (slot.place.circuit or slot.place.part.value, slot.place.point)))
    shown = in_full(reading.taken, measured_by(slot))
    return f"{slot.quantity.value}, {place}, {slot.stage.value}: {shown}"


def _unescaped(part: str) -> str:
    return part.replace("~1", "/").replace("~0", "~")
