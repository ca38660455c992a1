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


def person_called(record: Record, name: str) -> str | None:
    """Return the id of the person whom a name or an id means; None for no name.

    Raises:
        BadText: If nobody in the job is called so.
    """
    from records.errors import BadText
    from records.store.showing import shown

    word = name.strip().casefold()
    if not word:
        return None
    for each in record.job.people:
        if word in (each.id.casefold(), each.name.casefold()):
            return each.id
    known = "; ".join(f"{each.id} {each.name}".strip() for each in record.job.people)
    raise BadText(
        f"“{shown(name)}” is nobody in this job. It has: {known or 'nobody yet'}. "
        "People are entered in the step Job."
    )


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
