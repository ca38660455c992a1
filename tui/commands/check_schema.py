"""The published form of what `farboard check --json` writes."""

from __future__ import annotations

import json
from typing import Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict

from records.expected.results import What
from records.judgement.review_types import Life, Sense
from records.model.reading import Quantity, Remedy, StandIn
from records.terms import Part, Sign, Stage, Verdict


class _Shape(BaseModel):
    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)


class Attempt(_Shape):
    """One reading of a slot, the oldest first."""

    id: str
    at: AwareDatetime
    """When it was taken."""
    from_notes: AwareDatetime | None
    """When it was entered, if that was later."""
    said: str
    """In words, with its unit."""
    verdict: Verdict
    """How it stood when it was taken; of the last one, how it stands by itself."""
    causes: list[str]
    """Likely ones, as they were told then."""
    out_of_calibration: bool
    """Whether its meter was out of calibration that day; the verdict stays its own."""
    test_voltage: float | None
    """D.c., in V, of an insulation test."""
    method: str
    kind: Literal["figure", "tick", "not taken", "not needed"]
    value: float | None = None
    """Of a figure, in the unit of the limit or the expectation."""
    sign: Sign | None = None
    typed: str | None = None
    """Of a figure, as it was typed: what the meter showed."""
    leads: float | None = None
    """Of a figure, the resistance of the test leads that was taken off it, in Ω."""
    good: bool | None = None
    """Of a check."""
    reason: str | None = None
    """Why it could not be taken, or is not needed."""
    stands_in: StandIn | None = None
    """Of what could not be taken: the test that was done and recorded elsewhere."""


class Expectation(_Shape):
    """What a reading or a design figure should be, or why there is none."""

    said: str
    value: float | None
    """None if it can't be worked out, or is no number such as “not assured”."""
    unit: str | None
    formula: str = ""
    put_in: str = ""
    sources: list[str] = []


class LimitShape(_Shape):
    """What must not be passed."""

    said: str
    sense: Sense
    value: float | None
    """In `unit`; of a band the lower end, of a check 1; None where there is no end to it."""
    upper: float | None
    unit: str
    source: str


class MendShape(_Shape):
    """A change that would put a design check right."""

    change: str
    then: str


class Line(_Shape):
    """How one reading, one design figure or one pattern of readings stands."""

    key: str
    """Stable: a remedy refers to it."""
    verdict: Verdict
    part: Part
    circuit: str | None
    point: str | None
    stage: Stage | None
    """None for a design figure and for a pattern."""
    quantity: Quantity | None
    design: What | None
    title: str
    harm: str
    """What it can lead to; findings are in this order, then by verdict."""
    why: str
    patterns: list[str]
    """Names of the rules that found something."""
    part_of: str | None
    """Key of the line that tells this trouble as a whole."""
    life: Life | None
    anew: str
    """What changed in the design since; empty if nothing did."""
    readings: list[Attempt]
    expected: Expectation | None
    limit: LimitShape | None
    causes: list[str]
    next_check: str
    mends: list[MendShape]
    source: str | None
    from_memory: list[str]
    """Published figures that decide the verdict and stand here from memory: to be confirmed."""
    remedies: list[Remedy]


class Checked(_Shape):
    """A review of one record: an installer's test record, not a certificate."""

    file: str
    fingerprint: str | None
    """None for a record in JSON."""
    reference: str
    edition: str
    """That the limits come from."""
    edition_entered: str
    """That somebody entered for the job; no limit follows from it."""
    is_certificate: Literal[False]
    counts: dict[Verdict, int]
    """Lines by verdict."""
    findings: list[Line]
    """What somebody must deal with, the worst first."""
    others: list[Line]
    """What is within, not needed, or told by one of the findings."""
    settled: list[Remedy]
    """Remedies of findings that have no line any more."""


def schema() -> str:
    """Return the JSON Schema of it, as text (JSON Schema, draft 2020-12)."""
    found = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **Checked.model_json_schema(mode="validation"),
    }
    return json.dumps(found, ensure_ascii=False, indent=2) + "\n"
