"""Kinds of entry in the catalogue of measurements: what entries of one kind have in common."""

from __future__ import annotations

from records.model.measurement import Measurement, Needed, Stand, Waived
from records.model.needs import joined
from records.model.reading import Quantity
from records.terms import Part, Stage
from records.units import Unit

OHMMETER = "low-resistance ohmmeter (BS EN 61557-4)"
OHMMETER_SET = "at least 200 mA, 4–24 V"
INSULATION = "insulation tester (BS EN 61557-2)"
INSULATION_SET = "500 V d.c."
LOOP = "loop tester (BS EN 61557-3)"
RCD = "RCD tester (BS EN 61557-6)"
EYES = "your own eyes"
VOLTMETER = "voltmeter of the tester"
EARLY = (Stage.BEFORE_COVERING,)
EARLY_AND_LATE = (Stage.BEFORE_COVERING, Stage.DEAD)
DEAD = (Stage.DEAD,)
LIVE = (Stage.LIVE,)
LEADS_OFF = "Null the leads; show 0.00 with the tips joined."
ISOLATED = "Isolated, locked off and proved dead. "
"""Said again on each card: it is what is read after the first hour."""
AT_THE_HOUSE = "House main switch off, locked off, proved dead; the tails above it stay live. "
UNLOADED = (
    "Loads, lamps, drivers, dimmers, PIRs, USB and surge protection disconnected, not just off; "
    "RCBOs and AFDDs are electronics too. "
)
HOLD = "Nobody at any end. Hold until it is steady; note it if it falls."
INSULATION_FIRST = (
    f"{ISOLATED}This circuit's line out of its device, its neutral out of the bar. {UNLOADED}"
    f"Switches on. {HOLD}"
)
INSULATION_FEED = (
    f"{AT_THE_HOUSE}L and N of the feed out at the house; sub-board main switch off, surge "
    f"protection disconnected. {HOLD}"
)
RING_ENDS = ISOLATED + "Both legs out of their terminals and apart. " + LEADS_OFF
LIVE_FIRST = "Covers on as far as possible; a second person knows; GS38 leads."
COMPETENT = "For somebody competent in live tests. "


def low(
    quantity: Quantity,
    title: str,
    part: Part,
    stages: tuple[Stage, ...],
    between: str,
    first: str,
    *,
    per_point: bool = False,
    needed: Needed = lambda _record, _circuit: True,
    optional: bool = False,
    stand: Stand = Stand.BOARD,
    leads: bool = True,
    short: str = "",
    waived: Waived | None = None,
) -> Measurement:
    """Return an entry of the low-resistance ohmmeter."""
    return Measurement(
        quantity,
        title,
        part,
        stages,
        between,
        OHMMETER,
        OHMMETER_SET,
        first,
        Unit.OHM,
        per_point=per_point,
        needed=needed,
        optional=optional,
        stand=stand,
        leads=leads,
        short=short,
        waived=waived,
    )


def insulation(quantity: Quantity, part: Part, between: str) -> Measurement:
    """Return an entry of the insulation tester."""
    return Measurement(
        quantity,
        f"Insulation resistance {between}",
        part,
        EARLY_AND_LATE,
        between,
        INSULATION,
        INSULATION_SET,
        INSULATION_FEED if part is Part.FEED else INSULATION_FIRST,
        Unit.MEGOHM,
        waived=None if quantity is Quantity.IR_LE else joined(part),
    )


def insulations(part: Part) -> tuple[Measurement, ...]:
    """Return the three pairs of the insulation test."""
    return (
        insulation(Quantity.IR_LN, part, "L and N"),
        insulation(Quantity.IR_LE, part, "L and earth"),
        insulation(Quantity.IR_NE, part, "N and earth"),
    )


def under_load(part: Part) -> Measurement:
    """Return the voltage with a steady load on, for what the feed loses."""
    return Measurement(
        Quantity.VOLTAGE_LOADED,
        "Voltage with the load on",
        part,
        LIVE,
        "L and N",
        VOLTMETER,
        "a.c. volts",
        f"{COMPETENT}Through a socket and a plug-in adaptor where there is one. The same steady "
        f"load on at the outbuilding, nothing else. {LIVE_FIRST}",
        Unit.VOLT,
        1,
        optional=True,
        stand=Stand.HOUSE if part is Part.ORIGIN else Stand.BOARD,
        after_circuits=True,
    )


