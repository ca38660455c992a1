"""Two readings of one thing that can't both be right: which to repeat first, and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from records.errors import NotTabulated
from records.expected.residual import operating_times
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import CHANGE_RCD, RIGHT_NOW
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import is_open
from records.judgement.facts import Facts
from records.judgement.live.rcd import rcd_of
from records.judgement.wording import amount, said
from records.model.reading import Figure, Quantity, Slot, Tick, slot_of
from records.model.slots import measured_by
from records.tables.disconnection import RcdTimes
from records.terms import Sign, Stage, Verdict
from records.units import Unit


def rcd_contradicted(facts: Facts) -> Iterator[Pattern]:
    """An RCD that didn't open in time at its rated current, though another test shows it opens."""
    for slot in facts.all_slots:
        if slot.quantity is Quantity.RCD_TIME:
            yield from _slow_but_opens(facts, slot)
            yield from _quick_but_dull(facts, slot)
            yield from _holds_but_keen(facts, slot)


def _slow_but_opens(facts: Facts, slot: Slot) -> Iterator[Pattern]:
    time = facts.figure(slot)
    times = _times(facts, slot)
    if not times or time is None or not _above(time, times[0].longest * 1000):
        return
    for quantity, shows in (
        (Quantity.RCD_FIVE, _in_time(facts, slot, times[-1].longest * 1000)),
        (Quantity.RCD_RAMP, _opens_on_ramp(facts, slot)),
        (Quantity.RCD_BUTTON, _button(facts, slot)),
    ):
        if not shows:
            continue
        concern = Concern(
            "rcd-contradicted",
            Verdict.OUTSIDE,
            f"That contradicts another test of this RCD: {shows}.",
            _WHY_SLOW,
            do(
                Act.READ_LIVE,
                "Repeat the time at 1 × IΔn first, for it decides: line probe on load side.",
            )
            + RIGHT_NOW
            + CHANGE_RCD,
            cite.RCD_TEST,
            35,
        )
        other = _beside(slot, quantity)
        yield Pattern(concern, slot.place, _title(facts, slot), (slot, other), into=slot)
        return


_WHY_SLOW = (
    "the line probe was on the supply side",
    "the tester was set to another IΔn, type or delay",
    "the RCD sticks and opens only with more current",
)


def _quick_but_dull(facts: Facts, slot: Slot) -> Iterator[Pattern]:
    """It opens in time at IΔn, and on the ramp it takes more than IΔn."""
    time, residual = facts.figure(slot), rcd_of(facts, slot).residual
    ramp_slot = _beside(slot, Quantity.RCD_RAMP)
    ramp = facts.figure(ramp_slot)
    times = _times(facts, slot)
    if not times or time is None or ramp is None or residual is None or time.sign is Sign.OVER:
        return
    longest = times[0].longest * 1000
    if time.value > longest + SLACK or not _above(ramp, residual):
        return
    concern = Concern(
        "rcd-ramp-contradicted",
        Verdict.OUTSIDE,
        f"That contradicts the time: at {residual:g} mA it opened in "
        f"{said(time, measured_by(slot))}.",
        (
            "the ramp was set to another IΔn or type",
            "the line probe was on the supply side",
            "the readings are of two different RCDs",
        ),
        do(Act.READ_LIVE, "Repeat the ramp first, then the time: same probes, set as on the label.")
        + RIGHT_NOW
        + CHANGE_RCD,
        cite.RCD_TEST,
        35,
    )
    yield Pattern(concern, slot.place, _title(facts, slot), (slot, ramp_slot), into=ramp_slot)


def _holds_but_keen(facts: Facts, slot: Slot) -> Iterator[Pattern]:
    """It was found to hold at half of IΔn, and on the ramp it opens before that."""
    half_slot, ramp_slot = _beside(slot, Quantity.RCD_HALF), _beside(slot, Quantity.RCD_RAMP)
    half, residual = facts.last(half_slot), rcd_of(facts, slot).residual
    ramp = facts.figure(ramp_slot)
    if half is None or not isinstance(half.taken, Tick) or not half.taken.good:
        return
    if ramp is None or residual is None or ramp.sign is Sign.OVER:
        return
    if ramp.value >= 0.5 * residual - SLACK:
        return
    concern = Concern(
        "rcd-half-contradicted",
        Verdict.UNLIKELY,
        f"That contradicts the test at 0.5 × IΔn, which it held: {0.5 * residual:g} mA.",
        ("something leaked during the ramp only", "the tester was set to another IΔn"),
        do(
            Act.READ_LIVE,
            "Switch off and unplug the loads, then retest the ramp. The load that changes it "
            "leaks.",
        ),
        cite.RCD_CURRENT,
        16,
    )
    yield Pattern(concern, slot.place, _title(facts, slot), (half_slot, ramp_slot), into=ramp_slot)


