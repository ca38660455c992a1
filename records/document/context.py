"""All that a template can print, as plain texts, lists and mappings with plain names."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from records.document import built, fixed, gaps, people
from records.document.design import Design
from records.document.findings import Findings, troubles
from records.document.ledger import Ledger
from records.document.pictures import pictures
from records.document.readings import Sheet
from records.document.words import Clock, shortened
from records.expected.results import Expected
from records.judgement.design.edition import edition_note
from records.judgement.review_types import Review
from records.judgement.todo.standing import Standing
from records.model.record import Record
from records.terms import Step

_REFERENCE_AT_HEAD = 60


def context(
    record: Record,
    expected: Expected,
    review: Review,
    standings: Mapping[Step, Standing],
    *,
    fingerprint: str,
    made: datetime,
) -> dict[str, Any]:
    """Return what the template prints; every value is text, or a list or mapping of such.

    A picture is a mapping as well: its file, its words and its width (see `images`).

    Args:
        record: The job.
        expected: What follows from it.
        review: The verdicts on it.
        standings: How each step of the work stands.
        fingerprint: Of the record, in readable groups.
        made: When the schedule is written.
    """
    clock = Clock(record, made)
    ledger = Ledger(troubles(review))
    design = Design(record, expected, review, ledger)
    sheet = Sheet(record, expected, review, ledger, clock)
    findings = Findings(record, review, ledger, sheet.workings, clock)
    filled: dict[str, Any] = {
        "schedule": _schedule(record, clock, fingerprint),
        "job": people.job(record),
        "people": people.people(record),
        "instruments": people.instruments(record),
        "standing": gaps.standing(review),
        "worst": findings.at_front(),
        "origin": built.origin(record),
        "feed": built.feed(record),
        "board": built.board(record),
        "circuits": built.circuits(record),
        "circuit_runs": built.circuit_runs(record),
        "marks": fixed.MARKS,
        "loads": design.loads,
        "loops": design.loops,
        "faults": design.faults,
        "live_gate": [*people.live_gate(record, clock), *people.left(record, clock)],
        "readings": sheet.groups(),
        "findings": findings.listed(),
        "put_right": findings.put_right(),
        "pictures": pictures(record, expected, review),
        "steps": gaps.steps(standings),
        "missing": gaps.missing(record, review),
        "not_needed": gaps.not_needed(record, review),
        "workings": sheet.workings.listed(ledger),
        "cautions": list(fixed.CAUTIONS),
        "limitations": list(fixed.LIMITATIONS),
    }
    # Last: by now every sheet has said which sources and notes it refers to.
    return {**filled, "notes": ledger.note_list, "sources": ledger.source_list}


def _schedule(record: Record, clock: Clock, fingerprint: str) -> dict[str, str]:
    return {
        "standing": fixed.STANDING,
        "purpose": fixed.PURPOSE,
        "rules": fixed.RULES,
        "edition_note": edition_note(record),
        "limits_from": fixed.LIMITS_FROM,
        "every_page": fixed.EVERY_PAGE,
        "reference": shortened(record.job.reference, _REFERENCE_AT_HEAD) or "no reference given",
        "made": clock.made,
        "times": clock.zone,
        "fingerprint": fingerprint or "none yet",
        "fingerprint_meaning": fixed.FINGERPRINT,
    }
