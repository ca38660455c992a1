"""All that a template can print, as plain texts, lists and mappings with plain names."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from records.document import as_built as built
from records.document import fixed_text as fixed
from records.document import front, gaps, household, people, places, supply
from records.document.choice import choice
from records.document.diagram import single_line
from records.document.findings import Findings
from records.document.ledger import Ledger
from records.document.lines import Lines
from records.document.log import Log
from records.document.photos import photos
from records.document.pictures import pictures
from records.document.reading_cells import Cells
from records.document.spelling import spelt_out
from records.document.walls.figure import surface_figures
from records.document.words import Clock
from records.document.workings import Workings, WorkingsOf
from records.expected.results import Expected
from records.judgement.review_types import Review
from records.judgement.todo.standing import Standing
from records.model.record import Record
from records.terms import Step


def context(
    record: Record,
    expected: Expected,
    review: Review,
    standings: Mapping[Step, Standing],
    *,
    fingerprint: str,
    made: datetime,
    workings: WorkingsOf = WorkingsOf.FINDINGS,
    why_cable: bool = False,
    made_with: str = "the template that comes with Farboard",
) -> dict[str, Any]:
    """Return what the template prints; every value is text, or a list or mapping of such.

    What prints as more than text (links, drawings) is a mapping too: see `ink`.

    Args:
        record: The job.
        expected: What follows from it.
        review: The verdicts on it.
        standings: How each step of the work stands.
        fingerprint: Of the record, in readable groups.
        made: When the schedule is written.
        workings: Of which figures the workings are printed.
        why_cable: Whether to say why the cables of the feed were chosen, also where the record
            doesn't ask for it.
        made_with: Which template it is made with, in words.
    """
    clock, state = Clock(record, made), front.state(record, review, standings)
    ledger = Ledger(review)
    cells = Cells(record, review, ledger)
    shown = Workings(cells, expected, workings)
    lines = Lines(cells, expected, review)
    findings = Findings(cells, review, shown, clock)
    log = Log(cells, expected, shown, clock)
    filled: dict[str, Any] = {
        "schedule": front.schedule(record, state, clock, fingerprint, made_with),
        "strip": front.strip(review, state),
        "facts": front.facts(record, clock),
        "job": people.job(record),
        "people": people.people(record),
        "worst": front.findings(record, ledger),
        "missing": gaps.missing(record, review),
        "live_gate": [*people.live_gate(record, clock), *people.left(record, clock)],
        "circuits": built.circuits(record, expected),
        "marks": fixed.MARKS,
        "lines": lines.read(),
        "rings": lines.rings(),
        "other_tests": lines.others(),
        "calculated": lines.calculated(),
        "origin": built.origin(record),
        "feed": built.feed(record),
        "board": built.board(record),
        "supply_readings": supply.readings(cells),
        "findings": findings.listed(),
        "put_right": findings.put_right(),
        "inputs_missing": gaps.inputs_missing(standings),
        "not_needed": gaps.not_needed(record, review),
        "limitations": list(fixed.LIMITATIONS),
        "diagram": single_line(record, cells),
        "pictures": [*pictures(record, expected, review), *surface_figures(record)],
        "instruments": people.instruments(record),
        "samples": places.samples(cells),
        "supply_samples": places.supply_samples(cells),
        "cautions": list(fixed.CAUTIONS),
        "chart": household.chart(record),
        "isolating": household.isolating(record),
        "cables": household.hidden(record),
        "log_legend": log.legend(),
        "log": log.groups(),
        "workings": shown.listed(),
        "choice": choice(record, asked=why_cable),
        "photos": photos(record),
    }
    # Last: by now every part has said which sources, notes and words it refers to.
    return {
        **filled,
        "notes": ledger.note_list,
        "sources": ledger.source_list,
        "glossary": spelt_out(filled) if record.circuits else [],
    }
