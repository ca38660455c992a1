"""Open leads: all readings out of range, or a tester that shows no nought with its tips joined."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import is_open
from records.judgement.facts import BOARD, Facts
from records.judgement.uncertainty import kind_of
from records.model.reading import Figure, Quantity, Reading, Slot, Tick, slot_of
from records.terms import Sign, Stage, Verdict

_LOW = (
    Quantity.R1_R2,
    Quantity.R1_RN,
    Quantity.R1,
    Quantity.RN,
    Quantity.R2,
    Quantity.RN_R2,
    Quantity.BONDING,
)
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
            "open leads",
            Verdict.OUTSIDE,
            f"All {len(slots)} continuity readings are out of range: so many conductors are "
            "rarely open at once.",
            (
                "an open lead or a blown fuse in a probe",
                "the leads are in the wrong sockets",
                "the link at the board is missing",
            ),
            do(Act.AGAIN, "Join the tips: 0.00. New leads; repeat all since the last good check."),
            cite.COMMON,
            60,
        )
        yield Pattern(
            concern,
            BOARD,
            f"All continuity readings, {stage.value}",
            slots,
            slots,
            mark=meter or "",
        )


def tips(facts: Facts) -> Iterator[Pattern]:
    """The insulation tester didn't show nought with its tips joined: over the range is no proof."""
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
        check = slot_of(Quantity.TIPS_JOINED, BOARD, stage)
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
            "open leads, insulation",
            Verdict.OUTSIDE,
            f"{len(doubted)} reading{'s' * several} over the range rest{'s' * (not several)} on a "
            "check that was wrong: with an open lead everything reads so.",
            ("an open lead or a blown fuse in a probe",),
            do(Act.AGAIN, "New leads; repeat the whole series since the last good check."),
            cite.INSULATION_LEADS,
            60,
        )
        title = "Board: Insulation tester shows 0 with its tips joined"
        yield Pattern(concern, BOARD, title, (check, *doubted), doubted, into=check)


def _with_open_leads(reading: Reading, checks: Sequence[Reading]) -> bool:
    """Whether the next check after a reading, or else the last one before it, was bad."""
    after = [each for each in checks if each.at >= reading.at]
    nearest = after[0] if after else checks[-1]
    return isinstance(nearest.taken, Tick) and not nearest.taken.good