def _times(facts: Facts, slot: Slot) -> Sequence[RcdTimes]:
    """Return the operating times of the RCD, multiple by multiple; empty if none are known."""
    try:
        return operating_times(rcd_of(facts, slot))
    except NotTabulated:
        return ()


def _title(facts: Facts, slot: Slot) -> str:
    return f"{facts.title(slot.place)}: tests of the RCD"


def _beside(slot: Slot, quantity: Quantity) -> Slot:
    return slot_of(quantity, slot.place, slot.stage)


def _above(figure: Figure, most: float) -> bool:
    """Whether a figure is shown to lie above: over the range counts if the range reaches it."""
    if figure.sign is Sign.OVER:
        return figure.value >= most - SLACK
    return figure.sign is Sign.EQUAL and figure.value > most + SLACK


def _in_time(facts: Facts, slot: Slot, longest: float) -> str:
    five = _beside(slot, Quantity.RCD_FIVE)
    figure = facts.figure(five)
    if figure is None or figure.sign is Sign.OVER or figure.value > longest + SLACK:
        return ""
    return f"at 5 × IΔn it opened in {said(figure, measured_by(five))}"


def _opens_on_ramp(facts: Facts, slot: Slot) -> str:
    residual = rcd_of(facts, slot).residual
    ramp = _beside(slot, Quantity.RCD_RAMP)
    figure = facts.figure(ramp)
    if figure is None or residual is None or figure.sign is Sign.OVER:
        return ""
    if figure.value > residual + SLACK:
        return ""
    return f"on the ramp it opened at {said(figure, measured_by(ramp))}"


def _button(facts: Facts, slot: Slot) -> str:
    last = facts.last(_beside(slot, Quantity.RCD_BUTTON))
    works = last is not None and isinstance(last.taken, Tick) and last.taken.good
    return "its test button opens it" if works else ""


def polarity_contradicted(facts: Facts) -> Iterator[Pattern]:
    """Polarity of a circuit ticked correct, while a reading at one of its points can't be so."""
    by_circuit: dict[str, list[Slot]] = {}
    for slot in facts.all_slots:
        if slot.place.circuit is not None and slot.stage is Stage.DEAD:
            by_circuit.setdefault(slot.place.circuit, []).append(slot)
    for _, place in facts.circuits():
        polarity = slot_of(Quantity.POLARITY, place, Stage.DEAD)
        last = facts.last(polarity)
        if last is None or not isinstance(last.taken, Tick) or not last.taken.good:
            continue
        for slot in by_circuit.get(place.circuit or "", ()):
            shows = _against_polarity(facts, slot)
            if not shows:
                continue
            concern = Concern(
                "polarity-against-point",
                Verdict.UNLIKELY,
                f"{facts.title(slot.place)} says otherwise: {shows}.",
                (
                    "this point was not looked at for polarity",
                    "read at another point, or with an adaptor without contact",
                ),
                do(
                    Act.OPEN,
                    "Repeat the reading at that point first, at its terminals: it shows "
                    "which conductor is where.",
                ),
                cite.POLARITY,
                50,
            )
            title = f"{facts.title(place)}: polarity and the readings at its points"
            yield Pattern(concern, place, title, (polarity, slot), into=polarity)
            break


def _against_polarity(facts: Facts, slot: Slot) -> str:
    figure, last = facts.figure(slot), facts.last(slot)
    match slot.quantity:
        case Quantity.CROSS_LE if figure is not None and is_open(figure):
            beside = facts.plain(_beside(slot, Quantity.CROSS_LN))
            return (
                ""
                if beside is None
                else (f"L-N is closed ({amount(beside, Unit.OHM)}), L-cpc is open")
            )
        case Quantity.R1_R2 if figure is not None and is_open(figure):
            beside = facts.plain(_beside(slot, Quantity.RN_R2))
            return (
                ""
                if beside is None
                else (f"L-cpc is open, N-cpc is closed ({amount(beside, Unit.OHM)})")
            )
        case Quantity.SWITCHED if last is not None and isinstance(last.taken, Tick):
            return "" if last.taken.good else "the path stays closed with the switch off"
    return ""
