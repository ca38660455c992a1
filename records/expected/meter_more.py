"""What readings should be that nobody has to take: parts of a path, and RCDs at other currents."""

from __future__ import annotations

from collections.abc import Callable

from records.expected.context import Context, own_along, where
from records.expected.results import Worked
from records.expected.runs import along, state
from records.expected.workings import worked
from records.model.reading import Quantity, Slot
from records.terms import Cpc, Part
from records.units import Unit

Work = Callable[[Context, Slot], Worked]


def _one_way(symbol: str, only: Cpc) -> Work:
    """Return the work for R1+R2 of the feed with one of two parallel ways back lifted."""

    def work(context: Context, slot: Slot) -> Worked:
        at = state(context.readings.temperature(slot), ac=False)
        runs = [
            run.model_copy(update={"cpc": only}) if run.cpc is Cpc.CORE_AND_ARMOUR else run
            for run in context.record.feed.runs
        ]
        found = along(runs, "Feed", at)
        return worked(
            symbol, found.r1_r2, Unit.OHM, f"R1+R2 = Σ L · (r1 + r2), {at.words}",
            lambda: found.put_in, lambda: found.sources,
            note="Only one of the two ways back is joined.",
        )  # fmt: skip

    return work


def _r2(context: Context, slot: Slot) -> Worked:
    at = state(context.readings.temperature(slot), ac=False)
    circuit = context.circuits[slot.place.circuit or ""]
    found = own_along(context, circuit, at)
    return worked(
        "R2", found.back, Unit.OHM, f"R2 = Σ L · r2, {at.words}",
        lambda: f"the second of each pair in {found.put_in}", lambda: found.sources,
    )  # fmt: skip


def _rn_r2(context: Context, slot: Slot) -> Worked:
    at = state(context.readings.temperature(slot), ac=False)
    circuit = context.circuits[slot.place.circuit or ""]
    found = own_along(context, circuit, at)
    return worked(
        "Rn+R2", found.r1_r2, Unit.OHM, f"Rn+R2 = Σ L · (rn + r2), {at.words}",
        lambda: found.put_in, lambda: found.sources,
        note=f"The neutral is as thick as the line ({where(circuit)}).",
    )  # fmt: skip


MORE: dict[tuple[Part, Quantity], Work] = {
    (Part.FEED, Quantity.R1_R2_CORE): _one_way("R1+R2", Cpc.CORE),
    (Part.FEED, Quantity.R1_R2_ARMOUR): _one_way("R1+R2", Cpc.ARMOUR),
    (Part.CIRCUIT, Quantity.R2_LONG): _r2,
    (Part.CIRCUIT, Quantity.RN_R2): _rn_r2,
}
