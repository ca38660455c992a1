"""The stages of the work as words after a command."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from records.model.record import Record
    from records.terms import Stage

STAGES = ("before-covering", "dead", "live")


def stage_of(word: str) -> Stage:
    """Return the stage that a word stands for."""
    from records.terms import Stage

    return dict(zip(STAGES, Stage, strict=True))[word]


def stage_begun(record: Record) -> Stage:
    """Return the stage that was begun last, or the one after if nothing is open there."""
    from records.model.slots import slots
    from records.terms import Stage

    stages = list(Stage)
    begun = [each for each in stages if any(r.slot.stage is each for r in record.readings)]
    at = stages.index(begun[-1]) if begun else 0
    while at < len(stages) - 1 and all(map(record.taken, slots(record, stages[at]))):
        at += 1
    return stages[at]
