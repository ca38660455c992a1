"""The room that a design leaves: amperes at the board and at each circuit, metres of each run."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from records.errors import OutOfRange
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
from records.options.assumptions import with_electrode
from records.options.cell import Cell
from records.options.cells import circuit_lines, feed_lines
from records.options.edge import Edge, Quick, checks, edge, made_worse, unknown
from records.options.feed import cpc_words, feed_options, longest_run, words
from records.tables.reference_temperatures import AIR
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
    already: bool = False
    """Whether what stops it fails as it is."""
    apart: Room | None = None
    """How much more it would be apart from what fails already; None where nothing does."""

    @property
    def binds(self) -> str:
        """The check that stops it first, in words."""
        return self.stops[0].title if self.stops else ""


def room_left(record: Record) -> tuple[Room, ...]:
    """Return how much more the design would bear: of each thing alone, all else as it is."""
    return tuple(each_room(record))


def each_room(record: Record) -> Iterator[Room]:
    """Yield the same one by one: for a screen, as each takes a moment.

    Where a check that decides can't be judged yet, no figure is given but what is missing.
    """
    record, _ = with_electrode(record)
    before = checks(record)
    yield _at_board(record, before)
    for circuit in record.circuits:
        yield _at_circuit(record, before, circuit)
    for owner in (Owner(record, None), *(Owner(record, each.id) for each in record.circuits)):
        for at, run in enumerate(owner.runs):
            yield _of_run(owner, before, at, run)


def assumed_for_room(record: Record) -> str:
    """Return what is taken for granted in the room that is left; empty if nothing is."""
    return with_electrode(record)[1]


Before = Mapping[str, Judged]


def _at_board(record: Record, before: Before) -> Room:
    load = attempt("Ib", lambda: feed_current(Context(record)))
    missing = load.why if not isinstance(load, Worked) else unknown(feed_lines(record))
    if not isinstance(load, Worked) or missing:
        return Room("At the board", None, Unit.AMPERE, why=missing)

    def step(steps: int) -> Record:
        if not steps:
            return record
        feed = record.feed.model_copy(update={"load": load.value + steps * AMPERES})
        return record.model_copy(update={"feed": feed})

    return _room("At the board", before, feed_lines, step, Unit.AMPERE)


def _at_circuit(record: Record, before: Before, circuit: Circuit) -> Room:
    where = f"{circuit.id} {circuit.name}".strip() + ", furthest point"
    context = Context(record)
    load = attempt("Ib", lambda: design_current(context, circuit))
    feed = attempt("Ib", lambda: feed_current(context))
    quick = _quick(circuit.id)
    if not isinstance(load, Worked) or not isinstance(feed, Worked):
        lacking = load if not isinstance(load, Worked) else feed
        return Room(where, None, Unit.AMPERE, why=getattr(lacking, "why", ""))
    missing = unknown(quick(record))
    if missing:
        return Room(where, None, Unit.AMPERE, why=missing)
    owner = Owner(record, circuit.id)

    def step(steps: int) -> Record:
        if not steps:
            return record
        more = steps * AMPERES
        changed = owner.changed(load=load.value + more, power=None)
        # What is added here is on at the same time as all that the feed carries now.
        carried = changed.feed.model_copy(update={"load": feed.value + more})
        return changed.model_copy(update={"feed": carried})

    return _room(where, before, quick, step, Unit.AMPERE)


def _quick(id: str) -> Quick:
    """Return what looks at the checks of a circuit, and at those of the feed."""

    def look(record: Record) -> list[Cell]:
        return circuit_lines(record, record.circuit(id)) + feed_lines(record)

    return look


def _of_run(owner: Owner, before: Before, at: int, run: Run) -> Room:
    where = owner.run_name(at) if len(owner.runs) > 1 else f"{owner.name}, its run"
    id = owner.id

    def quick(record: Record) -> list[Cell]:
        return feed_lines(record) if id is None else circuit_lines(record, record.circuit(id))

    missing = unknown(quick(owner.record))
    if run.length is None or missing:
        missing = "its length is not entered yet." if run.length is None else missing
        return Room(where, None, Unit.METRE, why=missing)

    def step(steps: int) -> Record:
        return _longer(owner, at, steps * METRES) if steps else owner.record

    return _room(where, before, quick, step, Unit.METRE)


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


_STEPS = {Unit.AMPERE: (AMPERES, MOST_AMPERES), Unit.METRE: (METRES, MOST_METRES)}


def _room(
    where: str, before: Before, quick: Quick, step: Callable[[int], Record], unit: Unit
) -> Room:
    size, most = _STEPS[unit]

    def tried(*, aside: bool) -> Edge:
        return edge(before, quick, step, int(most / size), aside=aside)

    found, apart = tried(aside=False), None
    if found.already:
        other = tried(aside=True)
        apart = Room(where, other.steps * size, unit, other.stops)
    return Room(where, found.steps * size, unit, found.stops, "", found.already, apart)


def room_words(room: Room) -> tuple[str, str]:
    """Return how much room there is, short, and what stops it: `3.5 A`, `C2 Radial: voltage drop`.

    Args:
        room: One of `room_left`.
    """
    if room.more is None:
        return "?", f"not known: {room.why}"
    figure = f"{room.more:g} {room.unit.value}"
    if not room.stops:
        return figure, "nothing stops it up to there"
    if room.apart is None:
        return figure, f"then {room.binds}"
    more, then = room_words(room.apart)
    return figure, f"{room.binds} fails already. Apart from it {more}, {then}"


@dataclass(frozen=True, slots=True)
class Later:
    """Something added later, tried without changing the record."""

    record: Record
    """The job with it in."""
    fails: tuple[Judged, ...]
    """Design checks that would fail then, fail by more, or need a figure; the gravest first."""
    why: str = ""
    """What is missing, so that nothing can be said of it; empty if it can."""


def with_load_later(record: Record, kilowatts: float, metres: float = 5.0) -> Later:
    """Return what would fail with a fixed load added on its own circuit.

    Its circuit is taken as 2.5 mm² twin-and-earth clipped direct, or thicker where the load asks
    for it, behind a 30 mA RCBO; it is the feed and what the feed carries that is looked at.

    Args:
        record: The job as it is.
        kilowatts: Of the load, all on at once with what is there now.
        metres: Length of its circuit.
    Raises:
        OutOfRange: If no single-phase circuit of the usual sizes carries that.
    """
    record, _ = with_electrode(record)
    context = Context(record)
    current = kilowatts * 1000 / record.origin.u0
    found = next((each for each in _LATER if each[0] >= current), None)
    if found is None:
        most = _LATER[-1][0] * record.origin.u0 / 1000
        raise OutOfRange(
            f"{kilowatts:g} kW is more than one circuit here carries. Try up to {most:.3g} kW."
        )
    feed = attempt("Ib", lambda: feed_current(context))
    rating, csa = found
    run = Run(
        cable=CableKind.FLAT, csa=csa, cpc=Cpc.CORE, length=metres, method=Method.C, ambient=AIR
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
    carried = feed.value if isinstance(feed, Worked) else 0.0
    loaded = grown.feed.model_copy(update={"load": carried + current})
    grown = grown.model_copy(update={"feed": loaded})
    missing = feed.why if not isinstance(feed, Worked) else unknown(feed_lines(grown))
    if missing:
        return Later(grown, (), missing)
    return Later(grown, made_worse(checks(record), grown))


_LATER = (
    (6.0, 2.5),
    (10.0, 2.5),
    (16.0, 2.5),
    (20.0, 4.0),
    (32.0, 6.0),
    (40.0, 10.0),
    (50.0, 16.0),
)
"""In [A] of the circuit of a later load, and its twin-and-earth clipped direct [mm²]."""


def later_words(tried: Later, kilowatts: float) -> tuple[str, ...]:
    """Return what a load that comes later would do, a sentence each; and which feed would do."""
    what = f"{kilowatts:g} kW more on its own circuit"
    if tried.why:
        return (f"{what}: not known: {tried.why}",)
    if not tried.fails:
        return (f"{what}: every check holds.",)
    fails = [f"- {each.title}: {each.why}" for each in tried.fails]
    return (f"{what} would not do:", *fails, _feed_for(tried.record))


def _feed_for(record: Record) -> str:
    """Return which cable of the longest run would do with a later load, in words."""
    run = longest_run(record)
    found = feed_options(record, run, room=0.0).smallest
    if found is None:
        return "No cable of the feed alone would do with it."
    return f"Run {run + 1} of the feed would do with it as {words(found.make)}, cpc: " + (
        f"{cpc_words(found.make)}."
    )
