"""At which stage somebody goes on who doesn't say at which."""

from __future__ import annotations

from records.model.record import Record
from records.model.slots import slots
from records.terms import Stage


def stage_begun(record: Record) -> Stage:
    """Return the stage that was begun last, or the one after if nothing is open there."""
    stages = list(Stage)
    begun = [each for each in stages if any(r.slot.stage is each for r in record.readings)]
    at = stages.index(begun[-1]) if begun else 0
    while at < len(stages) - 1 and all(map(record.taken, slots(record, stages[at]))):
        at += 1
    return stages[at]
