"""Checks that are answered with right or wrong."""

from __future__ import annotations

from records.judgement import cite
from records.judgement.advice import NONE, Act, Advice, do
from records.judgement.advice.phrases import CHANGE_RCD, CROSSED, EACH_NEUTRAL, LOADS_OFF, RIGHT_NOW
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.model.reading import Quantity, Slot
from records.terms import Part, Verdict
from records.units import Unit

_SOURCES = {
    Quantity.POLARITY: cite.POLARITY,
    Quantity.EARTH_BACK: cite.LOOP_METHOD,
    Quantity.ELECTRODE_BACK: cite.LOOP_METHOD,
    Quantity.ELECTRODE_LOOP_BACK: cite.LOOP_METHOD,
    Quantity.PUT_BACK: cite.COMMON,
    Quantity.RCD_BUTTON: cite.FUNCTION,
    Quantity.SURGE: cite.INSULATION,
    Quantity.FUNCTION: cite.FUNCTION,
    Quantity.SWITCHED: cite.POLARITY,
    Quantity.RCD_HALF: cite.RCD_CURRENT,
    Quantity.RCD_BEFORE: cite.RCD_IN_SERIES,
    Quantity.AFDD_BUTTON: cite.FUNCTION,
    Quantity.TIPS_JOINED: cite.INSULATION_LEADS,
    Quantity.TIPS_APART: cite.INSULATION_LEADS,
    Quantity.RING_CABLES: cite.RETEST,
}
_WRONG: dict[tuple[Quantity, Part | None], tuple[tuple[str, ...], Advice]] = {
    (Quantity.POLARITY, Part.CIRCUIT): (
        (
            "a switch breaks the neutral, or is bridged",
            "line and neutral crossed at a point",
            "a two-way strapper on the wrong terminal",
        ),
        do(Act.OPEN, "Open the switch and the point; put them right."),
    ),
    (Quantity.POLARITY, Part.BOARD): (
        ("line and neutral crossed in the feed or upstream",),
        CROSSED,
    ),
    (Quantity.POLARITY, Part.ORIGIN): (
        ("line and neutral crossed before the house board", "the supply's neutral is open"),
        do(Act.LEAVE_OFF, "Everything off, locked off at a double-pole switch; touch no metal.")
        + do(Act.ASK, "The intake isn't yours: ring the network operator (105 in Great Britain)."),
    ),
    **{
        (each, None): (
            ("the electrode's conductor is still off its bar",),
            do(Act.LEAVE_OFF, "Leave everything off. Put the electrode's conductor back, tight."),
        )
        for each in (Quantity.ELECTRODE_BACK, Quantity.ELECTRODE_LOOP_BACK)
    },
    (Quantity.EARTH_BACK, None): (
        ("the earthing conductor is still off its bar",),
        do(Act.LEAVE_OFF, "Leave everything off. Put the earthing conductor back, tight."),
    ),
    (Quantity.PUT_BACK, None): (
        ("a link is still in", "an earth, a bond or a neutral is still off"),
        do(Act.LEAVE_OFF, "Leave everything off.")
        + do(Act.OPEN, "Put it back and tighten it; then answer again."),
    ),
    (Quantity.RCD_BUTTON, None): (
        ("the mechanism is stuck, or the RCD isn't supplied",),
        CHANGE_RCD,
    ),
    (Quantity.SURGE, None): (
        ("a cartridge left out or spent",),
        do(Act.CHANGE, "Put the cartridge back; if its flag shows spent, change it."),
    ),
    (Quantity.FUNCTION, None): (
        ("wired wrongly, or an isolator that doesn't cut every pole",),
        do(Act.OPEN, "Find it and put it right."),
    ),
    (Quantity.SWITCHED, None): (
        ("a switch in the neutral", "a bridge past the switch", "a two-way strapper wrong"),
        do(Act.OPEN, "Open the switch and the lamp: the line is what is switched."),
    ),
    (Quantity.RCD_IN_LOOP, None): (
        ("what leaks already adds to the test current", "a heater or a filter on the circuit"),
        LOADS_OFF + do(Act.ENTER, "Else enter Zdb + R1+R2 as Zs, marked as calculated."),
    ),
    (Quantity.RCD_HALF, None): (
        (
            "loads or filters leak already",
            "a joint of neutral and earth",
            "a damp heating element",
            "an RCD that is too keen",
        ),
        LOADS_OFF + RIGHT_NOW + EACH_NEUTRAL + do(Act.AGAIN, "Then a ramp test."),
    ),
    (Quantity.RCD_BEFORE, None): (
        (
            "no delay in the one before: a larger IΔn alone doesn't make it wait",
            "it isn't the delayed one that it was taken for",
        ),
        do(Act.LOOK, "Read the label of the one before for the S in a box, covers on.")
        + do(Act.ASK, "The designer decides."),
    ),
    (Quantity.RCD_LOADED, None): (
        (
            "the neutral is on another RCD's side, or borrowed from another circuit",
            "neutral and earth are joined: a breaker leaves the neutral on",
            "a load leaks",
        ),
        do(Act.LIFT, "Loads out. Read Rn+R2 and insulation N-E of this circuit.")
        + do(Act.AGAIN, "Then repeat with each load alone."),
    ),
    (Quantity.RCD_ALONE, None): (
        (
            "neutral and earth are joined on a circuit: a breaker leaves the neutral on",
            "a fault in the board itself, before the breakers",
            "an RCD that is too keen",
        ),
        EACH_NEUTRAL,
    ),
    (Quantity.TIPS_APART, None): (
        ("damp or dirty leads, tips or meter", "a lead with damaged insulation"),
        do(Act.AGAIN, "Dry, clean leads, tips apart: over range. Then repeat what read low."),
    ),
    (Quantity.RING_CABLES, None): (
        ("a screw or nail through the cable", "a conductor broken where it was bent or stripped"),
        do(Act.LOOK, "Look along this cable while it can be seen.")
        + do(Act.CHANGE, "Change the cable before the wall is covered."),
    ),
    (Quantity.TIPS_JOINED, None): (
        (
            "an open lead or a blown fuse in a probe",
            "the leads are in the wrong sockets",
            "the tester is set to another range",
        ),
        do(Act.AGAIN, "New leads; repeat the whole series since the last good check."),
    ),
    (Quantity.AFDD_BUTTON, None): (
        ("it isn't supplied", "its electronics failed"),
        do(Act.ASK, "Do as its maker says.")
        + do(Act.LEAVE_OFF, "Else lock it off: its supply side stays live.")
        + do(Act.CHANGE, "Change the AFDD."),
    ),
}
_DOUBTED = (Quantity.RCD_IN_LOOP, Quantity.RCD_HALF)
"""What no edition asks to hold: it says something is odd, not that it must be put right."""


