"""A series typed in another unit: one slip of the unit, not one finding for each reading."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.unit_slips import thousandfold
from records.model.reading import Figure, Slot
from records.model.slots import measured_by
from records.terms import Stage, Verdict

_READINGS = 3
"""How many slips of one unit are a series: common practice."""


def slip_series(facts: Facts) -> Iterator[Pattern]:
    """Several readings of a stage that all fit in the same unit a thousand times off."""
    groups: dict[tuple[Stage, str, str], list[Slot]] = {}
    for slot in facts.all_slots:
        last = facts.last(slot) if slot in facts.slips else None
        if last is None or not isinstance(last.taken, Figure):
            continue
        slip = thousandfold(slot, last.taken, facts.meter(slot))
        if slip is not None:
            unit = measured_by(slot).unit.value
            groups.setdefault((slot.stage, slip.unit, unit), []).append(slot)
    for (stage, meant, unit), slots in groups.items():
        if len(slots) < _READINGS:
            continue
        concern = Concern(
            "unit slips in a row",
            Verdict.UNLIKELY,
            f"{len(slots)} readings would fit as {meant}: were they typed in {meant} instead of "
            f"{unit}?",
            (f"{meant} typed as {unit}",),
            do(
                Act.ENTER, f"Look at the meter. If it shows {meant}, type each again with its unit."
            ),
            cite.COMMON,
            75,
        )
        title = f"Readings typed in {meant}, {stage.value}"
        yield Pattern(concern, BOARD, title, tuple(slots), tuple(slots), mark=meant, carries=True)
