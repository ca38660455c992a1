"""Jobs as they really are: sound ones raise no alarm, a fault is found and named where it is."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from records.expected.plan import expected
from records.expected.results import What
from records.judgement.review import review
from records.judgement.review_types import Judged
from records.model.reading import Figure, Quantity, Slot, Tick, place_of
from records.model.slots import measured_by
from records.terms import Earthing, OutbuildingEarth, Part, Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import OUT_OF_ORDER, Taken, over
from tests.judgement.simulated import Change, Real, figure, made, read_all

pytestmark = pytest.mark.slow

BAD = (Verdict.OUTSIDE, Verdict.UNLIKELY)
MARGIN = 0.8
"""Of the limit that a loop may have by the design, so that no limit is met by scatter alone."""


def has_room(real: Real) -> bool:
    """Whether the design keeps its loops with some room."""
    design = expected(real.record).design
    for place in (place_of(Part.FEED), *(place_of(Part.CIRCUIT, f"C{n}") for n in range(1, 5))):
        loop, most = design[place, What.ZS], design[place, What.ZS_LIMIT]
        if hasattr(loop, "value") and hasattr(most, "value") and loop.value > MARGIN * most.value:
            return False
    return True


def alarms(real: Real, change: Change = lambda _slot, _taken: None) -> list[Judged]:
    """Return what is said of the readings, the worst first; not what the design alone says."""
    before = {each.key for each in review(real.record, expected(real.record)).findings}
    record = read_all(real, change)
    found = review(record, expected(record)).findings
    return [
        each
        for each in found
        if each.verdict in BAD
        and (each.key not in before or each.slot is not None)
        and not set(each.patterns) & set(OUT_OF_ORDER)
    ]


def some(count: int, start: int = 0, fits: Callable[[Real], bool] = has_room) -> list[Real]:
    """Return outbuildings whose design has room."""
    found: list[Real] = []
    seed = start
    while len(found) < count:
        real = made(seed)
        seed += 1
        if fits(real):
            found.append(real)
    return found


def earthed_by_cable(real: Real) -> bool:
    exported = real.record.board.earth is OutbuildingEarth.CARRIED_OVER
    return has_room(real) and exported and real.record.origin.earthing is not Earthing.TT


@pytest.mark.parametrize("batch", range(4))
def test_a_sound_job_raises_no_alarm(batch):
    """Fifteen at a time; meters off as data sheets and BS EN 61557 allow."""
    for real in some(15, 1000 * batch):
        assert [(each.key, each.why) for each in alarms(real)] == []


def on(circuit: str, *quantities: Quantity, stages: tuple[Stage, ...] = tuple(Stage)):
    return lambda slot: (
        slot.place.circuit == circuit and slot.quantity in quantities and slot.stage in stages
    )


def more(which: Callable[[Slot], bool], by: float) -> Change:
    """Return that a meter shows more, Ω."""

    def change(slot: Slot, taken: Taken) -> Taken | None:
        return figure(taken.value + by) if which(slot) and isinstance(taken, Figure) else None

    return change


def instead(which: Callable[[Slot], bool], taken: Taken) -> Change:
    return lambda slot, _: taken if which(slot) else None


LATE = (Stage.DEAD, Stage.LIVE)
LOW = (Quantity.ZS, Quantity.R1_R2)
FAULTS: dict[str, tuple[Change, str, str]] = {
    "a nail through line and cpc": (
        instead(on("C3", Quantity.IR_LE, stages=(Stage.DEAD,)), figure(0.3)),
        "C3",
        "screw or nail",
    ),
    "a nail that only scratches": (
        instead(on("C1", Quantity.IR_LE, stages=(Stage.DEAD,)), figure(20)),
        "C1",
        "screw or nail",
    ),
    "neutral on earth": (
        instead(on("C2", Quantity.IR_NE, stages=(Stage.DEAD,)), figure(0)),
        "C2",
        "neutral",
    ),
    "a joint that is loose": (
        more(on("C2", *LOW, stages=LATE), 0.5),
        "C2",
        "loose terminal or a bad joint",
    ),
    "a cable half as long again": (
        more(on("C3", *LOW), 0.4),
        "C3",
        "longer than entered",
    ),
    "a cpc that ends at a box": (
        instead(on("C4", Quantity.R1_R2, stages=(Stage.DEAD,)), over(99.9)),
        "C4",
        "conductor snapped",
    ),
    "a ring open in its cpc": (
        instead(on("C1", Quantity.R2, stages=(Stage.DEAD,)), over(9.99)),
        "C1",
        "conductor snapped",
    ),
    "line and neutral crossed at a socket": (
        instead(on("C1", Quantity.POLARITY), Tick(good=False)),
        "C1",
        "crossed at a point",
    ),
    "milliohms typed as ohms": (
        lambda slot, taken: (
            figure(1000 * taken.value)
            if on("C3", Quantity.R1_R2, stages=(Stage.DEAD,))(slot) and isinstance(taken, Figure)
            else None
        ),
        "C3",
        "mΩ typed as Ω",
    ),
}
"""A fault, what it does to the readings, where it is, and what has to be named among the causes."""


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_found_first_at_its_place_and_named(fault):
    change, where, cause = FAULTS[fault]
    for real in some(5, 300):
        first = alarms(real, change)[0]

        assert first.place.circuit == where, (first.key, first.why)
        assert cause in " ".join((*first.causes, first.why)), first.causes
        assert first.next_check


def test_leads_that_were_not_nulled_are_one_finding_about_the_meter():
    """Also where the outbuilding has an electrode: R1+Rn and the armour's earth are read with the
    same leads (common practice: 0.05 to 0.30 Ω)."""

    def leads(slot: Slot, taken: Taken) -> Taken | None:
        entry = measured_by(slot)
        low = entry.unit is Unit.OHM and slot.stage is not Stage.LIVE
        if not low or slot.quantity is Quantity.ELECTRODE or not isinstance(taken, Figure):
            return None
        return figure(taken.value + 0.15)

    for real in some(10, 700):
        found = [each.patterns[0] for each in alarms(real, leads) if each.slot is None]
        others = [each.key for each in alarms(real, leads) if each.slot is not None]

        assert found == ["leads not nulled"] * 2  # before covering, and dead
        assert others == []


def test_a_connection_made_loose_after_the_dead_tests_is_seen_at_the_live_ones():
    for real in some(5, 500, earthed_by_cable):
        circuit = alarms(real, more(on("C2", Quantity.ZS), 1.0))[0]
        feed = alarms(real, more(lambda slot: slot.quantity in (Quantity.ZDB, Quantity.ZS), 0.5))

        assert circuit.place.circuit == "C2"
        assert "loose connection" in " ".join(circuit.causes)
        assert any(
            each.place.part in (Part.FEED, Part.BOARD) and "bad contact" in " ".join(each.causes)
            for each in feed
        )
