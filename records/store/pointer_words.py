"""Where something stands in a record, in words that a person knows: `Circuit C2, run 1, Length`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from records.model.field_types import models_of
from records.model.record import Record
from records.store.showing import shown

_LISTS = {
    "circuits": "Circuit",
    "readings": "Reading",
    "certifier_readings": "Reading of the certifier",
    "remedies": "Remedy",
    "noticed": "Noticed in use",
    "live_gate": "Answer before live tests",
    "left": "How it was left",
    "cautions_read": "Caution read",
    "people": "person",
    "instruments": "instrument",
    "bonds": "bond",
    "runs": "run",
    "points": "point",
    "despite": "finding",
    "may_go_live": "circuit",
    "locked_off": "locked circuit",
    "exceptions": "exception",
}
_GROUPS = {
    "job": "Job",
    "origin": "Origin",
    "feed": "Feed",
    "board": "Board",
    "buying": "Before buying",
    "device": "protective device",
    "rcd": "RCD",
    "slot": "what and where",
    "place": "where",
    "taken": "value",
    "stands_in": "test done elsewhere",
    "before": "the reading after it",
}


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a record."""

    words: tuple[str, ...]
    """From the outside in."""
    field: FieldInfo | None
    """What the model says about the innermost field, if it knows it."""
    name: str
    """The innermost name as the record has it."""

    def __str__(self) -> str:
        return ", ".join(self.words) or "The record"


def spot(path: Sequence[str | int], doc: Any, gone: Any = None) -> Spot:
    """Return the place that a path leads to.

    Args:
        path: Names and numbers from the record inwards, as in a JSON Pointer or an error.
        doc: The record as JSON, as far as there is one; entries are called by their id in it.
        gone: What stood at the end of the path, if it is no longer in `doc`.
    """
    models: tuple[type[BaseModel], ...] = (Record,)
    words: list[str] = []
    field: FieldInfo | None = None
    name = ""
    at_list = False
    for at, given in enumerate(path, start=1):
        part = int(given) if at_list and str(given).isdecimal() else given
        found = next((m.model_fields[part] for m in models if part in m.model_fields), None)
        if isinstance(part, int) or part == "-":
            last = gone is not None and at == len(path)
            doc, at_list = gone if last else _inside(doc, part), False
            words.append(f"{_LISTS.get(name, 'entry')} {_called(doc, part)}")
        elif found is not None:
            field, name, doc = found, part, _inside(doc, part)
            models = tuple(models_of(found.annotation))
            at_list = name in _LISTS
            if not at_list:
                title = _title(name, found)
                if words and words[-1].casefold() == title.casefold():
                    words.pop()  # a device has a field of the same name
                words.append(title)
        elif not any(m.__name__ == part or _tag(m) == part for m in models):
            field, name, models = None, part, ()
            words.append(f"“{shown(part, 40)}”")
    if at_list:
        words.append(f"{_LISTS[name]} list".lower())
    return Spot(tuple(words), field, name)


def _title(name: str, field: FieldInfo) -> str:
    return field.title or _GROUPS.get(name) or name.replace("_", " ")


def _called(doc: Any, part: str | int) -> str:
    if isinstance(doc, dict) and isinstance(doc.get("id"), str):
        return "".join(char for char in doc["id"][:10] if char.isalnum())
    return str(part + 1) if isinstance(part, int) else "at the end"


def _inside(doc: Any, part: str | int) -> Any:
    try:
        return doc[part]
    except (KeyError, IndexError, TypeError):
        return None


def _tag(model: type[BaseModel]) -> str | None:
    kind = model.model_fields.get("kind")
    return kind.default if kind is not None and isinstance(kind.default, str) else None
