"""What can be measured, said once: bench, review, document and exchange all read it here."""

from __future__ import annotations

from records.model.entries import (
    AT_THE_HOUSE,
    COMPETENT,
    DEAD,
    EARLY,
    EARLY_AND_LATE,
    HOLD,
    INSULATION,
    INSULATION_FIRST,
    INSULATION_SET,
    ISOLATED,
    LEADS_OFF,
    LIVE,
    LIVE_FIRST,
    LOOP,
    OHMMETER,
    RCD,
    RING_ENDS,
    UNLOADED,
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
    armoured_island,
    at_first_fix,
    behind_rcd,
    board_rcd,
    core_and_armour,
    core_or_island_armour,
    electrode_stayed_on,
    feed_rcd,
    has_circuits,
    has_electrode,
    has_gland,
    has_surge,
    has_to_act,
    is_lighting,
    is_not_ring,
    is_ring,
    no_earth_came_off,
    own_rcd,
    rcd_in_series,
    ze_is_known,
)
from records.model.reading import Quantity
from records.terms import OutbuildingEarth, Part
from records.units import Unit

__all__ = ["MEASUREMENTS", "Measurement", "measurement"]

MEASUREMENTS: tuple[Measurement, ...] = (
    # In the safe order within each stage: IET Guidance Note 3 (from memory), common practice.
    low(Quantity.LEADS_ZERO, "Ohmmeter with its tips joined", Part.BOARD, EARLY_AND_LATE,
        "the two test tips", "Null the leads; join the tips. Before the series and once more after "
        "it.", optional=True, leads=False, short="tips joined"),
    low(Quantity.R1_R2, "R1+R2 of the feed", Part.FEED, EARLY_AND_LATE,
        "L and earth at the sub-board, L joined to earth at the house",
        AT_THE_HOUSE + "The line of the feed out of its device and joined to the earth bar. Link "
        "out and line back afterwards. " + LEADS_OFF,
        needed=lambda record, _: record.board.earth is not OutbuildingEarth.OWN_ELECTRODE),
    low(Quantity.R1_RN, "R1+Rn of the feed", Part.FEED, EARLY_AND_LATE,
        "L and N at the sub-board, L joined to N at the house",
        AT_THE_HOUSE + "L and N of the feed out at the house and joined; link out, both back "
        "afterwards. " + LEADS_OFF, needed=has_electrode, short="R1+Rn"),
    low(Quantity.R1_R2_CORE, "R1+R2 of the feed by the core alone", Part.FEED, EARLY_AND_LATE,
        "L and the earth core at the sub-board, the armour lifted",
        AT_THE_HOUSE + "Armour back and tight at once, then R1+R2 of both together again. "
        + LEADS_OFF, needed=core_and_armour, optional=True),
    low(Quantity.R1_R2_ARMOUR, "R1+R2 of the feed by the armour alone", Part.FEED, EARLY_AND_LATE,
        "L and the armour at the sub-board, the earth core lifted if it has one",
        AT_THE_HOUSE + "Core back and tight at once, then R1+R2 of both together again. "
        + LEADS_OFF, needed=core_or_island_armour, optional=True),
    low(Quantity.GLAND, "Armour gland at the house", Part.FEED, DEAD,
        "the armour and the earth bar, across the gland",
        AT_THE_HOUSE + "Nothing comes off. " + LEADS_OFF, needed=has_gland, optional=True,
        stand=Stand.HOUSE),
    low(Quantity.ARMOUR_EARTHED, "Armour of the feed earthed at the house", Part.FEED, DEAD,
        "the armour and the earth bar, across the gland",
        AT_THE_HOUSE + "Nothing comes off. It is earthed here, so that a spade through the cable "
        "trips the feed. " + LEADS_OFF, needed=armoured_island, stand=Stand.HOUSE,
        short="armour earthed"),
    low(Quantity.GLAND, "Armour gland at the sub-board", Part.BOARD, DEAD,
        "the armour and the earth bar, across the gland",
        ISOLATED + "Nothing comes off. " + LEADS_OFF, needed=has_gland, optional=True),
    low(Quantity.EARTHING, "Earthing conductor", Part.BOARD, DEAD,
        "earth bar and the armour gland or the electrode",
        ISOLATED + "One end off for this reading; back and tight at once. " + LEADS_OFF),
    low(Quantity.BONDING, "Main protective bonding conductor", Part.BOARD, DEAD,
        "earth bar and the bonded metal, one end off",
        "All isolated and locked off. Clamp it first: with current in it, leave it on and tell the "
        "certifier. Else one end off, one hand, not bridging the gap. Back and tight before the "
        "next one. " + LEADS_OFF, per_point=True),
    check(Quantity.RING_CABLES, "Ring final circuit: each cable alone, at each point",
          Part.CIRCUIT, EARLY, "each conductor of each cable at the point, then between them",
          ISOLATED + "For a wall that is covered before the ring's last leg is in. Each cable "
          "loose at both ends: L, N and cpc through; then insulation L-N, L-E, N-E. Write the "
          "lowest in a note.", instrument=f"{OHMMETER}; {INSULATION}", per_point=True,
          needed=is_ring, optional=True, stand=Stand.POINT, short="cables alone"),
    low(Quantity.R1, "Ring final circuit: line end to end", Part.CIRCUIT, EARLY_AND_LATE,
        "L of leg 1 and L of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.RN, "Ring final circuit: neutral end to end", Part.CIRCUIT, EARLY_AND_LATE,
        "N of leg 1 and N of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.R2, "Ring final circuit: cpc end to end", Part.CIRCUIT, EARLY_AND_LATE,
        "cpc of leg 1 and cpc of leg 2", RING_ENDS, needed=is_ring),
    low(Quantity.CROSS_LN, "Ring final circuit: cross-connected L-N, at each point", Part.CIRCUIT,
        EARLY_AND_LATE, "L and N at the point",
        ISOLATED + "At the board join L of leg 1 to N of leg 2. Join N of leg 1 to L of leg 2: "
        "opposite legs.", per_point=True, needed=is_ring, stand=Stand.POINT, waived=at_first_fix),
    low(Quantity.CROSS_LE, "Ring final circuit: cross-connected L-cpc, at each point",
        Part.CIRCUIT, EARLY_AND_LATE, "L and cpc at the point",
        ISOLATED + "At the board join L of leg 1 to cpc of leg 2. Join cpc of leg 1 to L of leg 2. "
        "After the last point take the links out.",
        per_point=True, needed=is_ring, stand=Stand.POINT, waived=at_first_fix),
    low(Quantity.R1_R2, "R1+R2 at the furthest point", Part.CIRCUIT, EARLY_AND_LATE,
        "L and cpc at the furthest point, L joined to cpc at the board",
        ISOLATED + "Switches on. Take the link out afterwards. " + LEADS_OFF, needed=is_not_ring,
        stand=Stand.FAR),
    low(Quantity.R2_LONG, "R2 by a long lead", Part.CIRCUIT, EARLY_AND_LATE,
        "cpc at the board and cpc at the furthest point",
        ISOLATED + "Where the line isn't landed yet; it shows no polarity. Null with the long lead "
        "in, or type what is left without it and say so in a note.",
        needed=is_not_ring, optional=True, stand=Stand.FAR,
        leads=False),  # the long lead is none of the meter's own: what that has is not enough
    low(Quantity.RN_R2, "Rn+R2 at the furthest point", Part.CIRCUIT, DEAD,
        "N and cpc at the furthest point, N joined to cpc at the board",
        "Main switch off (both poles), locked off, proved dead. This circuit's neutral alone out "
        "of the bar and joined to its cpc. Then link out, neutral back in its own place. "
        + LEADS_OFF, needed=is_not_ring, optional=True, stand=Stand.FAR),
    check(Quantity.SWITCHED, "Line open with the switch off", Part.CIRCUIT, DEAD,
          "L and cpc at each lamp, L joined to cpc at the board",
          ISOLATED + "Lamps and drivers out. Each switch off, two-way ones both ways: the path "
          "must open.", instrument=OHMMETER, needed=is_lighting, optional=True, stand=Stand.FAR),
    check(Quantity.TIPS_APART, "Tester shows over range with its tips apart", Part.BOARD,
          EARLY_AND_LATE, "the two test tips, apart in the air",
          "With the leads and the range of the series: what leaks in the leads lowers everything.",
          instrument=INSULATION, optional=True, short="tips apart"),
    check(Quantity.TIPS_JOINED, "Insulation tester shows 0 with its tips joined", Part.BOARD,
          EARLY_AND_LATE, "the two test tips",
          "Joined: 0.00. Apart: over range. Before the series, and once more after it.",
          instrument=INSULATION, optional=True),
    *insulations(Part.FEED),
    *insulations(Part.CIRCUIT),
    Measurement(
        Quantity.IR_FOIL, "Insulation resistance to foil or a metal lining", Part.CIRCUIT,
        EARLY_AND_LATE, "L, N and cpc joined, and the foil or lining", INSULATION, INSULATION_SET,
        "Where foil-faced insulation or a metal lining lies against the cable. "
        + INSULATION_FIRST, Unit.MEGOHM, optional=True),
    Measurement(
        Quantity.IR_GROUP, "Insulation resistance of the whole sub-board", Part.BOARD, DEAD,
        "L and N joined, and earth", INSULATION, INSULATION_SET,
        f"Feed locked off at the house and proved dead. Main switch open, circuit devices closed, "
        f"neutrals in. {UNLOADED}{HOLD}", Unit.MEGOHM,
        needed=has_circuits, optional=True, after_circuits=True),
    check(Quantity.POLARITY, "Polarity at every point", Part.CIRCUIT, DEAD,
          "L, N and cpc at each point",
          ISOLATED + "Switches break the line only: open at off, closed at on; sockets the right "
          "way round.", instrument=OHMMETER, stand=Stand.FAR),
    Measurement(
        Quantity.ARMOUR_OPEN, "Armour of the feed open to the outbuilding's earth", Part.BOARD,
        EARLY_AND_LATE, "the cut-back armour and the outbuilding's earth bar", INSULATION,
        INSULATION_SET,
        f"{ISOLATED}Armour cut back, insulated, labelled. Electrode's conductor off its bar: "
        "through the ground it would read low. Then back and tight at once: asked next.",
        Unit.MEGOHM, needed=armoured_island, back=Quantity.ELECTRODE_BACK, after_circuits=True,
        waived=at_first_fix,
        short="armour open"),
    Measurement(
        Quantity.ELECTRODE, "Earth electrode resistance RA", Part.BOARD, DEAD,
        "electrode and two spikes",
        "earth electrode tester (BS EN 61557-5)", "three-pole; middle spike moved 10 % both ways",
        f"{ISOLATED}Electrode's conductor off everything else. Look for buried services before "
        "a spike goes in. Back and tight at once: asked next.",
        Unit.OHM, 1, needed=has_electrode, back=Quantity.ELECTRODE_BACK, after_circuits=True),
    check(Quantity.ELECTRODE_BACK, "Electrode's conductor put back", Part.BOARD, DEAD,
          "the electrode's conductor at its bar, tight",
          "Nothing is made live while it is off: all metalwork could become live.",
          needed=has_electrode, after_circuits=True, short="electrode put back"),
    check(Quantity.PUT_BACK, "Put back before it goes live", Part.BOARD, DEAD,
          "links out; neutrals in their own places; earths, bonds and electrode back and tight; "
          "surge protection back; covers on",
          f"{ISOLATED}Look at each of them, not at what you remember. Nothing goes live before "
          "this is answered.", after_circuits=True, short="put back"),
    check(Quantity.POLARITY, "Polarity at the origin", Part.ORIGIN, LIVE,
          "L-N full, L-E full, N-E near 0 V",
          f"{COMPETENT}Main switch off: at its incoming terminals. Nothing sealed is opened. "
          f"Indicator proved before and after. {LIVE_FIRST}",
          instrument="two-pole voltage indicator", stand=Stand.HOUSE),
    Measurement(
        Quantity.ZE, "Ze: external earth fault loop impedance", Part.ORIGIN, LIVE,
        "L and the incoming earth", LOOP, "high-current range",
        "For the certifier: to ask the network operator will do. WHOLE installation isolated and "
        "locked off; earthing conductor off its bar. Put the earth back before anything else.",
        Unit.OHM, stand=Stand.HOUSE, waived=ze_is_known, back=Quantity.EARTH_BACK),
    check(Quantity.EARTH_BACK, "Earth put back after Ze", Part.ORIGIN, LIVE,
          "the earthing conductor at its bar, tight",
          "Nothing is switched on while the earth is off: all metalwork could become live.",
          stand=Stand.HOUSE, waived=no_earth_came_off),
    fault(Quantity.FAULT_LN, Part.ORIGIN, "L and N"),
    fault(Quantity.FAULT_LE, Part.ORIGIN, "L and earth"),
    check(Quantity.POLARITY, "Polarity of the supply", Part.BOARD, LIVE,
          "L-N full, L-E full, N-E near 0 V",
          "Feed on at the house, main switch OFF: at its incoming terminals. " + LIVE_FIRST,
          instrument="two-pole voltage indicator"),
    Measurement(
        Quantity.VOLTAGE, "Supply voltage", Part.BOARD, LIVE, "L and N", VOLTMETER, "a.c. volts",
        "Main switch off: at its incoming terminals. " + LIVE_FIRST, Unit.VOLT, 0),
    Measurement(
        Quantity.VOLTAGE_LE, "Voltage L and earth", Part.BOARD, LIVE, "L and earth", VOLTMETER,
        "a.c. volts", "Main switch off: at its incoming terminals. " + LIVE_FIRST, Unit.VOLT, 0,
        optional=True),
    Measurement(
        Quantity.VOLTAGE_NE, "Voltage N and earth", Part.BOARD, LIVE, "N and earth", VOLTMETER,
        "a.c. volts",
        "Main switch off: at its incoming terminals. With PME 0 V doesn't show that the supply's "
        "neutral is sound. N and earth are one up to the intake. " + LIVE_FIRST, Unit.VOLT, 1,
        optional=True),
    Measurement(
        Quantity.ELECTRODE_LOOP, "Earth electrode resistance RA, by the loop tester", Part.BOARD,
        LIVE, "the electrode's conductor and the incoming line", LOOP, "high-current range",
        f"{COMPETENT}Main switch off and locked off, no circuit on. Electrode's conductor off its "
        "bar. Nobody near rod or metal. Back and tight at once: asked next.",
        Unit.OHM, 1, needed=has_electrode, optional=True, back=Quantity.ELECTRODE_LOOP_BACK,
        short="RA by the loop tester"),
    check(Quantity.ELECTRODE_LOOP_BACK, "Electrode's conductor put back after the loop tester",
          Part.BOARD, LIVE, "the electrode's conductor at its bar, tight",
          "Nothing is switched on while it is off: all metalwork could become live.",
          needed=has_electrode, waived=electrode_stayed_on, short="electrode put back"),
    Measurement(
        Quantity.ZDB, "Zdb: earth fault loop impedance at the sub-board", Part.BOARD, LIVE,
        "L and the earth bar, at the incoming terminals", LOOP,
        "high-current range if there is no RCD upstream",
        "Main switch off, all earths connected. " + LIVE_FIRST, Unit.OHM),
    fault(Quantity.FAULT_LN, Part.BOARD, "L and N"),
    fault(Quantity.FAULT_LE, Part.BOARD, "L and earth"),
    Measurement(
        Quantity.ZS, "Zs at the furthest point (earth fault loop impedance)", Part.CIRCUIT, LIVE,
        "L and earth at the furthest point", LOOP, "no-trip range where there is an RCD upstream",
        "Dead tests of this circuit satisfactory; all earths connected. Plug-in adaptor. No "
        "socket: "
        "Zdb + R1+R2 will do, with “calculated” as the method. " + LIVE_FIRST,
        Unit.OHM, stand=Stand.FAR),
    check(Quantity.RCD_IN_LOOP, "RCD holds during the loop test", Part.CIRCUIT, LIVE,
          "L and earth at the furthest point", "With the loop test at this point, no-trip range.",
          instrument=LOOP, needed=behind_rcd, optional=True, stand=Stand.FAR),
    *rcd(Part.FEED, feed_rcd),
    *rcd(Part.BOARD, board_rcd),
    *rcd(Part.CIRCUIT, own_rcd),
    rcd_alone(Part.FEED, feed_rcd),
    rcd_alone(Part.BOARD, board_rcd),
    check(Quantity.RCD_BEFORE, "Upstream RCD stays in", Part.CIRCUIT, LIVE,
          "the RCD of the circuit and the one upstream",
          "Watch the upstream one while this one is tested: only this one may open.",
          instrument=RCD, needed=rcd_in_series, optional=True),
    check(Quantity.RCD_LOADED, "RCD holds with the loads on", Part.CIRCUIT, LIVE,
          "everything on this circuit, switched on", "Covers on; each load alone first.",
          needed=behind_rcd, optional=True, stand=Stand.FAR),
    check(Quantity.AFDD_BUTTON, "AFDD test button pressed: trips", Part.CIRCUIT, LIVE,
          "the test button",
          "Where an arc fault detection device is fitted; as its maker says. Covers on.",
          optional=True),
    check(Quantity.FUNCTION, "Functional test", Part.CIRCUIT, LIVE,
          "switches, isolators, appliance",
          "Covers on. Operate each; an isolator really isolates.",
          needed=has_to_act, stand=Stand.FAR),
    under_load(Part.ORIGIN),
    Measurement(
        Quantity.LOAD_CURRENT, "Current of the load", Part.BOARD, LIVE,
        "a clamp round the line of the feed", "clamp meter", "a.c. amperes",
        "Nobody has to take this. Feed off, locked off, proved dead: clamp on, cover back. Feed "
        "on, a steady load and nothing else, read. Off again, proved dead, clamp out.",
        Unit.AMPERE, 1, optional=True, after_circuits=True),
    under_load(Part.BOARD),
    check(Quantity.SURGE, "Surge protection: its flag shows good", Part.BOARD, LIVE,
          "its window or flag",
          "It went back in dead, before the board was made live. Look through the closed cover.",
          needed=has_surge, after_circuits=True, short="surge protection"),
)  # fmt: skip


def measurement(part: Part, quantity: Quantity) -> Measurement:
    """Return the entry for a quantity at a part of the installation.

    Raises:
        KeyError: If that quantity is not measured there.
    """
    return _BY_KEY[part, quantity]


_BY_KEY = {(each.part, each.quantity): each for each in MEASUREMENTS}
