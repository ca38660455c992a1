"""Is a surface safe to cover? One answer: yes, or what is missing, with what comes first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from records.days import day_words
from records.expected.boxes import placed
from records.judgement.fabric.entries import spot_key
from records.judgement.fabric.hidden import circuits_behind, hidden_legs, is_met
from records.judgement.fabric.legs import leg_name, run_of
from records.judgement.fabric.ring_cables import ENDS, ends_open, ring_cables, still_to_read
from records.judgement.review_types import Judged, Review
from records.model.fabric import Frame, Surface
from records.model.reading import NotTaken, Place, Slot
from records.model.record import Record
from records.model.slots import slot_words, slots, title
from records.terms import Stage, Verdict

_OF_LEG = ("zone", "timber", "screws", "leg", "bend", "clips", "lamp", "joint")
_OF_RUN = ("insulation ", "shared holes ")
"""Design checks of what nobody can put right once the board is on: how their names begin."""
_ASKED = ("zone", "timber", "screws", "bend", "clips", "lamp", "joint")
"""Those whose doubt somebody has to decide before; what was decided is on record as done."""


@dataclass(frozen=True, slots=True)
class Open:
    """One thing to do before a surface is covered."""

    what: str
    """A sentence that says what to do."""
    slot: Slot | None = None
    """The reading that it is about, to go to."""
    key: str = ""
    """The finding that it is about."""


@dataclass(frozen=True, slots=True)
class Answer:
    """Whether a surface may be covered."""

    surface: Surface
    first: tuple[Open, ...]
    """What has to be done first; empty: safe to cover."""
    done: tuple[str, ...]
    """What is taken and right, a line each."""
    older: tuple[str, ...] = ()
    """Circuits whose cable was entered after it was read: if it was pulled since, it isn't read."""

    @property
    def safe(self) -> bool:
        """Whether nothing is missing."""
        return not self.first


def safe_to_cover(record: Record, review: Review, surface: Surface) -> Answer:
    """Return whether a surface may be covered, from readings, places and design checks.

    Args:
        record: The job.
        review: All verdicts on it.
        surface: One of its surfaces.
    """
    behind = circuits_behind(record, surface)
    lines = [each for each in review.lines if each.place in behind or _points_to(each, behind)]
    first = [*_readings(record, lines, behind, surface), *_hidden(record, review, behind, surface)]
    first += _places(record, surface)
    done = tuple(
        f"{each.verdict.mark} {each.title}"
        for each in lines
        if each.slot is not None
        and each.slot.stage is Stage.BEFORE_COVERING
        and each.verdict is Verdict.WITHIN
    )
    return Answer(surface, tuple(first), done, tuple(_older(record, surface, behind)))


def _older(record: Record, surface: Surface, behind: tuple[Place, ...]) -> Iterator[str]:
    """Yield the circuits whose last reading before covering is older than a leg of theirs here."""
    latest: dict[Place, date] = {}
    for leg in hidden_legs(record, surface):
        run = run_of(record, leg)
        if run is not None and leg.entered is not None:
            latest[run.place] = max(leg.entered, latest.get(run.place, leg.entered))
    for place in behind:
        days = [
            record.taken(slot)[-1].at.date()
            for slot in slots(record, Stage.BEFORE_COVERING)
            if slot.place.whole == place and record.taken(slot)
        ]
        if days and place in latest and latest[place] > min(days):
            yield (
                f"{title(record, place)}: read {day_words(min(days))}, cable entered "
                f"{day_words(latest[place])}. If any of it was pulled since, read it again."
            )


def _points_to(line: Judged, behind: tuple[Place, ...]) -> bool:
    slot = line.slot
    return slot is not None and slot.place.model_copy(update={"point": None}) in behind


