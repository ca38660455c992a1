"""The leads in the readings: all too high by the same amount, or all out of range."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from records.judgement import cite
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.wording import rounded
from records.model.reading import Figure, Quantity, Slot
from records.terms import Sign, Stage, Verdict
from records.units import Unit

_LOW = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.R2, Quantity.BONDING)
_LEAST = 0.05
_MOST = 0.3
_ALIKE = 0.03
"""Ω: lead resistance is 0.05 to 0.30 Ω, the same in every reading: common practice."""
_READINGS = 3


def open_leads(facts: Facts) -> Iterator[Pattern]:
    """Every low-resistance reading of a stage and a meter is out of its range."""
    groups: dict[tuple[Stage, str | None], list[tuple[Slot, Figure]]] = {}
    for slot in facts.all_slots:
        last = facts.last(slot)
        if slot.quantity in _LOW and last is not None and isinstance(last.taken, Figure):
            groups.setdefault((slot.stage, last.instrument), []).append((slot, last.taken))
    for (stage, meter), readings in groups.items():
        if len(readings) < _READINGS or any(figure.sign is not Sign.OVER for _, figure in readings):
            continue
        slots = tuple(slot for slot, _ in readings)
        concern = Concern(
            "open leads", Verdict.OUTSIDE,
            f"All {len(slots)} continuity readings are out of range: so many conductors are "
            "seldom open at once.",
            ("an open lead or a blown fuse in a probe", "the leads are in the wrong sockets",
             "the link at the board is missing"),
            "Join the tips: 0.00; new leads; repeat the whole series since the last good check.",
            cite.COMMON, 60,
        )  # fmt: skip
        yield Pattern(
            concern, BOARD, f"All continuity readings, {stage.value}", slots, slots,
            mark=meter or "",
        )  # fmt: skip


def leads(facts: Facts) -> Iterator[Pattern]:
    """All low-resistance readings of a stage and a meter are high by about the same."""
    groups: dict[tuple[Stage, str | None], list[tuple[Slot, float]]] = {}
    for slot in facts.all_slots:
        last, value, expected = facts.last(slot), facts.plain(slot), facts.meter_value(slot)
        if (
            slot.quantity in _LOW
            and last is not None
            and value is not None
            and expected is not None
        ):
            groups.setdefault((slot.stage, last.instrument), []).append((slot, value - expected))
    for (stage, meter), readings in groups.items():
        over = [each for _, each in readings]
        middle = median(over)
        alike = all(abs(each - middle) <= _ALIKE for each in over)
        if len(over) < _READINGS or not alike or not _LEAST <= middle <= _MOST:
            continue
        slots = tuple(slot for slot, _ in readings)
        known = next((each for each in facts.record.job.instruments if each.id == meter), None)
        said = ""
        if known is not None and known.leads is not None:
            said = f" The leads of {known.id} have {rounded(known.leads, Unit.OHM)}"
            said += ", not nulled." if known.nulled is False else "."
        concern = Concern(
            "leads not nulled", Verdict.UNLIKELY,
            f"All {len(over)} readings are about {rounded(middle, Unit.OHM)} above what is "
            f"expected.{said}",
            ("the lead resistance was not taken off", "the leads were changed after nulling",
             "a fused lead"),
            "Join the tips, null, see 0.00, and repeat them all; nothing is taken off here.",
            cite.COMMON, 30,
        )  # fmt: skip
        yield Pattern(
            concern, BOARD, f"All continuity readings, {stage.value}", slots, slots,
            mark=meter or "",
        )  # fmt: skip
