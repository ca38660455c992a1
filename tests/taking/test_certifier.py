"""The certifier takes readings at the bench and by sheet: kept apart, and no lock opens for it."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.errors import StaysOwed
from records.interlock.comes_off import EARTH_BACK, ZE, earth_owed
from records.interlock.may_take import Lock
from records.model.reading import Figure, Left, Quantity, Tick
from records.model.record import Record
from records.model.slots import measured_by
from records.session import Session
from records.store.difference_words import difference
from records.store.file import RecordFile
from records.taking import desk
from records.taking.desk import Desk
from records.taking.how_left import asks
from records.taking.interlock import NotNow
from records.terms import Stage
from tests.taking.locks import (
    CERTIFIER,
    FAULT_LN,
    LE,
    RUN,
    ZDB,
    ZS2,
    answered,
    at_minute,
    job,
    read_before,
    supply,
    took,
)
from tests.taking.seat import read_all


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> None:
    minutes = iter(range(120, 10_000))
    monkeypatch.setattr(desk, "present", lambda: at_minute(next(minutes)))
    monkeypatch.setattr(Desk, "now", lambda self: desk.present())


def seated(path: Path, record: Record, stage: Stage) -> tuple[Session, Desk]:
    session = Session(RecordFile.create(path / "job.farboard", record))
    found = Desk(session, stage)
    found.settings.person = CERTIFIER.id
    return session, found


def test_a_figure_of_the_certifier_is_kept_beside(tmp_path: Path, clock: None) -> None:
    session, found = seated(tmp_path, job(), Stage.DEAD)
    before = session.record.taken(RUN)
    read_all(found, RUN)
    assert "still counts" in found.beside(RUN, Figure(value=0.9))
    found.take(RUN, Figure(value=0.9))

    assert session.record.taken(RUN) == before
    kept = session.record.certifier_readings
    assert [(each.slot, each.taken.value, each.by) for each in kept] == [(RUN, 0.9, "A2")]
    assert any("certifier's reading" in each.patterns for each in session.review.findings)
    session.close()
    with RecordFile.open(tmp_path / "job.farboard") as again:
        assert again.record.certifier_readings == kept
        with pytest.raises(Exception, match="reading of the certifier"):
            again.change([{"op": "remove", "path": "/certifier_readings/0"}])


def test_the_earth_is_off_after_the_certifiers_ze_too(tmp_path: Path, clock: None) -> None:
    record = job(answered(), supply(), answered(115, "A2"))
    session, found = seated(tmp_path, record, Stage.LIVE)
    read_all(found, ZE)
    if (owed := earth_owed(session.record)) is not None:  # its caution alone takes it off
        assert owed.slot == EARTH_BACK
    found.take(ZE, Figure(value=0.36))
    assert [each.slot for each in session.record.certifier_readings] == [ZE]

    read_all(found, FAULT_LN)
    with pytest.raises(NotNow) as stop:
        found.take(FAULT_LN, Figure(value=2.2))
    assert stop.value.refusal.lock is Lock.EARTH
    session.undo()
    assert earth_owed(session.record) is not None
    session.redo()
    found.take(EARTH_BACK, Tick(good=True))
    assert session.record.taken(EARTH_BACK)[-1].by == "A2"
    assert earth_owed(session.record) is None
    found.take(FAULT_LN, Figure(value=2.2))


def test_a_dead_test_that_fails_for_the_certifier_locks_the_circuit(
    tmp_path: Path, clock: None
) -> None:
    record = job(answered(), supply(), answered(115, "A2"))
    session, found = seated(tmp_path, record, Stage.DEAD)
    live = Desk(session, Stage.LIVE)
    live.settings.person = CERTIFIER.id
    assert session.counted[0] is session.record
    assert live.interlock.may_go_live("C2")
    read_all(found, LE)
    found.take(LE, Figure(value=0.02))

    assert not live.interlock.may_go_live("C2")
    with pytest.raises(NotNow):
        live.take(ZS2, Figure(value=1.0))


def test_the_question_before_the_live_tests_is_asked_of_the_certifier(
    tmp_path: Path, clock: None
) -> None:
    """The installer's yes is not theirs."""
    record = job(answered(), supply(), read_before(ZDB, 100, "A2"))
    _, found = seated(tmp_path, record, Stage.LIVE)
    with pytest.raises(NotNow) as stop:
        found.take(ZDB, Figure(value=0.44))
    assert stop.value.refusal.lock is Lock.ANSWER


def test_while_it_is_typed_it_is_judged_by_itself(tmp_path: Path, clock: None) -> None:
    session, found = seated(tmp_path, job(), Stage.DEAD)
    quick = found.trial(RUN, Figure(value=9.0), whole=False)
    own, *wider = found.trial(RUN, Figure(value=9.0), whole=True)
    assert "9.00" in quick[0].why
    assert "9.00" in own.why
    assert any("certifier's reading" in each.patterns for each in wider)
    assert session.record.certifier_readings == ()


def test_pasted_readings_of_the_certifier_stand_beside_with_ids_of_their_own(
    tmp_path: Path, clock: None
) -> None:
    from records.taking.paste import Fill
    from records.taking.queue import Entry

    record = job(took(RUN, 0.25, 30))
    session, found = seated(tmp_path, record, Stage.DEAD)
    entries = [Entry(each, measured_by(each), "", "") for each in (RUN, LE)]
    for each in entries:
        read_all(found, each.slot)
    found.fill([Fill(each, Figure(value=0.26 if each.slot == RUN else 480.0)) for each in entries])
    kept = session.record.certifier_readings
    assert {each.slot for each in kept} == {RUN, LE}
    ids = [each.id for each in (*session.record.readings, *kept)]
    assert len(ids) == len(set(ids))
    assert isinstance(kept[0].at, datetime)
    assert RUN.quantity is Quantity.R1_R2


def test_it_is_asked_again_how_it_was_left_after_the_certifiers_live_reading(
    tmp_path: Path, clock: None
) -> None:
    said = Left(at=at_minute(118), by="A1", off=True)
    record = job(answered(), supply(), answered(115, "A2"))
    session, found = seated(tmp_path, record.model_copy(update={"left": (said,)}), Stage.LIVE)
    assert not asks(session.record)
    read_all(found, ZDB)
    found.take(ZDB, Figure(value=0.44))
    assert session.record.certifier_readings
    assert asks(session.record)


def test_a_reading_taken_back_is_named_and_what_came_off_stays_off(
    tmp_path: Path, clock: None
) -> None:
    session, found = seated(tmp_path, job(answered(), supply(), answered(115, "A2")), Stage.LIVE)
    read_all(found, ZDB)
    found.take(ZDB, Figure(value=0.44))
    before = session.record
    session.undo()
    assert "Zdb" in difference(before, session.record)
    assert "0.44 Ω" in difference(before, session.record)

    dead = Desk(session, Stage.DEAD)
    dead.settings.person = CERTIFIER.id
    read_all(dead, RUN)
    dead.take(RUN, Figure(value=0.9))
    with pytest.raises(StaysOwed, match="is everything put back"):
        session.undo()
