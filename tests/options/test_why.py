"""Why this cable: how it stands, what the next smaller one lacks, and nothing before a choice."""

from __future__ import annotations

import pytest

from records.demo import demo_record
from records.model.buying import Buying
from records.options.feed import feed_options
from records.options.why import printed_why, why_this_cable
from records.terms import CableKind, Cpc, Method, Verdict
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


def wanting(record, **buying):
    return record.model_copy(update={"buying": Buying(**buying)})


@pytest.mark.parametrize(
    ("buying", "printed"),
    [
        ({}, False),
        ({"print_why": True}, True),
        ({"why": "It was in stock."}, True),
        ({"print_why": False, "why": "It was in stock."}, False),
    ],
)
def test_it_is_printed_where_somebody_wants_it_and_only_there(buying, printed):
    found = printed_why(wanting(demo_record(), **buying))

    assert (found is not None) == printed
    if found is not None:
        assert found.words == buying.get("why", "")
        assert [each.run for each in found.runs] == [1, 2, 3]


def test_what_is_missing_is_said_where_nothing_can_be_compared():
    bare = wanting(job(), print_why=True)
    unsaid = printed_why(bare)
    none = printed_why(wanting(job(load=None, circuits=()), print_why=True))

    assert unsaid is not None
    assert unsaid.runs == ()
    assert "Run 1: its cable is not all entered" in unsaid.missing[0]
    assert none is not None
    assert "Enter Ib" in none.missing[0]


def test_a_cable_entered_with_the_size_that_its_core_has_anyway_is_the_same_cable():
    choice = feed_options(job())
    own = next(each for each in choice.options if each.make.cpc is Cpc.CORE and each.will_do)
    (run,) = own.record.feed.runs
    said = run.model_copy(update={"cpc_csa": run.csa})
    feed = own.record.feed.model_copy(update={"runs": (said,)})
    (why,) = why_this_cable(own.record.model_copy(update={"feed": feed}))

    assert why.stands == "✓ within"


def test_a_cable_that_nobody_makes_is_told_too_and_stands_as_not_judged():
    run = (
        job()
        .feed.runs[0]
        .model_copy(update={"cable": CableKind.SWA_XLPE, "csa": 7.0, "cpc": Cpc.CORE, "cores": 3})
    )
    feed = job().feed.model_copy(update={"runs": (run,)})
    (why,) = why_this_cable(job().model_copy(update={"feed": feed}))

    assert "7 mm²" in why.cable
    assert "not taken" in why.stands
    assert why.mark == ""


def test_the_room_that_the_record_asks_for_is_the_one_that_is_judged():
    roomy = feed_options(wanting(job(), room=60.0))
    usual = feed_options(job())

    assert (roomy.room, usual.room) == (60.0, 25.0)
    assert roomy.roomy is not None
    assert usual.roomy is not None
    assert roomy.roomy.make.csa > usual.roomy.make.csa


def test_a_flexible_cable_in_a_feed_is_called_what_it_is():
    run = (
        job()
        .feed.runs[0]
        .model_copy(
            update={"cable": CableKind.FLEX, "csa": 6.0, "cpc": Cpc.CORE, "method": Method.C}
        )
    )
    feed = job().feed.model_copy(update={"runs": (run,)})
    (why,) = why_this_cable(job().model_copy(update={"feed": feed}))

    assert why.cable == "6 mm² flexible cable"
    assert any(row[1].startswith("6 flex") for row in why.rows)
