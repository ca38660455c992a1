"""What the parts of the calculation share: the record, its readings, and what follows from both."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial, wraps
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

from records.errors import FarboardError
from records.expected.readings import Readings
from records.expected.runs import Along, State, along, where
from records.expected.workings import need
from records.model.circuit import Circuit
from records.model.reading import Place, place_of
from records.model.record import Record
from records.model.record_view import key_of_piece, seen_by
from records.model.wiring import Rcd, Run
from records.reuse import Once
from records.terms import Cpc, Earthing, OutbuildingEarth, Part
from records.units import Volt

__all__ = [
    "BOARD",
    "FEED",
    "ORIGIN",
    "Context",
    "circuit_place",
    "feed_along",
    "once",
    "own_along",
    "where",
]

P = ParamSpec("P")
T = TypeVar("T")
Shared = Callable[Concatenate["Context", P], T]
Known = tuple[Any, Callable[[], FarboardError] | None, object]
"""What was worked out or why not, and the parts that it was worked out for."""


def once(work: Shared[P, T]) -> Shared[P, T]:
    """Let a function of a context and up to two parts work each case out once per context.

    Parts of the record, and states, are told apart by identity: comparing them costs more than
    most work; none of them may be None. Why there is no figure is kept as well.

    What it gives must not hold the context, which holds it: then each would wait for the collector.
    """

    # Two parts by name, not as many as may come: most calls only look up what is known.
    @wraps(work)
    def shared(context: Context, part: object = None, other: object = None, /) -> T:
        if context.reuse.notes:
            found = context.reuse.once(
                (work, key_of_piece(part), key_of_piece(other)),
                partial(_settled, work, context, part, other),
            )
        else:
            key = (work, id(part), id(other))
            known = context.known.get(key)
            found = known or context.known.setdefault(key, _settled(work, context, part, other))
        if found[1] is not None:
            raise found[1]()
        done: T = found[0]
        return done

    return cast("Shared[P, T]", shared)


def _settled(work: Callable[..., Any], context: Context, part: object, other: object) -> Known:
    # The parts stay with the result: so no other gets their identity, if they are told apart by it.
    parts = () if part is None else (part,) if other is None else (part, other)
    try:
        return work(context, *parts), None, parts
    except FarboardError as error:
        # Not the error itself: it holds its frames, and they this context.
        return None, partial(type(error), str(error)), parts


class Context:
    """A record with its readings at hand, and what `once` has worked out."""

    __slots__ = ("alongs", "circuits", "feed_runs", "known", "readings", "record", "reuse", "u0")

    def __init__(self, record: Record, reuse: Once | None = None) -> None:
        """Take a record; nothing is worked out yet.

        Args:
            record: The job.
            reuse: Keeps what is worked out, for another time; None: for this time only.
        """
        self.reuse = reuse or Once()
        """Keeps what was worked out."""
        self.record = seen_by(self.reuse, record)
        self.known: dict[object, Known] = {}
        self.alongs: dict[tuple[int, State, bool], Along] = {}
        """Resistances by the identity of the runs, the state, and whether with a way back."""
        self.readings = Readings(self.record, record.readings, self.reuse)
        """The last figure of each reading."""
        self.circuits = {each.id: each for each in self.record.circuits}
        """The circuits by their ids."""
        self.u0 = Volt(self.record.origin.u0)
        """Nominal voltage to earth [V]."""
        self.feed_runs = _as_a_fault_meets_them(self.record)
        """Runs of the feed as a fault in the feed itself meets them."""

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

    def rcd_of(self, circuit: Circuit) -> Rcd | None:
        """Return the RCD that sees an earth fault of a circuit first: its own, or the board's."""
        for rcd in (circuit.rcd, self.record.board.rcd):
            if rcd.residual is not None:
                return rcd
        # A fault that returns by the outbuilding's electrode shows in the feed as well.
        return self.record.feed.rcd if self.record.feed.rcd.residual is not None else None


def _as_a_fault_meets_them(record: Record) -> tuple[Run, ...]:
    """Return the runs of the feed as a fault in the feed itself meets them.

    With an electrode at the outbuilding the armour stays earthed at the house end
    (common practice): it carries a fault in the feed, not one behind the sub-board.
    """
    if record.board.earth is not OutbuildingEarth.OWN_ELECTRODE:
        return record.feed.runs
    return tuple(
        run.model_copy(update={"cpc": Cpc.ARMOUR})
        if run.cpc is Cpc.NONE and run.cable is not None and run.cable.is_armoured
        else run
        for run in record.feed.runs
    )


def feed_along(context: Context, state: State, *, earth: bool = True) -> Along:
    """Return the resistances of the feed as a fault behind the sub-board meets them."""
    runs = context.record.feed.runs
    return context.alongs.get((id(runs), state, earth)) or _along(context, runs, None, state, earth)


def own_along(
    context: Context, circuit: Circuit | None, state: State, *, earth: bool = True
) -> Along:
    """Return the resistances of a circuit, or of the feed as a fault in it meets them."""
    runs = context.feed_runs if circuit is None else circuit.runs
    found = context.alongs.get((id(runs), state, earth))
    return found or _along(context, runs, circuit, state, earth)


def _along(
    context: Context, runs: tuple[Run, ...], circuit: Circuit | None, state: State, earth: bool
) -> Along:
    # Kept by the runs themselves, which the context holds; a case that fails isn't kept, for it
    # says where it stands.
    found = along(runs, circuit, state, earth=earth)
    context.alongs[id(runs), state, earth] = found
    return found


ORIGIN = place_of(Part.ORIGIN)
FEED = place_of(Part.FEED)
BOARD = place_of(Part.BOARD)


def circuit_place(circuit: Circuit) -> Place:
    """Return the place of a circuit as a whole."""
    return place_of(Part.CIRCUIT, circuit.id)
