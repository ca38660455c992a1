"""Earth fault loop readings: judged by the table, by the cold limit, and worked out exactly."""

from __future__ import annotations

from collections.abc import Iterator

from records.evidence import Source
from records.expected.results import NotWorkedOut, Result, What, Worked
from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.advice.phrases import CERTIFIER
from records.judgement.compare import SLACK, meets, outside
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.loop.loop_facts import high_range, open_loop, rcd_in_path
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, beside_limit
from records.judgement.uncertainty import distance, guard
from records.judgement.wording import number
from records.model.reading import Figure, Quantity, Reading, Slot
from records.tables.rounding import cut_down
from records.terms import Sign, Verdict
from records.units import Unit


def loop_limit(facts: Facts, slot: Slot, what: What) -> Result:
    """Return a limit of a loop reading; that at the sub-board is the feed's."""
    found = facts.design(slot.place, what)
    if slot.quantity is Quantity.ZDB and isinstance(found, NotWorkedOut) and not facts.tt_island:
        feed = facts.design(FEED, what)
        return feed if isinstance(feed, Worked) or (FEED, what) in facts.expected.design else found
    return found


def most_loop(facts: Facts, slot: Slot) -> Bound:
    """Return the limit that a loop reading is held against: the cold one, or that of the RCD."""
    table = loop_limit(facts, slot, What.ZS_LIMIT)
    if slot.quantity is Quantity.ZDB and facts.tt_island:
        table = facts.design(BOARD, What.RA_LIMIT)
    if isinstance(table, NotWorkedOut):
        return table
    cold = loop_limit(facts, slot, What.ZS_LIMIT_COLD)
    exact = loop_limit(facts, slot, What.ZS_LIMIT_EXACT)
    if isinstance(cold, NotWorkedOut):
        note = _in_brackets(table.note)
        most = table.value
        return Limit(Sense.MOST, most, Unit.OHM, _source(table), digits=0, note=note)
    note = f"0.8 of the tabulated {_ohms(table)}; {_which(cold, exact)}"
    return Limit(Sense.MOST, cold.value, Unit.OHM, _source(table), note=note)


def _which(cold: Worked, exact: Result) -> str:
    """Return what the limit that is worked out exactly has to say beside the cold one."""
    if isinstance(exact, NotWorkedOut):
        return "the full one can't be calculated"
    most = cut_down(exact.value)
    said = f"{number(most, 2)} Ω, at operating temperature, the certifier decides"
    return f"from there to {said}" if most > cold.value + SLACK else f"over {said}"


