"""The leads in the readings: all too high by the same amount, or all out of range."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median

from records.judgement import cite
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import is_open
from records.judgement.facts import BOARD, Facts
from records.judgement.uncertainty import kind_of
from records.judgement.wording import rounded
from records.model.reading import Figure, Quantity, Reading, Slot, Tick
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
        if len(readings) < _READINGS or not all(is_open(figure) for _, figure in readings):
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


def tips(facts: Facts) -> Iterator[Pattern]:
    """The insulation tester didn't show nought with its tips joined: over the range is no proof."""
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
        check = Slot(quantity=Quantity.TIPS_JOINED, place=BOARD, stage=stage)
        checks = [each for each in facts.attempts(check) if isinstance(each.taken, Tick)]
        if not checks:
            continue
        doubted = tuple(
            slot
            for slot in facts.all_slots
            if slot.stage is stage
            and kind_of(slot.quantity) == "insulation"
            and (last := facts.last(slot)) is not None
            and isinstance(last.taken, Figure)
            and last.taken.sign is Sign.OVER
            and _with_open_leads(last, checks)
        )
        if not doubted:
            continue
        several = len(doubted) > 1
        concern = Concern(
            "open leads, insulation", Verdict.OUTSIDE,
            f"{len(doubted)} reading{'s' * several} over the range rest{'s' * (not several)} on a "
            "check that was wrong: with an open lead everything reads so.",
            ("an open lead or a blown fuse in a probe",),
            "New leads; repeat the whole series since the last good check.",
            cite.INSULATION_LEADS, 60,
        )  # fmt: skip
        title = "Board: Insulation tester shows 0 with its tips joined"
        yield Pattern(concern, BOARD, title, (check, *doubted), doubted, into=check)


def _with_open_leads(reading: Reading, checks: Sequence[Reading]) -> bool:
    """Whether the next check after a reading, or else the last one before it, was bad."""
    after = [each for each in checks if each.at >= reading.at]
    nearest = after[0] if after else checks[-1]
    return isinstance(nearest.taken, Tick) and not nearest.taken.good


_Group = tuple[Stage, str | None, bool]
"""Stage, id of the meter, and whether its leads were taken off: halfway through a series they may
have become known."""


def _off(facts: Facts) -> dict[_Group, list[tuple[Slot, float]]]:
    """Return by stage and meter how far each low-resistance reading is above its expectation."""
    groups: dict[_Group, list[tuple[Slot, float]]] = {}
    for slot in facts.all_slots:
        last, figure, expected = facts.last(slot), facts.figure(slot), facts.meter_value(slot)
        if (
            slot.quantity in _LOW
            and last is not None
            and figure is not None
            and figure.sign is Sign.EQUAL
            and expected is not None
        ):
            group = slot.stage, last.instrument, figure.leads is not None
            groups.setdefault(group, []).append((slot, figure.value - expected))
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
    for (stage, meter, less), readings in _off(facts).items():
        middle = _alike(readings)
        if middle is None or middle < 0:
            continue
        known = next((each for each in facts.record.job.instruments if each.id == meter), None)
        said = ""
        causes: tuple[str, ...] = (
            "the lead resistance was not taken off", "the leads were changed after nulling",
            "a fused lead",
        )  # fmt: skip
        check = "Join the tips, null, see 0.00, and repeat them all."
        if less:
            said = " That is after the leads were taken off."
            causes = ("the leads have more than was entered for them", "a fused lead")
            check = "Join the tips, enter what the meter shows (Job), and repeat them all."
        elif known is not None and known.leads is not None:
            said = f" The leads of {known.id} have {rounded(known.leads, Unit.OHM)}"
            said += ", not nulled." if known.nulled is False else "."
        concern = Concern(
            "leads not nulled", Verdict.UNLIKELY,
            f"All {len(readings)} readings are about {rounded(middle, Unit.OHM)} above what is "
            f"expected.{said}",
            causes, check, cite.COMMON, 30,
        )  # fmt: skip
        yield _pattern(concern, stage, f"{meter or ''}{' less leads' if less else ''}", readings)


def leads_twice(facts: Facts) -> Iterator[Pattern]:
    """All are low by the resistance of the leads that was taken off: the meter nulls them too."""
    for (stage, meter, _), readings in _off(facts).items():
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
        yield _pattern(concern, stage, meter or "", readings)


def _pattern(
    concern: Concern, stage: Stage, mark: str, readings: list[tuple[Slot, float]]
) -> Pattern:
    slots = tuple(slot for slot, _ in readings)
    title = f"All continuity readings, {stage.value}"
    return Pattern(concern, BOARD, title, slots, slots, mark=mark)
