"""All checks on where cables and boxes are."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement.fabric.agreement import agreement_lines
from records.judgement.fabric.entries import entry_lines
from records.judgement.fabric.fixings import fixing_lines
from records.judgement.fabric.ground import ground_lines
from records.judgement.fabric.heights import height_lines
from records.judgement.fabric.joints import joint_lines
from records.judgement.fabric.lamps import lamp_lines
from records.judgement.fabric.memory import memory_lines
from records.judgement.fabric.supports import support_lines
from records.judgement.fabric.surfaces import surface_lines
from records.judgement.fabric.timber import timber_lines
from records.judgement.fabric.zones import zone_lines
from records.judgement.facts import Facts
from records.judgement.review_types import Judged


def fabric_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each check of a place, a leg, a hole; none where nothing is entered."""
    fabric = facts.record.fabric
    if not (fabric.surfaces or fabric.buried or fabric.legs or fabric.fixtures):
        return
    for rule in _RULES:
        yield from facts.found_by(rule)


_RULES = (
    zone_lines,
    timber_lines,
    fixing_lines,
    ground_lines,
    agreement_lines,
    surface_lines,
    entry_lines,
    memory_lines,
    support_lines,
    lamp_lines,
    height_lines,
    joint_lines,
)
