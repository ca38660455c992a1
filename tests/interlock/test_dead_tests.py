"""What keeps a circuit locked off is said by the names that a person knows it by."""

from __future__ import annotations

from records.demo import demo_record
from records.expected.plan import expected
from records.interlock.comes_off import put_back_owed
from records.interlock.dead_tests import board_words, circuit_words, dead_tests
from records.judgement.review import review
from records.model.outbuilding import Bond
from records.model.reading import Place, Quantity, slot_of
from records.terms import Part, Stage
from tests.taking.locks import job, took


def test_a_point_is_called_by_its_name_where_it_keeps_its_circuit_off() -> None:
    demo = demo_record()
    found = dead_tests(demo, review(demo, expected(demo)).verdicts)

    words = circuit_words(demo, "C1", found.circuits["C1"])
    assert "cross-connected L-cpc at S5 dye shelf unlikely" in words
    assert "P5" not in words


def test_a_bond_is_called_by_what_it_bonds() -> None:
    bonds = (Bond(id="B1", what="Water", csa=10.0), Bond(id="B2", what="Steel frame", csa=10.0))
    record = job()
    record = record.model_copy(update={"board": record.board.model_copy(update={"bonds": bonds})})
    found = dead_tests(record, review(record, expected(record)).verdicts)

    (words,) = [each for each in board_words(record, found.board) if "Water" in each]
    assert "at Steel frame not taken" in words
    assert "B2" not in words


def test_of_several_bonds_it_is_asked_for_each_by_what_it_bonds_whether_it_is_back() -> None:
    bonds = (Bond(id="B1", what="Water", csa=10.0), Bond(id="B2", what="Steel frame", csa=10.0))
    record = job()
    record = record.model_copy(update={"board": record.board.model_copy(update={"bonds": bonds})})
    first, second = (
        slot_of(Quantity.BONDING, Place(part=Part.BOARD, point=each), Stage.DEAD)
        for each in ("B1", "B2")
    )
    record = took(second, 0.04, 11)(took(first, 0.03, 10)(record))
    owed = put_back_owed(record)

    assert owed is not None
    assert owed.what[-2:] == (
        "the bonding conductor to Water",
        "the bonding conductor to Steel frame",
    )
