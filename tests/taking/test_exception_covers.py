"""An exception covers what it was made in spite of, and nothing that is open since."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.interlock.may_take import Interlock, Lock
from records.model.record import Record
from records.store.edits import put
from records.taking.desk import Desk
from records.taking.interlock import NotNow
from records.terms import Form
from tests.taking.locks import LE, LIVE, ZS2, answered, at_minute, job, spoilt, supply
from tests.taking.seat import opened, read_all

pytestmark = pytest.mark.usefixtures("clock")
WHY = "heater in place, tested at 250 V by me"


def excepted(folder: Path) -> Desk:
    """Return a desk at which who certifies has let C2 be tested live in spite of its insulation."""
    session = opened(folder, job(spoilt(LE, 0.2), supply(), answered()))
    desk = Desk(session, LIVE)
    desk.except_circuit("C2", "ash reed", WHY)
    return desk


def stop(desk: Desk) -> Lock | None:
    read_all(desk, ZS2)
    found = desk.refusal(ZS2)
    return None if found is None else found.lock


def test_it_lets_the_circuit_be_tested_as_it_was(tmp_path: Path) -> None:
    desk = excepted(tmp_path)

    assert stop(desk) is None
    assert desk.interlock.exception("C2") is not None
    assert desk.interlock.exception("C1") is None


def test_another_design_that_needs_other_dead_tests_asks_again(tmp_path: Path) -> None:
    """As a ring it needs three tests of its ends; nobody decided to go without them."""
    desk = excepted(tmp_path)
    session = desk._session
    at = [each.id for each in session.record.circuits].index("C2")
    session.change(put(f"/circuits/{at}/form", Form.RING))

    assert stop(desk) is Lock.CIRCUIT
    with pytest.raises(NotNow, match="Leave it locked off"):
        desk.take(ZS2, _figure())
    desk.except_circuit("C2", "ash reed", WHY)  # decided again, with all that is open now
    assert stop(desk) is None


def test_a_name_that_changes_nothing_of_its_tests_changes_nothing(tmp_path: Path) -> None:
    desk = excepted(tmp_path)
    session = desk._session
    at = [each.id for each in session.record.circuits].index("C2")
    session.change(put(f"/circuits/{at}/name", "Loft"))

    assert stop(desk) is None


def test_what_was_put_right_since_needs_none() -> None:
    record = job(answered())
    found = Interlock(record, _verdicts(record), "A1", at_minute(120))

    assert found.may_go_live("C2")


def _verdicts(record: Record) -> dict[str, object]:
    from records.expected.plan import expected
    from records.judgement.review import review

    return dict(review(record, expected(record)).verdicts)


def _figure() -> object:
    from records.model.reading import Figure

    return Figure(value=1.4)
