"""What the symbols and our own words mean: one table for the help and for the document."""

from __future__ import annotations

from typing import NamedTuple


class Term(NamedTuple):
    """One word or symbol, spelt out."""

    word: str
    meaning: str


TRADE: tuple[Term, ...] = (
    Term("Ze", "External earth fault loop impedance: the part of the loop outside the house."),
    Term("Zdb", "Earth fault loop impedance at the sub-board: Ze and R1+R2 of the feed."),
    Term("Zs", "Earth fault loop impedance at a point: Zdb and R1+R2 of the circuit."),
    Term("R1+R2", "Resistance of line and cpc together, from the board to a point."),
    Term("R1+Rn", "Resistance of line and neutral together."),
    Term("r1, rn, r2", "Line, neutral and cpc of a ring, each measured end to end."),
    Term("cross-connected", "Ring test with the legs joined crosswise, or “figure of eight”."),
    Term("cpc", "Circuit protective conductor: the earth conductor of a circuit."),
    Term("Ib", "Design current: what the circuit carries in normal use."),
    Term("In", "Rated current of the protective device, from its label."),
    Term("Iz", "Current-carrying capacity of the cable as it is laid. Ib ≤ In ≤ Iz."),
    Term("ΔU", "Voltage drop from the origin to a point."),
    Term("Ipf", "Highest prospective fault current where the device is."),
    Term("L-N, L-E, L-cpc", "Between line and neutral, line and earth, line and the cpc."),
    Term("U0", "Nominal voltage between line and earth: 230 V."),
    Term("PSCC", "Prospective short-circuit current, line to neutral."),
    Term("PEFC", "Prospective earth fault current, line to earth."),
    Term("RCD, RCBO", "Residual current device; one with a circuit-breaker built in."),
    Term("IΔn", "Rated residual current of an RCD, such as 30 mA."),
    Term("RA", "Resistance of the earth electrode and its earthing conductor."),
    Term("insulation resistance", "Between conductors that must not touch, at 250 or 500 V d.c."),
    Term("TN-S", "The supply has a separate earth conductor."),
    Term("TN-C-S (PME)", "The supply combines neutral and earth up to the intake."),
    Term("TT", "No earth from the supply: the installation has an earth electrode."),
    Term(
        "extraneous-conductive-part",
        "Metal that can bring in a potential: a pipe, steel in the ground.",
    ),
    Term("main protective bonding", "Joins extraneous-conductive-parts to the main earth."),
    Term("SWA", "Steel-wire armoured cable."),
)
"""The trade's symbols and words (BS 7671 Part 2 and IET Guidance Note 3, from memory)."""

OURS: tuple[Term, ...] = (
    Term("origin", "The board at the house that the feed starts from."),
    Term("feed", "The cable from the house to the sub-board: a distribution circuit."),
    Term("run", "One length of one cable in one set of surroundings."),
    Term("board", "The sub-board (consumer unit) of the outbuilding."),
    Term("walk", "The ten steps, in the order of the work."),
    Term("rail", "The list of the steps at the left edge."),
    Term("bench", "The three steps where readings are taken."),
    Term("before covering", "While cables and boxes can still be seen."),
    Term("working", "How a figure was calculated: formula, values put in, sources."),
    Term("within", "Shown to be inside the limit."),
    Term("near limit", "Inside by less than the meter's uncertainty, or for the certifier."),
    Term("outside", "Over or under the limit."),
    Term("unlikely", "Inside the limit, but another reading or the cable says otherwise."),
    Term("not taken", "Nothing is entered yet. A blank is never a pass."),
    Term("not needed", "Set aside, with the reason."),
    Term("finding", "What somebody has to deal with: outside, unlikely, near limit, not taken."),
    Term("fingerprint", "Short code of all that a record holds; any change makes another."),
    Term("certifier", "The electrician who inspects, tests and signs."),
)
"""Words that Farboard uses in its own way."""
