"""Page one: where the job stands, what is asked of the certifier, what is missing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from records.document import fixed_text as fixed
from records.document import gaps, people
from records.document.groups import group_name, point_name, what_name
from records.document.ink import Value, ink, link
from records.document.ledger import Group, Ledger, troubles
from records.document.words import Clock, counted, joined
from records.judgement.design.edition_note import edition_note
from records.judgement.review_types import Judged, Life, Limit, Review
from records.judgement.todo.standing import Standing
from records.judgement.wording import done_line, said
from records.model.record import Record
from records.model.slots import measured_by
from records.terms import STEP_OF_STAGE, Step, Verdict

_AT_HEAD = 80
"""Letters of a reference that still stand in one line at the head of each page."""


def schedule(
    record: Record, state: str, clock: Clock, fingerprint: str, made_with: str
) -> dict[str, Value]:
    """Return what the schedule says of itself, on every page and on the first.

    Args:
        record: The job.
        state: What `state` returns.
        clock: How times are printed.
        fingerprint: Of the record.
        made_with: Which template it is made with, in words.
    """
    reference = record.job.reference or "no reference given"
    at_head = reference if len(reference) <= _AT_HEAD else "reference: see page 1"
    mark = fingerprint or "none yet"
    return {
        "title": f"Wiring record: {record.job.place or 'place not given'}",
        "subject": f"{reference}, {clock.made}",
        "header": f"{state} · {at_head} · {clock.made}",
        "every_page": fixed.EVERY_PAGE,
        "identity": f"Fingerprint {mark} · {fixed.NO_CERTIFICATE} · {fixed.LIMITS_FROM}",
        "purpose": fixed.PURPOSE,
        "rules": fixed.RULES,
        "edition_note": edition_note(record),
        "nothing_open": fixed.NOTHING_YET if state.startswith("INCOMPLETE") else fixed.NOTHING,
        "reference": reference,
        "made": clock.made,
        "made_with": made_with,
        "times": clock.zone,
        "fingerprint": mark,
        "fingerprint_meaning": fixed.FINGERPRINT,
    }


def state(record: Record, review: Review, standings: Mapping[Step, Standing]) -> str:
    """Return in a line whether the record is complete, and how many findings are open."""
    entries = gaps.entries_missing(standings)
    lacks = [
        "no circuit entered" if not record.circuits else "",
        counted(gaps.missing_readings(review), "reading") + " missing"
        if gaps.missing_readings(review)
        else "",
        counted(gaps.unknown_checks(review), "design check") + " not possible yet"
        if gaps.unknown_checks(review)
        else "",
        counted(entries, "entry", "entries") + " missing" if entries else "",
    ]
    found = len(troubles(review))
    findings = f"{counted(found, 'finding')} open" if found else "no finding open"
    if any(lacks):
        return f"INCOMPLETE: {joined((*lacks, findings))}"
    return f"Nothing missing, {findings}"


def strip(review: Review, state: str) -> list[dict[str, str]]:
    """Return the strip at the top: how many lines of the review stand how, after the state."""
    counts = {verdict: sum(each.verdict is verdict for each in review.lines) for verdict in Verdict}
    head, _, rest = state.partition(": ")
    shown = (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR, Verdict.WITHIN)
    boxes = [{"big": head if rest else "Nothing missing", "small": rest or state}]
    boxes += [{"big": str(counts[each]), "small": f"{each.mark} {each.value}"} for each in shown]
    return [*boxes, {"big": str(len(review.put_right)), "small": "put right"}]


def facts(record: Record, clock: Clock) -> list[dict[str, str]]:
    """Return the job in a few lines: what, where, who, when, with what."""
    job = people.job(record)
    lines = [
        ("Job", joined((job["reference"], job["place"]))),
        ("Work", job["description"]),
        ("Started", f"{job['started']} · BS 7671 edition entered: {job['edition_entered']}"),
        ("Tests", _dates(record, clock)),
        ("People", joined((f"{it['name']} ({it['part']})" for it in people.people(record)), "; ")),
        ("Temperature", f"at the tests: {job['ambient']}"),
    ]
    return [{"name": name, "text": text} for name, text in lines]


def _dates(record: Record, clock: Clock) -> str:
    found = []
    for stage, step in STEP_OF_STAGE.items():
        times = sorted(each.at for each in record.readings if each.slot.stage is stage)
        days = list(dict.fromkeys(clock.day(each) for each in times))
        between = (
            days[0] if len(days) == 1 else f"{days[0]} to {days[-1]}" if days else "none taken"
        )
        found.append(f"{step.value.lower()}: {between}")
    return joined(found, " · ")


def findings(record: Record, ledger: Ledger) -> list[dict[str, Any]]:
    """Return the findings as page one lists them, with what each asks of the certifier."""
    return [_finding(record, group, ledger) for group in ledger.groups]


def _finding(record: Record, group: Group, ledger: Ledger) -> dict[str, Any]:
    first = group[0]
    number = ledger.finding(first)
    return {
        "number": ink(link(number, number, "Flag")),
        "verdict": f"{first.verdict.mark} {first.verdict.value}",
        "what": what_of(first),
        "short": first.slot.quantity.value if first.slot is not None else what_of(first),
        "places": _places(record, group),
        "asked": asked(first),
    }


def _places(record: Record, group: Group) -> list[dict[str, str]]:
    """Return where alike findings are, with reading and limit; those that say the same together."""
    found: dict[tuple[str, str], list[str]] = {}
    for each in group:
        limit = limit_of(each.limit) if each.slot or each.limit else ""
        found.setdefault((reading_of(each), limit), []).append(where(record, each))
    return [
        {"where": joined(places, "; "), "reading": reading, "limit": limit}
        for (reading, limit), places in found.items()
    ]


def what_of(it: Judged) -> str:
    """Return what a finding is about, without its place."""
    return what_name(it.slot) if it.slot is not None else it.title.rsplit(": ", 1)[-1]


def where(record: Record, it: Judged) -> str:
    """Return where a finding is."""
    if it.slot is None and ": " not in it.title:
        return "whole job"
    return joined((group_name(record, it.place), point_name(record, it.place)))


def reading_of(it: Judged) -> str:
    """Return what was read last, or what was calculated."""
    if it.attempts and it.slot is not None:
        return said(it.attempts[-1].taken, measured_by(it.slot))
    if it.slot is not None:
        return "not taken"
    return (
        str(it.expected)
        if it.what is not None and it.expected is not None
        else "an entry, no reading: see part 5"
    )


def limit_of(limit: Limit | None) -> str:
    """Return a limit after a comma, or that no limit decided."""
    return f", limit {limit}" if limit is not None else "; no limit: at odds with the rest"


def asked(it: Judged) -> str:
    """Return what a finding asks of the certifier, in the eyes of somebody who signs."""
    passed = [each for each in it.remedies if each.to_decide]
    if passed:
        return f"Decide: {passed[-1].done}"
    if it.life is Life.REMEDIED:
        return f"Work done, not tested since ({done_line(it.remedies[-1])}). Test it yourself."
    if it.life is Life.STILL:
        return "Found again after work on it. Don’t sign for it as it is: find the cause first."
    return _ASKED[it.verdict][it.slot is not None or bool(it.about)]


_ASKED = {
    Verdict.OUTSIDE: (
        "Decide if the design must change.",
        "Don’t sign for it as it is. It has to be put right and tested again.",
    ),
    Verdict.UNLIKELY: (
        "Check the entry against the work itself. One of the two can’t be right.",
        "Don’t rely on it. Take it yourself.",
    ),
    Verdict.NEAR: (
        "Decide: it is for your judgement, and no pass.",
        "Take it yourself, or decide whether the reading counts. It is no pass.",
    ),
    Verdict.NOT_TAKEN: ("It is missing.", "It is missing."),
    Verdict.WITHIN: ("", ""),
    Verdict.NOT_NEEDED: ("", ""),
}
