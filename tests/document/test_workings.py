"""Annex B holds the workings that are asked for, and what a figure refers to is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from records.demo import demo_record
from records.document.ledger import Ledger
from records.document.reading_cells import Cells
from records.document.schedule import write_schedule
from records.document.workings import Workings, WorkingsOf
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from tests.document import job
from tests.document.reading_back import opened, text

pytestmark = pytest.mark.slow


def _printed(folder: Path, workings: WorkingsOf) -> str:
    out = folder / "schedule.docx"
    write_schedule(
        demo_record(), out, fingerprint=job.FINGERPRINT, made=job.MADE, workings=workings
    )
    return text(opened(out))


def test_every_figure_that_was_calculated_stands_there_if_all_are_asked_for(tmp_path: Path):
    record = demo_record()
    result = expected(record)
    words = _printed(tmp_path, WorkingsOf.ALL)
    lines = set(words.splitlines())
    verdicts = review(record, result)
    cells = Cells(record, verdicts, Ledger(verdicts))
    workings = Workings(cells, result, WorkingsOf.ALL)

    checked = 0
    for figures in (result.design, result.meter, result.measured):
        for key, each in figures.items():
            if isinstance(each, Worked):
                place = key[0] if isinstance(key, tuple) else key.place
                number = workings.number(place, each)
                assert number in lines, key
                assert each.put_in in words, key
                checked += 1
    assert checked > 100


def test_of_what_is_in_doubt_each_figure_can_be_followed(tmp_path: Path):
    record = demo_record()
    verdicts = review(record, expected(record))
    words = _printed(tmp_path, WorkingsOf.FINDINGS)

    doubted = [each for each in verdicts.findings if each.is_trouble]
    followed = [each.expected for each in doubted if isinstance(each.expected, Worked)]
    assert len(followed) >= 4
    for each in followed:
        assert each.put_in in words
    every = _printed(tmp_path, WorkingsOf.ALL)
    numbers = [len(re.findall(r"^W\d+$", each, re.MULTILINE)) for each in (words, every)]
    assert numbers[0] < numbers[1] / 4


@pytest.mark.parametrize("of", [WorkingsOf.NONE])
def test_none_are_printed_if_none_are_asked_for(tmp_path: Path, of: WorkingsOf):
    words = _printed(tmp_path, of)

    assert "No working is printed" in words
    assert "\nW1\n" not in words
