"""One of what would do, taken over into the record: the changes, and what is said of it."""

from __future__ import annotations

from collections.abc import Sequence

from records.errors import BadQuantity, BadRecord
from records.model.record import Record
from records.options.cell import Tried
from records.options.circuit import CircuitOption
from records.options.compare import Row, taken_over
from records.options.feed import Choice, cpc_words, words
from records.store.edits import put
from records.store.patch import Op
from records.terms import Verdict
from records.typed import read_typed
from records.units import Unit

_TAKEN = "Ctrl+Z takes it back. The certifier confirms it."
_PARTS = ("feed", "board", "circuits")
MOST_METRES = 1000
"""Cable that a radial is asked about [m]."""


def check_will_do(option: Tried) -> None:
    """Refuse to take over an option that fails.

    Raises:
        BadRecord: If it does; the message says which check decides.
    """
    if option.verdict is Verdict.OUTSIDE:
        why = option.decides.why if option.decides is not None else ""
        raise BadRecord(f"Not taken over: it would not do. {why}")


def feed_taken(choice: Choice, number: int) -> tuple[list[Op], str]:
    """Return the changes that put a cable into the feed, and what is said then.

    Args:
        choice: What would do.
        number: Of the option.
    Raises:
        BadRecord: If it fails.
    """
    option = choice.options[number]
    check_will_do(option)
    said = f"Run {choice.run + 1}: {words(option.make)}, cpc: {cpc_words(option.make)}."
    ops = put("/feed/runs", option.record.feed.runs)
    return ops, f"{said} {_unjudged(option)}{_TAKEN}"


def circuit_taken(
    record: Record, id: str, option: CircuitOption, name: str
) -> tuple[list[Op], str]:
    """Return the changes that put an option into a circuit, and what is said then.

    Args:
        record: The job.
        id: Of the circuit.
        option: What is taken.
        name: How it is called.
    Raises:
        BadRecord: If it fails.
    """
    check_will_do(option)
    at = next(at for at, each in enumerate(record.circuits) if each.id == id)
    ops = put(f"/circuits/{at}", option.record.circuit(id))
    return ops, f"{id}: {name}. {_unjudged(option)}{_TAKEN}"


def design_taken(
    record: Record, design: Record, name: str, rows: Sequence[Row], number: int
) -> tuple[list[Op], str]:
    """Return the changes that take another design over, and how many checks get worse.

    Args:
        record: The job.
        design: The other design.
        name: How it is called.
        rows: What differs.
        number: Of the design in those.
    Returns:
        No changes if nothing differs.
    """
    after = taken_over(record, design)
    ops = [
        op
        for part in _PARTS
        if getattr(after, part) != getattr(record, part)
        for op in put(f"/{part}", getattr(after, part))
    ]
    if not ops:
        return [], "Nothing differs in feed, board and circuits: nothing was taken over."
    bad = sum(row.sides[number].worse for row in rows)
    worse = f" {bad} checks get worse: see Review." if bad else ""
    return ops, f"Taken over: {name}.{worse} {_TAKEN}"


def radial_length(text: str) -> float:
    """Return how long a radial would be, as typed [m].

    Raises:
        BadQuantity: If it is no length, or one that nobody lays.
    """
    value = read_typed(text, Unit.METRE).value
    if not 0 < value <= MOST_METRES:
        raise BadQuantity(f"Type metres from 0.5 to {MOST_METRES}.")
    return value


def _unjudged(option: Tried) -> str:
    """Return that an option can't be judged yet, in words; empty if it can."""
    if option.verdict is not Verdict.NOT_TAKEN:
        return ""
    what = option.decides.check.words if option.decides is not None else "all"
    return f"Not judged yet: {what}. Don't buy it before that is known. "
