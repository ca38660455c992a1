"""Whole jobs against findings that were written by hand, from the rules of the trade.

Each folder of `fixtures/` has a job and what a careful person finds in it. The review has to find
all of that with the same verdict, and nothing besides but what follows from it.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.review_types import Judged, Review
from records.model.record import Record
from records.store.exchange import from_json, to_json
from records.terms import Earthing, OutbuildingEarth, Verdict

FOLDER = Path(__file__).parent.parent / "fixtures"
JOBS = sorted(each.parent.name for each in FOLDER.glob("*/expected.toml"))
FAULTLESS = ("bindery", "cider-house")


@dataclass(frozen=True)
class ByHand:
    """One line of an expected.toml."""

    pattern: str
    verdicts: tuple[str, ...]
    reason: str
    source: str

    @classmethod
    def of(cls, table: dict[str, Any]) -> ByHand:
        said = table.get("verdict", [])
        return cls(
            table["key"],
            tuple([said] if isinstance(said, str) else said),
            table.get("reason", ""),
            table.get("source", ""),
        )

    def means(self, line: Judged) -> bool:
        """Whether this is about that line."""
        return fnmatchcase(line.key, self.pattern)


@cache
def _table(name: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / name / "expected.toml").read_text(encoding="utf-8"))


def _by_hand(name: str, kind: str) -> list[ByHand]:
    return [ByHand.of(each) for each in _table(name).get(kind, [])]


@cache
def _job(name: str) -> Record:
    if _table(name).get("job") == "demo":
        return demo_record()
    text = (FOLDER / name / "job.json").read_text(encoding="utf-8")
    return Record.model_validate_json(text)


@cache
def _review(name: str) -> Review:
    return review(_job(name), expected(_job(name)))


def _shown(lines: list[Judged]) -> str:
    return "\n".join(f"{each.verdict.value}: {each.key}: {each.why}" for each in lines)


@pytest.mark.parametrize("name", JOBS)
def test_everything_found_by_hand_is_found_with_that_verdict(name):
    found = _review(name).findings
    for wanted in _by_hand(name, "finding"):
        met = [each for each in found if wanted.means(each)]

        assert met, f"{wanted.pattern} was not found: {wanted.reason}"
        assert {each.verdict.value for each in met} <= set(wanted.verdicts), _shown(met)


@pytest.mark.parametrize("name", JOBS)
def test_nothing_is_found_besides_but_what_follows_from_it(name):
    known = [*_by_hand(name, "finding"), *_by_hand(name, "may_follow")]
    besides = [
        each for each in _review(name).findings if not any(hand.means(each) for hand in known)
    ]

    assert not besides, _shown(besides)


@pytest.mark.parametrize("name", JOBS)
def test_what_is_sound_is_not_flagged(name):
    lines = _review(name).lines
    for sound in _by_hand(name, "must_not_flag"):
        met = [each for each in lines if sound.means(each)]

        assert met, f"{sound.pattern} was not judged at all"
        assert not [each for each in met if each.verdict.is_finding], _shown(met)


@pytest.mark.parametrize("name", FAULTLESS)
def test_a_faultless_job_has_no_finding_and_every_reading_is_proved(name):
    result = _review(name)

    assert not result.findings, _shown(list(result.findings))
    assert {each.verdict for each in result.lines} <= {Verdict.WITHIN, Verdict.NOT_NEEDED}
    assert sum(each.verdict is Verdict.WITHIN for each in result.lines) > 80


@pytest.mark.parametrize("name", JOBS)
def test_each_line_by_hand_gives_its_reason_and_its_source(name):
    for kind in ("finding", "must_not_flag"):
        for each in _by_hand(name, kind):
            assert len(each.reason) > 10
            assert len(each.source) > 5
    for each in _by_hand(name, "may_follow"):
        assert len(each.reason) > 10
    values = {each.value for each in Verdict if each.is_finding}
    for each in _by_hand(name, "finding"):
        assert each.verdicts
        assert set(each.verdicts) <= values


@pytest.mark.parametrize("name", JOBS)
def test_each_folder_says_what_it_is(name):
    assert _table(name)["title"]
    assert len((FOLDER / name / "README.md").read_text(encoding="utf-8")) > 200


@pytest.mark.parametrize("name", [each for each in JOBS if each != "loom-shed"])
def test_each_job_is_a_file_that_farboard_reads_and_writes_without_loss(name):
    text = (FOLDER / name / "job.json").read_text(encoding="utf-8")

    assert from_json(text) == _job(name)
    assert from_json(to_json(_job(name))) == _job(name)


def test_a_job_before_its_boards_go_on_has_nothing_wrong_only_things_to_come():
    verdicts = {each.verdict for each in _review("lodge-first-fix").findings}

    assert verdicts == {Verdict.NOT_TAKEN}


def test_remedied_faults_keep_their_first_readings():
    """The same house before and after: what was found stays readable, and is not open."""
    first = _review("cider-house-first-pass").findings
    before = {each.key for each in first if "taken while locked off" not in each.patterns}
    after = {each.key: each for each in _review("cider-house").lines}
    remedied = [after[key] for key in before if len(after[key].attempts) > 1]

    assert len(remedied) >= 5
    for each in remedied:
        assert each.verdict is Verdict.WITHIN
        assert each.attempts[0].taken != each.attempts[-1].taken


def test_the_jobs_differ_in_earthing_in_fuses_and_in_form():
    jobs = [_job(name) for name in JOBS]
    fuses = {each.feed.device.kind.value for each in jobs if each.feed.device.kind}
    forms = {circuit.form for each in jobs for circuit in each.circuits}
    earths = {(each.origin.earthing, each.board.earth) for each in jobs}

    assert len(jobs) >= 9
    assert {"BS 88-2 fuse", "BS 88-3 fuse", "BS 3036 fuse"} <= fuses
    assert len(forms) == 3
    assert {
        (Earthing.TN_S, OutbuildingEarth.CARRIED_OVER),
        (Earthing.TN_C_S, OutbuildingEarth.CARRIED_OVER),
        (Earthing.TN_C_S, OutbuildingEarth.OWN_ELECTRODE),
        (Earthing.TT, OutbuildingEarth.CARRIED_OVER),
    } <= earths
