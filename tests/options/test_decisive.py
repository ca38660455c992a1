"""Leaving out circuits that can't decide changes no cell of the table."""

from __future__ import annotations

import random

import pytest

from records.demo import demo_record
from records.expected.context import Context
from records.model.circuit import Point
from records.options.assumptions import assumed
from records.options.cells import feed_cells
from records.options.decisive import decisive
from records.options.feed import feed_options, with_cable
from records.terms import DeviceKind, OutbuildingEarth
from tests.bench.calculation import board
from tests.judgement.jobs import HEATER, LIGHTS, SOUND, circuit
from tests.options.jobs import job

DESIGN = SOUND.model_copy(update={"readings": ()})


def lamps(count):
    points = tuple(Point(id=f"P{at}", at=25.0 * at / count) for at in range(1, count + 1))
    return LIGHTS.model_copy(update={"points": points, "load": 1.5})


def renamed(one, id, **changes):
    return one.model_copy(update={"id": id, **changes})


def alike(count):
    """Lights and heaters of one kind, that differ in length and load."""
    found = []
    for at in range(count):
        run = LIGHTS.runs[0].model_copy(update={"length": 5.0 + 7.0 * (at * 5 % count)})
        found.append(renamed(LIGHTS, f"C{at + 1}", runs=(run,), load=1.0 + at * 3 % count / 10))
    return tuple(found)


JOBS = {
    "demo": demo_record(),
    "sound": DESIGN,
    "alike": job(circuits=alike(9)),
    "alike, exactly": job(circuits=(renamed(HEATER, "C1"), renamed(HEATER, "C2"))),
    "lamps": job(circuits=(lamps(5), renamed(LIGHTS, "C9", load=1.4), HEATER)),
    "a load above the feed's": job(load=5.0, circuits=(*alike(3), HEATER)),
    "an electrode": job(circuits=alike(5), earth=OutbuildingEarth.OWN_ELECTRODE),
    "a breaker": job(circuits=alike(5), kind=DeviceKind.BREAKER_C, rating=40.0),
    "fuses behind": circuit(DESIGN, "C2", device=DESIGN.feed.device),
    "many": board(random.Random(3)),
    "other many": board(random.Random(11)),
}


@pytest.mark.parametrize("record", JOBS.values(), ids=JOBS.keys())
def test_each_cell_is_as_with_all_circuits(record):
    ready = assumed(record)
    for option in feed_options(record).options[::5]:
        tried = with_cable(ready.record, option.run, option.make)
        for ours, all_of_them in zip(option.cells, feed_cells(tried), strict=True):
            # Of circuits that stand exactly alike another one may speak.
            said = [
                (each.check, each.verdict, each.figure, each.used) for each in (ours, all_of_them)
            ]
            assert said[0] == said[1], option.make


def test_of_alike_circuits_only_what_can_be_worst_stays():
    record = feed_options(job(circuits=alike(9))).options[0].record
    kept = decisive(Context(record), record.circuits)

    assert 1 <= len(kept) < 9
    longest = max(record.circuits, key=lambda each: each.runs[0].length)
    assert longest in kept


def test_of_two_that_are_the_same_the_first_speaks():
    record = feed_options(JOBS["alike, exactly"]).options[0].record

    assert [each.id for each in decisive(Context(record), record.circuits)] == ["C1"]


def test_lamps_that_may_be_let_by_stand_for_no_others():
    record = feed_options(JOBS["lamps"]).options[0].record

    assert {each.id for each in decisive(Context(record), record.circuits)} == {"C3", "C9", "C4"}
