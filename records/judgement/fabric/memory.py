"""What was entered after a surface was covered: from memory, and marked so wherever it is shown."""

from __future__ import annotations

from collections.abc import Iterator

from records.days import day_words
from records.expected.boxes import placed
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.fabric.legs import leg_name, surface_name
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.fabric import Leg, Noted, Surface
from records.model.record import Record
from records.terms import Verdict

MARK = "from memory"
_NAMED = 4
"""Entries that are named at most."""


def from_memory(surface: Surface | None, entry: Noted) -> bool:
    """Whether an entry was made when its surface was covered, or after the day on which it was."""
    if surface is None or surface.covered is None:
        return False
    late = entry.entered is not None and entry.entered > surface.covered
    return entry.memory or late


def leg_from_memory(surface: Surface | None, leg: Leg) -> bool:
    """Whether a leg, or a hole that it goes through, was entered from memory."""
    return any(from_memory(surface, each) for each in (leg, *leg.holes))


def remembered(record: Record, surface: Surface) -> tuple[str, ...]:
    """Return what of a surface was entered from memory, by name."""
    if surface.covered is None:
        return ()
    found = [each.name for each in placed(record, surface) if from_memory(surface, each.spot)]
    where = f"cable on {surface_name(surface)}, "
    found += [
        f"cable {leg.circuit or 'of the feed'} {leg_name(leg, surface).removeprefix(where)}"
        for leg in record.fabric.legs
        if leg.surface == surface.id and leg_from_memory(surface, leg)
    ]
    fields = Surface.model_fields
    return (*found, *(str(fields[each].title or each) for each in surface.memory if each in fields))


def memory_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each covered surface of which something was entered afterwards."""
    for surface in facts.record.fabric.surfaces:
        found = remembered(facts.record, surface)
        if not found or surface.covered is None:
            continue
        name = surface_name(surface)
        more = f" and {len(found) - _NAMED} more" if len(found) > _NAMED else ""
        base = line(facts, BOARD, f"memory {surface.id}", f"{name}: entered {MARK}")
        yield base._replace(
            verdict=Verdict.NEAR,
            source=cite.COMMON,
            weight=6,
            why=f"Covered {day_words(surface.covered)}; entered afterwards: "
            f"{'; '.join(found[:_NAMED])}{more}.",
            next_check=(
                do(Act.LOOK, f"Find it with a cable locator before anybody drills {name}.")
                + do(Act.ASK, "Tell the certifier which entries nobody could see.")
            ).text(),
        )
