"""Jobs in which entries are missing, absurd or out of order still give a schedule that can be read.

What is blanked is drawn by chance from a fixed seed, so that each run tries the same jobs.
"""

from __future__ import annotations

import copy
import json
import random
import re
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import ValidationError

from records.document.schedule import schedule_bytes
from records.document.workings import WorkingsOf
from records.expected.plan import expected
from records.judgement.review import review
from records.model.record import Record
from records.terms import Verdict
from tests.document import job
from tests.document.generated import job_of
from tests.document.reading_back import anchors, margins, opened, text

pytestmark = pytest.mark.slow

JOBS = 6
_KEPT = {"id", "form"}
_BROKEN = re.compile(
    r", ,|; ;|\(\)|,\.|\.\.|\bnan\b|\binf\b|\bNone\b(?! yet)|\{\{|\{%|-0\.0|…"
    r"|(?:at most|at least|≤|≥) [-−]\d"
)
"""What no sentence has: gaps of a list, no number, a limit below zero, a text that was cut."""


def _spoil(piece: Any, chance: random.Random, share: float) -> None:
    """Blank or change some entries of a dumped record, in place."""
    inside = piece.items() if isinstance(piece, dict) else enumerate(piece)
    for name, value in list(inside):
        if name in _KEPT or isinstance(piece, list) or chance.random() >= share:
            if isinstance(value, dict | list):
                _spoil(value, chance, share)
        elif isinstance(value, list):
            piece[name] = chance.choice([[], value[:1], value[::-1]])
        elif isinstance(value, float):
            piece[name] = chance.choice([None, value * chance.choice([0.1, 3, 30]), 0.0])
        else:
            piece[name] = "" if isinstance(value, str) else None


def odd_jobs() -> Iterator[Record]:
    chance = random.Random(20260321)
    whole, found = json.loads(job_of(3).model_dump_json()), 0
    while found < JOBS:
        dumped = copy.deepcopy(whole)
        _spoil(dumped, chance, chance.choice([0.002, 0.005, 0.01]))
        try:
            yield Record.model_validate_json(json.dumps(dumped))
        except ValidationError:
            continue
        found += 1


@pytest.fixture(scope="module")
def jobs() -> list[Record]:
    return list(odd_jobs())


@pytest.mark.parametrize("at", range(JOBS))
def test_an_odd_job_is_printed_in_whole_sentences(at: int, jobs: list[Record]) -> None:
    record = jobs[at]
    document = opened(
        schedule_bytes(record, fingerprint=job.FINGERPRINT, made=job.MADE, workings=WorkingsOf.ALL)
    )
    printed = text(document)
    lines = review(record, expected(record)).lines
    lacks = any(each.verdict is Verdict.NOT_TAKEN for each in lines)
    broken = _BROKEN.search(printed)
    to, names = anchors(document)

    assert broken is None, printed[max(0, broken.start() - 60) : broken.end() + 20]
    assert not lacks or all(each.startswith("INCOMPLETE") for each in margins(document))
    assert to <= names
