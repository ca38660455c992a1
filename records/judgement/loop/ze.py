"""Ze: against what is declared, what it was at the survey, and the neutral beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.compare import outside
from records.judgement.concern import Concern
from records.judgement.facts import FEED, ORIGIN, Facts
from records.judgement.loop.loop_facts import TT_LEAST, open_loop, too_good, unsteady
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, as_tabulated, beside_limit
from records.judgement.wording import amount, rounded
from records.model.reading import Figure, Quantity, Reading, Slot
from records.model.supply import Ground
from records.tables.demand import typical_ze
from records.terms import Earthing, Sign, Verdict
from records.units import Unit

_SURVEY = 0.15
"""Ω that Ze may differ from what it was said to be: common practice."""
_SAME, _SAME_SHARE = 0.1, 0.5
"""Ω, and share of it, that two readings of the same small loop may differ: common practice."""
_STOP = "Don't energise until it is explained; the network operator has an emergency number."


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
        return Limit(Sense.MOST, origin.ze, Unit.OHM, cite.DECLARED, note=note)
    found = typical_ze(origin.earthing)
    note = f"the most that is usually declared for {origin.earthing.value}"
    return Limit(Sense.MOST, found.value, Unit.OHM, found.source, note=note)


def _most_tt(facts: Facts) -> Bound:
    if facts.record.feed.rcd.residual is None:
        return None
    found = facts.design(FEED, What.ZS_LIMIT)
    if not isinstance(found, Worked):
        return None
    source = found.sources[0] if found.sources else cite.TT_RCD
    note = "50 V / IΔn of the RCD before the feed"
    most = as_tabulated(found.value)
    return Limit(Sense.MOST, most, Unit.OHM, source, digits=0, note=note)


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    tt = facts.feed_is_tt
    causes = (
        "the electrode of the house, or its conductor" if tt else "the supply's earth is poor or "
        "broken: a joint, a corroded sheath",
        "the earthing of the supply is another than entered", "a poor contact of the probe",
    )  # fmt: skip
    for each in beside_limit(facts, reading, figure, limit):
        if open_loop(facts, reading, figure) is not None:
            continue  # that says it all
        if each.verdict is Verdict.OUTSIDE:
            yield replace(each, causes=causes, next_check=_STOP, weight=60)
        else:
            yield each


def _ze(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    nothing = open_loop(facts, reading, figure)
    if nothing is not None:
        yield nothing
        return
    yield from _too_low(facts, figure)
    yield from _against_neutral(facts, figure)
    origin = facts.record.origin
    if origin.ze is None or origin.ze_ground is not Ground.MEASURED:
        return
    gap = outside(figure, origin.ze, origin.ze, max(_SURVEY, 0.3 * origin.ze))
    now = rounded(abs(gap), Unit.OHM)
    survey = f"than at the survey, where it was {amount(origin.ze, Unit.OHM)}."
    if gap > 0:
        yield Concern(
            "ze-changed", Verdict.UNLIKELY, f"Ze is {now} more {survey}",
            ("trouble in the supply's earth or neutral", "a loose earthing conductor",
             "another tester or method"),
            _STOP, cite.COMMON, 60,
        )  # fmt: skip
    elif gap < 0:
        yield Concern(
            "ze-changed", Verdict.UNLIKELY, f"Ze is {now} less {survey}",
            ("the earthing conductor was still on its bar: parallel paths",
             "a mistake at the survey"),
            _OFF, cite.COMMON, 10,
        )  # fmt: skip


_OFF = (
    "Whole installation isolated and locked, only then its earthing conductor off; repeat; put it "
    "back first of all."
)


def _too_low(facts: Facts, figure: Figure) -> Iterator[Concern]:
    if facts.feed_is_tt and figure.sign is not Sign.OVER and figure.value < TT_LEAST:
        yield Concern(
            "tt-too-low", Verdict.UNLIKELY,
            f"With TT the loop goes by an electrode: under {TT_LEAST:g} Ω it is joined to another "
            "earth. Low is not good here.",
            ("the earthing conductor was still on its bar: pipes, other earths",
             "the supply isn't TT"),
            f"{_OFF} Look at the intake, and ask how the supply is earthed.",
            cite.bs7671("Regulations 411.5 and 542.1"), 50,
        )  # fmt: skip
    else:
        yield from too_good(figure)


def _against_neutral(facts: Facts, figure: Figure) -> Iterator[Concern]:
    """With TN-C-S both loops of the supply are the same; with TN-S the sheath adds to its own."""
    earthing = facts.record.origin.earthing
    current = facts.plain_at(ORIGIN, Quantity.FAULT_LN)
    if not current or current < 0 or earthing in (None, Earthing.TT):
        return
    neutral = facts.record.origin.u0 / current / 1000
    gap = outside(figure, neutral, neutral, max(_SAME, _SAME_SHARE * neutral))
    if not gap or (gap > 0 and earthing is not Earthing.TN_C_S):
        return
    low = gap < 0
    yield Concern(
        "ze-against-neutral", Verdict.UNLIKELY,
        f"{amount(current, Unit.KILOAMPERE)} between L and N is a loop of "
        f"{rounded(neutral, Unit.OHM)}; Ze is {rounded(abs(gap), Unit.OHM)} "
        f"{'less' if low else 'more'}. {_SUPPLY[earthing]}",
        ("the earthing conductor was still on its bar: parallel paths",
         "the fault current was read elsewhere, or on another range")
        if low
        else ("a poor joint where neutral and earth meet at the intake",
              "the supply isn't TN-C-S", "the fault current was read on another range"),
        _OFF if low else _STOP, cite.LOOP_METHOD, 20 if low else 45,
    )  # fmt: skip


_SUPPLY = {
    Earthing.TN_C_S: "With TN-C-S neutral and earth are one conductor up to the intake.",
    Earthing.TN_S: "With TN-S the earth is seldom better than the neutral.",
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
