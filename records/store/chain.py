"""The chain of changes: who changed what and when, and the record that it folds into."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from records.errors import BadRecord
from records.store.canonical import NOTHING_BEFORE, canonical, digest
from records.store.patch import Doc, Op
from records.store.replay import replay
from records.store.strict_json import Unfit, parsed, words


class BrokenChain(Exception):
    """The chain is not whole; the message says from which change on."""


@dataclass(frozen=True, slots=True)
class Change:
    """One accepted change."""

    number: int
    """From 1; the first one creates the record."""
    at: datetime
    """When, in UTC."""
    by: str
    """Who, as they named themselves; may be empty."""
    ops: tuple[Op, ...]
    """What, as JSON Patch operations `add`, `remove` and `replace`."""
    undoes: int | None = None
    """The number of the change that this one takes back."""

    @property
    def body(self) -> str:
        """The canonical JSON that the digest is taken over and that stands in the file."""
        when = self.at.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")
        return canonical(
            {
                "at": when,
                "by": self.by,
                "number": self.number,
                "ops": self.ops,
                "undoes": self.undoes,
            }
        )


def read_change(body: str) -> Change:
    """Return the change that a body says.

    Raises:
        BrokenChain: If it says none.
    """
    try:
        said: dict[str, Any] = parsed(body)
        at = datetime.fromisoformat(said["at"])
        change = Change(said["number"], at, said["by"], tuple(said["ops"]), said["undoes"])
    except Unfit as error:
        raise BrokenChain(f"holds what no record can hold at {words(error.path)}") from None
    except (ValueError, KeyError, TypeError, RecursionError):
        raise BrokenChain("holds a change that can't be read") from None
    if at.tzinfo is None or not isinstance(change.by, str) or len(said) != 5:
        raise BrokenChain("holds a change that can't be read")
    return change


@dataclass(slots=True)
class Fold:
    """A record as JSON, as far as the chain has been followed."""

    doc: Doc = field(default_factory=dict)
    digest: bytes = NOTHING_BEFORE
    number: int = 0
    undoable: list[int] = field(default_factory=list)
    """Numbers of the changes in force that can be taken back, the latest last."""
    redoable: list[int] = field(default_factory=list)
    """Numbers of the undoing changes that can be taken back."""
    backs: dict[int, list[Op]] = field(default_factory=dict)
    """What takes each change back."""

    def take(self, body: str, said: bytes) -> None:
        """Follow the chain by one change.

        Args:
            body: The canonical JSON of the change.
            said: The digest that stands beside it.
        Raises:
            BrokenChain: If the digest or the change doesn't follow from those before.
        """
        if digest(self.digest, body) != said:
            raise BrokenChain("was altered")
        change = read_change(body)
        if change.number != self.number + 1:
            raise BrokenChain("is out of order")
        back: list[Op] = []
        if self.number == 0:
            self.doc = _created(change.ops)
        elif change.undoes is not None and not self.takes_back(change.undoes, change.ops):
            raise BrokenChain("takes back what was never done")
        else:
            try:
                back = replay(self.doc, change.ops, undoing=change.undoes is not None)
            except (BadRecord, AttributeError) as error:
                raise BrokenChain(f"doesn't fit those before it ({error})") from None
        self.note(change, back, said)

    def takes_back(self, undoes: int, ops: Sequence[Op]) -> bool:
        """Say whether these operations are what takes that change back, and it is its turn."""
        turn = undoes in (self.undoable[-1:] + self.redoable[-1:])
        return turn and canonical(list(ops)) == canonical(self.backs[undoes])

    def note(self, change: Change, back: list[Op], said: bytes) -> None:
        """Count a change that was applied to `doc` already."""
        if change.undoes is not None and self.undoable[-1:] == [change.undoes]:
            self.undoable.pop()
            self.redoable.append(change.number)
        elif change.undoes is not None:
            self.redoable.pop()
            self.undoable.append(change.number)
        elif self.number:
            self.undoable.append(change.number)
            self.redoable.clear()
        self.backs[change.number] = back
        self.number, self.digest = change.number, said


def _created(ops: Sequence[Op]) -> Doc:
    match list(ops):
        case [{"op": "add", "path": "", "value": dict() as doc, **rest}] if not rest:
            return doc
    raise BrokenChain("doesn't begin with a record")
