"""What a change does to the checks: those that differ, before and after, and no others."""

from __future__ import annotations

from records.options.check_changes import changed_checks
from records.terms import Verdict
from tests.judgement.jobs import SOUND, circuit

DESIGN = SOUND.model_copy(update={"readings": ()})


def with_feed(csa):
    run = DESIGN.feed.runs[0].model_copy(update={"csa": csa})
    return DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": (run,)})})


def test_nothing_changes_nothing():
    assert changed_checks(DESIGN, DESIGN) == ()


def test_a_thinner_feed_tells_each_check_that_is_worse_first():
    found = changed_checks(DESIGN, with_feed(2.5))
    worse = [each.is_worse for each in found]
    rating = next(each for each in found if each.title == "Feed: In ≤ Iz")

    assert worse == sorted(worse, reverse=True)
    assert any(worse)
    assert rating.before.verdict is Verdict.WITHIN
    assert rating.after.verdict is Verdict.OUTSIDE
    assert str(rating).startswith("worse: Feed: In ≤ Iz: ✓ 54.0 A (at least 40 A) → ✗ 26.1 A")


def test_a_thicker_feed_makes_nothing_worse_and_the_loop_behind_it_less():
    found = changed_checks(DESIGN, with_feed(16.0))

    assert not any(each.is_worse for each in found)
    loops = [each for each in found if each.title.endswith("Zs, hot")]
    assert len(loops) == 1 + len(DESIGN.circuits)
    assert all(each.after.expected.value < each.before.expected.value for each in loops)


def test_a_circuit_that_is_not_touched_is_not_told():
    changed = circuit(DESIGN, "C3", load=1.6)
    found = changed_checks(DESIGN, changed)

    assert {each.after.place.circuit for each in found if each.after is not None} == {"C3"}


def test_a_check_that_comes_or_goes_is_told_with_none():
    without = DESIGN.model_copy(update={"circuits": DESIGN.circuits[:-1]})

    gone = changed_checks(DESIGN, without)
    come = changed_checks(without, DESIGN)
    assert any(each.after is None for each in gone)
    assert any(each.before is None for each in come)
    assert "→ none" in " ".join(map(str, gone))
