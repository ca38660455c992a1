"""What a choice has to take for granted while it is not entered, each said in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime

from records.expected.context import Context
from records.expected.feed_load import feed_current
from records.expected.formulas.electrode import highest_electrode
from records.expected.results import NotWorkedOut, Result, Worked
from records.expected.workings import attempt
from records.model.circuit import Circuit
from records.model.reading import Figure, Quantity, Reading, place_of, slot_of
from records.model.record import Record, next_id
from records.model.wiring import Run
from records.options import stock
from records.tables.demand import typical_ze
from records.tables.disconnection import stable_electrode, touch_voltage
from records.tables.reference_temperatures import GROUND
from records.terms import (
    DeviceKind,
    Earthing,
    Form,
    Method,
    OutbuildingEarth,
    Part,
    RcdType,
    Stage,
    Use,
)
from records.units import Ampere

_KIND = DeviceKind.BREAKER_B
CIRCUIT_KIND = DeviceKind.RCBO_B
"""Device of a circuit where none is entered (common practice)."""
_RESIDUAL = 30.0
"""mA of its RCD (BS 7671, Regulations 411.3.3 and 415.1.1)."""
SOCKETS_MOST = 32.0
"""A of a circuit for sockets (BS 7671, Appendix 15, from memory)."""
_METHOD = Method.D
_KEPT_AT_BOARD = (Quantity.ELECTRODE,)


@dataclass(frozen=True, slots=True)
class Assumed:
    """A record in which a choice of feed can be tried, and what was put in for that."""

    record: Record
    notes: tuple[str, ...]
    """What was taken for granted, a sentence each; empty if all was entered."""
    lacks: tuple[str, ...] = ()
    """What only a person can say, and without which nothing can be chosen."""
    pme_unsaid: bool = False
    """Whether the supply may be TN-C-S, since nobody said what it is."""


def assumed(record: Record, circuit: str | None = None) -> Assumed:
    """Return a record with everything that a choice of feed needs.

    Nothing that was entered is changed. Distance and load are never taken for granted. Readings
    taken behind the cable that is tried are left out: another cable reads otherwise.

    Args:
        record: The job.
        circuit: Id of the circuit whose cable is tried; None: the feed's.
    """
    pme_unsaid = record.origin.earthing is None
    record, note = _readings(record, circuit)
    notes = [note] if note else []
    record, note = _sockets(record)
    notes += [note] if note else []
    lacks = tuple(_lacks(record))
    # A feed is chosen without the loops behind an electrode; a circuit's own is one of them.
    for fill in _FILLS if circuit is None else (*_FILLS, with_electrode):
        record, note = fill(record)
        if note:
            notes.append(note)
    return Assumed(record, tuple(notes), lacks, pme_unsaid)


def _lacks(record: Record) -> list[str]:
    found = []
    runs = record.feed.runs
    if not runs:
        found.append("Enter how long the feed is: add a run of cable (Feed).")
    for number, run in enumerate(runs, start=1):
        if not run.length:
            found.append(f"Enter the length of run {number} (Feed, run {number}).")
    load = feed_load(record)
    if isinstance(load, NotWorkedOut):
        found.append(f"Enter Ib of the feed (Feed), or its circuits with their loads: {load.why}")
    elif isinstance(load, Worked) and load.value <= 0:
        found.append("Enter Ib of the feed (Feed): 0 A is no load to choose a cable for.")
    return found


def feed_load(record: Record) -> Result:
    """Return Ib of the feed, or why it isn't known."""
    return attempt("Ib", lambda: feed_current(Context(record)))


Filled = tuple[Record, str]


def _readings(record: Record, circuit: str | None) -> Filled:
    kept = tuple(each for each in record.readings if _stays(each, circuit))
    if len(kept) == len(record.readings):
        return record, ""
    return (
        record.model_copy(update={"readings": kept}),
        f"Readings of {circuit or 'the feed'} and behind it are left out: another cable reads "
        "otherwise.",
    )


def _stays(reading: Reading, circuit: str | None) -> bool:
    if circuit is not None:
        return reading.slot.place.circuit != circuit
    part = reading.slot.place.part
    return part is Part.ORIGIN or (part is Part.BOARD and reading.slot.quantity in _KEPT_AT_BOARD)


def _sockets(record: Record) -> Filled:
    """Give sockets without load or device the largest device that they may have."""
    unsaid = [
        each
        for each in record.circuits
        if each.use is Use.SOCKETS
        and each.device.rating is None
        and each.load is None
        and each.power is None
        and (each.form is not Form.FCU or each.fuse is None)
    ]
    if not unsaid:
        return record, ""
    kept = {each.id for each in unsaid}
    circuits = tuple(
        with_device(each, SOCKETS_MOST) if each.id in kept else each for each in record.circuits
    )
    names = ", ".join(each.id for each in unsaid)
    return (
        record.model_copy(update={"circuits": circuits}),
        f"{names}: neither load nor device entered: {SOCKETS_MOST:g} A is assumed, which sockets "
        "can take.",
    )


