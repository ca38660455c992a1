"""What a choice has to take for granted while it is not entered, each said in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.expected.context import Context
from records.expected.feed_load import feed_current
from records.expected.results import NotWorkedOut, Result, Worked
from records.expected.workings import attempt
from records.model.reading import Quantity, Reading
from records.model.record import Record
from records.model.wiring import Run
from records.options import stock
from records.tables.demand import typical_ze
from records.terms import DeviceKind, Earthing, Method, OutbuildingEarth, Part
from records.units import Ampere

_KIND = DeviceKind.BREAKER_B
_METHOD = Method.D
_GROUND = 20.0
"""°C of the ground that the ratings of buried cable hold for (BS 7671, Table 4B2)."""
_KEPT_AT_BOARD = (Quantity.ELECTRODE,)


@dataclass(frozen=True, slots=True)
class Assumed:
    """A record in which a choice of feed can be tried, and what was put in for that."""

    record: Record
    notes: tuple[str, ...]
    """What was taken for granted, a sentence each; empty if all was entered."""
    lacks: tuple[str, ...] = ()
    """What only a person can say, and without which nothing can be chosen."""


def assumed(record: Record, circuit: str | None = None) -> Assumed:
    """Return a record with everything that a choice of feed needs.

    Nothing that was entered is changed. Distance and load are never taken for granted. Readings
    taken behind the cable that is tried are left out: another cable reads otherwise.

    Args:
        record: The job.
        circuit: Id of the circuit whose cable is tried; None: the feed's.
    """
    lacks = tuple(_lacks(record))
    record, note = _readings(record, circuit)
    notes = [note] if note else []
    for fill in _FILLS:
        record, note = fill(record)
        if note:
            notes.append(note)
    return Assumed(record, tuple(notes), lacks)


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


def _earthing(record: Record) -> Filled:
    if record.origin.earthing is not None:
        return record, ""
    origin = record.origin.model_copy(update={"earthing": Earthing.TN_S})
    return (
        record.model_copy(update={"origin": origin}),
        "Earthing of the supply not entered: TN-S is assumed, with the highest usual Ze of a TN "
        "supply. PME (TN-C-S) also asks for the feed's cpc as a bond: enter it (Origin).",
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
        runs.append(run.model_copy(update={"method": _METHOD, "ambient": _GROUND}))
        notes.append(
            f"How run {number} is laid is not entered: buried is assumed (method D, ground 20 °C)."
        )
    feed = record.feed.model_copy(update={"runs": tuple(runs)})
    return record.model_copy(update={"feed": feed}), " ".join(notes)


_FILLS: tuple[Callable[[Record], Filled], ...] = (
    _earthing, _ze, _earth, _runs, _device,
)  # fmt: skip
