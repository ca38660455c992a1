"""How the steps of the walk stand."""

from __future__ import annotations

from datetime import UTC, datetime

from records.judgement.review_types import Judged, Review
from records.judgement.todo.progress import State, progress, step_of
from records.model.circuit import Circuit, Point
from records.model.reading import Figure, LiveGate, NotTaken, Place, Quantity, Reading, Slot
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.terms import Earthing, Form, Part, Stage, Step, Use, Verdict

AT = datetime(2026, 11, 16, 9, 0, tzinfo=UTC)
C1 = Place(part=Part.CIRCUIT, circuit="C1")
RING = Circuit(id="C1", name="Bench", use=Use.SOCKETS, form=Form.RING, points=(Point(id="P1"),))
R1 = Slot(quantity=Quantity.R1, place=C1, stage=Stage.DEAD)


def line(verdict: Verdict, slot: Slot | None = None, place: Place = C1) -> Judged:
    return Judged(f"k{verdict}", verdict, place, "C1 Bench: r1", "Because.", slot=slot)


def test_a_blank_record_is_empty_throughout_and_says_what_to_enter():
    stands = progress(Record(), Review(()))

    assert list(stands) == list(Step)
    assert {stands[step].state for step in Step} == {State.EMPTY}
    assert stands[Step.ORIGIN].needs[0] == "Say how the supply is earthed."
    assert stands[Step.ORIGIN].wanted == 5
    assert any("circuits" in need for need in stands[Step.DEAD_TESTS].needs)


def test_the_origin_is_begun_and_then_complete():
    begun = Record(origin=Origin(earthing=Earthing.TN_S))
    full = Record(
        origin=Origin(
            earthing=Earthing.TN_S,
            ze=0.35,
            ze_ground=Ground.DECLARED,
            fault_current=16.0,
            fault_current_ground=Ground.DECLARED,
        )
    )

    assert progress(begun, Review(()))[Step.ORIGIN].state is State.BEGUN
    assert progress(begun, Review(()))[Step.ORIGIN].taken == 1
    assert progress(full, Review(()))[Step.ORIGIN].state is State.COMPLETE
    assert progress(full, Review(()))[Step.ORIGIN].needs == ()


def test_missing_readings_are_told_in_one_sentence_for_each_circuit_and_place():
    stands = progress(Record(circuits=(RING,)), Review(()))

    (need,) = (each for each in stands[Step.BEFORE_COVERING].needs if "C1" in each)
    assert need == (
        "At the sub-board · C1 Bench: r1, rn, r2, insulation L-N, insulation L-E and "
        "insulation N-E still to test."
    )


def test_a_reading_that_could_not_be_taken_is_begun_but_not_taken():
    reading = Reading(id="R1", slot=R1, taken=NotTaken(reason="ends out of reach"), at=AT)
    stands = progress(Record(circuits=(RING,), readings=(reading,)), Review(()))

    assert stands[Step.DEAD_TESTS].state is State.BEGUN
    assert stands[Step.DEAD_TESTS].taken == 0
    assert any("could not be taken" in need for need in stands[Step.DEAD_TESTS].needs)


def test_findings_show_on_the_step_they_belong_to():
    reading = Reading(id="R1", slot=R1, taken=Figure(value=9.0), at=AT)
    record = Record(circuits=(RING,), readings=(reading,))
    review = Review((line(Verdict.OUTSIDE, R1), line(Verdict.NEAR)))

    stands = progress(record, review)

    assert stands[Step.DEAD_TESTS].state is State.FINDINGS
    assert stands[Step.DEAD_TESTS].open == 1
    assert stands[Step.CIRCUITS].open == 1
    assert stands[Step.REVIEW].needs == (
        "1 finding outside to deal with.",
        "1 finding near limit to deal with.",
    )
    assert stands[Step.HAND_OVER].state is State.FINDINGS


def test_what_is_merely_missing_is_no_open_finding():
    stands = progress(Record(circuits=(RING,)), Review((line(Verdict.NOT_TAKEN, R1),)))

    assert stands[Step.DEAD_TESTS].open == 0
    assert stands[Step.DEAD_TESTS].state is State.EMPTY


def test_a_line_that_a_pattern_tells_is_not_counted_twice():
    member = Judged("a", Verdict.UNLIKELY, C1, "t", "w", slot=R1, part_of="b")
    pattern = Judged("b", Verdict.UNLIKELY, C1, "t", "w", about=(R1,))
    review = Review((member, pattern))

    assert review.findings == (pattern,)
    assert review.of(R1) == (member, pattern)
    assert progress(Record(circuits=(RING,)), review)[Step.DEAD_TESTS].open == 1


def test_live_tests_ask_for_safe_isolation_first():
    record = Record(circuits=(RING,))
    gate = LiveGate(at=AT, isolation_understood=True)
    agreed = record.model_copy(update={"live_gate": (gate,)})

    assert "safe isolation" in progress(record, Review(()))[Step.LIVE_TESTS].needs[0]
    assert "safe isolation" not in progress(agreed, Review(()))[Step.LIVE_TESTS].needs[0]


def test_a_pattern_belongs_to_the_latest_stage_of_its_readings():
    zs = Slot(quantity=Quantity.ZS, place=C1, stage=Stage.LIVE)
    pattern = Judged("b", Verdict.UNLIKELY, C1, "t", "w", about=(R1, zs))

    assert step_of(pattern) is Step.LIVE_TESTS
