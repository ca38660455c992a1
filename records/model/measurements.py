"""What can be measured, said once: bench, review, document and exchange all read it here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Form, OutbuildingEarth, Part, Stage, Use
from records.units import Unit

Needed = Callable[[Record, Circuit | None], bool]
"""Whether a job, or one of its circuits, needs the measurement."""


@dataclass(frozen=True, slots=True)
class Measurement:
    """One thing to measure or check, with all that a person needs to do it."""

    quantity: Quantity
    title: str
    """In words, for a column or a line."""
    part: Part
    stages: tuple[Stage, ...]
    between: str
    """The conductors or terminals that the meter joins."""
    instrument: str
    """The instrument's function and its standard."""
    setting: str
    """Test voltage or current."""
    first: str
    """What to connect, disconnect or make sure of before."""
    unit: Unit = Unit.NUMBER
    digits: int = 2
    """Decimals that the trade writes."""
    is_check: bool = False
    """Answered with right or wrong, not with a figure."""
    per_point: bool = False
    """Taken at each point of the circuit, or at each bond of the board."""
    needed: Needed = lambda _record, _circuit: True

    @property
    def symbol(self) -> str:
        """The trade's symbol."""
        return self.quantity.value


def _ring(_: Record, circuit: Circuit | None) -> bool:
    return circuit is not None and circuit.form is Form.RING


def _not_ring(_: Record, circuit: Circuit | None) -> bool:
    return circuit is not None and circuit.form in (Form.RADIAL, Form.FCU)


def _own_rcd(_: Record, circuit: Circuit | None) -> bool:
    return circuit is not None and bool(
        circuit.rcd.residual or (circuit.device.kind and circuit.device.kind.is_rcbo)
    )


def _board_rcd(record: Record, _: Circuit | None) -> bool:
    return record.board.rcd.residual is not None


def _feed_rcd(record: Record, _: Circuit | None) -> bool:
    kind = record.feed.device.kind
    return record.feed.rcd.residual is not None or (kind is not None and kind.is_rcbo)


def _electrode(record: Record, _: Circuit | None) -> bool:
    return record.board.earth is OutbuildingEarth.OWN_ELECTRODE


def _surge(record: Record, _: Circuit | None) -> bool:
    return record.board.surge_protection is True


def _acts(_: Record, circuit: Circuit | None) -> bool:
    return circuit is not None and circuit.use in (Use.LIGHTING, Use.FIXED)


_LOW = "low-resistance ohmmeter (BS EN 61557-4)"
_LOW_SET = "at least 200 mA, 4–24 V"
_IR = "insulation tester (BS EN 61557-2)"
_IR_SET = "500 V d.c."
_LOOP = "loop tester (BS EN 61557-3)"
_RCD = "RCD tester (BS EN 61557-6)"
_EYES = "your own eyes"
_EARLY_AND_LATE = (Stage.BEFORE_COVERING, Stage.DEAD)
_DEAD = (Stage.DEAD,)
_LIVE = (Stage.LIVE,)
_LEADS_OFF = "Null the leads; show 0.00 with the tips joined."
_IR_FIRST = (
    "Loads, lamps, drivers, surge protection and electronics out or off; switches on; "
    "neutral out of the bar."
)
_RING_ENDS = "Both legs out of their terminals and apart. " + _LEADS_OFF
_LIVE_FIRST = "Covers on as far as possible; a second person knows; GS38 leads."


def _low(
    quantity: Quantity,
    title: str,
    part: Part,
    stages: tuple[Stage, ...],
    between: str,
    first: str,
    *,
    per_point: bool = False,
    needed: Needed = lambda _record, _circuit: True,
) -> Measurement:
    return Measurement(
        quantity, title, part, stages, between, _LOW, _LOW_SET, first, Unit.OHM,
        per_point=per_point, needed=needed,
    )  # fmt: skip


def _insulation(quantity: Quantity, part: Part, between: str) -> Measurement:
    return Measurement(
        quantity, f"Insulation {between}", part, _EARLY_AND_LATE, between, _IR, _IR_SET,
        _IR_FIRST, Unit.MEGOHM,
    )  # fmt: skip


