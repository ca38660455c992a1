"""The rules of order, each held against every order of work that Farboard offers."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from records.judgement.review_types import Review
from records.judgement.todo.walking import left
from records.model.measurements import MEASUREMENTS
from records.model.outbuilding import Board
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.model.safe_order import RULES, Before
from records.model.slots import every, offered
from records.model.supply import Origin
from records.model.wiring import Rcd
from records.taking.queue import Order, queue
from records.terms import Cpc, OutbuildingEarth, Part, Stage
from tests.taking.job import small_job


def _kind(slot: Slot) -> tuple[Part, Quantity]:
    return slot.place.part, slot.quantity


def violations(slots: Iterable[Slot]) -> tuple[tuple[Before, Slot, Slot], ...]:
    """Return what stands the wrong way round: the rule, what came, and what should have been first.

    Args:
        slots: In the order in which somebody would take them.
    """
    order = tuple(slots)
    return tuple(
        (rule, early, late)
        for at, early in enumerate(order)
        for rule in RULES
        if _kind(early) in rule.then
        for late in order[at + 1 :]
        if _kind(late) in rule.first and rule.scope(late) == rule.scope(early)
    )


_RCD = Rcd(residual=30.0)


def _island() -> Record:
    """An armoured feed to an electrode of its own, RCDs everywhere: all that has an order."""
    job = small_job()
    runs = tuple(each.model_copy(update={"cpc": Cpc.NONE}) for each in job.feed.runs)
    return job.model_copy(
        update={
            "feed": job.feed.model_copy(update={"runs": runs, "rcd": _RCD}),
            "board": Board(
                earth=OutbuildingEarth.OWN_ELECTRODE,
                rcd=_RCD,
                bonds=job.board.bonds,
                surge_protection=True,
            ),
            "circuits": tuple(c.model_copy(update={"rcd": _RCD}) for c in job.circuits),
        }
    )


def _exported() -> Record:
    """The earth comes with the feed, by a core and the armour; Ze is declared."""
    job = small_job()
    runs = tuple(e.model_copy(update={"cpc": Cpc.CORE_AND_ARMOUR}) for e in job.feed.runs)
    return job.model_copy(update={"feed": job.feed.model_copy(update={"runs": runs})})


JOBS = {"island": _island(), "exported": _exported(), "bare": Record(origin=Origin())}


def _taken(job: Record, stage: Stage, order: Order) -> tuple[Slot, ...]:
    more = offered(job, stage)  # what nobody has to take keeps the rules as well
    return tuple(each.slot for each in queue(job, Review(()), stage, order, more).entries)


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("order", Order)
def test_the_bench_breaks_no_rule_in_either_order(job: str, stage: Stage, order: Order):
    assert violations(_taken(JOBS[job], stage, order)) == ()


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("stage", Stage)
def test_whoever_walks_down_the_list_of_what_is_left_breaks_no_rule(job: str, stage: Stage):
    walked = [slot for stop in left(JOBS[job], stage) for slot in stop.slots]

    assert walked
    assert violations(walked) == ()


def _bitten(rule: Before) -> bool:
    """Whether a job has both sides of a rule, and turned round they are found out."""
    for job in JOBS.values():
        for stage in Stage:
            order = _taken(job, stage, Order.BY_TEST)
            firsts = [s for s in order if (s.place.part, s.quantity) in rule.first]
            thens = [s for s in order if (s.place.part, s.quantity) in rule.then]
            for first in firsts:
                for then in thens:
                    if rule.scope(first) == rule.scope(then):
                        found = violations((then, first))
                        return (rule, then, first) in found
    return False


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.why[:40])
def test_each_rule_bites_when_its_two_sides_change_places(rule: Before):
    assert _bitten(rule)


def test_the_catalogue_itself_is_in_safe_order():
    job = JOBS["island"]

    for stage in Stage:
        by_entry = [s for s in every(job) if s.stage is stage and s.place.circuit in (None, "C1")]
        order = {(m.part, m.quantity): at for at, m in enumerate(MEASUREMENTS)}
        by_entry.sort(key=lambda slot: order[slot.place.part, slot.quantity])
        assert violations(by_entry) == ()


_BOARD = Part.BOARD
_ONE_BEFORE_THE_OTHER = {
    # The corrections of order, as somebody at the bench meets them.
    "polarity at the origin before Ze": (
        Stage.LIVE,
        (Part.ORIGIN, Quantity.POLARITY),
        (Part.ORIGIN, Quantity.ZE),
    ),
    "the earth back before fault currents": (
        Stage.LIVE,
        (Part.ORIGIN, Quantity.EARTH_BACK),
        (Part.ORIGIN, Quantity.FAULT_LE),
    ),
    "polarity at the board before Zdb": (
        Stage.LIVE,
        (_BOARD, Quantity.POLARITY),
        (_BOARD, Quantity.ZDB),
    ),
    "fault currents at the board before any circuit": (
        Stage.LIVE,
        (_BOARD, Quantity.FAULT_LE),
        (Part.CIRCUIT, Quantity.ZS),
    ),
    "Zs before the RCD of the board": (
        Stage.LIVE,
        (Part.CIRCUIT, Quantity.ZS),
        (_BOARD, Quantity.RCD_TIME),
    ),
    "Zs before the load current": (
        Stage.LIVE,
        (Part.CIRCUIT, Quantity.ZS),
        (_BOARD, Quantity.LOAD_CURRENT),
    ),
    "RCDs before the voltage under load": (
        Stage.LIVE,
        (Part.CIRCUIT, Quantity.RCD_TIME),
        (_BOARD, Quantity.VOLTAGE_LOADED),
    ),
    "continuity of all circuits before the electrode": (
        Stage.DEAD,
        (Part.CIRCUIT, Quantity.R1_R2),
        (_BOARD, Quantity.ELECTRODE),
    ),
    "insulation of all circuits before the group": (
        Stage.DEAD,
        (Part.CIRCUIT, Quantity.IR_LE),
        (_BOARD, Quantity.IR_GROUP),
    ),
    "the electrode back after it was off": (
        Stage.DEAD,
        (_BOARD, Quantity.ELECTRODE),
        (_BOARD, Quantity.ELECTRODE_BACK),
    ),
    "the electrode read live only after the dead tests' one": (
        Stage.LIVE,
        (_BOARD, Quantity.POLARITY),
        (_BOARD, Quantity.ELECTRODE_LOOP),
    ),
}


@pytest.mark.parametrize("name", _ONE_BEFORE_THE_OTHER)
@pytest.mark.parametrize("order", Order)
def test_one_comes_before_the_other(name: str, order: Order):
    stage, first, then = _ONE_BEFORE_THE_OTHER[name]
    slots = [(s.place.part, s.quantity) for s in _taken(JOBS["island"], stage, order)]

    last_first = len(slots) - 1 - slots[::-1].index(first)
    assert last_first < slots.index(then)


def test_what_had_to_wait_for_a_room_is_read_when_one_comes_back_to_the_board():
    stops = left(_island(), Stage.DEAD)
    insulation = [
        stop.heading
        for stop in stops
        for slot in stop.slots
        if slot.quantity is Quantity.IR_LE and slot.place.circuit == "C1"
    ]

    assert insulation == ["At the sub-board, again"]


def test_no_electrode_is_read_with_a_live_line_in_the_dead_stage():
    live = [m for m in MEASUREMENTS if m.quantity is Quantity.ELECTRODE_LOOP]

    assert [m.stages for m in live] == [(Stage.LIVE,)]
    (dead,) = [m for m in MEASUREMENTS if m.quantity is Quantity.ELECTRODE]
    assert dead.between == "electrode and two spikes"
    assert dead.back is Quantity.ELECTRODE_BACK
