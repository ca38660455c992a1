"""The room that a design leaves: amperes at the board and at each circuit, metres of each run."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.expected.context import Context
from records.expected.feed_load import feed_current
from records.expected.loads import design_current
from records.expected.results import Worked
from records.expected.workings import attempt
from records.judgement.remedy.design_changes import Owner
from records.judgement.review_types import Judged
from records.model.circuit import Circuit
from records.model.record import Record, next_id
from records.model.wiring import Device, Rcd, Run
from records.options.edge import Edge, checks, edge, made_worse
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, RcdType, Use
from records.units import Unit

AMPERES = 0.5
"""A in one step of a load."""
METRES = 0.5
"""m in one step of a length."""
MOST_AMPERES = 100.0
MOST_METRES = 300.0


@dataclass(frozen=True, slots=True)
class Room:
    """How much more would still do at one place."""

    where: str
    """`At the board`, `C2 Sockets, furthest point`, `Feed, run 1`."""
    more: float | None
    """In `unit`; None: it can't be said, `why` says what is missing."""
    unit: Unit
    stops: tuple[Judged, ...] = ()
    """The checks that fail with one step more, the gravest first."""
    why: str = ""

    @property
    def binds(self) -> str:
        """The check that stops it first, in words."""
        return self.stops[0].title if self.stops else ""


def room_left(record: Record) -> tuple[Room, ...]:
    """Return how much more the design would bear: of each thing alone, all else as it is."""
    return tuple(_rooms(record))


def _rooms(record: Record) -> Iterator[Room]:
    yield _at_board(record)
    for circuit in record.circuits:
        yield _at_circuit(record, circuit)
    for owner in (Owner(record, None), *(Owner(record, each.id) for each in record.circuits)):
        for at, run in enumerate(owner.runs):
            yield _of_run(owner, at, run)


def _at_board(record: Record) -> Room:
    load = attempt("Ib", lambda: feed_current(Context(record)))
    if not isinstance(load, Worked):
        return Room("At the board", None, Unit.AMPERE, why=load.why)

    def step(steps: int) -> Record:
        feed = record.feed.model_copy(update={"load": load.value + steps * AMPERES})
        return record.model_copy(update={"feed": feed})

    found = edge(record, step, int(MOST_AMPERES / AMPERES))
    return _room("At the board", found, AMPERES, Unit.AMPERE)


def _at_circuit(record: Record, circuit: Circuit) -> Room:
    where = f"{circuit.id} {circuit.name}".strip() + ", furthest point"
    context = Context(record)
    load = attempt("Ib", lambda: design_current(context, circuit))
    feed = attempt("Ib", lambda: feed_current(context))
    if not isinstance(load, Worked) or not isinstance(feed, Worked):
        lacking = load if not isinstance(load, Worked) else feed
        return Room(where, None, Unit.AMPERE, why=getattr(lacking, "why", ""))
    owner = Owner(record, circuit.id)

    def step(steps: int) -> Record:
        more = steps * AMPERES
        changed = owner.changed(load=load.value + more, power=None)
        # What is added here is on at the same time as all that the feed carries now.
        carried = changed.feed.model_copy(update={"load": feed.value + more})
        return changed.model_copy(update={"feed": carried})

    return _room(where, edge(record, step, int(MOST_AMPERES / AMPERES)), AMPERES, Unit.AMPERE)


def _of_run(owner: Owner, at: int, run: Run) -> Room:
    where = owner.run_name(at) if len(owner.runs) > 1 else f"{owner.name}, its run"
    if run.length is None:
        return Room(where, None, Unit.METRE, why=f"{where}: its length is not entered yet.")

    def step(steps: int) -> Record:
        return _longer(owner, at, steps * METRES)

    found = edge(owner.record, step, int(MOST_METRES / METRES))
    return _room(where, found, METRES, Unit.METRE)


def _longer(owner: Owner, at: int, more: float) -> Record:
    """Return the job with a run longer by `more` [m]; the points it leads to are farther by it.

    On a ring they keep their share of the way round.
    """
    longer = owner.with_run(at, length=(owner.runs[at].length or 0.0) + more)
    circuit = owner.circuit
    if circuit is None:
        return longer
    total = sum(each.length or 0.0 for each in owner.runs)
    start = sum(each.length or 0.0 for each in owner.runs[:at])

    def moved(where: float) -> float:
        if circuit.form is Form.RING:
            return where * (total + more) / total if total else where
        return where + more if where > start else where

    points = tuple(
        each if each.at is None else each.model_copy(update={"at": moved(each.at)})
        for each in circuit.points
    )
    return Owner(longer, owner.id).changed(points=points)


def _room(where: str, found: Edge, size: float, unit: Unit) -> Room:
    return Room(where, found.steps * size, unit, found.stops)


@dataclass(frozen=True, slots=True)
class Later:
    """Something added later, tried without changing the record."""

    record: Record
    """The job with it in."""
    fails: tuple[Judged, ...]
    """Design checks that would fail then, fail by more, or need a figure; the gravest first."""


def with_load_later(record: Record, kilowatts: float, metres: float = 5.0) -> Later:
    """Return what would fail with a fixed load added on its own circuit.

    Its circuit is taken as 2.5 mm² twin-and-earth clipped direct, or thicker where the load asks
    for it, behind a 30 mA RCBO; it is the feed and what the feed carries that is looked at.

    Args:
        record: The job as it is.
        kilowatts: Of the load, all on at once with what is there now.
        metres: Length of its circuit.
    """
    context = Context(record)
    current = kilowatts * 1000 / record.origin.u0
    feed = attempt("Ib", lambda: feed_current(context))
    rating = next((each for each in (6.0, 10.0, 16.0, 20.0, 32.0, 40.0) if each >= current), 50.0)
    csa = next(
        size for most, size in ((16.0, 2.5), (20.0, 4.0), (32.0, 6.0), (60.0, 16.0))
        if rating <= most
    )  # fmt: skip
    run = Run(
        cable=CableKind.FLAT, csa=csa, cpc=Cpc.CORE, length=metres, method=Method.C, ambient=30.0
    )
    circuit = Circuit(
        id=next_id("C", record.circuits),
        name="added later",
        use=Use.FIXED,
        form=Form.RADIAL,
        device=Device(kind=DeviceKind.RCBO_B, rating=rating),
        rcd=Rcd(residual=30.0, type=RcdType.A),
        power=kilowatts,
        runs=(run,),
    )
    grown = record.model_copy(update={"circuits": (*record.circuits, circuit)})
    if isinstance(feed, Worked):
        carried = grown.feed.model_copy(update={"load": feed.value + current})
        grown = grown.model_copy(update={"feed": carried})
    return Later(grown, made_worse(checks(record), grown))
