"""Every rule that finds something: one record that it speaks on, and a sound one where it is quiet.

Whether it speaks with the right words and verdict stands in the tests of its own kind of reading.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import records.judgement
from records.model.reading import Quantity, Tick
from records.model.record import Record
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    OUT_OF_ORDER,
    SOUND,
    at,
    reviewed,
    sound_job,
    spoilt,
    without,
)
from tests.judgement.pattern_jobs import PARALLEL, SPEAKS, all_open
from tests.judgement.test_patterns import value_of


def _names() -> set[str]:
    """Return the names of all concerns that the rules are written to raise."""
    found: set[str] = set()
    for file in Path(records.judgement.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            called = getattr(node.func, "id", "")
            first = {"Concern": node.args[:1], "_taken_early": node.args[1:2]}.get(called, [])
            by_name = [each.value for each in node.keywords if each.arg == "pattern"]
            for part in (*first, *by_name):
                found |= {
                    each.value
                    for each in ast.walk(part)
                    if isinstance(each, ast.Constant) and isinstance(each.value, str)
                }
    return found


def _found(record: Record) -> set[str]:
    return {name for line in reviewed(record).lines for name in line.patterns}


def test_there_are_many_and_each_has_a_record_that_it_speaks_on():
    assert _names() == set(SPEAKS)
    assert len(SPEAKS) > 60


@pytest.mark.parametrize("name", SPEAKS)
def test_it_speaks(name):
    lines = [each for each in reviewed(SPEAKS[name]()).lines if name in each.patterns]

    assert lines
    for each in lines:
        assert each.source is not None or each.limit is not None or name == "unproved"
        assert each.why
        # 80 columns, less the label and the bullet beside them; a next check has five lines.
        assert all(len(cause) <= 72 for cause in each.causes), each.causes
        assert len(each.next_check) <= 5 * 68, each.next_check
        assert len(each.title) <= 68


@pytest.mark.parametrize("job", [SOUND, PARALLEL, ISLAND])
def test_on_a_sound_job_all_are_quiet(job):
    assert _found(sound_job(job)) == set()


def test_a_check_found_wrong_has_a_name_of_its_own():
    record = spoilt((at(Quantity.POLARITY, "C2"), Tick(good=False)))

    assert _found(record) - set(OUT_OF_ORDER) == {"wrong: polarity"}


def test_all_leads_open_is_one_finding_and_one_good_reading_refutes_it():
    found = [each for each in reviewed(all_open()).findings if "open leads" in each.patterns]
    assert len(found) == 1
    assert "0.00" in found[0].next_check
    one = spoilt((FEED_R1_R2, value_of(FEED_R1_R2)), record=all_open())
    assert "open leads" not in _found(one)
    assert "open leads" not in _found(without(*(each.slot for each in sound_job().readings)))
