"""Designs side by side: what differs, what is worse, and what taking one over brings."""

from __future__ import annotations

from records.options.compare import compared, taken_over
from records.terms import Verdict
from tests.judgement.jobs import SOUND, circuit

DESIGN = SOUND.model_copy(update={"readings": ()})


def with_feed(csa):
    run = DESIGN.feed.runs[0].model_copy(update={"csa": csa})
    return DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": (run,)})})


def test_alike_designs_have_no_row():
    assert compared([DESIGN, DESIGN]) == ()
    assert compared([DESIGN, DESIGN, DESIGN]) == ()


def test_each_row_differs_somewhere_and_says_all_sides():
    rows = compared([DESIGN, with_feed(2.5), with_feed(16.0)])

    assert all(len(each.sides) == 3 for each in rows)
    assert all(len({side.text for side in each.sides}) > 1 for each in rows)
    inputs = [each for each in rows if not each.is_check]
    assert [[side.text for side in each.sides] for each in inputs] == [
        ["10 mm²", "2.5 mm²", "16 mm²"]
    ]
    assert rows[: len(inputs)] == tuple(inputs)


def test_what_is_worse_is_marked_on_its_side_alone_and_comes_first():
    rows = [each for each in compared([DESIGN, with_feed(2.5), with_feed(16.0)]) if each.is_check]
    bad = [any(side.worse for side in each.sides) for each in rows]
    rating = next(each for each in rows if each.what == "Feed: In ≤ Iz")

    assert bad == sorted(bad, reverse=True)
    assert [side.worse for side in rating.sides] == [False, True, False]
    assert rating.sides[1].check is not None
    assert rating.sides[1].check.verdict is Verdict.OUTSIDE
    assert not any(side.worse for each in rows for side in (each.sides[0], each.sides[2]))


def test_a_circuit_that_only_one_has_is_told():
    without = DESIGN.model_copy(update={"circuits": DESIGN.circuits[:-1]})
    rows = compared([DESIGN, without])

    assert any(each.sides[1].text == "removed" for each in rows)
    assert any(each.is_check and each.sides[1].text == "none" for each in rows)


def test_taking_over_brings_feed_board_and_circuits_and_leaves_supply_and_readings():
    origin = SOUND.origin.model_copy(update={"ze": 0.2})
    other = circuit(with_feed(16.0), "C2", load=5.0).model_copy(update={"origin": origin})
    after = taken_over(SOUND, other)

    assert (after.feed, after.board, after.circuits) == (other.feed, other.board, other.circuits)
    assert after.origin == SOUND.origin
    assert after.readings == SOUND.readings
    assert after.job == SOUND.job
