"""Annex A says once over a part what holds for its readings; a row says what departs from it."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest

from records.demo import demo_record
from records.document.groups import group_of
from records.document.log_habits import Habits
from records.document.words import Clock
from records.model.reading import Figure, Quantity, Reading
from records.model.record import Record
from records.terms import Stage
from tests.document import job

DEMO = demo_record()
ZS = next(
    each
    for each in DEMO.readings
    if each.slot.quantity is Quantity.ZS and isinstance(each.taken, Figure)
)


INSULATION = next(
    each
    for each in DEMO.readings
    if each.slot.quantity is Quantity.IR_LE and each.slot.stage is Stage.DEAD
)
"""One of several of its part and stage, all with one meter."""


def _departs(it: Reading = INSULATION, *, again: bool = False, **changed: Any) -> str:
    other = it.model_copy(update=changed)
    readings = tuple(other if each.id == it.id else each for each in DEMO.readings)
    record = DEMO.model_copy(update={"readings": readings})
    return Habits(record, Clock(record, job.MADE)).departs(other, again=again)


def test_a_reading_like_the_others_of_its_part_is_not_spoken_of() -> None:
    assert _departs() == ""


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"by": "P3"}, "by TC"),
        ({"by": None}, "by: not given"),
        ({"instrument": "M3"}, "with M3"),
        ({"instrument": None}, "no meter named"),
        ({"temperature": 21.0}, "temperature 21 °C"),
        ({"test_voltage": 250.0}, "250 V d.c."),
        ({"at": INSULATION.at + timedelta(days=2)}, "26 Mar"),
        ({"from_notes": INSULATION.at + timedelta(days=1)}, "from notes, entered 25 Mar 2026"),
    ],
)
def test_what_is_unlike_the_others_is_said_beside_the_reading(
    changed: dict[str, Any], said: str
) -> None:
    assert said in _departs(**changed)


@pytest.mark.parametrize("method", ["high-current", ""])
def test_a_loop_read_by_another_method_than_most_says_so(method: str) -> None:
    assert _departs(ZS, method=method) == (method or "method not given")


def test_each_retest_has_its_own_time() -> None:
    assert re.fullmatch(r"\d\d:\d\d", _departs(again=True))


def test_all_that_every_reading_has_is_said_over_it_or_beside_it() -> None:
    """Nothing of who, when and with what is lost: the line over a part has it, or the row."""
    record = DEMO
    clock = Clock(record, job.MADE)
    habits = Habits(record, clock)
    initials = {"P1": "TW", "P2": "TF", "P3": "TC"}
    for it in record.readings:
        said = habits.taken(group_of(it.slot.place)) + habits.departs(it, again=False)
        assert f"by {initials[it.by or '']}" in said
        if it.instrument:
            assert f"with {it.instrument}" in said
        assert f"{clock.short(it.at)[:6].strip()} " in said
        if it.method:
            assert it.method in said + habits.legend()
        if it.from_notes:
            assert "from notes" in said


def test_the_times_of_a_part_are_those_of_its_first_and_last_reading_of_the_day() -> None:
    inside = [
        each.at
        for each in DEMO.readings
        if each.slot.place == group_of(each.slot.place)
        and each.slot.place.circuit == "C5"
        and each.slot.stage is Stage.LIVE
    ]
    said = Habits(DEMO, Clock(DEMO, job.MADE)).taken(group_of(ZS.slot.place))
    place = next(each.slot.place for each in DEMO.readings if each.slot.place.circuit == "C5")

    line = Habits(DEMO, Clock(DEMO, job.MADE)).taken(place)
    assert f"live 25 Mar {min(inside):%H:%M} to {max(inside):%H:%M}" in line
    assert said


def test_a_part_without_readings_has_no_line() -> None:
    assert Habits(Record(), Clock(Record(), job.MADE)).taken(group_of(ZS.slot.place)) == ""