def three_ways(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    """Return what the table, the cold limit and the exact one say together.

    Over the table is outside. Between the cold limit and the table it is near the limit if it
    holds when worked out exactly, and outside if it doesn't, or can't be worked out. Under the
    cold limit, but over the exact one, it is near the limit too. Under both, what the meter may
    be off is held against the exact one: the 0.8 has room for warmth in it, and that room isn't
    asked for twice.
    """
    slot = reading.slot
    by_rcd = rcd_in_path(facts, slot)
    causes = _HIGH if by_rcd else tuple(each for each in _HIGH if each != _ADDS)
    table = loop_limit(facts, slot, What.ZS_LIMIT)
    cold = loop_limit(facts, slot, What.ZS_LIMIT_COLD)
    exact = loop_limit(facts, slot, What.ZS_LIMIT_EXACT)
    again = _again(reading, by_rcd=by_rcd)
    off = _off(at_board=slot.quantity is Quantity.ZDB) + again
    if (
        not isinstance(table, Worked)
        or not isinstance(cold, Worked)
        or figure.sign is not Sign.EQUAL
    ):
        if open_loop(facts, reading, figure) is None:  # that says it all
            for each in beside_limit(facts, reading, figure, limit):
                over = each.verdict is Verdict.OUTSIDE
                yield each._replace(causes=causes, next_check=off) if over else each
        return
    value = figure.value
    away = distance(value, limit, guard(facts, reading), Unit.OHM, 2)
    holds = isinstance(exact, Worked) and value <= cut_down(exact.value) + SLACK
    designed = _by_design(facts, reading, figure)
    if designed:
        causes, off = (), _what_would(slot, by_rcd=by_rcd)
    if value > table.value + SLACK:
        most = Limit(Sense.MOST, table.value, Unit.OHM, _source(table))
        gap = distance(value, most, guard(facts, reading), Unit.OHM, 2)
        yield Concern(
            "high-by-design" if designed else "limit",
            Verdict.OUTSIDE,
            f"Over the tabulated maximum itself, with the conductors still cold: {gap}.{designed}",
            causes,
            off,
            _source(table),
            40,
        )
    elif value > cold.value + SLACK and holds:
        yield Concern(
            "cold-limit",
            Verdict.NEAR,
            "Meets the table but not the cold limit; corrected to operating temperature it "
            f"passes: {away}.",
            next_check=again,
            source=_source(cold),
            weight=10,
        )
    elif value > cold.value + SLACK:
        how = "fails" if isinstance(exact, Worked) else "can't be shown to pass"
        yield Concern(
            "high-by-design" if designed else "cold-limit",
            Verdict.OUTSIDE,
            "Meets the table but not the cold limit; corrected to operating temperature it "
            f"{how}: {away}."
            f"{designed}",
            causes,
            off,
            _source(cold),
            35,
        )
    elif isinstance(exact, Worked) and not holds:
        yield Concern(
            "cold-limit",
            Verdict.NEAR,
            f"Meets the cold limit, but is over when corrected to operating temperature: {away}.",
            next_check=again,
            source=_source(exact),
            weight=10,
        )
    else:
        yield from _near(facts, reading, figure, limit, exact, again)


def _near(
    facts: Facts, reading: Reading, figure: Figure, cold: Limit, exact: Result, check: Advice
) -> Iterator[Concern]:
    """Return whether the meter's uncertainty reaches a limit that the reading is inside."""
    band = guard(facts, reading)
    limit, name = cold, "the cold limit"
    if isinstance(exact, Worked):
        limit = Limit(Sense.MOST, cut_down(exact.value), Unit.OHM, _source(exact))
        name = f"the exact limit of {number(limit.value, 2)} Ω"
    if meets(figure, limit, band) is Verdict.NEAR:
        away = distance(figure.value, limit, band, Unit.OHM, 2)
        yield Concern(
            "near-limit",
            Verdict.NEAR,
            f"Inside {name}, but only {away}.",
            next_check=check,
            source=cite.METER,
        )


_ADDS = "an RCD adds to a no-trip reading"
_HIGH = (
    "a loose or corroded connection in line or earth",
    _ADDS,
    "the run is longer or thinner than entered",
)


def _by_design(facts: Facts, reading: Reading, figure: Figure) -> str:
    """Return that the design gives what was read, so that nothing is loose; else nothing."""
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked):
        return ""
    allowed = max(_AGREES, guard(facts, reading).at(expected.value, expected.value))
    if outside(figure, expected.value, expected.value, allowed):
        return ""
    return f" It agrees with the {expected} that is expected: the design itself doesn't meet it."


_AGREES = 0.05
"""Ω by which a loop may be off and still agree with its expectation: common practice."""


def _what_would(slot: Slot, *, by_rcd: bool) -> Advice:
    """Return what would meet a limit that the design doesn't, the cheapest first."""
    if by_rcd:
        return do(
            Act.LEAVE_OFF,
            "Leave it off until the certifier decides if the RCD alone may disconnect.",
        ) + do(Act.PLAN, "Else another device, or a thicker run.")
    if slot.quantity is Quantity.ZDB:
        ways = "What would meet it: an RCD at the house, delayed if RCDs follow it; another "
        ways += "device; a thicker feed."
    else:
        ways = "What would meet it: an RCD; a device that opens on less current; a thicker run."
    decides = do(Act.ASK, "The designer decides.")
    return do(Act.LEAVE_OFF, _MAY_NOT) + do(Act.PLAN, ways) + decides


_MAY_NOT = "Switch it off and lock it off: it may not disconnect in time."


def _off(*, at_board: bool) -> Advice:
    """Return what comes before a loop over its limit is read again: dead tests first."""
    run = "the feed" if at_board else "this circuit"
    return do(Act.LEAVE_OFF, _MAY_NOT) + do(
        Act.OPEN, f"Tighten the terminals and read R1+R2 of {run} again."
    )


def _again(reading: Reading, *, by_rcd: bool) -> Advice:
    """Return how to read a loop once more: not on the range that was used already."""
    if by_rcd:  # the high-current range would open it
        return do(Act.READ_LIVE, "Read the loop again.") + CERTIFIER
    if high_range(reading):
        return CERTIFIER
    return do(Act.READ_LIVE, "Read the loop again on the high-current range.") + CERTIFIER


def _ohms(result: Result) -> str:
    if isinstance(result, NotWorkedOut):
        return "not calculated"
    return f"{number(round(result.value, 2), 2)} Ω"


def _in_brackets(note: str) -> str:
    """Return a sentence as it stands in brackets inside of another one."""
    return f"{note[:1].lower()}{note[1:]}".rstrip(".")


def _source(result: Worked) -> Source:
    return result.sources[0] if result.sources else cite.LOOP_METHOD