def _insulations(part: Part) -> tuple[Measurement, ...]:
    return (
        _insulation(Quantity.IR_LN, part, "L and N"),
        _insulation(Quantity.IR_LE, part, "L and earth"),
        _insulation(Quantity.IR_NE, part, "N and earth"),
    )


def _check(
    quantity: Quantity,
    title: str,
    part: Part,
    stages: tuple[Stage, ...],
    between: str,
    first: str,
    *,
    instrument: str = _EYES,
    needed: Needed = lambda _record, _circuit: True,
) -> Measurement:
    return Measurement(
        quantity, title, part, stages, between, instrument, "", first,
        is_check=True, needed=needed,
    )  # fmt: skip


def _fault(quantity: Quantity, part: Part, between: str) -> Measurement:
    return Measurement(
        quantity, f"Prospective fault current {between}", part, _LIVE, between, _LOOP,
        "high-current range if no RCD stands before it", _LIVE_FIRST, Unit.KILOAMPERE,
    )  # fmt: skip


def _rcd_time(part: Part, needed: Needed) -> Measurement:
    return Measurement(
        Quantity.RCD_TIME, "RCD operating time", part, _LIVE, "L and earth, load side", _RCD,
        "1 × IΔn a.c., both half-waves, note the slower",
        "Loads off. Say who will lose power: freezers, computers, medical equipment.",
        Unit.MILLISECOND, 0, needed=needed,
    )  # fmt: skip


def _rcd_button(part: Part, needed: Needed) -> Measurement:
    return _check(
        Quantity.RCD_BUTTON, "RCD test button", part, _LIVE, "the test button",
        "After the timed test, not before.", instrument="a finger", needed=needed,
    )  # fmt: skip


