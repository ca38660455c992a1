"""The order in which readings are offered."""

from __future__ import annotations

import pytest

from records.judgement.review_types import Judged, Review
from records.model.reading import Figure, Quantity, Reading
from records.model.slots import slots
from records.taking.queue import Order, others, queue
from records.terms import Part, Stage, Verdict
from tests.taking.job import AT, slot, small_job, with_figure

EMPTY = Review(())


@pytest.mark.parametrize("order", Order)
@pytest.mark.parametrize("stage", Stage)
def test_every_slot_of_the_stage_is_offered_once_in_either_order(stage: Stage, order: Order):
    job = small_job()

    offered = [each.slot for each in queue(job, EMPTY, stage, order).entries]

    assert sorted(map(repr, offered)) == sorted(map(repr, slots(job, stage)))


def test_by_test_finishes_a_ring_before_the_next_place_and_crossings_after_its_ends():
    entries = queue(small_job(), EMPTY, Stage.DEAD, Order.BY_TEST).entries
    ring = [each.slot.quantity for each in entries if each.group == "Ring final circuits"]

    assert ring == [
        Quantity.R1,
        Quantity.RN,
        Quantity.R2,
        *[Quantity.CROSS_LN] * 3,
        *[Quantity.CROSS_LE] * 3,
    ]
    points = [each.slot.place.point for each in entries if each.slot.quantity is Quantity.CROSS_LN]
    assert points == ["P1", "P2", "P3"]


def test_by_test_takes_the_three_insulation_readings_of_a_circuit_together():
    entries = queue(small_job(), EMPTY, Stage.DEAD, Order.BY_TEST).entries
    insulation = [
        (each.slot.place.circuit, each.slot.quantity)
        for each in entries
        if each.group == "Insulation resistance"
    ]

    assert insulation[3:9] == [
        ("C1", Quantity.IR_LN),
        ("C1", Quantity.IR_LE),
        ("C1", Quantity.IR_NE),
        ("C2", Quantity.IR_LN),
        ("C2", Quantity.IR_LE),
        ("C2", Quantity.IR_NE),
    ]


def test_by_circuit_has_the_feed_and_board_before_any_circuit():
    entries = queue(small_job(), EMPTY, Stage.LIVE, Order.BY_CIRCUIT).entries
    parts = [each.slot.place.part is Part.CIRCUIT for each in entries]

    assert parts == sorted(parts)
    circuits = [each.slot.place.circuit for each in entries if each.slot.place.circuit]
    assert circuits == sorted(circuits)
    assert entries[-1].group == "C3 Heater"


def test_the_next_open_one_goes_round_the_end_and_stops_when_all_are_filled():
    job = small_job()
    first, *others = slots(job, Stage.LIVE)
    for each in others:
        if each.quantity not in (Quantity.ZE, Quantity.EARTH_BACK):  # what is owed is asked again
            job = with_figure(job, each, 1.0)
    lines = tuple(
        Judged(str(at), Verdict.WITHIN, each.place, "t", "w", each, attempts=job.taken(each))
        for at, each in enumerate(slots(job, Stage.LIVE))
    )
    line = queue(job, Review(lines), Stage.LIVE, Order.BY_TEST)

    assert line.next_open(after=5) == line.index(first) == 0
    filled = Review(tuple(_taken(each) for each in lines))
    assert queue(job, filled, Stage.LIVE, Order.BY_TEST).next_open() is None


def test_a_pattern_that_a_reading_is_part_of_counts_for_its_entry():
    job = with_figure(small_job(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)
    r1 = slot(Quantity.R1, Stage.DEAD, "C1")
    own = Judged("a", Verdict.WITHIN, r1.place, "r1", "Fine.", r1, attempts=job.taken(r1))
    pattern = Judged("b", Verdict.UNLIKELY, r1.place, "Ends differ", "Look.", about=(r1,))

    line = queue(job, Review((pattern, own)), Stage.DEAD, Order.BY_TEST)
    entry = line.entries[line.index(r1) or 0]

    assert entry.own == own
    assert entry.judged == pattern
    assert entry.is_bad


def test_groups_can_be_stepped_over_both_ways_and_end_where_they_end():
    line = queue(small_job(), EMPTY, Stage.DEAD, Order.BY_TEST)
    ring = line.index(slot(Quantity.R1, Stage.DEAD, "C1")) or 0

    assert line.entries[line.next_group(0, 1)].group == "Ring final circuits"
    assert line.next_group(ring + 2, -1) == ring
    assert line.next_group(0, -1) == 0
    assert line.next_group(len(line.entries) - 1, 1) == len(line.entries) - 1


def _taken(line: Judged) -> Judged:
    job = with_figure(small_job(), line.slot, 1.0) if line.slot else small_job()
    return Judged(line.key, line.verdict, line.place, "t", "w", line.slot, attempts=job.readings)


def test_an_optional_reading_comes_when_it_is_asked_for_or_taken_in_its_place_in_the_order():
    job = small_job()
    before = queue(job, EMPTY, Stage.DEAD, Order.BY_TEST)
    (asked,) = [
        each for each in others(job, Stage.DEAD, before) if each.quantity is Quantity.IR_GROUP
    ]
    after = queue(job, EMPTY, Stage.DEAD, Order.BY_TEST, [asked])
    taken = job.model_copy(
        update={"readings": (Reading(id="R1", slot=asked, taken=Figure(value=200.0), at=AT),)}
    )

    assert before.index(asked) is None
    found = after.index(asked)
    assert found is not None
    assert after.entries[found - 1].family is after.entries[found].family
    assert asked not in others(job, Stage.DEAD, after)
    assert queue(taken, EMPTY, Stage.DEAD, Order.BY_TEST).index(asked) == found


def test_the_next_bad_one_of_the_same_test_lies_further_on_and_never_is_the_one_in_hand():
    zs = [slot(Quantity.ZS, Stage.LIVE, each) for each in ("C1", "C2", "C3")]
    job = small_job()
    for where in zs:
        job = with_figure(job, where, 9.0)

    def bad(where, verdict=Verdict.OUTSIDE):
        attempts = job.taken(where)
        return Judged("k", verdict, where.place, "t", "w", where, attempts=attempts)

    review = Review((bad(zs[0]), bad(zs[1], Verdict.WITHIN), bad(zs[2])))
    line = queue(job, review, Stage.LIVE, Order.BY_TEST)
    at = [line.index(each) for each in zs]

    assert line.next_bad_alike(at[0]) == at[2]
    assert line.next_bad_alike(at[1]) == at[2]
    assert line.next_bad_alike(at[2]) is None
    timed = line.index(slot(Quantity.RCD_TIME, Stage.LIVE, "C1"))
    assert line.next_bad_alike(timed) is None


def test_where_room_is_scarce_place_and_symbol_come_before_names():
    ring = small_job().circuits[0]
    point = ring.points[0].model_copy(update={"name": "S1, by the door"})
    job = small_job().model_copy(
        update={"circuits": (ring.model_copy(update={"points": (point,)}),)}
    )
    line = queue(job, EMPTY, Stage.DEAD, Order.BY_TEST)
    crossed = line.entries[line.index(slot(Quantity.CROSS_LN, Stage.DEAD, "C1", "P1")) or 0]
    r1 = line.entries[line.index(slot(Quantity.R1, Stage.DEAD, "C1")) or 0]

    assert crossed.brief == "C1 crossed L-N · S1, by the door"
    assert r1.brief == "C1 r1 · Bench sockets"
    assert line.entries[0].brief == "Feed R1+R2"
