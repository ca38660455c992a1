"""A whole board of twelve circuits, each reading taken at the bench, as testers type."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from itertools import pairwise
from pathlib import Path

import pytest

from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.interlock.may_take import Lock
from records.model.reading import Figure, Quantity, Slot
from records.model.record import Record
from records.model.slots import slots
from records.session import Session
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.bench import Bench
from records.taking.interlock import NotNow
from records.taking.queue import Order
from records.terms import Part, Stage, Verdict, WorkKind
from tests.taking.job import slot
from tests.taking.locks import CERTIFIER
from tests.taking.seat import go, here, opened, read_on, say_yes
from tests.taking.twelve import Typed, sound, twelve

pytestmark = pytest.mark.usefixtures("clock")
DEAD, LIVE = Stage.DEAD, Stage.LIVE
WET = slot(Quantity.IR_LE, DEAD, "C7")
ODD_POINT = slot(Quantity.CROSS_LN, DEAD, "C1", "P2")
WEAK = slot(Quantity.ZS, LIVE, "C10")
BAD = {WET: Typed("12k", 0.012), ODD_POINT: Typed("1,9", 1.9), WEAK: Typed("9.9Ω", 9.9)}

ORDER: tuple[tuple[Stage, Part | None, frozenset[Quantity]], ...] = tuple(
    (stage, part, frozenset(quantities))
    for stage, part, quantities in (
        # IET Guidance Note 3, order of tests, and common practice (from memory).
        (DEAD, Part.FEED, {Quantity.R1_R2}),
        (DEAD, Part.BOARD, {Quantity.EARTHING}),
        (
            DEAD,
            Part.CIRCUIT,
            {Quantity.R1, Quantity.RN, Quantity.R2, Quantity.CROSS_LN, Quantity.CROSS_LE},
        ),
        (DEAD, Part.CIRCUIT, {Quantity.R1_R2}),
        (DEAD, None, {Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE}),
        (DEAD, Part.CIRCUIT, {Quantity.POLARITY}),
        (DEAD, Part.BOARD, {Quantity.PUT_BACK}),
        (LIVE, Part.ORIGIN, {Quantity.POLARITY}),
        (LIVE, Part.ORIGIN, {Quantity.ZE}),
        (LIVE, Part.ORIGIN, {Quantity.EARTH_BACK}),
        (LIVE, Part.ORIGIN, {Quantity.FAULT_LN, Quantity.FAULT_LE}),
        (LIVE, Part.BOARD, {Quantity.POLARITY, Quantity.VOLTAGE}),
        (LIVE, Part.BOARD, {Quantity.ZDB, Quantity.FAULT_LN, Quantity.FAULT_LE}),
        (LIVE, Part.CIRCUIT, {Quantity.ZS}),
        (LIVE, Part.CIRCUIT, {Quantity.RCD_TIME, Quantity.RCD_BUTTON}),
        (LIVE, Part.CIRCUIT, {Quantity.FUNCTION}),
    )
)


def with_certifier() -> Record:
    job = twelve()
    people = (*job.job.people, CERTIFIER)
    return job.model_copy(update={"job": job.job.model_copy(update={"people": people})})


def seat(session: Session, stage: Stage, names: ActNames, order: Order) -> Bench:
    bench = Bench(session, stage, names)
    bench.desk.settings.order = order
    bench.begin()
    return bench


def take_all(bench: Bench, bad: Mapping[Slot, Typed]) -> dict[Slot, Typed]:
    """Take what is left of a stage, cautions read; return what was typed where."""
    typed: dict[Slot, Typed] = {}
    while True:
        read_on(bench)
        where = here(bench)
        if bench.session.record.taken(where) and not bench.position.is_due:
            return typed
        if bench.prompt.stop is not None:
            return typed  # what is left is locked off, or waits for a failure to be put right
        typed[where] = bad.get(where) or sound(where, bench.session.expected, len(typed))
        told = bench.type(typed[where].text)
        assert told.words, where


@pytest.mark.slow
@pytest.mark.parametrize("names", [KEYS, LINES])
def test_a_board_of_twelve_circuits_is_measured_in_the_safe_order(
    tmp_path: Path, names: ActNames
) -> None:
    session = opened(tmp_path, with_certifier())
    dead = seat(session, DEAD, names, Order.BY_TEST)
    typed = take_all(dead, BAD)
    first = len(session.record.readings)
    assert {*typed} == {*slots(session.record, DEAD)}
    _put_right(dead, typed)
    live = seat(session, LIVE, names, Order.BY_TEST)
    say_yes(live)
    (gate,) = session.record.live_gate
    assert [each.split()[0] for each in gate.locked_off] == ["C1"]  # the odd point of its ring
    live.go_to(slot(Quantity.ZS, LIVE, "C1"))
    with pytest.raises(NotNow) as caught:
        live.type("0.9")
    assert caught.value.refusal.lock is Lock.CIRCUIT
    live.conditions.exception(CERTIFIER.id, "the point is blanked off until it is opened up")
    live.enter(0)
    typed |= take_all(live, BAD)

    own = session.review.of(WEAK)[0]
    assert own.verdict is Verdict.OUTSIDE
    live.go_to(slot(Quantity.RCD_TIME, LIVE, "C10"))
    with pytest.raises(NotNow) as caught:
        live.type("24")
    assert caught.value.refusal.lock is Lock.FAILURE
    go(live, WEAK)
    live.retest()
    live.type(f"{0.46 + typed[slot(Quantity.R1_R2, DEAD, 'C10')].value:.2f}")  # Zdb + R1+R2, nearly
    assert session.review.of(WEAK)[0].verdict is Verdict.WITHIN
    typed |= take_all(live, {})
    record = session.record

    assert set(typed) == {*slots(record, DEAD), *slots(record, LIVE)}
    assert len(typed) > 130
    for where, was in typed.items():
        assert was.text in [_text(each.taken) for each in record.taken(where)] or was.good
    assert {each.by for each in record.readings} == {"A1"}
    groups = [_group(each.slot) for each in record.readings[:first]]
    assert all(one <= other for one, other in pairwise(groups))
    taken = [each.slot for each in record.readings]
    assert taken[taken.index(ZE) + 1] == EARTH_BACK
    about = {each.slot for each in session.review.findings if each.slot}
    about |= {each for found in session.review.findings for each in found.about}
    assert ODD_POINT in about
    assert WET not in {each.slot for each in session.review.findings}
    session.close()


def _put_right(bench: Bench, typed: Mapping[Slot, Typed]) -> None:
    """Put the wet cable right, test again what the work can have touched, put all back."""
    go(bench, WET)
    bench.conditions.done("Gland filled with water, dried out and made off again", "other")
    (remedy,) = bench.session.record.remedies
    assert remedy.kind is WorkKind.OTHER
    bench.retest()
    read_on(bench)
    bench.type(">999")
    assert bench.session.review.of(WET)[0].verdict is Verdict.WITHIN
    for where in (slot(Quantity.R1_R2, DEAD, "C7"), slot(Quantity.IR_LN, DEAD, "C7")):
        go(bench, where)
        bench.retest()
        read_on(bench)
        bench.type(typed[where].text)
    bench.go_to(PUT_BACK)
    if not bench.position.is_due:
        bench.retest()
    bench.type("y")


def test_by_circuit_all_is_taken_too_and_what_is_bad_can_be_seen(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, with_certifier())
    bench = seat(session, DEAD, KEYS, Order.BY_CIRCUIT)
    typed = take_all(bench, BAD)

    assert {*typed} == {*slots(session.record, DEAD)}
    for where, was in typed.items():
        assert was.is_in(session.record, where), where
    circuits = [each.slot.place.circuit for each in session.record.readings]
    known = [each for each in circuits if each is not None]
    assert known == sorted(known, key=lambda each: int(each[1:]))
    bad = {each.slot for each in bench.queue.entries if each.is_bad}
    assert {WET, ODD_POINT} <= bad
    session.close()


def _text(taken: object) -> str:
    return taken.typed if isinstance(taken, Figure) else ""


def _group(where: Slot) -> int:
    for number, (stage, part, quantities) in enumerate(ORDER):
        fits = where.stage is stage and part in (None, where.place.part)
        if fits and where.quantity in quantities:
            return number
    raise AssertionError(f"{where} has no place in the order.")
