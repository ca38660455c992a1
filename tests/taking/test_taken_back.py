"""What is taken back at any door: the earth, the answer and the cautions are asked for again."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE, earth_owed, put_back_owed
from records.interlock.may_take import Lock
from records.model.reading import Figure, Tick
from records.taking.desk import Desk
from records.taking.interlock import NotNow
from records.terms import Stage
from tests.taking.locks import (
    FAULT_LN,
    RUN,
    answered,
    job,
    took,
)
from tests.taking.seat import opened, read_all

# Undo and redo


def test_taking_back_ze_leaves_the_earth_owed(tmp_path: Path, clock: dict[str, datetime]) -> None:
    session = opened(tmp_path, job(answered()))
    at = Desk(session, Stage.LIVE)
    read_all(at, ZE)
    at.take(ZE, Figure(value=0.35))
    assert session.undo()

    assert earth_owed(session.record) is not None
    with pytest.raises(NotNow):
        at.take(FAULT_LN, Figure(value=2.2))
    with pytest.raises(Exception, match="is the earth back"):
        session.undo()  # the caution itself: it says that the earth came off
    session.close()


def test_ze_of_an_older_record_can_not_be_taken_back_while_the_earth_is_off(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(answered()))
    session.change(
        [
            {
                "op": "add",
                "path": "/readings/-",
                "value": took(ZE, 0.35, 110)(session.record).readings[-1].model_dump(mode="json"),
            }
        ]
    )
    with pytest.raises(Exception, match="is the earth back"):
        session.undo()

    assert earth_owed(session.record) is not None
    session.close()


def test_taking_back_that_the_earth_is_back_asks_again_and_so_does_making_it_again(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(answered(), took(ZE, 0.35, 70)))
    at = Desk(session, Stage.LIVE)
    at.take(EARTH_BACK, Tick(good=True))
    assert earth_owed(session.record) is None
    assert session.undo()
    assert earth_owed(session.record) is not None
    with pytest.raises(Exception, match="is the earth back"):
        session.redo()

    assert earth_owed(session.record) is not None
    session.close()


def test_taking_back_the_answer_asks_again(tmp_path: Path, clock: dict[str, datetime]) -> None:
    session = opened(tmp_path, job())
    at = Desk(session, Stage.LIVE)
    at.open_live()
    read_all(at, FAULT_LN)
    assert at.refusal(FAULT_LN) is None
    assert session.undo()  # the caution
    assert session.undo()  # the answer

    assert session.record.live_gate == ()
    stop = at.refusal(FAULT_LN)
    assert stop is not None
    assert stop.lock is Lock.ANSWER
    session.redo() if session.file.with_next() is None else None
    with pytest.raises(Exception, match="asked there"):
        session.redo()
    session.close()


def test_taking_back_a_dead_test_does_not_say_that_its_link_is_out(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job())
    at = Desk(session, Stage.DEAD)
    read_all(at, RUN)
    at.take(RUN, Figure(value=0.3))
    assert put_back_owed(session.record) is not None
    with pytest.raises(Exception, match="is everything put back"):
        session.undo()

    at.take(PUT_BACK, Tick(good=True))
    assert put_back_owed(session.record) is None
    session.close()
