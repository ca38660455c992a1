"""What is worked out once and shared: still right for each case, and let go with the last of it."""

import gc
import random

from records.evidence import Source
from records.expected.cached import kept
from records.expected.context import circuit_place
from records.expected.plan import expected
from records.expected.results import What, Worked
from records.model.slots import every, offered, slots
from records.terms import Basis, Stage
from records.units import Unit
from tests.bench.calculation import board, written
from tests.expected.jobs import circuit, job, reading, run

HERE, THERE = (Source(each, "", Basis.READ) for each in ("Table of lines", "Table of cpcs"))


def test_an_expectation_that_is_let_go_leaves_nothing_to_the_collector():
    record = board(random.Random(5))
    expected(record)
    gc.collect()
    gc.disable()
    try:
        assert written(expected(record)) > 10_000
        assert gc.collect() == 0
    finally:
        gc.enable()


def test_stages_of_like_temperature_have_the_same_figure_and_others_their_own():
    record = job(
        job={"ambient": 10.0},
        readings=[reading("R1", "R1+R2", "circuit", 0.4, circuit="C1", temperature=25.0)],
    )
    found = {
        slot.stage: result.value
        for slot, result in expected(record).meter.items()
        if slot.quantity == "R1+R2" and slot.place.circuit == "C1"
    }

    assert found[Stage.DEAD] > found[Stage.BEFORE_COVERING]
    rise = (1 + 0.00393 * 5) / (1 - 0.00393 * 10)  # IEC 60287-1-1, copper
    assert abs(found[Stage.DEAD] / found[Stage.BEFORE_COVERING] - rise) < 1e-9


def test_circuits_that_are_alike_are_told_apart_by_their_place():
    alike = [circuit(f"C{number}", runs=[run(length=None)]) for number in (1, 2)]
    record = job(circuits=alike)

    design = expected(record).design

    for each in record.circuits:
        assert design[circuit_place(each), What.ZS].why.endswith(f"(Circuits, {each.id}, run 1).")


def test_a_working_is_written_from_its_values_and_cites_what_it_is_built_on_once():
    own = Worked("R1+R2", 0.25, Unit.OHM, "R1+R2 = L · r", "20 × 12.5 m", (HERE, THERE))
    whole = Worked("Zs", 0.55, Unit.OHM, "Zs = Ze + R1+R2", ("{:.2f} + {}", 0.3, own), (HERE, own))

    assert whole.put_in == "0.30 + 0.25 Ω"
    assert whole.sources == (HERE, THERE)


def test_every_slot_is_what_is_needed_and_then_what_is_offered():
    record = board(random.Random(6))

    assert every(record) == (*slots(record), *offered(record))


def test_what_is_kept_is_worked_out_once_for_each_object():
    class Counter:
        asked = 0

        @kept
        def number(self) -> int:
            """How often it was asked for."""
            Counter.asked += 1
            return Counter.asked

    one, other = Counter(), Counter()

    assert (one.number, one.number, other.number) == (1, 1, 2)
