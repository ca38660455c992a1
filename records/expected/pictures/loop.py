"""The loop as a bar: how much of its limit is source, feed and circuit, designed and read."""

from __future__ import annotations

from dataclasses import dataclass

from records.errors import FarboardError
from records.expected import installation_loops
from records.expected.branch import Branch
from records.expected.context import BOARD, FEED, Context, circuit_place
from records.expected.results import Expected, NotWorkedOut, What, Worked
from records.expected.runs import HOT
from records.model.circuit import Circuit
from records.model.reading import Place, Quantity
from records.model.record import Record
from records.terms import Part
from records.units import Ohm

_BY_RCD = "50 V / IΔn"
_LEAST = 0.005
"""Ω: half of the last digit that a loop tester shows; less is no difference."""
_SPREAD = 0.1
"""How much two loop readings at the same spot may differ: common practice."""


@dataclass(frozen=True, slots=True)
class LoopPart:
    """One stretch of a bar."""

    name: str
    ohms: Ohm
    how: str
    """How it is known, in a few words."""


@dataclass(frozen=True, slots=True)
class LoopBar:
    """A loop against its limit, by one way of knowing it."""

    name: str
    """"design" or "readings"."""
    state: str
    """Hot or cold: what the limit holds for."""
    parts: tuple[LoopPart, ...]
    limit: Ohm
    limit_name: str
    rule_of_thumb: Ohm | None
    """0.8 of the table, where the bar is cold."""
    note: str = ""

    @property
    def total(self) -> Ohm:
        """The whole loop [Ω]."""
        return Ohm(sum(each.ohms for each in self.parts))

    @property
    def share(self) -> float:
        """The whole loop over its limit."""
        return self.total / self.limit


def loop_bars(
    record: Record, expected: Expected, place: Place
) -> tuple[LoopBar, ...] | NotWorkedOut:
    """Return the bars of the feed or of a circuit: by design, then from the readings so far.

    Args:
        record: The job.
        expected: What follows from it.
        place: The feed or a circuit; a point on one counts as its circuit.
    """
    if place.part not in (Part.FEED, Part.CIRCUIT):
        return NotWorkedOut("loop", "only the feed and the circuits have a loop to draw.")
    context = Context(record)
    circuit = record.circuit(place.circuit) if place.circuit is not None else None
    at = FEED if circuit is None else circuit_place(circuit)
    limit = expected.design.get((at, What.ZS_LIMIT))
    if not isinstance(limit, Worked):
        return limit or NotWorkedOut("loop", "its limit is not calculated.")
    bars: list[LoopBar] = []
    why = "there is no loop to draw yet."
    try:
        bars.append(_designed(context, circuit, limit))
    except FarboardError as error:
        why = str(error)
    read = expected.measured.get((at, What.ZS))
    if isinstance(read, Worked):
        bars.append(_read(context, circuit, expected, read, limit))
    return tuple(bars) or NotWorkedOut("loop", why)


def _designed(context: Context, circuit: Circuit | None, limit: Worked) -> LoopBar:
    branch = Branch(context, circuit)
    before = LoopPart("source", Ohm(context.record.origin.ze or 0.0), _ground(context))
    # Not the loop of the branch, which takes in what was read: that has a bar of its own.
    if circuit is None:
        board = whole = installation_loops.feed_loop(context, HOT)
    else:
        board = installation_loops.zdb(context, HOT)
        whole = installation_loops.zs(context, circuit, HOT)
    if circuit is not None and context.own_electrode:
        electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
        before = LoopPart("electrode", Ohm(electrode), "as measured")
    parts = [before, LoopPart("feed", Ohm(board.value - before.ohms), "design, hot")]
    if circuit is not None:
        parts.append(LoopPart("circuit", Ohm(whole.value - board.value), "design, hot"))
    if whole.most > whole.value:
        beyond = Ohm(whole.most - whole.value)
        parts.append(LoopPart("supply’s electrodes", beyond, "as a rule not over that"))
    name = _BY_RCD if branch.by_rcd else "by the table"
    return LoopBar("design", "hot", tuple(parts), Ohm(limit.value), name, None)


def _ground(context: Context) -> str:
    ground = context.record.origin.ze_ground
    return ground.value if ground is not None else "as entered"


def _read(
    context: Context, circuit: Circuit | None, expected: Expected, read: Worked, table: Worked
) -> LoopBar:
    at = FEED if circuit is None else circuit_place(circuit)
    exact = expected.design.get((at, What.ZS_LIMIT_EXACT))
    cold = expected.design.get((at, What.ZS_LIMIT_COLD))
    limit, name, thumb = table.value, _BY_RCD, None
    if isinstance(cold, Worked):
        limit, name, thumb = cold.value, "0.8 of the table", Ohm(cold.value)
    if isinstance(exact, Worked) and exact.value > 0:
        limit, name = exact.value, "exact for cold readings"
    parts, note = _parts(context, circuit, expected, read)
    return LoopBar("readings", "cold", parts, Ohm(limit), name, thumb, note)


def _parts(
    context: Context, circuit: Circuit | None, expected: Expected, read: Worked
) -> tuple[tuple[LoopPart, ...], str]:
    """Return what a loop from readings is made of, and what doesn't add up in it."""
    find, whole = context.readings.find, read.value
    how = "as measured" if "measured" in read.formula else "added up from readings"
    steps: list[tuple[str, float]] = []
    board = expected.measured.get((BOARD, What.ZS))
    electrode = find(Quantity.ELECTRODE, Part.BOARD)
    source = find(Quantity.ZE, Part.ORIGIN) if electrode is None else electrode
    if source is not None:
        steps.append(("source" if electrode is None else "electrode", source))
    if circuit is not None and isinstance(board, Worked):
        steps.append(("feed" if steps else "up to the board", board.value))
    last = ("circuit" if circuit is not None else "feed") if steps else "the whole loop"
    if steps and circuit is not None and not isinstance(board, Worked):
        last = "feed and circuit"
    steps.append((last, whole))
    merged: list[tuple[str, float]] = []
    for step, value in steps:
        name = step
        while merged and value < merged[-1][1] - _LEAST:
            before, upstream = merged.pop()
            if value < (1 - _SPREAD) * upstream:
                return (
                    (LoopPart("the whole loop", Ohm(whole), how),),
                    f"Less than the loop before it ({before}, {upstream:.2f} Ω): drawn as one.",
                )
            name = f"{before} and {name}"
        merged.append((name, value))
    values = [0.0, *(value for _, value in merged)]
    parts = (
        LoopPart(name, Ohm(value - before), "the difference" if at else how)
        for at, ((name, value), before) in enumerate(zip(merged, values, strict=False))
    )
    return tuple(parts), ""