def should(slot: Slot) -> Limit:
    """Return what a check has to be."""
    return Limit(Sense.SHOULD, 1.0, Unit.NUMBER, _SOURCES.get(slot.quantity, cite.COMMON))


def found_wrong(facts: Facts, slot: Slot) -> Concern:
    """Return the concern about a check that is not correct."""
    key = (slot.quantity, slot.place.part)
    causes, check = _WRONG.get(key) or _WRONG.get((slot.quantity, None), ((), NONE))
    source, weight = should(slot).source, 60 if slot.quantity in _GRAVE else 20
    verdict, says = Verdict.OUTSIDE, "It has to be put right."
    if slot.quantity in _DOUBTED:
        verdict, says = Verdict.UNLIKELY, "Something else flows to earth already."
    elif slot.quantity is Quantity.RCD_BEFORE and not _delayed_before(facts):
        verdict = Verdict.NEAR
        says = "Both open, as two without a delay between them will: the certifier decides."
    return Concern(_name(slot), verdict, says, causes, check, source, weight)


_GRAVE = (
    Quantity.POLARITY,
    Quantity.EARTH_BACK,
    Quantity.SWITCHED,
    Quantity.RING_CABLES,
    Quantity.ELECTRODE_BACK,
    Quantity.ELECTRODE_LOOP_BACK,
)


def _name(slot: Slot) -> str:
    return f"wrong: {slot.quantity.value}"


def _delayed_before(facts: Facts) -> bool:
    """Whether the RCD before those of the circuits is entered as delayed."""
    board, feed = facts.record.board.rcd, facts.record.feed.rcd
    return board.delayed if board.residual is not None else feed.delayed