MEASUREMENTS: tuple[Measurement, ...] = (
    # In the safe order within each stage: IET Guidance Note 3 (from memory), common practice.
    _low(Quantity.R1_R2, "R1+R2 of the feed", Part.FEED, _EARLY_AND_LATE,
         "L and earth at the sub-board, L joined to earth at the house",
         "Isolated, locked off and proved dead at both ends. " + _LEADS_OFF,
         needed=lambda record, _: record.board.earth is not OutbuildingEarth.OWN_ELECTRODE),
    _low(Quantity.EARTHING, "Earthing conductor", Part.BOARD, _DEAD,
         "earth bar and the armour gland or the electrode",
         "Isolated and proved dead. Put it back and tighten at once. " + _LEADS_OFF),
    _low(Quantity.BONDING, "Main bonding conductor", Part.BOARD, _DEAD,
         "earth bar and the bonded metal, one end off",
         "Only while the installation is isolated; put it back at once. " + _LEADS_OFF,
         per_point=True),
    _low(Quantity.R1, "Ring: line end to end", Part.CIRCUIT, _EARLY_AND_LATE,
         "L of leg 1 and L of leg 2", _RING_ENDS, needed=_ring),
    _low(Quantity.RN, "Ring: neutral end to end", Part.CIRCUIT, _EARLY_AND_LATE,
         "N of leg 1 and N of leg 2", _RING_ENDS, needed=_ring),
    _low(Quantity.R2, "Ring: cpc end to end", Part.CIRCUIT, _EARLY_AND_LATE,
         "cpc of leg 1 and cpc of leg 2", _RING_ENDS, needed=_ring),
    _low(Quantity.CROSS_LN, "Ring crossed L-N, at each point", Part.CIRCUIT, _DEAD,
         "L and N at the point",
         "At the board join L of leg 1 to N of leg 2, and N of leg 1 to L of leg 2: opposite legs.",
         per_point=True, needed=_ring),
    _low(Quantity.CROSS_LE, "Ring crossed L-cpc, at each point", Part.CIRCUIT, _DEAD,
         "L and cpc at the point",
         "At the board join L of leg 1 to cpc of leg 2, and cpc of leg 1 to L of leg 2.",
         per_point=True, needed=_ring),
    _low(Quantity.R1_R2, "R1+R2 at the far point", Part.CIRCUIT, _EARLY_AND_LATE,
         "L and cpc at the far point, L joined to cpc at the board",
         "Isolated and proved dead; switches on. " + _LEADS_OFF, needed=_not_ring),
    *_insulations(Part.FEED),
    *_insulations(Part.CIRCUIT),
    _check(Quantity.POLARITY, "Polarity at every point", Part.CIRCUIT, _DEAD,
           "L, N and cpc at each point",
           "Switches break the line only: open at off, closed at on; sockets the right way round.",
           instrument=_LOW),
    Measurement(
        Quantity.ELECTRODE, "Earth electrode resistance", Part.BOARD, _DEAD,
        "electrode and two spikes, or L and the electrode alone",
        "earth electrode tester (BS EN 61557-5)", "three-pole; middle spike moved 10 % both ways",
        "Electrode disconnected from everything else; installation isolated; put it back at once.",
        Unit.OHM, 1, needed=_electrode),
    Measurement(
        Quantity.ZE, "Ze at the origin", Part.ORIGIN, _LIVE, "L and the incoming earth", _LOOP,
        "high-current range",
        "WHOLE installation isolated and locked; earthing conductor off its bar. "
        "Put the earth back before anything else.", Unit.OHM),
    _check(Quantity.EARTH_BACK, "Earth put back after Ze", Part.ORIGIN, _LIVE,
           "the earthing conductor at its bar, tight",
           "Nothing is switched on while the earth is off: all metalwork could become live."),
    _fault(Quantity.FAULT_LN, Part.ORIGIN, "L and N"),
    _fault(Quantity.FAULT_LE, Part.ORIGIN, "L and earth"),
    _check(Quantity.POLARITY, "Polarity of the supply", Part.BOARD, _LIVE,
           "L-N full, L-E full, N-E near 0 V", "Before any circuit is switched on. " + _LIVE_FIRST,
           instrument="two-pole voltage indicator"),
    Measurement(
        Quantity.VOLTAGE, "Supply voltage", Part.BOARD, _LIVE, "L and N", "voltmeter of the tester",
        "a.c. volts", _LIVE_FIRST, Unit.VOLT, 0),
    Measurement(
        Quantity.ZDB, "Loop at the sub-board", Part.BOARD, _LIVE,
        "L and the earth bar, at the incoming terminals", _LOOP,
        "high-current range if no RCD stands before it",
        "Main switch off, all earths connected. " + _LIVE_FIRST, Unit.OHM),
    _fault(Quantity.FAULT_LN, Part.BOARD, "L and N"),
    _fault(Quantity.FAULT_LE, Part.BOARD, "L and earth"),
    Measurement(
        Quantity.ZS, "Loop at the far point", Part.CIRCUIT, _LIVE, "L and earth at the far point",
        _LOOP, "no-trip range where an RCD stands before it",
        "Dead tests of this circuit right; all earths connected. " + _LIVE_FIRST, Unit.OHM),
    _rcd_time(Part.FEED, _feed_rcd),
    _rcd_button(Part.FEED, _feed_rcd),
    _rcd_time(Part.BOARD, _board_rcd),
    _rcd_button(Part.BOARD, _board_rcd),
    _rcd_time(Part.CIRCUIT, _own_rcd),
    _rcd_button(Part.CIRCUIT, _own_rcd),
    _check(Quantity.SURGE, "Surge protection back in", Part.BOARD, _LIVE, "its window or flag",
           "It came out for the insulation tests.", needed=_surge),
    _check(Quantity.FUNCTION, "Operates as meant", Part.CIRCUIT, _LIVE,
           "switches, isolators, appliance", "Operate each; an isolator really isolates.",
           needed=_acts),
)  # fmt: skip


def measurement(part: Part, quantity: Quantity) -> Measurement:
    """Return the entry for a quantity at a part of the installation.

    Raises:
        KeyError: If that quantity is not measured there.
    """
    return _BY_KEY[part, quantity]


_BY_KEY = {(each.part, each.quantity): each for each in MEASUREMENTS}