def with_device(circuit: Circuit, rating: float) -> Circuit:
    """Return a circuit with a device of a rating [A]: of its kind, or an RCBO with 30 mA."""
    kind, rcd = circuit.device.kind or CIRCUIT_KIND, circuit.rcd
    if circuit.device.kind is None and rcd.residual is None:
        rcd = rcd.model_copy(update={"residual": _RESIDUAL, "type": rcd.type or RcdType.A})
    device = circuit.device.model_copy(update={"kind": kind, "rating": Ampere(rating)})
    return circuit.model_copy(update={"device": device, "rcd": rcd})


def _earthing(record: Record) -> Filled:
    if record.origin.earthing is not None:
        return record, ""
    origin = record.origin.model_copy(update={"earthing": Earthing.TN_S})
    return (
        record.model_copy(update={"origin": origin}),
        "Earthing of the supply not entered: TN-S is assumed, with the highest usual Ze of a TN "
        "supply. The bond that PME (TN-C-S) would ask for is shown. Enter it (Origin).",
    )


def _ze(record: Record) -> Filled:
    earthing = record.origin.earthing
    if record.origin.ze is not None or earthing is None:
        return record, ""
    ze = typical_ze(earthing).value
    origin = record.origin.model_copy(update={"ze": ze})
    return (
        record.model_copy(update={"origin": origin}),
        f"Ze not entered: {ze:g} Ω is assumed, the usual maximum of {earthing.value}.",
    )


def _earth(record: Record) -> Filled:
    if record.board.earth is not None:
        return record, ""
    board = record.board.model_copy(update={"earth": OutbuildingEarth.CARRIED_OVER})
    return (
        record.model_copy(update={"board": board}),
        "Earthing at the outbuilding not entered: exported through the feed is assumed. The "
        "certifier decides.",
    )


def with_electrode(record: Record) -> Filled:
    """Return the job with a resistance of its electrode, and a note; as it is if it was read.

    Before it is driven nobody can promise one. What follows from its loop is tried with the highest
    that is stable, or that its RCDs allow if that is less.
    """
    slot = slot_of(Quantity.ELECTRODE, place_of(Part.BOARD), Stage.DEAD)
    read = any(each.slot.quantity is Quantity.ELECTRODE for each in record.readings)
    if record.board.earth is not OutbuildingEarth.OWN_ELECTRODE or read:
        return record, ""
    rcds = (record.board.rcd, *(each.rcd for each in record.circuits))
    largest = max((each.residual for each in rcds if each.residual is not None), default=0.0)
    ohms = stable_electrode().value
    if largest:
        ohms = min(ohms, highest_electrode(touch_voltage().value, Ampere(largest / 1000)))
    id = next_id("R", (*record.readings, *record.certifier_readings))
    moment = datetime.fromtimestamp(0, UTC)
    assumed_one = Reading(id=id, slot=slot, taken=Figure(value=ohms), at=moment)
    return (
        record.model_copy(update={"readings": (*record.readings, assumed_one)}),
        f"RA not read yet: {ohms:.0f} Ω is assumed, which has to be shown by a reading. Above "
        f"{stable_electrode().value:g} Ω an electrode may not be stable.",
    )


def _device(record: Record) -> Filled:
    device = record.feed.device
    kind = device.kind or _KIND
    load = feed_load(record)
    if (device.kind is not None and device.rating is not None) or not isinstance(load, Worked):
        return record, ""
    ratings = [each for each in stock.ratings(kind) if each >= load.value]
    rating = device.rating or (ratings[0] if ratings else stock.ratings(kind)[-1])
    filled = device.model_copy(update={"kind": kind, "rating": Ampere(rating)})
    feed = record.feed.model_copy(update={"device": filled})
    how = "as entered" if device.rating else f"the smallest that carries {load.value:.3g} A"
    return (
        record.model_copy(update={"feed": feed}),
        f"Device at the house not all entered: {kind.value}, {rating:g} A is assumed, {how}.",
    )


def _runs(record: Record) -> Filled:
    notes = []
    runs: list[Run] = []
    for number, run in enumerate(record.feed.runs, start=1):
        if run.method is not None:
            runs.append(run)
            continue
        ground = GROUND if run.ambient is None else run.ambient
        runs.append(run.model_copy(update={"method": _METHOD, "ambient": ground}))
        notes.append(
            f"How run {number} is laid is not entered: buried is assumed (method D, ground "
            f"{ground:g} °C)."
        )
    feed = record.feed.model_copy(update={"runs": tuple(runs)})
    return record.model_copy(update={"feed": feed}), " ".join(notes)


_FILLS: tuple[Callable[[Record], Filled], ...] = (
    _earthing,
    _ze,
    _earth,
    _runs,
    _device,
)