def check(
    quantity: Quantity,
    title: str,
    part: Part,
    stages: tuple[Stage, ...],
    between: str,
    first: str,
    *,
    instrument: str = EYES,
    per_point: bool = False,
    needed: Needed = lambda _record, _circuit: True,
    optional: bool = False,
    stand: Stand = Stand.BOARD,
    waived: Waived | None = None,
    after_circuits: bool = False,
    short: str = "",
) -> Measurement:
    """Return an entry that is answered with right or wrong."""
    return Measurement(
        quantity,
        title,
        part,
        stages,
        between,
        instrument,
        "",
        first,
        is_check=True,
        per_point=per_point,
        needed=needed,
        optional=optional,
        stand=stand,
        waived=waived,
        after_circuits=after_circuits,
        short=short,
    )


def fault(quantity: Quantity, part: Part, between: str) -> Measurement:
    """Return a prospective fault current."""
    return Measurement(
        quantity,
        f"Prospective fault current {_FAULT[quantity]}",
        part,
        LIVE,
        between,
        LOOP,
        "high-current range if there is no RCD upstream",
        f"{COMPETENT}Main switch off: at its incoming terminals, all earths connected. "
        f"{LIVE_FIRST}",
        Unit.KILOAMPERE,
        stand=Stand.HOUSE if part is Part.ORIGIN else Stand.BOARD,
    )


_FAULT = {Quantity.FAULT_LN: "L-N: PSCC", Quantity.FAULT_LE: "L-E: PEFC"}


def rcd_time(part: Part, needed: Needed) -> Measurement:
    """Return the timed test of an RCD."""
    return Measurement(
        Quantity.RCD_TIME,
        "RCD operating time",
        part,
        LIVE,
        "L and earth, load side",
        RCD,
        "1 × IΔn a.c., both half-waves, note the slower",
        "Switch off and unplug the loads. Say who will lose power: freezers, computers, medical "
        "equipment.",
        Unit.MILLISECOND,
        0,
        needed=needed,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def rcd_half(part: Part, needed: Needed) -> Measurement:
    """Return the test at half the rated residual current, which no RCD may trip at."""
    return check(
        Quantity.RCD_HALF,
        "RCD holds at half its current",
        part,
        LIVE,
        "L and earth, load side",
        "Switch off and unplug the loads: their leakage counts. No edition since A2:2022 asks for "
        "it.",
        instrument=RCD,
        needed=needed,
        optional=True,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def rcd_five(part: Part, needed: Needed) -> Measurement:
    """Return the timed test at five times the rated residual current."""
    return Measurement(
        Quantity.RCD_FIVE,
        "RCD operating time at 5 × IΔn",
        part,
        LIVE,
        "L and earth, load side",
        RCD,
        "5 × IΔn a.c., both half-waves, note the slower",
        "Switch off and unplug the loads. Earlier editions asked for it; A2:2022 asks for 1 × IΔn "
        "only.",
        Unit.MILLISECOND,
        0,
        needed=needed,
        optional=True,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def rcd_ramp(part: Part, needed: Needed) -> Measurement:
    """Return the residual current that an RCD trips at, found by raising it."""
    return Measurement(
        Quantity.RCD_RAMP,
        "RCD operating current",
        part,
        LIVE,
        "L and earth, load side",
        RCD,
        "ramp, a.c.",
        "Switch off and unplug the loads: their leakage counts.",
        Unit.MILLIAMPERE,
        0,
        needed=needed,
        optional=True,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def rcd(part: Part, needed: Needed) -> tuple[Measurement, ...]:
    """Return the tests of an RCD in order; the button comes after the timed tests."""
    return (
        rcd_half(part, needed),
        rcd_time(part, needed),
        rcd_five(part, needed),
        rcd_ramp(part, needed),
        rcd_button(part, needed),
    )


def rcd_alone(part: Part, needed: Needed) -> Measurement:
    """Return the check that an RCD holds with nothing switched on behind it."""
    return check(
        Quantity.RCD_ALONE,
        "RCD holds with every breaker off",
        part,
        LIVE,
        "the RCD, left on",
        "Covers on. Every breaker behind it off; single-pole ones leave the neutrals joined.",
        needed=needed,
        optional=True,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def rcd_button(part: Part, needed: Needed) -> Measurement:
    """Return the test button of an RCD."""
    return check(
        Quantity.RCD_BUTTON,
        "RCD test button pressed: trips",
        part,
        LIVE,
        "the test button",
        "After the timed test, not before. Covers on.",
        needed=needed,
        stand=_device(part),
        after_circuits=_upstream(part),
    )


def _upstream(part: Part) -> bool:
    """Return whether an RCD stands before circuits: it is tested once their loops are known."""
    return part is not Part.CIRCUIT


def _device(part: Part) -> Stand:
    """Return where the RCD of a part is: that of the feed stands before it, in the house."""
    return Stand.HOUSE if part is Part.FEED else Stand.BOARD
