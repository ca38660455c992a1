"""Why this cable: how it stands, what the next smaller one lacks, and nothing before a choice."""

from __future__ import annotations

from records.demo import demo_record
from records.options.feed import feed_options
from records.options.why import why_this_cable
from records.terms import Verdict
from tests.options.jobs import job


def test_nothing_is_said_before_a_cable_is_chosen():
    assert why_this_cable(job()) == ()


def test_the_smallest_says_so_and_the_size_under_it_fails():
    choice = feed_options(job())
    assert choice.smallest is not None
    (why,) = why_this_cable(choice.smallest.record)
    rows = {row[1]: row[0] for row in why.rows}
    chosen = f"{choice.smallest.make.cores}c {choice.smallest.make.csa:g}"
    under = [mark for name, mark in rows.items() if not name.startswith(chosen)]

    assert "smallest line conductor" in why.mark
    assert rows[next(name for name in rows if name.startswith(chosen))] == Verdict.WITHIN.mark
    assert under[0] != Verdict.WITHIN.mark
    assert why.decides
    assert why.cautions


def test_a_cable_that_fails_is_not_told_as_a_good_one():
    failing = next(each for each in feed_options(job()).options if each.verdict is Verdict.OUTSIDE)
    (why,) = why_this_cable(failing.record)

    assert why.stands == "✗ outside"
    assert why.mark == ""


def test_each_run_of_a_feed_has_its_own():
    assert [each.run for each in why_this_cable(demo_record())] == [1, 2, 3]
