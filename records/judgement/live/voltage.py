"""The voltages at the sub-board: a band for those of the line, next to nothing for the neutral."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.advice.phrases import CROSSED, LOADS_OFF, NO_EARTH, OPEN_PEN, RIGHT_NOW
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import amount
from records.model.reading import Figure, Quantity, Reading, Slot
from records.tables.demand import supply_tolerance
from records.terms import Earthing, Sign, Verdict
from records.units import Unit

_FEW = 5.0
"""V between neutral and earth, with few loads on: common practice."""
_STREET = 25.0
"""V that the neutral of a sound supply is off the ground at most: common practice."""
_SLACK = 3.0
"""V that three readings one after the other may not fit by: common practice."""
NO_VOLTAGE, _TWO_LINES = 0.2, 1.5
"""Of U0: less is no voltage, more is that between two lines."""
_PEN = "a broken neutral of the supply (an open PEN)"
Meaning = tuple[tuple[str, ...], Advice, int]
"""Causes with the likeliest first, next check, weight."""


def _band(facts: Facts, _slot: Slot) -> Bound:
    u0 = facts.record.origin.u0
    above, below = supply_tolerance("above"), supply_tolerance("below")
    return Limit(
        Sense.BAND,
        (1 - below.value) * u0,
        Unit.VOLT,
        above.source,
        upper=(1 + above.value) * u0,
        digits=1,
        note="nominal voltage, 10 % up and 6 % down",
    )


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    u0 = facts.record.origin.u0
    close = figure.sign is Sign.EQUAL and 0.9 * u0 <= figure.value < limit.value
    for found in beside_limit(facts, reading, figure, limit):
        each = found._replace(says=f"{found.says} {_AT_TERMINALS}") if close else found
        to_earth = reading.slot.quantity is Quantity.VOLTAGE_LE and figure.value < limit.value
        if to_earth and not _as_to_neutral(facts, figure):
            causes, check, weight = _to_earth(facts)
            each = each._replace(pattern="earth-missing")
        else:
            causes, check, weight = _to_neutral(u0, figure)
            if figure.value > _TWO_LINES * u0:
                each = each._replace(pattern="two-lines")
            # An electrode of the outbuilding's own doesn't help: the metal of the house is live.
            # Within ± 10 % it is no sign: from there on open-PEN protection itself acts (BS 7671,
            # Regulation 722.411.4.1: 207 V and 253 V, from memory).
            if _pme(facts) and not close and NO_VOLTAGE * u0 <= figure.value <= _TWO_LINES * u0:
                yield each._replace(
                    pattern="pen-suspected",
                    causes=(_PEN, *causes[:-1]),
                    weight=75,
                    next_check=OPEN_PEN,
                )
                continue
        yield each._replace(causes=causes, next_check=check, weight=weight)


def _as_to_neutral(facts: Facts, figure: Figure) -> bool:
    """Return whether L-N is as low as L-E, so that it is the supply and not the earth."""
    line = facts.plain_at(BOARD, Quantity.VOLTAGE)
    return (
        line is not None
        and line >= NO_VOLTAGE * facts.record.origin.u0
        and (abs(figure.value - line) <= _FEW)
    )


_AT_TERMINALS = (
    "BS EN 50160 allows 10 % down; the regulations allow 6 %, at the supply's terminals, and the "
    "feed takes its share."
)


def _to_neutral(u0: float, figure: Figure) -> Meaning:
    if figure.value < NO_VOLTAGE * u0:
        return _OFF, _NOT_DEAD, 40
    if figure.value > _TWO_LINES * u0:
        causes = ("two phases: a line where the neutral should be", "a lost neutral of three")
        return causes, _OFF_AT_ONCE, 70
    causes = ("the setting of the supply, or a generator near by", "a bad joint of the neutral")
    if figure.value < u0:
        causes = ("heavy load on a long feed", "a bad joint of line or neutral")
    return (*causes, "a broken neutral of the supply"), _STILL_OFF, 40


_OFF = (
    "it isn't switched on, or an upstream device is open",
    "a fuse or a lead of the tester",
    "a broken line or neutral in the feed",
)
_NOT_DEAD = do(Act.LOOK, "This proves nothing dead: only a proved two-pole indicator does.") + do(
    Act.ASK,
    "See that the feed is on at the house. If it is, the certifier looks upstream, not you.",
)
_OFF_AT_ONCE = do(Act.LEAVE_OFF, "Off at once and locked: it destroys and burns.") + do(
    Act.ASK, "Tell the certifier. They or the network operator (105) look upstream, not you."
)
_STILL_OFF = LOADS_OFF + do(
    Act.ASK, "Still off: the certifier reads at the origin. There too: network operator (105)."
)


def _to_earth(facts: Facts) -> Meaning:
    """Too little from line to earth: no earth, or line and neutral the wrong way round."""
    neutral = facts.plain_at(BOARD, Quantity.VOLTAGE_NE)
    causes = ("the earth of the outbuilding isn't joined", "line and neutral are crossed")
    if neutral is not None and neutral > facts.record.origin.u0 / 2:
        causes = causes[::-1]
    return (*causes, "a bad neutral, or heavy load on a long feed"), NO_EARTH, 50


def _apart(facts: Facts, _reading: Reading, figure: Figure) -> Iterator[Concern]:
    """L-E beside L-N: what parts them stands between neutral and earth."""
    line = facts.plain_at(BOARD, Quantity.VOLTAGE)
    if line is None or figure.sign is not Sign.EQUAL:
        return
    gap = abs(figure.value - line)
    if gap <= _FEW:
        return
    neutral = facts.plain_at(BOARD, Quantity.VOLTAGE_NE)
    says = f"L-N is {amount(line, Unit.VOLT, 0)}, {gap:.0f} V off: neutral and earth differ."
    check = do(Act.OPEN, "Tighten the neutral and earth terminals of the feed.") + do(
        Act.ASK,
        "Cut-out, meter and tails are not yours: if it stays, network operator (105).",
    )
    causes = ("a bad joint of neutral or earth", "heavy load on a long feed")
    if neutral is not None and gap > neutral + _SLACK:
        says = (
            f"L-N is {amount(line, Unit.VOLT, 0)}, and N-E of {amount(neutral, Unit.VOLT, 1)} "
            "can't be what parts them."
        )
        causes = ("one of the three was read at another time or place", "a probe without contact")
        check = do(Act.AGAIN, "Read all three again, one after the other, with the same loads on.")
    yield Concern("voltages-apart", Verdict.UNLIKELY, says, causes, check, cite.COMMON, 25)


def _few(_facts: Facts, _slot: Slot) -> Bound:
    return Limit(Sense.MOST, _FEW, Unit.VOLT, cite.COMMON, digits=0, note="with few loads on")


def _neutral(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if figure.value > facts.record.origin.u0 / 2:
            yield _on_the_neutral(facts, each)
            continue
        causes, check = _lifted(facts, figure.value)
        weight = 70 if causes[0] == _PEN else 45
        yield each._replace(
            pattern="neutral-lifted", weight=weight, causes=causes, next_check=check
        )


def _on_the_neutral(facts: Facts, each: Concern) -> Concern:
    """The voltage of a line on the neutral: L-N tells a cross from a neutral that floats."""
    line = facts.plain_at(BOARD, Quantity.VOLTAGE)
    causes = (
        "line and neutral crossed in the feed or upstream",
        "the neutral is broken, and a load lifts it",
    )
    if line is not None and line < facts.record.origin.u0 / 2:
        causes = causes[::-1]
    return each._replace(
        pattern="supply-reversed",
        weight=60,
        causes=causes,
        says=f"{each.says} That is the voltage of a line, on the neutral.",
        next_check=CROSSED,
    )


def _lifted(facts: Facts, volts: float) -> tuple[tuple[str, ...], Advice]:
    joint = "a bad joint of the neutral, between the intake and here"
    load = "heavy load on a long feed"
    look = (
        LOADS_OFF
        + RIGHT_NOW
        + do(Act.OPEN, "Tighten the neutral's terminals of the feed.")
        + do(Act.ASK, "If it still stays, network operator (105).")
    )
    no_earth = NO_EARTH + do(Act.AGAIN, "Only then switch the loads off and retest.")
    unjoined = "the earth of the outbuilding isn't joined"
    if not _pme(facts):
        if volts >= _STREET:  # no load drops as much: the earth floats, or the neutral does
            return (unjoined, "a broken neutral of the supply", joint), no_earth
        return (joint, load, "a broken neutral of the supply"), look
    if facts.tt_island:
        # Its earth is the ground itself, so N-E shows how far the supply's neutral stands off it:
        # a few volts do no harm, and come with the load of the street.
        if volts < _STREET:
            return (joint, load, "the load of the street lifts the neutral", _PEN), look
        return (_PEN, joint, load), OPEN_PEN
    # Neutral and earth are one up to the intake: a break before it lifts both, and N-E is nought.
    return (unjoined, joint, load), no_earth


def _pme(facts: Facts) -> bool:
    return facts.record.origin.earthing is Earthing.TN_C_S


VOLTAGE = Rule(_band, beside=_beside)
TO_EARTH = Rule(_band, _apart, _beside)
NEUTRAL = Rule(_few, beside=_neutral)
