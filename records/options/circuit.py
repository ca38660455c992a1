"""What would do for a circuit: ring or radial, size and device, and how long each may be."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from records.expected.context import Context
from records.expected.loads import design_current
from records.expected.results import Worked
from records.expected.workings import Missing, attempt
from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Run
from records.options import stock
from records.options.assumptions import assumed
from records.options.cells import Cell, Tried, circuit_cells, will_do
from records.tables import conductors
from records.terms import CableKind, Cpc, DeviceKind, Form, Use

METRES = 0.5
"""m in one step of a length."""
LONGEST = 300.0
_MOST_SOCKETS = 32.0
"""A of a radial for sockets (BS 7671, Appendix 15, from memory)."""
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


def circuit_options(record: Record, id: str, *, radial: float | None = None) -> CircuitChoice:
    """Return what would do for a circuit; its other runs and all else stay as they are.

    Args:
        record: The job.
        id: Of the circuit.
        radial: Length of cable that a radial would need instead of a ring [m]; None: the ring's
            way to its farthest point.
    Raises:
        BadRecord: If there is no such circuit.
        Missing: If it has no run of cable, or it isn't said how long or of which kind that is.
    """
    ready = assumed(record, id)
    circuit = ready.record.circuit(id)
    run, cable = _run(circuit)
    ways = dict(_ways(circuit, run, radial))
    kind = circuit.device.kind or DeviceKind.RCBO_B
    found = [
        _tried(record, ready.record, circuit, run, form, length, csa, rating, kind)
        for form, length in ways.items()
        for csa in conductors.line_sizes(cable)
        for rating in _ratings(ready.record, circuit, kind, form)
    ]
    return CircuitChoice(circuit, tuple(found), (*ready.notes, *_notes(circuit, ways, radial)))


def _run(circuit: Circuit) -> tuple[Run, CableKind]:
    at = f"Circuits, {circuit.id}"
    if not circuit.runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    run = max(circuit.runs, key=lambda each: each.length or 0.0)
    if run.length is None or run.cable is None or run.method is None:
        raise Missing(f"the cable, its length and how it is laid are not all entered yet ({at}).")
    return run, run.cable


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
        return tuple(each for each in known if max(least, 16.0) <= each <= _MOST_SOCKETS)
    return tuple(each for each in known if least <= each <= 50.0)


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


def _tried(
    record: Record, ready: Record, circuit: Circuit, run: Run, form: Form, length: float,
    csa: float, rating: float, kind: DeviceKind,
) -> CircuitOption:  # fmt: skip
    def at(metres: float) -> Record:
        return _with(ready, circuit, run, form, metres, length, csa, rating, kind)

    tried = at(length)
    cells = circuit_cells(tried, tried.circuit(circuit.id))
    chosen = _with(record, circuit, run, form, length, length, csa, rating, kind)
    return CircuitOption(form, csa, rating, length, chosen, cells, _longest(at, circuit.id))


def _longest(at: Callable[[float], Record], id: str) -> float:
    def holds(steps: int) -> bool:
        tried = at(steps * METRES)
        return will_do(circuit_cells(tried, tried.circuit(id)))

    if not holds(1):
        return 0.0
    low, high = 1, int(LONGEST / METRES) + 1
    while high - low > 1:
        middle = (low + high) // 2
        if holds(middle):
            low = middle
        else:
            high = middle
    return low * METRES


def _with(
    record: Record, circuit: Circuit, run: Run, form: Form, length: float, way: float,
    csa: float, rating: float, kind: DeviceKind,
) -> Record:  # fmt: skip
    # Points keep their share of the way, which is so long as the cable is laid.
    # A separate cpc stays as it is; another flat cable comes with its own.
    own = {} if run.cpc is Cpc.SEPARATE else {"cpc_csa": None}
    new = run.model_copy(update={"csa": csa, "length": length, **own})
    runs = tuple(new if each is run else each for each in circuit.runs)
    total = sum(each.length or 0.0 for each in runs)
    points = tuple(
        each
        if each.at is None
        else each.model_copy(update={"at": min(each.at * length / way, total)})
        for each in circuit.points
    )
    device = circuit.device.model_copy(update={"kind": kind, "rating": rating})
    changed = circuit.model_copy(
        update={"form": form, "runs": runs, "points": points, "device": device}
    )
    circuits = tuple(changed if each.id == circuit.id else each for each in record.circuits)
    return record.model_copy(update={"circuits": circuits})
