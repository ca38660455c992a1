"""Whether the meter was fit for the reading on that day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from records.days import day_words
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.uncertainty import kind_of
from records.model.job import Instrument, InstrumentKind
from records.model.reading import Figure, Reading, Slot
from records.terms import Verdict

_YEAR = timedelta(days=366)
"""How long a calibration is taken to hold if nothing is said: common practice."""
LATE = "‡"
"""Stands beside a reading from a meter out of calibration: its verdict stays its own."""
_CAN = {
    "low resistance": (InstrumentKind.LOW_OHM, InstrumentKind.INSULATION),
    "insulation": (InstrumentKind.INSULATION,),
    "loop impedance": (InstrumentKind.LOOP,),
    "earth electrode": (InstrumentKind.ELECTRODE, InstrumentKind.LOOP),
    "RCD time, of the limit": (InstrumentKind.RCD,),
}
"""Insulation testers commonly have a low-resistance range; a loop tester can read an electrode."""


def _by_meter(facts: Facts) -> Iterator[tuple[Instrument, list[tuple[Slot, Reading]]]]:
    used: dict[str | None, list[tuple[Slot, Reading]]] = {}
    for slot in facts.all_slots:
        last = facts.last(slot)
        if last is not None and isinstance(last.taken, Figure):
            used.setdefault(last.instrument, []).append((slot, last))
    for meter in facts.record.job.instruments:
        if meter.id in used:
            yield meter, used[meter.id]


def calibration(facts: Facts) -> Iterator[Pattern]:
    """Readings taken with a meter whose calibration had run out on that day."""
    for meter, used in _by_meter(facts):
        due = meter.due
        if due is None and meter.calibrated is not None:
            due = meter.calibrated + _YEAR
        if due is None:
            continue
        late = tuple(slot for slot, reading in used if reading.at.date() > due)
        if not late:
            continue
        ground = "was due" if meter.due is not None else "was a year old"
        concern = Concern(
            "calibration",
            Verdict.NEAR,
            f"The calibration of {meter.name} {ground} on {day_words(due)}; {len(late)} "
            f"reading{'s were' if len(late) > 1 else ' was'} taken after that day. That "
            f"makes none of them wrong: the certifier decides if they count. Mark: {LATE}",
            ("calibration overdue", "the day was entered wrongly"),
            do(Act.AGAIN, "Repeat a sample with a meter in calibration. Note how they agree."),
            cite.CALIBRATION,
            20,
        )
        title = f"Calibration of {meter.name}"
        yield Pattern(concern, BOARD, title, late, mark=meter.id, once=True)


def wrong_kind(facts: Facts) -> Iterator[Pattern]:
    """Readings that this kind of meter can't give."""
    for meter, used in _by_meter(facts):
        if meter.kind in (None, InstrumentKind.MULTIFUNCTION):
            continue
        wrong = tuple(
            slot
            for slot, _ in used
            if (kind := kind_of(slot.quantity)) is not None and meter.kind not in _CAN[kind]
        )
        if wrong:
            names = ", ".join(dict.fromkeys(slot.quantity.value for slot in wrong))
            concern = Concern(
                "wrong instrument",
                Verdict.UNLIKELY,
                f"It ({meter.name}) is entered as {meter.kind.value if meter.kind else ''}, "
                f"which can't read {names}.",
                ("the wrong instrument was chosen for the entry", "the wrong meter was used"),
                do(Act.ENTER, "Say which meter it was.")
                + do(Act.AGAIN, "If it was this one, repeat with the right one."),
                cite.METER,
                15,
            )
            yield Pattern(concern, BOARD, f"Readings with {meter.name}", wrong, mark=meter.id)
