"""Loops that are all too high, or all open, by what they have in common: the way to the board."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.loop.circuit_share import own_share, share_allowed
from records.judgement.loop.loop_facts import is_calculated, open_loop
from records.judgement.loop.zdb import board_sum
from records.judgement.loop.zs import most_loop
from records.judgement.review_types import Limit
from records.judgement.wording import rounded
from records.model.reading import Figure, Quantity, Slot, slot_of
from records.terms import Stage, Verdict
from records.units import Unit

LEAST, SHARE = 0.1, 0.2
"""Ω, and share of it, that the loop at the board may be over what leads to it: common practice."""
ALIKE = 0.1
"""Ω that the excess of loops with one cause may differ by: common practice."""
COMMON_EXCESS = 0.2
"""Ω over its expectation that each loop has at least, where Zdb was not read: common practice."""
MANY = 3
"""Loops that make a pattern where Zdb was not read: common practice."""
_ZDB = slot_of(Quantity.ZDB, BOARD, Stage.LIVE)


def all_open(facts: Facts) -> Iterator[Pattern]:
    """No loop of any circuit is closed: the earth is off before them all."""
    taken = [(slot, figure) for slot in _circuits(facts) if (figure := facts.figure(slot))]
    if len(taken) < 2 or not all(_is_open(facts, slot, figure) for slot, figure in taken):
        return
    board = facts.figure(_ZDB)
    closed_before = board is not None and not _is_open(facts, _ZDB, board)
    slots = tuple(slot for slot, _ in taken)
    if board is not None and not closed_before:
        slots = (_ZDB, *slots)
    causes: tuple[str, ...] = (
        "the conductor of the electrode is off, broken or not landed"
        if facts.tt_island
        else "the earth of the feed is off, broken or not landed",
        "an open lead or a blown fuse in a probe",
    )
    if closed_before:
        causes = (
            "the circuits' earth bar is not joined to the board's earth",
            "an open lead or a blown fuse in a probe",
        )
    concern = Concern(
        "all loops open",
        Verdict.OUTSIDE,
        f"None of {len(taken)} circuits has an earth: all metalwork on them could become live.",
        causes,
        do(Act.LEAVE_OFF, "Switch the board off and lock it off.")
        + do(Act.READ_DEAD, "Read the earths again, dead."),
        cite.LOOP_METHOD,
        85,
    )
    yield Pattern(concern, BOARD, "Loops of all circuits: open", slots, gathers=slots)


def raised(facts: Facts) -> Iterator[Pattern]:
    """What leads to the board is too high, and with it every loop behind it."""
    if facts.tt:
        return  # an electrode decides there, and its own reading tells it
    zdb = facts.plain(_ZDB)
    if zdb is None:
        yield from _by_excess(facts)
        return
    last = facts.last(_ZDB)
    if last is None or is_calculated(last):
        return
    before = _before(facts)
    if before is None or zdb - before <= max(LEAST, SHARE * before) + SLACK:
        yield from _by_rcds(facts, zdb)
        return
    over = [slot for slot in _circuits(facts) if _is_over(facts, slot) and _fits(facts, slot, zdb)]
    if not over:
        return
    own = list(board_sum(facts, last, Figure(value=zdb)))
    causes = own[0].causes if own else ("a joint, a gland or a terminal of the feed",)
    run = slot_of(Quantity.R1_R2, FEED, Stage.DEAD)
    glands = (
        slot_of(Quantity.GLAND, FEED, Stage.DEAD),
        slot_of(Quantity.GLAND, BOARD, Stage.DEAD),
    )
    known = tuple(slot for slot in (run, *glands) if facts.figure(slot) is not None)
    yield _pattern(
        f"The way to the board has {rounded(zdb - before, Unit.OHM)} more than expected. Each of "
        f"{len(over)} loops behind it is over its limit by that, and not by its own cable.",
        causes,
        _DEAD,
        (_ZDB, *known, *over),
    )


def _by_excess(facts: Facts) -> Iterator[Pattern]:
    """Zdb was not read, and every loop is over its expectation by the same."""
    excess = {
        slot: value - expected
        for slot in _circuits(facts)
        if (value := facts.plain(slot)) is not None
        and (expected := facts.meter_value(slot)) is not None
        and not is_calculated(facts.attempts(slot)[-1])
    }
    if len(excess) < MANY or min(excess.values()) < COMMON_EXCESS - SLACK:
        return
    middle = median(excess.values())
    if any(abs(each - middle) > ALIKE + SLACK for each in excess.values()):
        return
    yield _pattern(
        f"Each of {len(excess)} loops is about {rounded(middle, Unit.OHM)} over what is expected: "
        "look at what they have in common.",
        (
            "a gland, a joint or a terminal of the feed",
            "an RCD before them all, on a no-trip reading",
            "Ze is higher than entered",
        ),
        _BOARD_FIRST,
        tuple(excess),
    )


def _by_rcds(facts: Facts, zdb: float) -> Iterator[Pattern]:
    """Zdb is as it should be, and every circuit has the same more than its cable accounts for."""
    excess: dict[Slot, float] = {}
    for slot in _circuits(facts):
        value, circuit = facts.plain(slot), facts.circuit_of(slot)
        own = own_share(facts, circuit) if circuit is not None else None
        if value is not None and own is not None and not is_calculated(facts.attempts(slot)[-1]):
            excess[slot] = value - zdb - own
    if len(excess) < MANY or min(excess.values()) < COMMON_EXCESS - SLACK:
        return
    middle = median(excess.values())
    if any(abs(each - middle) > ALIKE + SLACK for each in excess.values()):
        return
    concern = Concern(
        "loops alike above",
        Verdict.UNLIKELY,
        f"Each of {len(excess)} loops is about {rounded(middle, Unit.OHM)} over Zdb and its own "
        "R1+R2.",
        (
            "the RCDs in the path, on no-trip readings",
            "the circuits' earth bar or its link",
            "the main switch or its outgoing terminals",
        ),
        do(Act.READ_DEAD, "Read R1+R2 of one circuit again from the main earth bar.")
        + do(
            Act.ASK,
            "If it is correct, Zdb + R1+R2 counts beside the no-trip readings; the "
            "certifier decides.",
        ),
        cite.LOOP_METHOD,
        30,
    )
    slots = tuple(excess)
    yield Pattern(concern, BOARD, "Loops of all circuits: the same too much", slots, gathers=slots)


_DEAD = do(Act.READ_DEAD, "Read R1+R2 of the feed again, and each gland alone.") + do(
    Act.AGAIN, "Then Zdb and the loops again."
)
_BOARD_FIRST = do(
    Act.READ_LIVE, "Read Zdb at its incoming terminals: high there too, it is the feed."
)


def _pattern(says: str, causes: tuple[str, ...], check: Advice, slots: tuple[Slot, ...]) -> Pattern:
    concern = Concern("loops raised", Verdict.UNLIKELY, says, causes, check, cite.LOOP_METHOD, 40)
    return Pattern(concern, FEED, "Feed: it raises the loops behind it", slots, gathers=slots)


def _circuits(facts: Facts) -> list[Slot]:
    return [slot_of(Quantity.ZS, place, Stage.LIVE) for _, place in facts.circuits()]


def _before(facts: Facts) -> float | None:
    """Return what the loop at the board should be, from Ze as read and the feed by design [Ω]."""
    ze = facts.plain_at(ORIGIN, Quantity.ZE)
    feed = facts.meter_value(slot_of(Quantity.R1_R2, FEED, Stage.DEAD))
    if ze is None or feed is None:
        return facts.meter_value(_ZDB)
    return ze + feed


def _is_open(facts: Facts, slot: Slot, figure: Figure) -> bool:
    last = facts.last(slot)
    return last is not None and open_loop(facts, last, figure) is not None


def _is_over(facts: Facts, slot: Slot) -> bool:
    value, bound = facts.plain(slot), most_loop(facts, slot)
    return value is not None and isinstance(bound, Limit) and value > bound.value + SLACK


def _fits(facts: Facts, slot: Slot, zdb: float) -> bool:
    """Whether a loop has no more of its own than its cable accounts for."""
    value, circuit = facts.plain(slot), facts.circuit_of(slot)
    own = own_share(facts, circuit) if circuit is not None else None
    if value is None or own is None:
        return False
    return abs(value - zdb - own) <= share_allowed(own, zdb) + SLACK
