"""Ze: against what is declared, what it was at the survey, and the neutral beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import EARTH_BACK, RING_105, WHOLE_HOUSE_OFF, ZE_AGAIN
from records.judgement.compare import SLACK, outside
from records.judgement.concern import Concern
from records.judgement.facts import FEED, ORIGIN, Facts
from records.judgement.loop.loop_facts import (
    TT_LEAST,
    open_loop,
    too_good,
    unsteady,
    where_lifted,
)
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.uncertainty import guard
from records.judgement.wording import amount, rounded
from records.model.reading import Figure, Quantity, Reading, Slot, slot_of
from records.model.supply import Ground
from records.tables.demand import typical_ze
from records.tables.rounding import cut_down
from records.terms import Earthing, Sign, Stage, Verdict
from records.units import Unit

_SURVEY = 0.15
"""Ω that Ze may differ from what it was said to be: common practice."""
_SAME, _SAME_SHARE = 0.1, 0.5
"""Ω, and share of it, that the sheath of a TN-S supply may be better than the neutral: common
practice."""
_STOP = EARTH_BACK + do(
    Act.LEAVE_OFF, "Leave the outbuilding off until the network operator has explained it."
)


def most_ze(facts: Facts, _slot: Slot) -> Bound:
    """Return what the network operator declares for Ze, or usually does.

    With TT the loop has the house's own electrode in it: the RCD of the feed sets the limit.
    """
    origin = facts.record.origin
    if origin.earthing is None:
        return NotWorkedOut("Ze limit", "the earthing of the supply is not entered yet (Origin)")
    if origin.earthing is Earthing.TT:
        return _most_tt(facts)
    if origin.ze_ground is Ground.DECLARED and origin.ze is not None:
        note = "as the network operator declares it"
        return Limit(Sense.MOST, origin.ze, Unit.OHM, cite.DECLARED, note=note, usual=True)
    found = typical_ze(origin.earthing)
    note = f"the most that is usually declared for {origin.earthing.value}"
    return Limit(Sense.MOST, found.value, Unit.OHM, found.source, note=note, usual=True)


def _most_tt(facts: Facts) -> Bound:
    if facts.record.feed.rcd.residual is None:
        return None
    found = facts.design(FEED, What.ZS_LIMIT)
    if not isinstance(found, Worked):
        return None
    source = found.sources[0] if found.sources else cite.TT_RCD
    note = "50 V / IΔn of the RCD before the feed"
    most = found.value
    return Limit(Sense.MOST, most, Unit.OHM, source, digits=0, note=note)


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    if open_loop(facts, reading, figure) is not None:
        return  # that says it all
    if not facts.feed_is_tt:
        yield from _above_usual(facts, reading, figure, limit)
        return
    causes = (
        "the electrode of the house, or its conductor",
        "the earthing of the supply is another than entered",
        "a poor contact of the probe",
    )
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is Verdict.OUTSIDE:
            yield each._replace(causes=causes, next_check=_STOP, weight=60)
        else:
            yield each


def _above_usual(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    """More than is declared, which is no limit of any device: just above is near it."""
    if figure.sign is Sign.OVER or figure.value >= _NO_EARTH:
        yield Concern(
            "limit",
            Verdict.OUTSIDE,
            "That is no earth that a supply gives.",
            (
                "the supply's earth is broken or missing: a joint, a corroded sheath",
                "the earthing of the supply is another than entered",
                "the probe was on the side that was lifted",
            ),
            EARTH_BACK + WHOLE_HOUSE_OFF + RING_105,
            limit.source,
            60,
        )
        return
    value = figure.value
    if figure.sign is not Sign.EQUAL or value <= limit.value + SLACK:
        return  # a declared figure is a highest one: just under it is as good as far under
    near = value - guard(facts, reading).at(value, limit.value) <= limit.value + SLACK
    most = _allowed_by_device(facts)
    usual = "is declared" if facts.record.origin.ze_ground is Ground.DECLARED else _USUALLY
    how = "Just above" if near else "Above"
    says = f"{how} what {usual}" + (", within the meter's uncertainty." if near else ".")
    if most is not None and most > 0:
        says += f" The feed's own device would allow {amount(most, Unit.OHM)} here."
    held = most is not None and value <= most + SLACK
    ask = do(Act.ASK, "Ask the network operator what they declare for this supply.")
    yield Concern(
        "ze-above-usual" if held or near else "ze-above-device",
        Verdict.NEAR if near else Verdict.OUTSIDE,
        says,
        ()
        if near
        else (
            "the supply's earth is poor: a joint, a corroded sheath",
            "the earthing of the supply is another than entered",
            "a poor contact, or the probe was on the side that was lifted",
        ),
        (EARTH_BACK if held or near else _STOP) + where_lifted(reading) + ask,
        limit.source,
        10 if near else 50,
    )


USUAL = "ze-above-usual"
"""More than operators usually declare, and no more than the feed's own device allows."""
_USUALLY = "is usually declared"
_NO_EARTH = 5.0
"""Ω from which a TN supply has no earth worth the name: far above any that is declared, and in the
range of electrodes. Common practice."""


