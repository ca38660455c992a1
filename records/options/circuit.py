"""What would do for a circuit: ring or radial, size and device, and how long each may be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from records.expected.context import Context
from records.expected.loads import design_current
from records.expected.results import Worked
from records.expected.workings import attempt
from records.judgement.compare import SLACK
from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Run
from records.options import stock
from records.options.assumptions import CIRCUIT_KIND, SOCKETS_MOST, assumed, with_device
from records.options.cables import make_of
from records.options.cell import Cell, Check, Tried, will_do
from records.options.cells import circuit_cells
from records.options.feed import cpc_words, feed_options, words
from records.tables import conductors
from records.tables.protective import least_separate
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, Use, Verdict

METRES = 0.5
"""m in one step of a length."""
LONGEST = 300.0
_MOST_LAMPS = 16.0
"""A before lampholders of the usual sizes (BS 7671, Regulation 559.5.1.204, from memory)."""
_MOST_FIXED = 50.0
_RING_DEVICES = (30.0, 32.0)
"""A of the device of a ring final circuit (BS 7671, Regulation 433.1.204)."""


@dataclass(frozen=True, slots=True)
class CircuitOption(Tried):
    """A form, a size and a device, and how each check stands with them."""

    form: Form
    csa: float
    """Of the line [mm²]."""
    rating: float
    """In of the device [A]."""
    length: float
    """Of the cable, with which the checks were made [m]."""
    record: Record
    """The job with it in, as it was entered elsewhere: nothing assumed."""
    cells: tuple[Cell, ...]
    longest: float
    """Up to which length all checks hold [m], in half metres; 0: at no length."""


@dataclass(frozen=True, slots=True)
class CircuitChoice:
    """All that was tried for a circuit."""

    circuit: Circuit
    options: tuple[CircuitOption, ...]
    notes: tuple[str, ...]
    """What was taken for granted: the way of a radial, where the load is."""
    lacks: tuple[str, ...] = ()
    """What has to be entered before anything can be chosen; then there are no options."""

    @property
    def stops(self) -> tuple[str, ...]:
        """What stops the best option, where none is sure to do."""
        unjudged = [each for each in self.options if each.verdict is Verdict.NOT_TAKEN]
        best = unjudged[:1] or self.options[-1:]
        return tuple(each.decides.why for each in best if each.decides is not None)


def circuit_options(record: Record, id: str, *, radial: float | None = None) -> CircuitChoice:
    """Return what would do for a circuit; its other runs and all else stay as they are.

    Args:
        record: The job.
        id: Of the circuit.
        radial: Length of cable that a radial would need instead of a ring [m]; None: the ring's
            way to its farthest point.
    Raises:
        BadRecord: If there is no such circuit.
    """
    lacks = _lacks(record, record.circuit(id))
    if lacks:
        return CircuitChoice(record.circuit(id), (), (), lacks)
    filled, said = _filled(record, id)
    filled, feed_said, feed_lacks = with_feed(filled, id)
    if feed_lacks:
        return CircuitChoice(record.circuit(id), (), (), feed_lacks)
    ready = assumed(filled, id)
    circuit = ready.record.circuit(id)
    run = max(range(len(circuit.runs)), key=lambda at: circuit.runs[at].length or 0.0)
    cable = circuit.runs[run].cable
    assert cable is not None  # it is assumed where it was not entered
    ways = dict(_ways(circuit, circuit.runs[run], radial))
    kind = circuit.device.kind or CIRCUIT_KIND
    found = [
        _tried(record, ready.record, _Place(circuit, run, length), form, csa, rating)
        for form, length in ways.items()
        for csa in conductors.line_sizes(cable)
        for rating in _ratings(ready.record, circuit, kind, form)
    ]
    if circuit.device.kind is None:
        said.append(f"Device of {id}: {kind.value}, with 30 mA, is assumed.")
    notes = (*said, *feed_said, *ready.notes, *_notes(circuit, ways, radial))
    return CircuitChoice(circuit, tuple(found), notes)


def _lacks(record: Record, circuit: Circuit) -> tuple[str, ...]:
    """Return what only a person can say of a circuit: what it feeds, how long it is, its load."""
    at, found = f"Circuits, {circuit.id}", []
    if circuit.use is None:
        found.append(f"Enter what {circuit.id} feeds: sockets, lighting or a fixed load ({at}).")
    if not circuit.runs:
        found.append(f"Enter how long {circuit.id} is: add a run of cable ({at}).")
    for number, run in enumerate(circuit.runs, start=1):
        if not run.length:
            found.append(f"Enter the length of run {number} ({at}, run {number}).")
    if circuit.use not in (None, Use.SOCKETS):
        load = attempt("Ib", lambda: design_current(Context(record), circuit))
        if not isinstance(load, Worked):
            found.append(f"Enter the load: {load.why}")
    return tuple(found)


def _filled(record: Record, id: str) -> tuple[Record, list[str]]:
    """Return the job with the usual cable where a run of the circuit has none yet, and notes."""
    circuit, notes = record.circuit(id), list[str]()
    runs = []
    for number, run in enumerate(circuit.runs, start=1):
        cable = run.cable or CableKind.FLAT
        new: dict[str, object] = {}
        said: list[str] = []
        if run.cable is None:
            new["cable"] = cable
            said.append(f"{cable}")
        if run.cpc is None:
            new["cpc"] = _CPCS[cable]
            said.append(f"cpc: {_CPCS[cable]}")
        if run.method is None:
            new["method"] = _METHODS[cable]
            said.append(_LAID[_METHODS[cable]])
        if said:
            notes.append(f"Not entered for run {number} of {id}, so assumed: {', '.join(said)}.")
        runs.append(run.model_copy(update=new))
    form = circuit.form or Form.RADIAL
    changed = circuit.model_copy(update={"runs": tuple(runs), "form": form})
    return _put(record, changed), notes


def _put(record: Record, circuit: Circuit) -> Record:
    circuits = tuple(circuit if each.id == circuit.id else each for each in record.circuits)
    return record.model_copy(update={"circuits": circuits})


_METHODS = {
    CableKind.FLAT: Method.M102,
    CableKind.SINGLES: Method.B,
    CableKind.FLEX: Method.C,
    CableKind.SWA_XLPE: Method.C,
    CableKind.SWA_PVC: Method.C,
}
_CPCS = {
    CableKind.FLAT: Cpc.CORE,
    CableKind.SINGLES: Cpc.SEPARATE,
    CableKind.FLEX: Cpc.CORE,
    CableKind.SWA_XLPE: Cpc.ARMOUR,
    CableKind.SWA_PVC: Cpc.ARMOUR,
}
_LAID = {
    Method.M102: "in an insulated stud wall, touching its face (method 102; not touching it, 103, "
    "it carries far less)",
    Method.B: "in conduit on a wall (method B)",
    Method.C: "clipped direct (method C)",
}


def with_feed(record: Record, id: str) -> tuple[Record, list[str], tuple[str, ...]]:
    """Return the job with a feed to try a circuit behind, what was assumed, and what is missing.

    Where a run of the feed has no cable yet, the first that leaves the room asked for is put in.

    Args:
        record: The job.
        id: Of the circuit.
    """
    if all(make_of(each) is not None for each in record.feed.runs) and record.feed.runs:
        return record, [], ()
    at = next((at for at, each in enumerate(record.feed.runs) if make_of(each) is None), 0)
    choice = feed_options(record, at)
    if choice.lacks:
        return record, [], choice.lacks
    option = choice.roomy or choice.smallest
    if option is None:
        return record, [], ("No feed will do yet: look there first (options feed).",)
    said = f"The feed has no cable yet: {words(option.make)} is assumed, cpc: "
    return option.record, [f"{said}{cpc_words(option.make)}."], ()


def _ways(circuit: Circuit, run: Run, radial: float | None) -> Iterator[tuple[Form, float]]:
    length = run.length or 0.0
    if circuit.use is not Use.SOCKETS:
        yield circuit.form or Form.RADIAL, length
        return
    if circuit.form is Form.RING:
        farthest = max((each.at or 0.0 for each in circuit.points), default=0.0)
        yield Form.RING, length
        yield Form.RADIAL, radial or farthest or length
    else:
        back = max((each.at or 0.0 for each in circuit.points), default=length)
        yield Form.RADIAL, radial or length
        yield Form.RING, 2 * back if back else 2 * length


def _ratings(record: Record, circuit: Circuit, kind: DeviceKind, form: Form) -> tuple[float, ...]:
    known = stock.ratings(kind)
    if form is Form.RING:
        return tuple(each for each in known if each in _RING_DEVICES)
    load = attempt("Ib", lambda: design_current(Context(record), circuit))
    # Sockets can take all that their device lets through: what they draw is no least for it.
    stated = circuit.use is not Use.SOCKETS or circuit.load or circuit.power
    least = load.value if isinstance(load, Worked) and stated else 0.0
    if circuit.use is Use.SOCKETS:
        return tuple(each for each in known if max(least, 16.0) <= each <= SOCKETS_MOST)
    most = _MOST_LAMPS if circuit.use is Use.LIGHTING else _MOST_FIXED
    return tuple(each for each in known if least <= each <= most)


def _notes(circuit: Circuit, ways: dict[Form, float], radial: float | None) -> Iterator[str]:
    if circuit.use is Use.SOCKETS and circuit.form is Form.RING and radial is None:
        yield (
            f"A radial is taken as {ways[Form.RADIAL]:g} m: the ring's way to its farthest point."
            if circuit.points
            else f"A radial is taken as {ways[Form.RADIAL]:g} m, as the ring: no points entered."
        )
    if circuit.use is Use.SOCKETS and circuit.form is not Form.RING:
        yield f"A ring is taken as {ways[Form.RING]:g} m: out and back."
    yield "The load is at the furthest point, until points have their own loads: worst case."


@dataclass(frozen=True, slots=True)
class _Place:
    """The run of a circuit that is varied."""

    circuit: Circuit
    run: int
    way: float
    """How long it is laid in the form that is tried [m]."""


def _tried(
    record: Record, ready: Record, place: _Place, form: Form, csa: float, rating: float
) -> CircuitOption:
    id = place.circuit.id

    def at(metres: float) -> Record:
        return _put(ready, _with(place, form, metres, csa, rating))

    tried = at(place.way)
    cells = circuit_cells(tried, tried.circuit(id))
    chosen = _put(record, _entered(record.circuit(id), tried.circuit(id), place.run))
    return CircuitOption(
        form, csa, rating, place.way, chosen, cells, _longest(at, id, place.way, cells)
    )


def _entered(before: Circuit, tried: Circuit, run: int) -> Circuit:
    """Return what taking a choice enters: cable, form and device; not how it is assumed to lie."""
    runs = tuple(
        each.model_copy(update={"method": old.method}) if at == run else old
        for at, (each, old) in enumerate(zip(tried.runs, before.runs, strict=True))
    )
    return tried.model_copy(update={"runs": runs})


def _longest(at: Callable[[float], Record], id: str, way: float, cells: Iterable[Cell]) -> float:
    """Return up to which length all checks hold [m].

    Args:
        at: Gives the job with the run at a length [m].
        id: Of the circuit.
        way: A length [m].
        cells: The checks at that length.
    """
    known: dict[int, tuple[Cell, ...]] = {}

    def look(steps: int) -> tuple[Cell, ...]:
        if steps not in known:
            tried = at(steps * METRES)
            known[steps] = circuit_cells(tried, tried.circuit(id))
        return known[steps]

    def holds(steps: int) -> bool:
        return will_do(look(steps))

    if not holds(1):
        return 0.0
    low, high = 1, int(LONGEST / METRES) + 1
    # Drop and loop grow evenly with the length: where they reach their limits is known beforehand.
    guess = min(max(_reached(look(1), way, cells), low), high - 1)
    for steps in (guess, guess + 1):
        if not low < steps < high:
            continue
        if holds(steps):
            low = steps
        else:
            high = steps
    while high - low > 1:
        middle = (low + high) // 2
        if holds(middle):
            low = middle
        else:
            high = middle
    return low * METRES


def _reached(short: Iterable[Cell], way: float, cells: Iterable[Cell]) -> int:
    """Return after how many steps drop or loop would reach its limit, by two lengths.

    Args:
        short: The checks at one step.
        way: The other length [m].
        cells: The checks at that length.
    """
    first = {each.check: each.used for each in short}
    least = LONGEST / METRES
    for each in cells:
        one, other = first.get(each.check), each.used
        if each.check not in (Check.DROP, Check.LOOP) or one is None or other is None:
            continue
        slope = (other - one) * METRES / (way - METRES) if way != METRES else 0.0
        if slope > 0 and math.isfinite(slope):
            least = min(least, 1 + (1 + SLACK - one) / slope)
    return int(least)


def _with(place: _Place, form: Form, length: float, csa: float, rating: float) -> Circuit:
    # Points keep their share of the way, which is so long as the cable is laid.
    # A separate cpc stays as it is; another flat cable comes with its own.
    circuit, run = place.circuit, place.circuit.runs[place.run]
    size = run.cpc_csa or max(csa, least_separate(protected=bool(run.protected)).value)
    own = {"cpc_csa": size if run.cpc is Cpc.SEPARATE else None}
    new = run.model_copy(update={"csa": csa, "length": length, **own})
    runs = tuple(new if at == place.run else each for at, each in enumerate(circuit.runs))
    total = sum(each.length or 0.0 for each in runs)
    points = tuple(
        each
        if each.at is None
        else each.model_copy(update={"at": min(each.at * length / place.way, total)})
        for each in circuit.points
    )
    changed = circuit.model_copy(update={"form": form, "runs": runs, "points": points})
    return with_device(changed, rating)
