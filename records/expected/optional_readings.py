"""What readings should be that nobody has to take: parts of a path, and RCDs at other currents."""

from __future__ import annotations

from collections.abc import Callable

from records.expected.context import Context, once, own_along, where
from records.expected.results import Worked
from records.expected.runs import State, along
from records.expected.workings import need
from records.model.circuit import Circuit
from records.model.reading import Slot
from records.model.wiring import Run
from records.terms import Cpc
from records.units import Unit

Work = Callable[[Context, Slot], Worked]


def _carries(run: Run, only: Cpc) -> bool:
    """Whether the part that is read alone is there: the armour is, where no earth is exported."""
    if run.cpc is Cpc.NONE and only is Cpc.ARMOUR:
        return run.cable is not None and run.cable.is_armoured
    return run.cpc is Cpc.CORE_AND_ARMOUR


def feed_one_way(symbol: str, only: Cpc) -> Work:
    """Return the work for R1+R2 of the feed with one of two parallel ways back lifted."""

    @once  # asked for before covering and after it: the same figure, if it is as warm
    def one_way(context: Context, at: State) -> Worked:
        runs = [
            run.model_copy(update={"cpc": only}) if _carries(run, only) else run
            for run in context.record.feed.runs
        ]
        found = along(runs, None, at)
        return Worked(
            symbol,
            found.r1_r2,
            Unit.OHM,
            f"R1+R2 = Σ L · (r1 + r2), {at.words}",
            ("{}", found),
            (found,),
            note="Only one of the two ways back is joined.",
        )

    return lambda context, slot: one_way(context, context.readings.dead(slot))


def r2_long(context: Context, slot: Slot) -> Worked:
    """Return R2 of a circuit by a long lead, the lead taken off."""
    at = context.readings.dead(slot)
    return _r2(context, context.circuits[slot.place.circuit or ""], at)


@once  # asked for before covering and after it: the same figure, if it is as warm
def _r2(context: Context, circuit: Circuit, at: State) -> Worked:
    need(circuit.form, "its arrangement (ring or radial) is", where(circuit))
    found = own_along(context, circuit, at)
    return Worked(
        "R2",
        found.back,
        Unit.OHM,
        f"R2 = Σ L · r2, {at.words}",
        ("the second of each pair in {}", found),
        (found,),
    )


def rn_r2(context: Context, slot: Slot) -> Worked:
    """Return Rn+R2 of a circuit at its furthest point."""
    at = context.readings.dead(slot)
    circuit = context.circuits[slot.place.circuit or ""]
    need(circuit.form, "its arrangement (ring or radial) is", where(circuit))
    found = own_along(context, circuit, at)
    return Worked(
        "Rn+R2",
        found.r1_r2,
        Unit.OHM,
        f"Rn+R2 = Σ L · (rn + r2), {at.words}",
        ("{}", found),
        (found,),
        note=f"The neutral is as thick as the line ({where(circuit)}).",
    )
