"""What differs between two states of a record, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

    from records.model.reading import Reading
    from records.model.record import Record

Path = tuple[str | int, ...]


_SAID_ONCE: dict[Path, str] = {
    ("cautions_read",): "that a caution was read",
    ("live_gate",): "the answer to the question before the live tests",
    ("left",): "how the installation was left",
}
"""Lists that only grow, of entries without a name."""


def difference(before: Record, after: Record) -> str:
    """Return where two records differ and how it is now, such as `Origin, Ze: now 0.35`.

    An entry that came or went is named: `Dead tests, C1 Sockets, r1: 0.31 Ω`, `Circuit C8: now
    gone`.
    """
    from records.model.value_words import value_words
    from records.store.pointer_words import spot

    old, new = before.model_dump(mode="json"), after.model_dump(mode="json")
    paths = list(_differing(old, new, ()))
    if not paths:
        return "nothing differs"
    first = paths[0]
    value = _at(new, first)
    if isinstance(value, list):
        entries = list(_entries(before, after, _at(old, first), value, first))
        if entries:
            count = len(entries) + len(paths) - 2
            return entries[0] + (f" and {count} more" if count else "")
    if first in _SAID_ONCE:
        return _SAID_ONCE[first]
    where = spot(first, new if value is not None else old)
    more = f" and {len(paths) - 1} more" if len(paths) > 1 else ""
    if isinstance(value, dict | list):
        return f"{where}{more}"
    return f"{where}: now {value_words(value, where.field)}{more}"


def _entries(before: Record, after: Record, was: Any, now: list[Any], path: Path) -> Iterator[str]:
    """Yield each entry of a list that is gone or there again."""
    from records.store.pointer_words import spot

    for record, here, there, end in (
        (before, was, now, "now gone"),
        (after, now, was, "there again"),
    ):
        known = {each["id"] for each in there if _has_id(each)}
        for at, each in enumerate(here):
            if not _has_id(each) or each["id"] in known:
                continue
            if path in (("readings",), ("certifier_readings",)):
                found = getattr(record, str(path[0]))[at]
                yield _reading(record, found, "now " if record is after else "")
            else:
                yield f"{spot((*path, at), record.model_dump(mode='json'))}: {end}"


def _has_id(entry: Any) -> bool:
    return isinstance(entry, dict) and "id" in entry


def _reading(record: Record, reading: Reading, word: str) -> str:
    from records.judgement.wording import in_full
    from records.model.slots import measured_by, slot_words

    said = in_full(reading.taken, measured_by(reading.slot))
    return f"{slot_words(record, reading.slot)}: {word}{said}"


def _differing(old: Any, new: Any, path: Path) -> list[Path]:
    if isinstance(old, dict) and isinstance(new, dict):
        return [
            each
            for name in new
            if old.get(name) != new[name]
            for each in _differing(old.get(name), new[name], (*path, name))
        ]
    if isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        return [
            each
            for at, (was, now) in enumerate(zip(old, new, strict=True))
            if was != now
            for each in _differing(was, now, (*path, at))
        ]
    return [path]


def _at(doc: Any, path: Path) -> Any:
    for part in path:
        doc = doc[part]
    return doc
