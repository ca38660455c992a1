"""The walk through a record: all that follows from it, or why something doesn't."""

from __future__ import annotations

from functools import partial

from records.expected import bonding, expected_readings, highest, installation_loops, measured
from records.expected.branch import Branch
from records.expected.context import BOARD, FEED, ORIGIN, Context, where
from records.expected.figures import design, from_readings
from records.expected.results import Expected, Result, What, Worked
from records.expected.runs import HOT
from records.expected.workings import Missing, attempt
from records.model.circuit import Circuit
from records.model.reading import Place, Slot, place_of
from records.model.record import Record
from records.model.slots import every
from records.model.wiring import Rcd
from records.reuse import Once
from records.tables import disconnection
from records.terms import Earthing, OutbuildingEarth, Part
from records.units import Unit

Figures = dict[tuple[Place, What], Result]
Both = tuple[Figures, Figures]
"""Figures by the design, and from the readings."""


def expected(record: Record, reuse: Once | None = None) -> Expected:
    """Return all that follows from a record: never raises for a valid one, never guesses.

    Where an input is missing or a case isn't covered, the figure is a `NotWorkedOut` that says
    which input, and where to enter it.

    Place of the figures: those of a device and its cable stand at the feed or the circuit. The
    highest fault current of a circuit is that at the sub-board, of the feed that at the origin,
    where their devices are; both stand at those places as well.

    Args:
        record: The job.
        reuse: Has what was worked out for the record as it was before, and gets what is worked out
            now; None: all is worked out, for this time only. The figures are the same.
    """
    context = Context(record, reuse)
    once = context.reuse.once
    parts = [
        once(("branch", circuit and circuit.id), partial(_of_branch, context, circuit))
        for circuit in (None, *context.record.circuits)
    ]
    feed = parts[0]
    parts.append(once("origin and board", partial(_origin_and_board, context, feed), feed))
    meter = _meter(context, record)
    return once("all", partial(_together, parts, meter), *parts, *meter)


def _together(parts: list[Both], meter: list[dict[Slot, Result]]) -> Expected:
    by_design: Figures = {}
    by_reading: Figures = {}
    of_meter: dict[Slot, Result] = {}
    for designed, read in parts:
        by_design |= designed
        by_reading |= read
    for each in meter:
        of_meter |= each
    return Expected(of_meter, by_design, by_reading)


def _of_branch(context: Context, circuit: Circuit | None) -> Both:
    branch = Branch(context, circuit)
    place = branch.place
    return (
        {(place, what): each for what, each in design(branch).items()},
        {(place, what): each for what, each in from_readings(branch).items()},
    )


def _origin_and_board(context: Context, feed: Both) -> Both:
    by_design: Figures = {}
    by_reading: Figures = {}
    most = What.FAULT_HIGHEST
    by_design[ORIGIN, most] = feed[0][FEED, most]
    for place, what, work in (
        (ORIGIN, What.FAULT_LN, highest.line_neutral_at_origin),
        (ORIGIN, What.FAULT_LE, highest.line_earth_at_origin),
        (BOARD, most, highest.at_board),
        (BOARD, What.FAULT_LN, highest.line_neutral_at_board),
        (BOARD, What.FAULT_LE, highest.line_earth_at_board),
    ):
        by_design[place, what] = attempt(what, partial(work, context))
    by_design[BOARD, What.ZDB] = attempt(
        What.ZDB,
        lambda: installation_loops.zdb(context, HOT).figure(
            "Zdb", f"Zdb = loop upstream + feed, {HOT.words}"
        ),
    )
    by_reading[ORIGIN, most] = feed[1][FEED, most]
    by_reading[BOARD, most] = attempt(most, lambda: measured.highest(context, Part.BOARD))
    by_reading[BOARD, What.ZS] = attempt("Zdb", lambda: measured.zdb(context))
    for bond in context.record.board.bonds:
        place = place_of(Part.BOARD, None, bond.id)
        by_design[place, What.BOND_LEAST] = attempt(What.BOND_LEAST, lambda: bonding.least(context))
    if context.record.board.earth is OutbuildingEarth.CARRIED_OVER:
        by_design[FEED, What.CPC_AS_COPPER] = attempt(
            What.CPC_AS_COPPER, lambda: bonding.cpc_as_copper(context)
        )
    # An electrode stands at the outbuilding, at the house of a TT supply, or not at all.
    record = context.record
    if record.board.earth is OutbuildingEarth.OWN_ELECTRODE:
        by_design[BOARD, What.RA_LIMIT] = attempt(
            "RA", lambda: _ra_limit(record, _in_front(record), "Board")
        )
    if record.origin.earthing is Earthing.TT:
        by_design[ORIGIN, What.RA_LIMIT] = attempt(
            "RA", lambda: _ra_limit(record, record.feed.rcd, "Feed")
        )
    return by_design, by_reading


def _in_front(record: Record) -> Rcd:
    """Return the RCD that has to see a fault to the case of the sub-board itself.

    No RCD of a circuit does: it is the board's own, or else the one before the feed.
    """
    return record.board.rcd if record.board.rcd.residual is not None else record.feed.rcd


def _ra_limit(record: Record, first: Rcd, at: str) -> Worked:
    """Return the highest RA: by the RCD in front of all, or else by the least sensitive behind."""
    residual = first.residual
    if residual is None and record.board.rcd.residual is not None:
        residual = record.board.rcd.residual
    if residual is None:
        without = next((each for each in record.circuits if each.rcd.residual is None), None)
        if without is not None:
            raise Missing(f"no RCD protects this circuit ({where(without)}).")
        residual = max((each.rcd.residual or 0.0 for each in record.circuits), default=0.0)
    if not residual:
        raise Missing(f"no RCD is entered yet ({at} or Circuits).")
    touch = disconnection.touch_voltage()
    limit = disconnection.rcd_max_ra(residual)
    stable = disconnection.stable_electrode()
    return Worked(
        "RA",
        limit.value,
        Unit.OHM,
        "RA ≤ 50 V / IΔn",
        f"{touch.value:g} / {residual / 1000:g}",
        (limit.source, touch.source, stable.source),
        digits=0,
        note=f"Above {stable.value:g} Ω an electrode may not be stable through the seasons.",
    )


def _meter(context: Context, record: Record) -> list[dict[Slot, Result]]:
    """Return what the readings of each part and circuit should be."""
    # A reading can stand in a slot that the design, since changed, no longer asks for.
    wanted = dict.fromkeys((*every(record), *(each.slot for each in record.readings)))
    by_place: dict[tuple[Part, str | None], list[Slot]] = {}
    for slot in wanted:
        by_place.setdefault((slot.place.part, slot.place.circuit), []).append(slot)
    return [
        context.reuse.once(
            ("meter", place), partial(expected_readings.readings, context, slots), *slots
        )
        for place, slots in by_place.items()
    ]
