"""What differs between two states of a record, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from records.model.record import Record

Path = tuple[str | int, ...]


def difference(before: Record, after: Record) -> str:
    """Return where two records differ and how it is now, such as `Origin, Ze: now 0.35`."""
    from records.store.places import spot

    old, new = before.model_dump(mode="json"), after.model_dump(mode="json")
    paths = list(_differing(old, new, ()))
    if not paths:
        return "nothing differs"
    first = paths[0]
    value = _at(new, first)
    words = str(spot(first, new if value is not None else old))
    more = f" and {len(paths) - 1} more" if len(paths) > 1 else ""
    if isinstance(value, dict | list):
        return words + more
    return f"{words}: now {_said(value)}{more}"


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


def _said(value: Any) -> str:
    if value is None or value == "":
        return "not said"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.12g}" if isinstance(value, float) else str(value)