def _allowed_by_device(facts: Facts) -> float | None:
    """Return the Ze that the feed's device would allow, read cold [Ω]; None if not known."""
    limit = facts.design(FEED, What.ZS_LIMIT_COLD)
    slot = slot_of(Quantity.R1_R2, FEED, Stage.DEAD)
    feed = facts.plain_at(FEED, Quantity.R1_R2)
    if feed is None:
        feed = facts.meter_value(slot)
    if not isinstance(limit, Worked) or feed is None:
        return None
    return cut_down(limit.value - feed)


def _ze(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    nothing = open_loop(facts, reading, figure)
    if nothing is not None:
        yield nothing
        return
    yield from _too_low(facts, reading, figure)
    yield from _against_neutral(facts, reading, figure)
    origin = facts.record.origin
    if origin.ze is None or origin.ze_ground is not Ground.MEASURED:
        return
    gap = outside(figure, origin.ze, origin.ze, max(_SURVEY, 0.3 * origin.ze))
    now = rounded(abs(gap), Unit.OHM)
    survey = f"than at the survey, where it was {amount(origin.ze, Unit.OHM)}."
    if gap > 0:
        yield Concern(
            "ze-changed",
            Verdict.UNLIKELY,
            f"Ze is {now} more {survey}",
            (
                "trouble in the supply's earth or neutral",
                "a loose earthing conductor",
                "another tester or method",
            ),
            _STOP + where_lifted(reading),
            cite.COMMON,
            60,
        )
    elif gap < 0:
        yield Concern(
            "ze-changed",
            Verdict.UNLIKELY,
            f"Ze is {now} less {survey}",
            (
                "the earthing conductor was still on its bar: parallel paths",
                "a mistake at the survey",
            ),
            EARTH_BACK + where_lifted(reading) + ZE_AGAIN,
            cite.COMMON,
            10,
        )


def _too_low(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    if facts.feed_is_tt and figure.sign is not Sign.OVER and figure.value < TT_LEAST:
        yield Concern(
            "tt-too-low",
            Verdict.UNLIKELY,
            f"With TT the loop goes by an electrode: under {TT_LEAST:g} Ω it is joined to another "
            "earth. Low is not good here.",
            (
                "the earthing conductor was still on its bar: pipes, other earths",
                "the supply isn't TT: ask the network operator",
            ),
            EARTH_BACK + where_lifted(reading) + ZE_AGAIN,
            cite.bs7671("Regulations 411.5 and 542.1"),
            50,
        )
    else:
        yield from too_good(reading, figure)


def _against_neutral(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """With TN-C-S both loops of the supply are the same; with TN-S the sheath adds to its own."""
    earthing = facts.record.origin.earthing
    slot = facts.slot_of(ORIGIN, Quantity.FAULT_LN)
    beside = facts.last(slot) if slot is not None else None
    current = facts.plain_at(ORIGIN, Quantity.FAULT_LN)
    if not current or current < 0 or earthing in (None, Earthing.TT) or beside is None:
        return
    neutral = facts.record.origin.u0 / current / 1000
    allowed = _apart(facts, reading, figure.value, beside, neutral)
    if earthing is not Earthing.TN_C_S:
        allowed = max(allowed, _SAME, _SAME_SHARE * neutral)
    gap = outside(figure, neutral, neutral, allowed)
    if not gap or (gap > 0 and earthing is not Earthing.TN_C_S):
        return
    low = gap < 0
    yield Concern(
        "ze-against-neutral",
        Verdict.UNLIKELY,
        f"{amount(current, Unit.KILOAMPERE)} between L and N is a loop of "
        f"{rounded(neutral, Unit.OHM)}; Ze is {rounded(abs(gap), Unit.OHM)} "
        f"{'less' if low else 'more'}. {_SUPPLY[earthing]}",
        (
            "the earthing conductor was still on its bar: parallel paths",
            "the fault current was read elsewhere, or on another range",
        )
        if low
        else (
            "a poor joint where neutral and earth meet at the intake",
            "the supply isn't TN-C-S",
            "the fault current was read on another range",
        ),
        (EARTH_BACK + where_lifted(reading) + ZE_AGAIN if low else _STOP + where_lifted(reading)),
        cite.LOOP_METHOD,
        20 if low else 45,
    )


def _apart(facts: Facts, reading: Reading, ze: float, beside: Reading, neutral: float) -> float:
    """Return what both loops may differ by [Ω]: the uncertainties of two readings, two digits."""
    one = guard(facts, reading).at(ze, ze)
    other = guard(facts, beside).at(neutral, neutral)
    return math.hypot(one, other) + _DIGITS


_DIGITS = 0.02
"""Ω: the last digit of two readings (common practice)."""
_SUPPLY = {
    Earthing.TN_C_S: "With TN-C-S neutral and earth are one conductor up to the intake.",
    Earthing.TN_S: "With TN-S the earth is rarely better than the neutral.",
}


def ze_doubted(facts: Facts) -> bool:
    """Whether the reading of Ze is outside its limit or contradicts what stands beside it."""
    slot = facts.slot_of(ORIGIN, Quantity.ZE)
    last = facts.last(slot) if slot is not None else None
    if slot is None or last is None or not isinstance(last.taken, Figure):
        return False
    bound = most_ze(facts, slot)
    found = list(_ze(facts, last, last.taken))
    if isinstance(bound, Limit):
        found += _beside(facts, last, last.taken, bound)
    return any(each.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY) for each in found)


ZE = Rule(most_ze, _ze, _beside)
