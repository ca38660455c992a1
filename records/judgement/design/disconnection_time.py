"""Design check of the disconnection time: by the overcurrent device, or by the RCD."""

from __future__ import annotations

import math

from records.evidence import COMMON_PRACTICE
from records.expected.results import NotWorkedOut, Result, What, Worked
from records.judgement.advice import plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.design.pairs import NOT_IN_TIME
from records.judgement.facts import FEED, Facts
from records.judgement.review_types import Judged, Limit, Sense
from records.model.reading import Place
from records.terms import Verdict


def time_line(facts: Facts, place: Place, loop: Judged | None) -> Judged:
    """Return the check of the disconnection time.

    Args:
        facts: The record.
        place: The feed or a circuit.
        loop: The check of its loop, which tells the trouble if both fail.
    """
    required = facts.design(place, What.TIME_REQUIRED)
    over = facts.design(place, What.TIME)
    rcd = facts.design(place, What.TIME_RCD)
    base = line(facts, place, What.TIME, "disconnection time")
    if isinstance(required, NotWorkedOut):
        return base._replace(why=f"Not calculated: {required.why}", expected=required)
    source = required.sources[0] if required.sources else COMMON_PRACTICE
    limit = Limit(Sense.MOST, required.value, required.unit, source, digits=required.digits)
    base = base._replace(limit=limit, expected=over, weight=35)
    words = f"Overcurrent device: {over}; RCD: {_rcd_words(rcd)}; must be {limit}."
    if _keeps(over, required.value):
        return base._replace(verdict=Verdict.WITHIN, why=words)
    if _by_printed_limit(facts, place, over, required.value):
        why = f"{words} Zs keeps the printed limit for that time; the fuse's curve is rounded."
        return base._replace(verdict=Verdict.WITHIN, why=why)
    if _keeps(rcd, required.value):
        base = base._replace(expected=rcd)
        electrode = facts.tt if place != FEED else facts.feed_is_tt
        if electrode:
            why = f"{words} With an earth electrode the RCD disconnects, as it is meant to."
            return base._replace(verdict=Verdict.WITHIN, why=why)
        why = f"{words} Only the RCD disconnects in time: the certifier decides if it may."
        return _behind(base._replace(verdict=Verdict.NEAR, why=why, source=source), loop)
    missing = next((each for each in (over, rcd) if isinstance(each, NotWorkedOut)), None)
    if isinstance(over, NotWorkedOut) and missing is not None:
        return base._replace(why=f"Not calculated: {missing.why}", expected=missing)
    return _behind(
        base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"{words} Nothing assures disconnection in time.",
            causes=("the loop is too high for the device",),
            next_check=plan("Lower the loop, or another device, or an RCD."),
            source=source,
        ),
        loop,
    )


def with_its_rcd(facts: Facts, place: Place, loop: Judged) -> Judged:
    """Return the check of a loop that is too high, with what its RCD does about it, if it has one.

    Args:
        facts: The record.
        place: The feed or a circuit.
        loop: The check of its loop.
    """
    required, rcd = facts.design(place, What.TIME_REQUIRED), facts.design(place, What.TIME_RCD)
    if (
        loop.verdict is not Verdict.OUTSIDE
        or isinstance(required, NotWorkedOut)
        or not _keeps(rcd, required.value)
    ):
        return loop
    return loop._replace(
        why=loop.why.replace(
            NOT_IN_TIME, f"Only the RCD disconnects an earth fault in time ({_rcd_words(rcd)})."
        ),
        next_check=plan(
            "A thicker run, or a device that needs less current. Else the certifier decides if the "
            "RCD alone may disconnect."
        ),
    )


def _rcd_words(rcd: Result) -> str:
    return "none" if isinstance(rcd, NotWorkedOut) else str(rcd)


def _keeps(result: Result, most: float) -> bool:
    if isinstance(result, NotWorkedOut):
        return False
    latest = result.high if result.high is not None else result.value
    return not math.isinf(latest) and latest <= most + SLACK


def _by_printed_limit(facts: Facts, place: Place, over: Result, most: float) -> bool:
    """Whether the tables let a fuse's loop by, though the late end of its curve is later.

    The currents of a curve are rounded, and so are the limits made from them: between both it is
    the limit that BS 7671 (Regulation 411.4.4) holds a loop to.
    """
    zs, limit = facts.design(place, What.ZS), facts.design(place, What.ZS_LIMIT)
    electrode = facts.tt if place != FEED else facts.feed_is_tt
    if electrode or not all(isinstance(each, Worked) for each in (zs, limit, over)):
        return False
    assert isinstance(zs, Worked)
    assert isinstance(limit, Worked)
    assert isinstance(over, Worked)
    loop = zs.value if zs.high is None else zs.high
    early = over.value if over.low is None else over.low
    return loop <= limit.value + SLACK and early <= most + SLACK


def _behind(judged: Judged, loop: Judged | None) -> Judged:
    """Let a loop that is too high tell what it does to the time."""
    if loop is not None and loop.verdict is Verdict.OUTSIDE:
        return judged._replace(part_of=loop.key)
    return judged
