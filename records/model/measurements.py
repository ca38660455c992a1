"""What can be measured, said once: bench, review, document and exchange all read it here."""

from __future__ import annotations

from records.model.entries import (
    DEAD,
    EARLY_AND_LATE,
    INSULATION,
    INSULATION_FIRST,
    INSULATION_SET,
    LEADS_OFF,
    LIVE,
    LIVE_FIRST,
    LOOP,
    OHMMETER,
    RCD,
    RING_ENDS,
    VOLTMETER,
    check,
    fault,
    insulations,
    low,
    rcd,
    rcd_alone,
    under_load,
)
from records.model.measurement import Measurement, Stand
from records.model.needs import (
    behind_rcd,
    board_rcd,
    core_and_armour,
    feed_rcd,
    has_circuits,
    has_electrode,
    has_gland,
    has_surge,
    has_to_act,
    is_lighting,
    is_not_ring,
    is_ring,
    own_rcd,
    rcd_in_series,
)
from records.model.reading import Quantity
from records.terms import OutbuildingEarth, Part
from records.units import Unit

__all__ = ["MEASUREMENTS", "Measurement", "measurement"]

MEASUREMENTS: tuple[Measurement, ...] = (
    # In the safe order within each stage: IET Guidance Note 3 (from memory), common practice.
    low(Quantity.R1_R2, "R1+R2 of the feed", Part.FEED, EARLY_AND_LATE,
         "L and earth at the sub-board, L joined to earth at the house",
         "Isolated, locked off and proved dead at both ends. " + LEADS_OFF,
         needed=lambda record, _: record.board.earth is not OutbuildingEarth.OWN_ELECTRODE),
    low(Quantity.R1_R2_CORE, "R1+R2 of the feed by the core alone", Part.FEED, EARLY_AND_LATE,
        "L and the earth core at the sub-board, the armour lifted",
        "Isolated, locked off and proved dead at both ends. Put it back at once. " + LEADS_OFF,
        needed=core_and_armour, optional=True),
    low(Quantity.R1_R2_ARMOUR, "R1+R2 of the feed by the armour alone", Part.FEED, EARLY_AND_LATE,
        "L and the armour at the sub-board, the earth core lifted",
        "Isolated, locked off and proved dead at both ends. Put it back at once. " + LEADS_OFF,
        needed=core_and_armour, optional=True),
    low(Quantity.GLAND, "Armour gland at the house", Part.FEED, DEAD,
        "the armour and the earth bar, across the gland",
        "Isolated and proved dead. " + LEADS_OFF, needed=has_gland, optional=True,
        stand=Stand.HOUSE),
    low(Quantity.GLAND, "Armour gland at the sub-board", Part.BOARD, DEAD,
        "the armour and the earth bar, across the gland",
        "Isolated and proved dead. " + LEADS_OFF, needed=has_gland, optional=True),
    low(Quantity.EARTHING, "Earthing conductor", Part.BOARD, DEAD,
         "earth bar and the armour gland or the electrode",
         "Isolated and proved dead. Put it back and tighten at once. " + LEADS_OFF),
    low(Quantity.BONDING, "Main bonding conductor", Part.BOARD, DEAD,
         "earth bar and the bonded metal, one end off",
         "Only while the installation is isolated; put it back at once. " + LEADS_OFF,
         per_point=True),
    low(Quantity.R1, "Ring: line end to end", Part.CIRCUIT, EARLY_AND_LATE,
         "L of leg 1 and L of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.RN, "Ring: neutral end to end", Part.CIRCUIT, EARLY_AND_LATE,
         "N of leg 1 and N of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.R2, "Ring: cpc end to end", Part.CIRCUIT, EARLY_AND_LATE,
         "cpc of leg 1 and cpc of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.CROSS_LN, "Ring crossed L-N, at each point", Part.CIRCUIT, DEAD,
         "L and N at the point",
         "At the board join L of leg 1 to N of leg 2, and N of leg 1 to L of leg 2: opposite legs.",
         per_point=True, needed=is_ring, stand=Stand.POINT),
    low(Quantity.CROSS_LE, "Ring crossed L-cpc, at each point", Part.CIRCUIT, DEAD,
         "L and cpc at the point",
         "At the board join L of leg 1 to cpc of leg 2, and cpc of leg 1 to L of leg 2.",
         per_point=True, needed=is_ring, stand=Stand.POINT),
    low(Quantity.R1_R2, "R1+R2 at the far point", Part.CIRCUIT, EARLY_AND_LATE,
         "L and cpc at the far point, L joined to cpc at the board",
         "Isolated and proved dead; switches on. " + LEADS_OFF, needed=is_not_ring,
         stand=Stand.FAR),
    low(Quantity.R2_LONG, "R2 by a long lead", Part.CIRCUIT, EARLY_AND_LATE,
        "cpc at the board and cpc at the far point",
        "Where the line isn't landed yet; it shows no polarity. Null with the long lead in, or "
        "type what is left without it and say so in a note.",
        needed=is_not_ring, optional=True, stand=Stand.FAR,
        leads=False),  # the long lead is none of the meter's own: what that has is not enough
    low(Quantity.RN_R2, "Rn+R2 at the far point", Part.CIRCUIT, DEAD,
        "N and cpc at the far point, N joined to cpc at the board",
        "Only this circuit's neutral is joined, all others are out of the bar. " + LEADS_OFF,
        needed=is_not_ring, optional=True, stand=Stand.FAR),
    check(Quantity.SWITCHED, "Line open with the switch off", Part.CIRCUIT, DEAD,
          "L and cpc at each lamp, L joined to cpc at the board",
          "Lamps and drivers out. Each switch off, two-way ones both ways: the path must open.",
          instrument=OHMMETER, needed=is_lighting, optional=True, stand=Stand.FAR),
    check(Quantity.TIPS_JOINED, "Insulation tester shows 0 with its tips joined", Part.BOARD,
          EARLY_AND_LATE, "the two test tips",
          "Joined: 0.00. Apart: over the range. Before the series, and once more after it.",
          instrument=INSULATION, optional=True),
    *insulations(Part.FEED),
    *insulations(Part.CIRCUIT),
    Measurement(
        Quantity.IR_FOIL, "Insulation to foil or a metal lining", Part.CIRCUIT, EARLY_AND_LATE,
        "L, N and cpc joined, and the foil or lining", INSULATION, INSULATION_SET,
        "Where foil-faced insulation or a metal lining lies against the cable. "
        + INSULATION_FIRST, Unit.MEGOHM, optional=True),
    Measurement(
        Quantity.IR_GROUP, "Insulation of the whole sub-board", Part.BOARD, DEAD,
        "L and N joined, and earth", INSULATION, INSULATION_SET,
        "Main switch open, all circuit devices closed. " + INSULATION_FIRST, Unit.MEGOHM,
        needed=has_circuits, optional=True),
    check(Quantity.POLARITY, "Polarity at every point", Part.CIRCUIT, DEAD,
           "L, N and cpc at each point",
           "Switches break the line only: open at off, closed at on; sockets the right way round.",
           instrument=OHMMETER, stand=Stand.FAR),
    Measurement(
        Quantity.ELECTRODE, "Earth electrode resistance", Part.BOARD, DEAD,
        "electrode and two spikes, or L and the electrode alone",
        "earth electrode tester (BS EN 61557-5)", "three-pole; middle spike moved 10 % both ways",
        "Electrode disconnected from everything else; installation isolated; put it back at once.",
        Unit.OHM, 1, needed=has_electrode),
    Measurement(
        Quantity.ZE, "Ze at the origin", Part.ORIGIN, LIVE, "L and the incoming earth", LOOP,
        "high-current range",
        "WHOLE installation isolated and locked; earthing conductor off its bar. "
        "Put the earth back before anything else.", Unit.OHM, stand=Stand.HOUSE),
    check(Quantity.EARTH_BACK, "Earth put back after Ze", Part.ORIGIN, LIVE,
           "the earthing conductor at its bar, tight",
           "Nothing is switched on while the earth is off: all metalwork could become live.",
           stand=Stand.HOUSE),
    fault(Quantity.FAULT_LN, Part.ORIGIN, "L and N"),
    fault(Quantity.FAULT_LE, Part.ORIGIN, "L and earth"),
    check(Quantity.POLARITY, "Polarity of the supply", Part.BOARD, LIVE,
           "L-N full, L-E full, N-E near 0 V", "Before any circuit is switched on. " + LIVE_FIRST,
           instrument="two-pole voltage indicator"),
    Measurement(
        Quantity.VOLTAGE, "Supply voltage", Part.BOARD, LIVE, "L and N", VOLTMETER,
        "a.c. volts", LIVE_FIRST, Unit.VOLT, 0),
    Measurement(
        Quantity.VOLTAGE_LE, "Voltage L and earth", Part.BOARD, LIVE, "L and earth",
        VOLTMETER, "a.c. volts", LIVE_FIRST, Unit.VOLT, 0, optional=True),
    Measurement(
        Quantity.VOLTAGE_NE, "Voltage N and earth", Part.BOARD, LIVE, "N and earth",
        VOLTMETER, "a.c. volts, few loads on", LIVE_FIRST, Unit.VOLT, 1,
        optional=True),
    Measurement(
        Quantity.ZDB, "Loop at the sub-board", Part.BOARD, LIVE,
        "L and the earth bar, at the incoming terminals", LOOP,
        "high-current range if no RCD stands before it",
        "Main switch off, all earths connected. " + LIVE_FIRST, Unit.OHM),
    fault(Quantity.FAULT_LN, Part.BOARD, "L and N"),
    fault(Quantity.FAULT_LE, Part.BOARD, "L and earth"),
    Measurement(
        Quantity.ZS, "Loop at the far point", Part.CIRCUIT, LIVE, "L and earth at the far point",
        LOOP, "no-trip range where an RCD stands before it",
        "Dead tests of this circuit right; all earths connected. " + LIVE_FIRST, Unit.OHM,
        stand=Stand.FAR),
    check(Quantity.RCD_IN_LOOP, "RCD holds during the loop test", Part.CIRCUIT, LIVE,
          "L and earth at the far point", "With the loop test at this point, no-trip range.",
          instrument=LOOP, needed=behind_rcd, optional=True, stand=Stand.FAR),
    *rcd(Part.FEED, feed_rcd),
    *rcd(Part.BOARD, board_rcd),
    *rcd(Part.CIRCUIT, own_rcd),
    rcd_alone(Part.FEED, feed_rcd),
    rcd_alone(Part.BOARD, board_rcd),
    check(Quantity.RCD_BEFORE, "RCD before it stays in", Part.CIRCUIT, LIVE,
          "the RCD of the circuit and the one before it",
          "Look at the one before while this one is tested: only this one may open.",
          instrument=RCD, needed=rcd_in_series, optional=True),
    check(Quantity.RCD_LOADED, "RCD holds with the loads on", Part.CIRCUIT, LIVE,
          "everything on this circuit, switched on", "Covers on; each load by itself first.",
          needed=behind_rcd, optional=True, stand=Stand.FAR),
    check(Quantity.AFDD_BUTTON, "AFDD test button", Part.CIRCUIT, LIVE, "the test button",
          "Where an arc fault detection device is fitted; as its maker says.",
          instrument="a finger", optional=True),
    under_load(Part.ORIGIN),
    Measurement(
        Quantity.LOAD_CURRENT, "Current of the load", Part.BOARD, LIVE,
        "a clamp round the line of the feed", "clamp meter", "a.c. amperes",
        "A steady load of some size on at the outbuilding, such as a kettle, and nothing else.",
        Unit.AMPERE, 1, optional=True),
    under_load(Part.BOARD),
    check(Quantity.SURGE, "Surge protection back in", Part.BOARD, LIVE, "its window or flag",
           "It came out for the insulation tests.", needed=has_surge),
    check(Quantity.FUNCTION, "Operates as meant", Part.CIRCUIT, LIVE,
           "switches, isolators, appliance", "Operate each; an isolator really isolates.",
           needed=has_to_act, stand=Stand.FAR),
)  # fmt: skip


def measurement(part: Part, quantity: Quantity) -> Measurement:
    """Return the entry for a quantity at a part of the installation.

    Raises:
        KeyError: If that quantity is not measured there.
    """
    return _BY_KEY[part, quantity]


_BY_KEY = {(each.part, each.quantity): each for each in MEASUREMENTS}
