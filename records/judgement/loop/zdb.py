"""Zdb: Ze and the feed, or the electrode of an outbuilding that has its own."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.cable_path import parallel_path_fits, weak_places
from records.judgement.compare import away, outside
from records.judgement.concern import Concern
from records.judgement.continuity.path import LEAST, SHARE
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.loop.loop_facts import (
    RCD_ADDS,
    below_expected,
    is_calculated,
    open_loop,
    too_good,
    unsteady,
    where_lifted,
)
from records.judgement.loop.ze import ze_doubted
from records.judgement.loop.zs import most_loop, three_ways
from records.judgement.older import read_again
from records.judgement.rule import Rule, off_expectation
from records.judgement.wording import amount, rounded
from records.model.reading import Figure, Quantity, Reading, Slot
from records.model.supply import Ground
from records.terms import Verdict
from records.units import Unit

_Gap = tuple[str, float, bool]
"""What it should be, in words; by how much it is off [Ω]; whether being low counts."""


def _zdb(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    if is_calculated(reading):
        return
    nothing = open_loop(facts, reading, figure)
    if nothing is not None:
        yield nothing
        return
    yield from too_good(reading, figure)
    yield from board_sum(facts, reading, figure)


def board_sum(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return what Ze and the feed say of Zdb."""
    found = _by_electrode if facts.tt_island else _by_feed
    text, gap, low_counts = found(facts, reading, figure)
    expected = facts.meter(reading.slot)
    as_designed = isinstance(expected, Worked) and not away(figure, expected, 0.05)
    causes: tuple[str, ...]
    if gap and as_designed and (ze_doubted(facts) or _feed_doubted(facts)):
        return  # that part tells it: this loop is as the design has it
    older = read_again(facts, reading, *_parts(facts)) if gap > 0 or (gap and low_counts) else None
    if older is not None:
        yield older
    elif gap > 0:
        causes, check = _HIGH_ISLAND if facts.tt_island else _HIGH
        if not facts.tt_island:
            causes = (
                f"a bad contact: {weak_places(facts, FEED, 'a terminal of the feed')}",
                *causes,
            )
        if facts.record.feed.rcd.residual is not None and gap <= RCD_ADDS:
            causes = ("the RCD before the feed, on a no-trip reading", *causes)
        yield Concern(
            "zdb-high",
            Verdict.UNLIKELY,
            f"{text}: this is {rounded(gap, Unit.OHM)} more.",
            causes,
            where_lifted(reading) + check,
            cite.LOOP_METHOD,
            25,
        )
    elif gap < 0 and low_counts:
        causes, check = _LOW_ISLAND if facts.tt_island else _LOW
        if not facts.tt_island and not parallel_path_fits(facts, reading, figure.value):
            causes = causes[1:]  # the line conductor alone has more
        yield Concern(
            "zdb-low",
            Verdict.UNLIKELY,
            f"{text}: this is {rounded(-gap, Unit.OHM)} less.",
            causes,
            check if facts.tt_island else where_lifted(reading) + check,
            cite.LOOP_METHOD,
            15,
        )


def _parts(facts: Facts) -> tuple[Slot | None, ...]:
    """Return the readings that the loop at the board is made of."""
    if facts.tt_island:
        return (facts.slot_of(BOARD, Quantity.ELECTRODE),)
    return facts.slot_of(ORIGIN, Quantity.ZE), facts.slot_of(FEED, Quantity.R1_R2)


def _feed_doubted(facts: Facts) -> bool:
    """Whether R1+R2 of the feed as read is off what the design gives."""
    slot = facts.slot_of(FEED, Quantity.R1_R2)
    run = facts.last(slot) if slot is not None else None
    if facts.tt_island or run is None or not isinstance(run.taken, Figure):
        return False
    return off_expectation(facts, run, run.taken, LEAST, SHARE) is not None


def _by_electrode(facts: Facts, reading: Reading, figure: Figure) -> _Gap:
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked):
        return "", 0.0, False
    gap = away(figure, expected, max(0.1, 0.2 * expected.value))
    return f"{expected} is expected from the electrode", gap, True


def _by_feed(facts: Facts, reading: Reading, figure: Figure) -> _Gap:
    ze, r1_r2 = facts.plain_at(ORIGIN, Quantity.ZE), facts.plain_at(FEED, Quantity.R1_R2)
    if ze is not None and r1_r2 is not None:
        total = ze + r1_r2
        text = f"Ze and R1+R2 as measured add up to {amount(total, Unit.OHM)}"
        gap = outside(figure, total, total, max(0.1, 0.2 * total))
        low = below_expected(facts, reading, figure) or (gap < 0 and figure.value < ze - 0.05)
        return text, gap, low
    if ze is not None and (gap := outside(figure, ze, ze, max(0.05, 0.1 * ze))) < 0:
        return f"Ze as measured is {amount(ze, Unit.OHM)}, and the feed only adds to it", gap, True
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked):
        return "", 0.0, False
    gap = away(figure, expected, max(0.1, 0.2 * expected.value))
    # A declared or typical Ze is a highest value: less than that is no surprise.
    known = facts.record.origin.ze_ground is Ground.MEASURED
    return f"{expected} is expected from the feed", gap, known


_HIGH = (
    (
        "paint, a loose locknut or a missing tag where its earth is landed",
        "a thinner or longer feed than entered",
        "a noisy supply",
    ),
    do(Act.READ_DEAD, "Read R1+R2 of the feed again, and each gland alone."),
)
_HIGH_ISLAND = (
    (
        "the electrode or its clamp: dry soil, a loose or corroded joint",
        "the earthing conductor isn't tight on its bar",
        "a joint of the line in the feed",
    ),
    do(Act.OPEN, "Tighten the clamp and the earthing conductor.")
    + do(Act.AGAIN, "Read the electrode alone again, then Zdb."),
)
_LOW = (
    (
        "a parallel path: bonded pipes, structure, a cable screen",
        "read at another board",
        "Ze or R1+R2 was read too high",
    ),
    do(Act.LOOK, "Find the parallel path by looking; name it. Nothing comes off while live.")
    + do(Act.LEAVE_OFF, "Ze is not repeated for this: the main earth stays on."),
)
LIFT = (
    do(Act.LOOK, "Dead test only: both poles of the feed off.")
    + do(
        Act.EARTH_OFF,
        "Take the electrode's conductor off. Read ohms from its bar to the cut-back armour, each "
        "pipe, frame and screen: a path is the bridge.",
    )
    + do(Act.LEAVE_OFF, "No loop test while it is off.")
)
"""How an island is shown to be one; no circuit is live while its earth is off."""
JOINED = (
    "the armour or a core of the feed is landed in the outbuilding",
    "a shared pipe, a frame in the ground or a data cable's screen",
)
_LOW_ISLAND = ((*JOINED, "read at another board, or the electrode was read too high"), LIFT)


ZDB = Rule(most_loop, _zdb, three_ways)
