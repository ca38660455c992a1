"""One branch of the installation: the feed, or one final circuit."""

from __future__ import annotations

from records.expected import installation_loops
from records.expected.cached import kept
from records.expected.context import FEED, Context, circuit_place, where
from records.expected.protection import kind_and_rating
from records.expected.workings import Missing
from records.model.circuit import Circuit
from records.model.wiring import Rcd
from records.terms import DeviceKind
from records.units import Ampere


class Branch:
    """The feed (no circuit), or a final circuit."""

    def __init__(self, context: Context, circuit: Circuit | None) -> None:
        """Take a part of a context's record."""
        of = circuit or context.record.feed
        self.context = context
        self.circuit = circuit
        if circuit is not None:
            self.final = circuit
            """Its final circuit, for the figures that the feed doesn't have."""
        self.place = FEED if circuit is None else circuit_place(circuit)
        """Where its figures stand."""
        self.at = where(circuit)
        """Where to enter what it lacks."""
        self.device = of.device
        """Its overcurrent device."""
        self.runs = context.feed_runs if circuit is None else circuit.runs
        """Its runs, as a fault in it meets them."""
        self.own_rcd = of.rcd
        """The RCD in its own device, or beside it."""

    @kept
    def kind_and_rating(self) -> tuple[DeviceKind, Ampere]:
        """Kind and In of its device; raises Missing if one isn't entered."""
        return kind_and_rating(self.device, self.at)

    @kept
    def tt(self) -> bool:
        """Whether a fault in it returns by an electrode; raises Missing if that isn't known."""
        return self.context.feed_is_tt if self.circuit is None else self.context.circuits_are_tt

    @kept
    def rcd(self) -> Rcd | None:
        """The RCD that sees its earth faults; raises Missing for an RCBO without IΔn."""
        own, kind = self.own_rcd, self.device.kind
        if own.residual is None and kind is not None and kind.is_rcbo:
            raise Missing(f"IΔn of the RCBO is not entered yet ({self.at}).")
        if self.circuit is not None:
            return self.context.rcd_of(self.circuit)
        return own if own.residual is not None else None

    @property
    def by_rcd(self) -> bool:
        """Whether its loop is limited by the RCD instead of the overcurrent device."""
        return self.tt and self.rcd is not None

    @kept
    def loop(self) -> installation_loops.Loop:
        """Its Zs at the furthest point, hot; with what was read upstream if that is worse."""
        if self.circuit is None:
            return installation_loops.worst_feed_loop(self.context)
        return installation_loops.worst_zs(self.context, self.circuit)
