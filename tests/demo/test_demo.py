"""The demo job holds together and is believable, apart from what is planted in it."""

from __future__ import annotations

import subprocess
import sys

import pytest

from records.demo import demo_record
from records.expected.plan import expected
from records.interlock.may_take import Interlock
from records.judgement.review import review
from records.model.job import Duty
from records.model.reading import Figure, NotTaken, Quantity, Reading, Slot
from records.model.slots import slots
from records.terms import Form, Sign, Stage, Use


@pytest.fixture(scope="module")
def demo():
    return demo_record()


def test_the_demo_is_the_same_each_time(demo):
    assert demo_record() == demo


def test_it_loads_without_screen_units_or_document():
    heavy = ("textual", "pint", "docxtpl", "pydantic")
    code = f"import records.demo, sys; print([m for m in {heavy} if m in sys.modules])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.strip() == "[]"


def test_it_has_a_feed_of_three_runs_in_series_and_every_kind_of_circuit(demo):
    assert len(demo.feed.runs) == 3
    assert [run.cable.is_armoured for run in demo.feed.runs] == [False, True, False]
    assert {each.form for each in demo.circuits} == set(Form)
    assert {each.use for each in demo.circuits} == set(Use)


def test_its_ring_has_named_points_in_order_round_the_ring(demo):
    ring = next(each for each in demo.circuits if each.form is Form.RING)
    at = [point.at for point in ring.points]

    assert 6 <= len(at) <= 8
    assert all(point.name for point in ring.points)
    assert at == sorted(at)
    assert at[-1] < ring.runs[0].length


def test_one_of_its_people_certifies_and_none_has_a_name(demo):
    assert [person.duty for person in demo.job.people].count(Duty.CERTIFIES) == 1
    assert all(person.name.startswith("The ") for person in demo.job.people)


def test_readings_are_in_the_order_of_time_with_live_after_dead(demo):
    at = [each.at for each in demo.readings]
    last_dead = max(each.at for each in demo.readings if each.slot.stage is Stage.DEAD)
    first_live = min(each.at for each in demo.readings if each.slot.stage is Stage.LIVE)

    assert at == sorted(at)
    assert last_dead < demo.live_gate[0].at < first_live


def test_it_took_more_than_one_visit(demo):
    assert len({each.at.date() for each in demo.readings}) >= 2


def test_every_figure_names_its_meter_and_its_person(demo):
    figures = [each for each in demo.readings if isinstance(each.taken, Figure)]
    meters = {each.id for each in demo.job.instruments}
    people = {each.id for each in demo.job.people}

    assert figures
    assert all(each.instrument in meters for each in figures)
    assert all(each.by in people for each in figures)


def test_what_was_typed_is_what_counts(demo):
    for each in demo.readings:
        if isinstance(each.taken, Figure):
            sign = "" if each.taken.sign is Sign.EQUAL else each.taken.sign.value
            typed = each.taken.typed

            assert typed.startswith(sign)
            assert float(typed.removeprefix(sign)) == each.taken.value


def test_each_remedy_has_a_re_test_after_it(demo):
    assert len(demo.remedies) >= 2
    for remedy in demo.remedies:
        again = _slot_of(demo, remedy.finding)
        before, after = again[0], again[-1]

        assert before.at < remedy.at < after.at
        assert before.taken != after.taken


def test_only_what_is_planted_is_missing(demo):
    missing = [slot for slot in slots(demo) if not demo.taken(slot)]
    refused = [each.slot for each in demo.readings if isinstance(each.taken, NotTaken)]

    locked = [slot for slot in missing if slot.stage is Stage.LIVE and slot.place.circuit != "C3"]

    assert [(slot.place.circuit, slot.quantity) for slot in missing if slot not in locked] == [
        ("C7", Quantity.IR_NE),
        ("C3", Quantity.FUNCTION),
    ]
    assert {slot.place.circuit for slot in locked} == {"C1", "C2", "C7"}
    assert [(slot.place.circuit, slot.quantity) for slot in refused] == [("C6", Quantity.R1_R2)]


def test_it_obeys_its_own_interlock(demo):
    """Nothing live on a circuit with a dead test that is missing, outside or doubted; who tests
    answers first: common practice."""
    found = review(demo, expected(demo))
    names = {name for line in found.lines for name in line.patterns}
    state = Interlock(demo, found.verdicts, "P2", demo.readings[-1].at)
    live = {each.slot.place.circuit for each in demo.readings if each.slot.stage is Stage.LIVE}

    assert not [name for name in names if name.startswith(("taken ", "load on"))]
    assert live - {None} == set(state.dead.may_go_live) == {"C3", "C4", "C5", "C6"}
    assert all(set(gate.may_go_live) == set(state.dead.may_go_live) for gate in demo.live_gate)
    assert state.earth is None
    assert state.put_back is None


def test_readings_are_not_all_alike():
    """A row of equal figures is what copying looks like: common practice."""
    shown = [
        each.taken.value
        for each in demo_record().readings
        if isinstance(each.taken, Figure) and each.slot.quantity in (Quantity.ZS, Quantity.RCD_TIME)
    ]

    assert len(set(shown)) > len(shown) / 2


def _slot_of(record, key: str) -> list[Reading]:
    part, circuit, point, stage, quantity = key.split("/")
    place = {"part": part}
    if circuit != "-":
        place["circuit"] = circuit
    if point != "-":
        place["point"] = point
    slot = Slot.model_validate({"quantity": quantity, "place": place, "stage": stage})
    return list(record.taken(slot))