def _readings(
    record: Record, lines: list[Judged], behind: tuple[Place, ...], surface: Surface
) -> Iterator[Open]:
    by_slot = {each.slot: each for each in lines if each.slot is not None}
    legs_alone = {place: ring_cables(record, surface, place) for place in behind}
    for place, wanted in legs_alone.items():
        if wanted is None or not ends_open(by_slot, place):
            continue
        for slot in still_to_read(record, wanted):
            line = by_slot.get(slot)
            if line is not None and line.attempts:
                yield Open(f"{line.title}: {line.why} {line.next_check}".strip(), slot, line.key)
            else:
                yield Open(
                    f"{title(record, slot.place)}: the ring isn't all in yet, so its ends can't be "
                    "read. Test each cable here alone before the board goes on.",
                    slot,
                )
    for slot in slots(record, Stage.BEFORE_COVERING):
        place = slot.place.whole
        line = by_slot.get(slot)
        if place not in behind:
            continue
        if line is None:
            yield Open(f"{slot_words(record, slot)}: take this reading first.", slot)
        elif line.verdict is Verdict.NOT_TAKEN:
            if slot.quantity in ENDS and legs_alone[place] is not None:
                continue  # its last leg isn't in: the cables by themselves are asked for
            yield Open(f"{line.title}: take this reading before the board goes on.", slot)
        elif line.verdict is Verdict.NOT_NEEDED:
            yield Open(f"{line.title}: entered as not needed. Nothing else shows it.", slot)
        elif line.attempts and isinstance(line.attempts[-1].taken, NotTaken):
            yield Open(f"{line.title}: it could not be taken. Take it before the board.", slot)
        elif line.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY):
            yield Open(f"{line.title}: {line.why} {line.next_check}".strip(), slot, line.key)


def _hidden(
    record: Record, review: Review, behind: tuple[Place, ...], surface: Surface
) -> Iterator[Open]:
    own = {each.id for each in record.fabric.legs if each.surface == surface.id}
    own |= {each.id for each in hidden_legs(record, surface)}
    decided = {each.finding for each in record.remedies if not each.to_decide}
    for line in review.lines:
        name = line.key.partition("/design/")[2]
        if line.slot is not None or not name:
            continue
        kind, _, rest = name.partition(" ")
        if kind in _OF_LEG:
            here = rest.partition(" ")[0].partition("-")[0] in own
            here = here or rest.partition(" ")[0] == surface.id
        elif kind == "surface":
            here = rest.partition(" ")[0] == surface.id
        elif kind == "spot":
            here = rest in _spots(record, surface)
        else:
            here = name.startswith(_OF_RUN) and line.place in behind
        asks = line.verdict is Verdict.NEAR and kind in _ASKED and line.key not in decided
        bad = line.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NOT_TAKEN)
        if here and (asks or bad):
            yield Open(f"{line.title}: {line.why} {line.next_check}".strip(), None, line.key)


def _spots(record: Record, surface: Surface) -> set[str]:
    """Return how the checks of the places on a surface are called."""
    return {spot_key(each) for each in placed(record, surface)}


def _places(record: Record, surface: Surface) -> Iterator[Open]:
    legs = [each for each in record.fabric.legs if each.surface == surface.id]
    if not legs and not any(placed(record, surface)):
        yield Open("Enter what is behind it: no leg of cable and no box is entered here.")
    for each in placed(record, surface):
        if each.circuit is not None and each.spot.box is None and each.spot.width is None:
            yield Open(f"Say which box {each.name} of {each.circuit.id} has: 1g, 2g, round, lamp.")
        if each.circuit is not None and not is_met(record, surface, each):
            yield Open(f"Enter the cable to {each.name} of {each.circuit.id}: no leg ends there.")
    for leg in legs:
        if leg.deep is None:
            yield Open(
                f"Measure how deep leg {leg.id} lies ({leg_name(leg, surface)}), from the finished "
                f"face. Type it: {leg.id} deep 47."
            )
    hides = any(each.deep != 0 for each in legs)
    if hides and surface.screw is None and surface.frame is not Frame.MASONRY:
        yield Open(
            "Enter how long the screws are that will hold the board, such as: this screws 38. Too "
            "long ones reach the cable."
        )
    if hides and surface.frame is None:
        yield Open("Enter what the frame is: this timber, this metal, or this brick.")
    circuits = {leg.circuit for leg in legs if leg.circuit is not None}
    for circuit in record.circuits:
        lacking = [each.name or each.id for each in circuit.points if each.spot is None]
        if circuit.id in circuits and lacking:
            names = ", ".join(lacking)
            yield Open(f"Enter where {names} of {circuit.id} {circuit.name} will be.")
