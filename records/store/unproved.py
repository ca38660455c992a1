"""Changes after the damage in a record file: each whole in itself, none of them proved.

A digest proves a change together with all before it. Where one before is damaged, what comes after
can be read and held against notes, but it is never put into a record.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from records.errors import CannotOpen
from records.store.canonical import digest
from records.store.chain import Change, read_change
from records.store.history_text import reading_words

Row = tuple[str, bytes]
_READINGS = ("/readings/", "/certifier_readings/")


@dataclass(frozen=True, slots=True)
class Unproved:
    """A change that can be read, though not all before it can."""

    change: Change
    follows: bool
    """Whether its digest follows from that of the change before, which can be read too."""

    @property
    def readings(self) -> tuple[str, ...]:
        """The readings that it adds, in words."""
        return tuple(
            reading_words(op.get("value"))
            for op in self.change.ops
            if op.get("op") == "add" and str(op.get("path")).startswith(_READINGS)
        )


class NothingProved(CannotOpen):
    """Not even the first change of a record file can be read, but later ones can."""

    def __init__(self, message: str, unproved: tuple[Unproved, ...]) -> None:
        super().__init__(message)
        self.unproved = unproved
        """What can be read."""


def unproved(numbered: Mapping[int, Sequence[Row]], proved: int) -> tuple[Unproved, ...]:
    """Return the changes after the damage, in their order.

    Args:
        numbered: All that was found, by the number of the change.
        proved: How many changes from the first on are proved; the next one is damaged.
    """
    return tuple(
        Unproved(
            read_change(body),
            any(digest(before, body) == said for _, before in numbered.get(number - 1, ())),
        )
        for number in sorted(numbered)
        if number > proved + 1
        for body, said in numbered[number]
    )


def as_json(found: Iterable[Unproved]) -> str:
    """Return changes that are not proved as JSON, for a person to hold against notes."""
    about = (
        "NOT PROVED: read after damage in a record file. No digest shows that these changes are "
        "as they were entered. They are in no record; hold each against your notes."
    )
    changes = [
        {
            "number": each.change.number,
            "at": each.change.at.isoformat(),
            "by": each.change.by,
            "follows_the_one_before": each.follows,
            "readings": each.readings,
            "ops": each.change.ops,
        }
        for each in found
    ]
    return json.dumps({"about": about, "changes": changes}, indent=2) + "\n"
