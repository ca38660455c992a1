"""What a low insulation reading may mean, by the pair and by how low it is."""

from __future__ import annotations

from records.judgement.advice import NONE, Act, Advice, do
from records.judgement.advice.phrases import SPLIT_IF
from records.judgement.cable_path import wet_place
from records.judgement.fabric.behind import look_along, split_at
from records.judgement.facts import Facts
from records.model.reading import Figure, Quantity, Slot, slot_of
from records.terms import Part, Stage

PAIRS = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
NEW = 100.0
"""MΩ that new, dry wiring shows at least: common practice."""
_DEAD_SHORT = 0.001
"""MΩ below which no load in place explains a reading: common practice."""
_JOINED = 0.1
"""MΩ below which neutral and earth are joined somewhere rather than leaky: common practice."""

Meaning = tuple[tuple[str, ...], Advice]
"""Causes, the likeliest first, and the next check."""


def pair(slot: Slot, quantity: Quantity, stage: Stage | None = None) -> Slot:
    """Return the slot of another pair of the same circuit or feed."""
    return slot_of(quantity, slot.place, stage or slot.stage)


def meaning(facts: Facts, slot: Slot, figure: Figure) -> Meaning:
    """Return causes and next check for a low pair, by what the other pairs show."""
    if slot.quantity is Quantity.IR_NE:
        return _neutral(facts, slot, figure)
    if slot.quantity is Quantity.IR_LN:
        return _lines(facts, slot, figure)
    route = look_along(facts.record, slot.place)
    screw, crushed = "a screw or nail touches line and metal or cpc", "a crushed cable"
    if _shorted(figure):
        link = "the link of the continuity test is still in"
        out = do(Act.UNLINK, "Take the links out and repeat.")
        return (link, screw, crushed), out + SPLIT_IF + route
    leaky = (wet_place(facts, slot.place), "surge protection or electronics still connected")
    return (screw, *leaky, crushed), route + split_at(facts.record, slot.place)


def _neutral(facts: Facts, slot: Slot, figure: Figure) -> Meaning:
    if figure.value >= _JOINED:
        return (
            (
                wet_place(facts, slot.place),
                "surge protection or electronics still connected",
                "neutral touches a box screw, or a nail is in it",
            ),
            do(Act.LIFT, "Loads and electronics out, this neutral out of its bar, and repeat.")
            + SPLIT_IF,
        )
    link = ("the link of the continuity test is still in",) if _shorted(figure) else ()
    unit = "the neutral of a connection unit is on its cpc"
    return (
        (
            "the main switch is closed: the supply's neutral is earthed",
            *link,
            "the neutral is still in its bar",
            "neutral touches a box screw, or a nail is in it",
            *((unit,) if slot.place.part is Part.CIRCUIT else ()),
        ),
        do(Act.LOOK, "Stop: it may not be isolated.")
        + (do(Act.UNLINK, "Take the links out.") if link else NONE)
        + do(Act.LIFT, "Main switch off, this neutral out of its bar, and repeat."),
    )


def _lines(facts: Facts, slot: Slot, figure: Figure) -> Meaning:
    feed = slot.place.part is Part.FEED
    if _shorted(figure):
        what = "the board's surge protection" if feed else "a load, lamp or driver"
        return (
            (
                f"{what} is still connected",
                "the crossed legs or the link of a test are still in",
                "a crushed cable",
                "conductors crossed at a box",
                "a nail through line and neutral",
            ),
            do(Act.UNLINK, "Take every link out.")
            + do(Act.LIFT, "Loads out too, and repeat.")
            + SPLIT_IF,
        )
    if feed:
        return (
            (
                "surge protection, a meter or the board behind it is still connected",
                wet_place(facts, slot.place),
            ),
            do(Act.LIFT, "Main switch of the sub-board off, surge protection out, and repeat."),
        )
    sound = all(
        other is not None and other.value >= NEW
        for other in (facts.figure(pair(slot, each)) for each in PAIRS if each != slot.quantity)
    )
    return (
        (
            "a load, lamp, driver, heating element or neon is still connected",
            wet_place(facts, slot.place),
        ),
        do(
            Act.LIFT,
            "Loads, lamps and drivers out, and repeat"
            + (": the other pairs are high, so the cable is likely sound." if sound else "."),
        ),
    )


def _shorted(figure: Figure) -> bool:
    return figure.value < _DEAD_SHORT
