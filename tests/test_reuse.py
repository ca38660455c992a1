"""What is kept of earlier work is never other than what all of it again would give."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import Phase, given, note, settings
from hypothesis import strategies as st

from records.demo import demo_record
from records.errors import FarboardError
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.circuit import Circuit
from records.model.reading import (
    Figure,
    LiveGate,
    NotNeeded,
    NotTaken,
    Quantity,
    Reading,
    Remedy,
    Slot,
    Tick,
    place_of,
)
from records.model.record import Record
from records.model.record_view import _alike
from records.model.slots import every, measured_by
from records.reuse import Reuse
from records.session import Session
from records.store.edits import append, put, take_out
from records.store.file import RecordFile
from records.store.state import plain
from records.terms import Part, Sign, Stage, WorkKind
from tests.judgement.jobs import ISLAND, SOUND, at, sound_job

pytestmark = pytest.mark.slow

STEPS = int(os.environ.get("FARBOARD_STEPS", "120"))
"""Changes to try in all; each is judged from nothing as well, which takes most of the time."""
A_JOB = 20
"""Changes of one job."""
UNSHRUNK = tuple(each for each in Phase if each is not Phase.shrink)
"""The steps are told as they were taken: few enough to read, and each try takes long."""
HOUR_AHEAD = timezone(timedelta(hours=1))
START = datetime(2026, 3, 2, 9, tzinfo=UTC)


@cache
def jobs() -> tuple[Record, ...]:
    bare = demo_record().model_copy(update={"readings": (), "remedies": (), "live_gate": ()})
    return demo_record(), bare, sound_job(SOUND), sound_job(ISLAND)


def leaves(value: Any, pointer: str) -> Iterator[tuple[str, Any]]:
    """Yield each value of a record as JSON with where it stands."""
    if isinstance(value, dict | list):
        pairs = value.items() if isinstance(value, dict) else enumerate(value)
        for name, each in pairs:
            yield from leaves(each, f"{pointer}/{name}")
    else:
        yield pointer, value


@cache
def seen() -> dict[str, list[Any]]:
    """Return what the jobs have under each name of a field, so that one can be put for another."""
    found: dict[str, dict[str, Any]] = {}
    for job in jobs():
        for pointer, value in leaves(plain(job), ""):
            found.setdefault(pointer.rsplit("/", 1)[1], {})[json.dumps(value)] = value
    return {name: list(values.values()) for name, values in found.items()}


GROWS = ("readings", "certifier_readings", "remedies", "live_gate", "left", "cautions_read")


def design_change(record: Record, chance: Random) -> list[dict[str, Any]]:
    """Change any one value of the design, or take an entry out, or put a circuit in twice."""
    doc = {name: part for name, part in plain(record).items() if name not in (*GROWS, "format")}
    if chance.random() < 0.1 and doc["circuits"]:
        if chance.random() < 0.5:
            return take_out(f"/circuits/{chance.randrange(len(doc['circuits']))}")
        twin = {**chance.choice(doc["circuits"]), "id": f"C{chance.randrange(50, 90)}"}
        return append("/circuits", twin)
    pointer, value = chance.choice(list(leaves(doc, "")))
    if isinstance(value, float) and chance.random() < 0.5:
        return put(pointer, value * chance.choice((0.1, 0.5, 0.9, 1.1, 2, 10)))
    return put(pointer, chance.choice(seen()[pointer.rsplit("/", 1)[1]]))


def reading(record: Record, chance: Random, number: int) -> Reading:
    """Return anything that can be entered for any reading that has a place in the job."""
    known = record.readings
    again = known and chance.random() < 0.4
    slot = chance.choice(known).slot if again else chance.choice(every(record))
    entry = measured_by(slot)
    due = expected(record).meter.get(slot)
    value = due.value if isinstance(due, Worked) else chance.choice((0.0, 0.05, 1.0, 230.0))
    value *= chance.choice((0.5, 0.98, 1, 1.02, 1.3, 5, 1000))
    sign = chance.choice((Sign.EQUAL, Sign.EQUAL, Sign.EQUAL, Sign.OVER, Sign.UNDER))
    figure = Figure(value=round(min(value, 1e6), 3), sign=sign)
    usual = Tick(good=chance.random() < 0.8) if entry.is_check else figure
    taken = chance.choice(
        (usual, usual, usual, NotTaken(reason="no access"), NotNeeded(reason="not there"))
    )
    return Reading(
        id=f"M{number}",
        slot=slot,
        taken=taken,
        at=START + timedelta(minutes=chance.randrange(40_000)),
        by=chance.choice((None, *(each.id for each in record.job.people))),
        instrument=chance.choice((None, *(each.id for each in record.job.instruments))),
        temperature=chance.choice((None, None, None, 5.0, 30.0)),
        test_voltage=chance.choice((None, 250.0, 500.0)),
        method=chance.choice(("", "", "L and N joined", "no-trip", "calculated")),
        note=chance.choice(("", "", "tightened")),
    )


def remedy(session: Session, chance: Random, number: int) -> Remedy:
    lines = session.review.findings or session.review.lines
    about = chance.choice(lines)
    slots = (about.slot,) if about.slot is not None else about.about
    return Remedy(
        id=f"F{number}",
        finding=about.key,
        done="joint made again",
        at=START + timedelta(minutes=chance.randrange(40_000)),
        to_decide=chance.random() < 0.3,
        kind=chance.choice((None, *WorkKind)),
        about=slots if chance.random() < 0.7 else (),
    )


def gate(record: Record, chance: Random) -> LiveGate:
    ids = [each.id for each in record.circuits if chance.random() < 0.7]
    by = chance.choice((None, *(each.id for each in record.job.people)))
    at = START + timedelta(minutes=chance.randrange(40_000))
    return LiveGate(at=at, by=by, isolation_understood=chance.random() < 0.8, may_go_live=ids)


def step(session: Session, chance: Random, number: int) -> str:
    """Make one change, whatever it is; return in words which."""
    record, kind = session.record, chance.random()
    file = session.file
    if kind < 0.5:
        taken = reading(record, chance, number)
        name = "certifier_readings" if chance.random() < 0.1 else "readings"
        file.change(append(f"/{name}", taken), by="A")
        return f"{name}: {taken!r}"
    if kind < 0.62:
        return f"undo: {file.undo(by='A') is not None}"
    if kind < 0.66:
        return f"redo: {file.redo(by='A') is not None}"
    if kind < 0.74:
        made = remedy(session, chance, number)
        file.change(append("/remedies", made), by="A")
        return f"remedy: {made!r}"
    if kind < 0.78:
        file.change(append("/live_gate", gate(record, chance)), by="A")
        return "live gate"
    ops = design_change(record, chance)
    file.change(ops, by="A")
    return f"design: {ops}"


def check(session: Session) -> None:
    record = session.record
    figures = expected(record)
    verdicts = review(record, figures)
    assert session.expected == figures
    for one, other in zip(session.review.lines, verdicts.lines, strict=True):
        assert one == other
    assert session.review == verdicts
    assert session.progress == progress(record, verdicts)
    whole, counted = session.counted
    assert counted == review(whole, figures).verdicts


@given(chance=st.randoms(use_true_random=False), job=st.integers(0, 3))
@settings(deadline=None, max_examples=max(1, STEPS // A_JOB), phases=UNSHRUNK)
def test_nothing_kept_is_ever_stale(tmp_path_factory: pytest.TempPathFactory, chance, job):
    """Whatever is read, read again, taken back, repaired or designed again, in whatever order."""
    path: Path = tmp_path_factory.mktemp("reuse") / "job.farboard"
    with RecordFile.create(path, jobs()[job]) as file:
        session = Session(file)
        check(session)
        for number in range(1, A_JOB + 1):
            try:
                note(step(session, chance, 8000 + number))
            except FarboardError as error:
                note(f"refused: {error}")
            # A text that is only written when somebody reads it must not tell of a later record.
            if chance.random() < 0.5:
                check(session)
            else:
                assert session.progress
        check(session)


class Watched(Reuse):
    """Tells which parts were worked out."""

    def __init__(self) -> None:
        super().__init__()
        self.names: list[Any] = []

    def once(self, name: Any, work: Any, *given: object) -> Any:
        def watched() -> Any:
            self.names.append(name)
            return work()

        return super().once(name, watched, *given)


def worked_out_for_one_more(slot: Slot) -> tuple[list[Any], list[Any]]:
    """Return the parts of the expectation, and of the review, that a retest in the demo asks for.

    They are counted only after another one: the first retest may ask what nothing asked before.
    """
    record, figures, verdicts = demo_record(), Watched(), Watched()
    last = record.taken(slot)[-1]
    for number in (8001, 8002):
        figures.names, verdicts.names = [], []
        review(record, expected(record, figures), verdicts)
        more = last.model_copy(update={"id": f"M{number}"})
        record = record.model_copy(update={"readings": (*record.readings, more)})
    figures.names, verdicts.names = [], []
    review(record, expected(record, figures), verdicts)
    return figures.names, verdicts.names


def own_slots(names: list[Any]) -> list[Slot]:
    return [each for each in names if isinstance(each, Slot)]


@pytest.mark.parametrize("quantity", [Quantity.IR_LE, Quantity.R1_R2, Quantity.ZS])
def test_a_reading_of_one_circuit_judges_no_other_one_again(quantity):
    slots = [each.slot for each in demo_record().readings if each.slot.quantity is quantity]
    slot = next(each for each in slots if each.place.circuit is not None)
    others = {each.id for each in demo_record().circuits} - {slot.place.circuit}

    figures, verdicts = worked_out_for_one_more(slot)

    assert slot in verdicts
    assert others.isdisjoint(each.place.circuit for each in own_slots(verdicts))
    assert {("branch", each) for each in (None, *others)}.isdisjoint(figures)
    designs = {("design", place_of(Part.CIRCUIT, each)) for each in others}
    assert designs.isdisjoint(verdicts)


def test_an_insulation_reading_leaves_every_expected_figure_as_it_is():
    figures, verdicts = worked_out_for_one_more(at(Quantity.IR_LE, "C2"))

    assert figures == []
    assert not [each for each in verdicts if isinstance(each, tuple) and each[0] == "design"]


def test_ze_is_asked_for_by_every_circuit():
    """Else the tests above would show nothing but that too little is noted."""
    figures, verdicts = worked_out_for_one_more(at(Quantity.ZE, stage=Stage.LIVE, part=Part.ORIGIN))

    circuits = {each.id for each in demo_record().circuits}
    assert circuits <= {each[1] for each in figures if each[0] == "branch"}
    assert circuits <= {slot.place.circuit for slot in own_slots(verdicts)}


def parts_for(*records: Record) -> list[list[Any]]:
    """Return the parts of expectation and review that each of some records asks for in turn."""
    figures, verdicts, found = Watched(), Watched(), []
    for record in records:
        figures.names, verdicts.names = [], []
        review(record, expected(record, figures), verdicts)
        found.append([*figures.names, *verdicts.names])
    return found


def remade(record: Record, **changes: Any) -> Record:
    """Return a record whose circuits are made anew, as by a change on disk, the first changed."""
    dump = record.model_dump(mode="json")["circuits"]
    dump[0] |= changes
    circuits = tuple(Circuit.model_validate(each) for each in dump)
    return record.model_copy(update={"circuits": circuits})


def test_circuits_made_anew_that_say_the_same_have_nothing_calculated_again():
    record = demo_record()

    assert parts_for(record, remade(record))[1] == []


def test_another_device_on_one_circuit_leaves_the_figures_of_the_others():
    record = demo_record()
    device = record.circuits[0].device.model_dump(mode="json") | {"breaking": 10.0}
    first, *others = (each.id for each in record.circuits)

    again = parts_for(record, remade(record, device=device))[1]

    assert ("branch", first) in again
    assert {("branch", each) for each in others}.isdisjoint(again)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (0.0, -0.0),
        (1, 1.0),
        (datetime(2026, 3, 1, 12, tzinfo=UTC), datetime(2026, 3, 1, 13, tzinfo=HOUR_AHEAD)),
        ((1.0, "a"), (1.0, "b")),
        ((1.0,), (1.0, 1.0)),
    ],
)
def test_what_is_written_otherwise_is_another_even_where_python_calls_it_equal(one, other):
    assert not _alike(one, other)
    assert _alike(one, one)
