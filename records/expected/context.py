"""What the parts of the calculation share: the record, its readings, and what follows from both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property, partial, wraps
from typing import Any, Concatenate, ParamSpec, TypeVar

from records.errors import FarboardError
from records.expected.readings import Readings
from records.expected.runs import Along, State, along
from records.expected.workings import need
from records.model.circuit import Circuit
from records.model.reading import Place
from records.model.record import Record
from records.model.slots import place_of
from records.model.wiring import Rcd, Run
from records.terms import Cpc, Earthing, OutbuildingEarth, Part
from records.units import Volt

P = ParamSpec("P")
T = TypeVar("T")
Shared = Callable[Concatenate["Context", P], T]


def once(work: Shared[P, T]) -> Shared[P, T]:
    """Let a function of a context and parts of its record work each case out once per context.

    Parts of the record, and states, are told apart by identity: comparing them costs more than
    most work. Why there is no figure is kept as well.
    """

    @wraps(work)
    def shared(context: Context, /, *args: P.args, **none: P.kwargs) -> T:
        key = (work, *map(id, args))
        found = context.known.get(key)
        if found is None:
            # The arguments stay with the result, so that no other gets their identity.
            try:
                found = work(context, *args, **none), None, args
            except FarboardError as error:
                # Not the error itself: it holds its frames, and they this context.
                found = None, partial(type(error), str(error)), args
            context.known[key] = found
        if found[1] is not None:
            raise found[1]()
        done: T = found[0]
        return done

    return shared


@dataclass(frozen=True)
class Context:
    """A record with its readings at hand."""

    record: Record
    known: dict[tuple[object, ...], tuple[Any, Callable[[], FarboardError] | None, object]] = field(
        default_factory=dict, repr=False, compare=False
    )
    """What `once` has worked out."""

    @cached_property
    def readings(self) -> Readings:
        """The last figure of each reading."""
        return Readings(self.record)

    @cached_property
    def circuits(self) -> dict[str, Circuit]:
        """The circuits by their ids."""
        return {each.id: each for each in self.record.circuits}

    @property
    def u0(self) -> Volt:
        """Nominal voltage to earth [V]."""
        return Volt(self.record.origin.u0)

    @property
    def earthing(self) -> Earthing:
        """Earthing of the supply; raises Missing if it isn't entered."""
        return need(self.record.origin.earthing, "the earthing of the supply is", "Origin")

    @property
    def own_electrode(self) -> bool:
        """Whether the outbuilding has an electrode of its own; raises Missing if not entered."""
        earth = need(self.record.board.earth, "the earth of the outbuilding is", "Board")
        return earth is OutbuildingEarth.OWN_ELECTRODE

    @property
    def feed_is_tt(self) -> bool:
        """Whether a fault in the feed returns by an electrode: only with a TT supply."""
        return self.earthing is Earthing.TT

    @property
    def circuits_are_tt(self) -> bool:
        """Whether a fault behind the sub-board returns by an electrode."""
        return self.own_electrode or self.earthing is Earthing.TT

    @cached_property
    def feed_runs(self) -> tuple[Run, ...]:
        """Runs of the feed as a fault in the feed itself meets them.

        With an electrode at the outbuilding the armour stays earthed at the house end
        (common practice): it carries a fault in the feed, not one behind the sub-board.
        """
        if self.record.board.earth is not OutbuildingEarth.OWN_ELECTRODE:
            return self.record.feed.runs
        return tuple(
            run.model_copy(update={"cpc": Cpc.ARMOUR})
            if run.cpc is Cpc.NONE and run.cable is not None and run.cable.is_armoured
            else run
            for run in self.record.feed.runs
        )

    def rcd_of(self, circuit: Circuit) -> Rcd | None:
        """Return the RCD that sees an earth fault of a circuit first: its own, or the board's."""
        for rcd in (circuit.rcd, self.record.board.rcd):
            if rcd.residual is not None:
                return rcd
        # A fault that returns by the outbuilding's electrode shows in the feed as well.
        return self.record.feed.rcd if self.record.feed.rcd.residual is not None else None


def feed_along(context: Context, state: State, *, earth: bool = True) -> Along:
    """Return the resistances of the feed as a fault behind the sub-board meets them."""
    return _along(context, context.record.feed.runs, "Feed", state, earth)


def own_along(
    context: Context, circuit: Circuit | None, state: State, *, earth: bool = True
) -> Along:
    """Return the resistances of a circuit, or of the feed as a fault in it meets them."""
    if circuit is None:
        return _along(context, context.feed_runs, "Feed", state, earth)
    return _along(context, circuit.runs, circuit, state, earth)


def _along(
    context: Context, runs: tuple[Run, ...], at: str | Circuit, state: State, earth: bool
) -> Along:
    # Kept by the runs themselves; a case that fails isn't kept, for it says where it stands.
    key = (_along, id(runs), state, earth)
    found = context.known.get(key)
    if found is None:
        place = at if isinstance(at, str) else where(at)
        found = along(runs, place, state, earth=earth), None, runs
        context.known[key] = found
    result: Along = found[0]
    return result


ORIGIN = place_of(Part.ORIGIN)
FEED = place_of(Part.FEED)
BOARD = place_of(Part.BOARD)


def circuit_place(circuit: Circuit) -> Place:
    """Return the place of a circuit as a whole."""
    return place_of(Part.CIRCUIT, circuit.id)


def where(circuit: Circuit) -> str:
    """Return where to enter what a circuit lacks."""
    return f"Circuits, {circuit.id}"
