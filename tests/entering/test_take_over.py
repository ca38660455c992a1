"""What would do, taken over: never what fails, and never without saying what is not judged."""

from __future__ import annotations

import pytest

from records.entering.take_over import circuit_taken, design_taken, feed_taken, radial_length
from records.errors import BadQuantity, BadRecord
from records.model.record import Record
from records.options.circuit import circuit_options
from records.options.compare import compared
from records.options.feed import feed_options
from records.store.patch import apply
from records.store.state import plain, read
from records.terms import Verdict
from tests.judgement.jobs import circuit, sound_job
from tests.options.jobs import job


def changed(record: Record, ops: list[dict[str, object]]) -> Record:
    doc = plain(record)
    apply(doc, ops)
    return read(doc)


def test_a_cable_of_the_table_goes_into_its_run_and_one_that_fails_does_not() -> None:
    record = job()
    choice = feed_options(record, 0)
    seen = set()
    for number, option in enumerate(choice.options):
        if option.verdict is Verdict.OUTSIDE:
            with pytest.raises(BadRecord, match="Not taken over: it would not do"):
                feed_taken(choice, number)
        else:
            ops, said = feed_taken(choice, number)
            assert changed(record, ops).feed.runs == option.record.feed.runs
            assert said.startswith("Run 1: ")
            unjudged = option.verdict is Verdict.NOT_TAKEN
            assert ("Not judged yet" in said) is unjudged
            assert said.endswith("Ctrl+Z takes it back. The certifier confirms it.")
        seen.add(option.verdict is Verdict.OUTSIDE)

    assert seen == {True, False}


def test_a_circuit_is_taken_over_as_it_was_tried_and_no_other_changes() -> None:
    record = job()
    id = record.circuits[-1].id
    choice = circuit_options(record, id)
    option = next(each for each in choice.options if each.verdict is not Verdict.OUTSIDE)
    ops, said = circuit_taken(record, id, option, "radial 4 mm²")
    after = changed(record, ops)

    assert after.circuit(id) == option.record.circuit(id)
    assert after.circuits[:-1] == record.circuits[:-1]
    assert said.startswith(f"{id}: radial 4 mm².")


def test_an_option_of_a_circuit_that_fails_is_not_taken_over() -> None:
    record = sound_job()
    run = record.circuit("C2").runs[0].model_copy(update={"length": 250.0})
    long = circuit(record, "C2", runs=(run,))
    failing = [
        each for each in circuit_options(long, "C2").options if each.verdict is Verdict.OUTSIDE
    ]

    assert failing
    for each in failing:
        with pytest.raises(BadRecord, match=r"Not taken over: it would not do\. .+"):
            circuit_taken(long, "C2", each, "x")


def test_another_design_says_how_many_checks_get_worse_and_takes_no_reading_along() -> None:
    record = sound_job()
    runs = tuple(each.model_copy(update={"length": 900.0}) for each in record.feed.runs)
    longer = record.feed.model_copy(update={"runs": runs})
    other = record.model_copy(update={"feed": longer})
    rows = compared([record, other])
    ops, said = design_taken(record, other, "longer", rows, 1)
    bad = sum(row.sides[1].worse for row in rows)

    assert bad > 0
    assert f"Taken over: longer. {bad} checks get worse: see Review." in said
    assert {op["path"] for op in ops} == {"/feed"}
    assert changed(record, ops).feed == longer
    assert design_taken(record, record, "same", (), 1) == (
        [],
        "Nothing differs in feed, board and circuits: nothing was taken over.",
    )


@pytest.mark.parametrize(("text", "metres"), [("0.5", 0.5), ("12 m", 12.0), ("1000", 1000.0)])
def test_the_length_of_a_radial(text: str, metres: float) -> None:
    assert radial_length(text) == metres


@pytest.mark.parametrize("text", ["0", "1000.1", "1001", "", "far", "-3"])
def test_no_length_of_a_radial(text: str) -> None:
    with pytest.raises(BadQuantity):
        radial_length(text)
