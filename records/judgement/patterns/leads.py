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


_Group = tuple[Stage, str | None]
"""Stage, and id of the meter."""


def _off(facts: Facts) -> dict[_Group, list[tuple[Slot, float]]]:
    """Return by stage and meter how far each low-resistance reading is above its expectation."""
    groups: dict[_Group, list[tuple[Slot, float]]] = {}
    for slot in facts.all_slots:
        last, value, expected = facts.last(slot), facts.plain(slot), facts.meter_value(slot)
        if (
            slot.quantity in _LOW
            and last is not None
            and value is not None
            and expected is not None
        ):
            groups.setdefault((slot.stage, last.instrument), []).append((slot, value - expected))
    return groups


def _alike(readings: list[tuple[Slot, float]]) -> float | None:
    """Return by how much all readings are off, if they are off by the same."""
    over = [each for _, each in readings]
    middle = median(over)
    if len(over) < _READINGS or any(abs(each - middle) > _ALIKE for each in over):
        return None
    return middle if _LEAST <= abs(middle) <= _MOST else None


def leads(facts: Facts) -> Iterator[Pattern]:
    """All low-resistance readings of a stage and a meter are high by about the same."""
    for (stage, meter), readings in _off(facts).items():
        middle = _alike(readings)
        if middle is None or middle < 0:
            continue
        known = next((each for each in facts.record.job.instruments if each.id == meter), None)
        said = ""
        if known is not None and known.leads is not None:
            said = f" The leads of {known.id} have {rounded(known.leads, Unit.OHM)}"
            said += ", not nulled." if known.nulled is False else "."
        concern = Concern(
            "leads not nulled", Verdict.UNLIKELY,
            f"All {len(readings)} readings are about {rounded(middle, Unit.OHM)} above what is "
            f"expected.{said}",
            ("the lead resistance was not taken off", "the leads were changed after nulling",
             "a fused lead"),
            "Join the tips, null, see 0.00, and repeat them all.", cite.COMMON, 30,
        )  # fmt: skip
        yield _pattern(concern, stage, meter, readings)


def leads_twice(facts: Facts) -> Iterator[Pattern]:
    """All are low by the resistance of the leads that was taken off: the meter nulls them too."""
    for (stage, meter), readings in _off(facts).items():
        middle = _alike(readings)
        taken_off = [
            figure.leads for slot, _ in readings if (figure := facts.figure(slot)) is not None
        ]
        known = [each for each in taken_off if each is not None]
        if middle is None or len(known) < len(readings) or abs(median(known) + middle) > _ALIKE:
            continue
        concern = Concern(
            "leads taken off twice", Verdict.UNLIKELY,
            f"All {len(readings)} readings are about {rounded(-middle, Unit.OHM)} below what is "
            f"expected, and {rounded(median(known), Unit.OHM)} of leads was taken off each.",
            ("the meter nulls its leads by itself", "other, shorter leads than entered"),
            "Join the tips: 0.00 means nulled. Then say so of the instrument (Job), and repeat.",
            cite.COMMON, 30,
        )  # fmt: skip
        yield _pattern(concern, stage, meter, readings)


def _pattern(
    concern: Concern, stage: Stage, meter: str | None, readings: list[tuple[Slot, float]]
) -> Pattern:
    slots = tuple(slot for slot, _ in readings)
    title = f"All continuity readings, {stage.value}"
    return Pattern(concern, BOARD, title, slots, slots, mark=meter or "")
