"""What came off or out for a test and has to be shown back: the earth, surge protection."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.loop.loop_facts import is_calculated
from records.judgement.uncertainty import kind_of
from records.model.reading import Figure, Quantity, Reading, Slot, Tick, when_taken
from records.terms import Stage, Verdict


def earth_back(facts: Facts) -> Iterator[Pattern]:
    """Ze was read after the earth was last found back: each reading takes it off again."""
    slot = Slot(quantity=Quantity.EARTH_BACK, place=ORIGIN, stage=Stage.LIVE)
    loop = Slot(quantity=Quantity.ZE, place=ORIGIN, stage=Stage.LIVE)
    found, read = _found_right(facts, slot), _last_figure(facts, loop)
    if found is None or read is None or when_taken(read) < when_taken(found):
        return
    if is_calculated(read):
        return  # nothing came off for it
    concern = Concern(
        "earth not shown back", Verdict.OUTSIDE,
        f"Ze was read again on {read.at:%Y-%m-%d %H:%M}, with the earth off; that it is back since "
        "isn't shown.",
        ("the earthing conductor is still off its bar", "nobody looked again"),
        do(
            Act.LEAVE_OFF, "Leave everything off. See that it is on its bar and tight; then say so."
        ),
        cite.LOOP_METHOD, 95,
    )  # fmt: skip
    yield Pattern(concern, ORIGIN, "Origin: earth put back after Ze", (slot, loop), into=slot)


def surge_back(facts: Facts) -> Iterator[Pattern]:
    """An insulation test of feed or board later than the look at surge protection.

    A circuit that is tested by itself, its device off, doesn't reach it.
    """
    slot = Slot(quantity=Quantity.SURGE, place=BOARD, stage=Stage.LIVE)
    found = _found_right(facts, slot)
    if found is None:
        return
    later = [
        (when_taken(last), each)
        for each in facts.all_slots
        if each.place in (FEED, BOARD)
        and kind_of(each.quantity) == "insulation"
        and (last := _last_figure(facts, each)) is not None
        and when_taken(last) > when_taken(found)
    ]
    if not later:
        return
    at, test = max(later, key=lambda each: each[0])
    concern = Concern(
        "surge not shown back", Verdict.UNLIKELY,
        f"{facts.title(test.place)}, {test.quantity.value}, was read later, on "
        f"{at[0]:%Y-%m-%d %H:%M}: surge protection is out for such a test, and that it is back in "
        "since isn't shown.",
        ("it was taken out again",),
        do(Act.LOOK, "Look at it through the closed cover, and say so."), cite.INSULATION, 10,
    )  # fmt: skip
    yield Pattern(concern, BOARD, "Board: surge protection back in", (slot, test), into=slot)


def _found_right(facts: Facts, slot: Slot) -> Reading | None:
    """Return the answer of a check that counts, if it is that all is right."""
    last = facts.last(slot)
    return last if last is not None and isinstance(last.taken, Tick) and last.taken.good else None


def _last_figure(facts: Facts, slot: Slot) -> Reading | None:
    taken = (each for each in reversed(facts.attempts(slot)) if isinstance(each.taken, Figure))
    return next(taken, None)
