"""The context of the first sheet: the job, who has a part in it, and the meters."""

from __future__ import annotations

from records.document.words import NOT_GIVEN, Clock, day, figure, given, joined, unmarked
from records.judgement.wording import listed
from records.model.reading import Figure, LiveException, LiveGate, Quantity, Reading, Tick
from records.model.record import Record
from records.tables.edition import limits_from
from records.terms import Stage
from records.units import Unit

_CHECKS_BY_METER = (Quantity.POLARITY,)


def job(record: Record) -> dict[str, str]:
    """Return the job's own words."""
    it = record.job
    ambient = (
        "not given, taken as 20 °C" if it.ambient is None else figure(it.ambient, Unit.CELSIUS)
    )
    return {
        "reference": given(it.reference),
        "place": given(it.place),
        "description": given(it.description),
        "edition": limits_from(),
        "edition_entered": given(it.edition),
        "started": day(it.started),
        "ambient": ambient,
    }


def people(record: Record) -> list[dict[str, str]]:
    """Return each person and their part, or one line that says there is none."""
    lines = [
        {"name": given(each.name), "part": each.duty.value if each.duty else NOT_GIVEN}
        for each in record.job.people
    ]
    return lines or [{"name": NOT_GIVEN, "part": NOT_GIVEN}]


def instruments(record: Record) -> list[dict[str, str]]:
    """Return each instrument, or one line that says there is none."""
    lines = [
        {
            "number": each.id,
            "kind": each.kind.value if each.kind else NOT_GIVEN,
            "serial": given(each.serial),
            "calibrated": day(each.calibrated),
            "due": day(each.due),
            "uncertainty": "not given: the most that EN 61557 allows"
            if each.uncertainty is None
            else figure(each.uncertainty, Unit.PERCENT),
            "leads": joined(
                (
                    figure(each.leads, Unit.OHM, 2),
                    {True: "nulled", False: "not nulled", None: ""}[each.nulled],
                )
            ),
        }
        for each in record.job.instruments
    ]
    blank = ("number", "kind", "serial", "calibrated", "due", "uncertainty", "leads")
    return lines or [dict.fromkeys(blank, NOT_GIVEN)]


def name(record: Record, id: str | None) -> str:
    """Return who that is; their id where the job has no name for it."""
    if id is None:
        return "by: not given"
    names = {each.id: each.name for each in record.job.people}
    return names.get(id) or id


def initials(record: Record) -> dict[str, str]:
    """Return by id what stands for a person in a row: initials, or the id where two have the same.

    A person without a name keeps the id.
    """
    found = {
        each.id: "".join(word[0].upper() for word in each.name.split() if word[0].isalnum())[:3]
        for each in record.job.people
    }
    shared = list(found.values())
    return {id: it if it and shared.count(it) == 1 else id for id, it in found.items()}


def how(record: Record, reading: Reading, clock: Clock) -> list[str]:
    """Return with what, by whom and when a reading was taken."""
    meter = reading.instrument or ("no meter named" if _by_meter(reading) else "")
    lines = [joined((meter, name(record, reading.by)), " · ")]
    lines.append(clock.when(reading.at))
    if reading.from_notes is not None:
        lines.append(f"from notes, entered {clock.when(reading.from_notes)}")
    return lines


def _by_meter(reading: Reading) -> bool:
    return isinstance(reading.taken, Figure) or (
        isinstance(reading.taken, Tick) and reading.slot.quantity in _CHECKS_BY_METER
    )


def live_gate(record: Record, clock: Clock) -> list[str]:
    """Return what was answered before the live tests."""
    alike: dict[str, list[LiveGate]] = {}
    for gate in record.live_gate:
        alike.setdefault(_answered(record, gate), []).append(gate)
    return [
        f"Before the live tests, "
        f"{listed([f'{clock.when(each.at)} ({name(record, each.by)})' for each in gates])}: {said}"
        for said, gates in alike.items()
    ] or ["The question on safe isolation before the live tests was not answered."]


def left(record: Record, clock: Clock) -> list[str]:
    """Return how the installation was left, each time that somebody said so."""
    return [
        f"{clock.when(each.at)} ({name(record, each.by)}): "
        + (
            "left off and locked off, earths back, links out, covers on"
            if each.off
            else "LEFT LIVE"
        )
        + (f"; {'key' if each.off else 'why'}: {each.words.rstrip('.')}" if each.words else "")
        + ". Not for use before the certificate."
        for each in record.left
    ] or (
        ["How it was left after the live tests was not said. Take it for live."]
        if any(each.slot.stage is Stage.LIVE for each in record.readings)
        else []
    )


def _answered(record: Record, gate: LiveGate) -> str:
    answer = (
        "safe isolation is done and proved, a competent person is at hand"
        if gate.isolation_understood
        else "safe isolation was not confirmed"
    )
    parts = [f"{answer}."]
    if gate.despite:
        parts.append(f"Went on in spite of: {joined(map(unmarked, gate.despite), '; ')}.")
    if gate.may_go_live is not None:
        parts.append(f"May go live: {listed(gate.may_go_live) or 'no circuit'}.")
    if gate.locked_off:
        parts.append(f"Locked off: {joined(gate.locked_off, '; ')}.")
    parts += [exception_words(record, each) for each in gate.exceptions]
    return " ".join(parts)


def exception_words(record: Record, made: LiveException) -> str:
    """Return who let a circuit be tested live in spite of its dead tests, and why."""
    despite = joined(made.despite, "; ")
    return (
        f"{made.circuit} tested live in spite of {despite or 'its dead tests'}: decided by "
        f"{name(record, made.by)}, because {made.reason.rstrip('.')}."
    )
