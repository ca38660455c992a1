"""Somebody who does exactly what each card says and no more, from the first dead test to the last.

What is live, off and lifted is kept beside the record: at no card may a hand be on metal that could
be live, or a supply go on with an earth off or a link in.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from records.expected.results import Worked
from records.interlock.comes_off import EARTHS, PUT_BACK, TAKES_OFF
from records.model.reading import Figure, Quantity, Slot, Tick
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.session import Session
from records.store.file import RecordFile
from records.taking import desk
from records.taking.desk import Desk
from records.taking.interlock import NotNow, next_to_take
from records.taking.queue import Order, Queue, queue
from records.terms import Part, Sign, Stage
from records.units import Unit
from tests.taking.job import small_job
from tests.taking.locks import GOOD, at_minute

IR = Quantity.IR_LE


@dataclass
class Shed:
    """The state of the installation, as the hands of the person made it."""

    live: bool = False
    off: set[str] = field(default_factory=set)
    """Earths, links and neutrals that are not where they belong."""

    def touch(self, slot: Slot) -> None:
        """Do what the card of a reading says."""
        if slot.stage is not Stage.LIVE:
            self.live = False  # the caution that was read: isolated, locked off, proved dead
            if slot == PUT_BACK or slot in EARTHS:
                self.off.clear()
            elif slot.quantity in TAKES_OFF:
                self.off.add(slot.quantity.code)
            return
        if slot in EARTHS:
            self.off.clear()
        elif any(slot in tests for tests in EARTHS.values()):
            self.live = False
            self.off.add(slot.quantity.code)
        elif slot.place.part is not Part.ORIGIN:
            assert not self.off, f"{slot.quantity} goes live with {self.off} off"
            self.live = True


def shown(session: Session, slot: Slot, bad: dict[Slot, Figure | Tick]) -> Figure | Tick:
    """Return what a meter shows on this job."""
    test = measured_by(slot)
    if slot in bad and not session.record.taken(slot):
        return bad[slot]
    if slot in GOOD:
        return GOOD[slot]
    if test.is_check:
        return Tick(good=True)
    if test.unit is Unit.MEGOHM:
        return Figure(value=999.0, sign=Sign.OVER)
    due = session.expected.meter.get(slot)
    usual = {Quantity.EARTHING: 0.01, Quantity.RCD_TIME: 24.0, Quantity.VOLTAGE: 236.0}
    value = usual.get(slot.quantity) or (due.value if isinstance(due, Worked) else 0.05)
    return Figure(value=round(value, 2))


@pytest.mark.parametrize("order", list(Order))
@pytest.mark.parametrize(
    "bad",
    [
        {},
        {
            Slot(quantity=IR, place={"part": "circuit", "circuit": "C2"}, stage="dead"): Figure(
                value=0.1
            )
        },
    ],
    ids=["sound", "insulation of C2 outside"],
)
def test_who_does_just_what_the_card_says_never_touches_what_could_be_live(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, order: Order, bad: dict[Slot, Figure | Tick]
) -> None:
    known = {"now": at_minute(0)}

    def present() -> datetime:
        known["now"] += timedelta(seconds=20)
        return known["now"]

    monkeypatch.setattr(desk, "present", present)
    path = tmp_path / "job.farboard"
    RecordFile.create(path, small_job()).close()
    session, shed = Session(RecordFile.open(path), "Wren Oakes"), Shed()
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD, Stage.LIVE):
        at = Desk(session, stage)
        if stage is Stage.LIVE:
            assert not shed.off, shed.off
            at.open_live()
        _walk(session, at, order, shed, bad)

    live = {
        each.slot.place.circuit
        for each in session.record.readings
        if each.slot.stage is Stage.LIVE and each.slot.place.circuit
    }
    assert live == ({"C1", "C3"} if bad else {"C1", "C2", "C3"})
    assert not shed.off
    if not bad:
        assert all(session.record.taken(slot) for slot in slots(session.record))
    session.close()


def _walk(
    session: Session, at: Desk, order: Order, shed: Shed, bad: dict[Slot, Figure | Tick]
) -> None:
    here = -1
    for _ in range(200):
        line = _queue(session.record, session, at.stage, order)
        next_ = next_to_take(line, at.interlock, here)
        if next_ is None or session.record.taken(line.entries[next_].slot):
            return
        here, slot = next_, line.entries[next_].slot
        while (caution := at.unread(slot)) is not None and at.interlock.earth is None:
            at.has_read(caution, slot)
        try:
            at.take(slot, shown(session, slot, bad))
        except NotNow:
            return  # what is left is locked off: the card says so
        shed.touch(slot)


def _queue(record: Record, session: Session, stage: Stage, order: Order) -> Queue:
    return queue(record, session.review, stage, order)
