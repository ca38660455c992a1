"""A leg of cable with what it belongs to: its circuit or the feed, its run, its RCDs, its depth."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.expected.formulas.zones import Line
from records.judgement.facts import FEED
from records.model import wiring
from records.model.fabric import Buried, Cover, Hole, Leg, Surface, Timber
from records.model.reading import Place, place_of
from records.model.record import Record
from records.terms import ArmourEarthed, CableKind, Part

CABLE = 10.0
"""mm that a flat cable takes of a wall's thickness: up to 16 mm² none is thicker (common practice).
"""
ROUND_CABLE = 25.0
"""mm that a round one may take, or conduit with its cores (common practice)."""
_ADDITIONAL = 30.0
"""mA that an RCD may have to count as additional protection (BS 7671, Regulation 415.1.1)."""


@dataclass(frozen=True, slots=True)
class Run:
    """What a leg belongs to."""

    place: Place
    name: str
    """How the circuit or the feed is called."""
    run: wiring.Run
    rcds: tuple[wiring.Rcd, ...]
    """Those that stand before it: of the feed, of the board, its own."""
    earthed: bool
    """Whether its armour is earthed as far as the record says."""
    unread: bool = False
    """Whether its RCBO is there and its IΔn isn't entered."""

    @property
    def protected(self) -> bool:
        """Whether a 30 mA RCD without delay stands before it."""
        return any(
            each.residual is not None and each.residual <= _ADDITIONAL and not each.delayed
            for each in self.rcds
        )


def run_of(record: Record, leg: Leg | Buried) -> Run | None:
    """Return what a leg belongs to; None if that is no longer in the record."""
    feed, board = record.feed, record.board
    if leg.circuit is None:
        if leg.run >= len(feed.runs):
            return None
        # The sub-board's RCD stands behind the feed: it protects nothing of it.
        earthed = feed.armour_earthed is not ArmourEarthed.NEITHER
        rcbo = feed.device.kind is not None and feed.device.kind.is_rcbo
        unread = rcbo and feed.rcd.residual is None
        return Run(FEED, "Feed", feed.runs[leg.run], (feed.rcd,), earthed, unread)
    found = next((each for each in record.circuits if each.id == leg.circuit), None)
    if found is None or leg.run >= len(found.runs):
        return None
    name = f"{found.id} {found.name}".strip()
    rcds = (feed.rcd, board.rcd, found.rcd)
    kind = found.device.kind
    unread = kind is not None and kind.is_rcbo and found.rcd.residual is None
    place = place_of(Part.CIRCUIT, found.id)
    return Run(place, name, found.runs[leg.run], rcds, earthed=True, unread=unread)


def runs_of(record: Record) -> Callable[[Leg | Buried], Run | None]:
    """Return `run_of` for many legs of one record: each run is looked for once.

    For one rule at a time: what it keeps must not outlive what the rule asked the record for.
    """
    known: dict[tuple[str | None, int], Run | None] = {}

    def found(leg: Leg | Buried) -> Run | None:
        key = (leg.circuit, leg.run)
        if key not in known:
            known[key] = run_of(record, leg)
        return known[key]

    return found


def line_of(leg: Leg) -> Line:
    """Return a leg as a line on its surface [mm]."""
    return leg.along, leg.up, leg.to_along, leg.to_up


def point_on(leg: Leg, at: float) -> tuple[float, float]:
    """Return where a distance along a leg is on its surface [mm]."""
    length = leg.length * 1000
    share = at / length if length else 0.0
    x0, y0, x1, y1 = line_of(leg)
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def surface_name(surface: Surface) -> str:
    """Return how a surface is called."""
    return surface.name or surface.id


def leg_name(leg: Leg, surface: Surface) -> str:
    """Return how a leg is called: `cable on North wall, inside, 300 to 1400 along, 450 up`."""
    where = surface_name(surface)
    if leg.up == leg.to_up:
        low, high = sorted((leg.along, leg.to_along))
        return f"cable on {where}, {low:g} to {high:g} along, {leg.up:g} up"
    if leg.along == leg.to_along:
        low, high = sorted((leg.up, leg.to_up))
        return f"cable on {where}, {low:g} to {high:g} up, {leg.along:g} along"
    return f"cable on {where}, {leg.along:g}/{leg.up:g} to {leg.to_along:g}/{leg.to_up:g}"


def is_sheathed(leg: Leg, run: Run) -> bool:
    """Say whether a leg has earthed metal all round it (Regulation 522.6.204).

    A plate isn't that: it stops what comes through the face that it is on.
    """
    armoured = run.run.cable is not None and run.run.cable.is_armoured and run.earthed
    return armoured or leg.cover is Cover.CONDUIT


def from_face(leg: Leg, surface: Surface) -> float | None:
    """Return how far a cable is from the finished face, at its nearest [mm]; None: not known.

    A hole in a stud may bring it nearer than it was entered.
    """
    board = surface.board or 0.0
    holes = [each.from_face + board for each in leg.holes if _in_wall(each) and not each.is_notch]
    notched = [board for each in leg.holes if _in_wall(each) and each.is_notch]
    known = [*holes, *notched, *([leg.deep] if leg.deep is not None else [])]
    return min(known) if leg.deep is not None or notched else None


def from_other_face(leg: Leg, surface: Surface, run: Run) -> float | None:
    """Return how far a cable is from the other face of its wall [mm]; None: not known."""
    if leg.deep is None or surface.thick is None:
        return None
    flat = run.run.cable is CableKind.FLAT
    return max(0.0, surface.thick - leg.deep - (CABLE if flat else ROUND_CABLE))


def _in_wall(hole: Hole) -> bool:
    return hole.timber is Timber.STUD
