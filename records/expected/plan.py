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
from records.model.reading import Place, Slot, place_of
from records.model.record import Record
from records.model.slots import every
from records.model.wiring import Rcd
from records.tables import disconnection
from records.terms import Earthing, OutbuildingEarth, Part
from records.units import Unit

Figures = dict[tuple[Place, What], Result]


def expected(record: Record) -> Expected:
    """Return all that follows from a record: never raises for a valid one, never guesses.

    Where an input is missing or a case isn't covered, the figure is a `NotWorkedOut` that says
    which input, and where to enter it.

    Place of the figures: those of a device and its cable stand at the feed or the circuit. The
    highest fault current of a circuit is that at the sub-board, of the feed that at the origin,
    where their devices are; both stand at those places as well.
    """
    context = Context(record)
    by_design: Figures = {}
    by_reading: Figures = {}
    branches = (Branch(context, None), *(Branch(context, each) for each in record.circuits))
    for branch in branches:
        place = branch.place
        for what, each in design(branch).items():
            by_design[place, what] = each
        for what, each in from_readings(branch).items():
            by_reading[place, what] = each
    _origin_and_board(context, by_design, by_reading)
    return Expected(_meter(context), by_design, by_reading)


def _origin_and_board(context: Context, by_design: Figures, by_reading: Figures) -> None:
    most = What.FAULT_HIGHEST
    by_design[ORIGIN, most] = by_design[FEED, most]
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
    by_reading[ORIGIN, most] = by_reading[FEED, most]
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


def _meter(context: Context) -> dict[Slot, Result]:
    found: dict[Slot, Result] = {}
    record = context.record
    expected_readings.readings(context, every(record), found)
    # A reading can stand in a slot that the design, since changed, no longer asks for.
    stray = (each.slot for each in record.readings if each.slot not in found)
    expected_readings.readings(context, stray, found)
    return found
