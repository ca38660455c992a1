"""What `check --json` writes is what its schema says."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from records.evidence import COMMON_PRACTICE
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.harm import Harm
from records.judgement.review import review
from records.judgement.review_types import Limit, Sense
from records.model.record import Record
from records.store.record_in import Found
from records.units import Unit
from tests.commands.conftest import Run
from tests.test_fixtures import JOBS, _job
from tui.commands.check_json import as_data
from tui.commands.check_schema import Checked, schema

pytestmark = pytest.mark.slow


@cache
def _validator() -> Draft202012Validator:
    said = json.loads(schema())
    Draft202012Validator.check_schema(said)
    return Draft202012Validator(said, format_checker=FormatChecker())


def _data(record: Record) -> dict:
    found = review(record, expected(record))
    return json.loads(
        json.dumps(as_data(Path("job.json"), Found(record, ""), found), allow_nan=False)
    )


@pytest.mark.parametrize("name", [*JOBS, "empty"])
def test_every_whole_job_is_written_as_the_schema_says(name: str) -> None:
    data = _data(Record() if name == "empty" else _job(name))

    assert [error.message for error in _validator().iter_errors(data)] == []
    assert Checked.model_validate_json(json.dumps(data)).is_certificate is False


@pytest.mark.parametrize(
    "spoil",
    [
        lambda data: data.pop("counts"),
        lambda data: data.update(is_certificate=True),
        lambda data: data["findings"][0].update(verdict="fine"),
        lambda data: data["findings"][0].update(more=1),
        lambda data: data["findings"][0].pop("why"),
    ],
)
def test_what_is_otherwise_is_not_valid(spoil) -> None:
    data = _data(_job("cider-house-first-pass"))
    spoil(data)

    assert list(_validator().iter_errors(data))


def test_what_is_not_assured_is_no_number_and_no_fault() -> None:
    job = _job("kiln-room")
    found = review(job, expected(job))
    endless = Worked("t", math.inf, Unit.SECOND, "t", "∞", (), words="not assured")
    limit = Limit(Sense.MOST, math.inf, Unit.SECOND, COMMON_PRACTICE)
    line = found.lines[0]._replace(expected=endless, limit=limit)
    data = as_data(Path("job.json"), Found(job, ""), replace(found, lines=(line,)))

    text = json.dumps(data, allow_nan=False)
    assert not list(_validator().iter_errors(json.loads(text)))


def test_no_line_of_the_review_is_left_out() -> None:
    job = _job("kiln-room")
    lines = review(job, expected(job)).lines
    data = _data(job)

    assert {each.key for each in lines} == {
        each["key"] for each in data["findings"] + data["others"]
    }
    assert any(each["part_of"] for each in data["others"])


def test_the_command_prints_it_and_the_two_fit(run: Run, shed: Path) -> None:
    said = json.loads(run("schema", "--check").stdout)
    data = json.loads(run("check", shed, "--json").stdout)

    assert said == json.loads(schema())
    assert not list(Draft202012Validator(said).iter_errors(data))


def test_findings_come_in_order_of_harm_with_what_was_found_before() -> None:
    data = _data(_job("cooperage"))
    harms = [each.words for each in Harm]
    order = [harms.index(each["harm"]) for each in data["findings"]]
    key = "circuit/C2/-/dead/ir-le"
    (kept,) = (each for each in data["others"] if each["key"] == key)

    assert order == sorted(order)
    assert [each["verdict"] for each in kept["readings"]] == ["outside", "within"]
    assert any("screw or nail" in each for each in kept["readings"][0]["causes"])
    assert kept["remedies"][0]["kind"] == "cable"
    assert not any(each["out_of_calibration"] for each in kept["readings"])
