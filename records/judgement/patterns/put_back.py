"""What came off or out for a test and has to be shown back: the earth, surge protection."""

from __future__ import annotations

from collections.abc import Iterator

from records.days import moment_words
from records.interlock.comes_off import (
    EARTHS,
    PUT_BACK,
    Owed,
    earths_owed,
    put_back_owed,
)
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.uncertainty import kind_of
from records.judgement.wording import listed
from records.model.reading import (
    Figure,
    NotNeeded,
    NotTaken,
    Quantity,
    Reading,
    Slot,
    Tick,
    slot_of,
    when_taken,
)
from records.model.slots import measured_by
from records.terms import Part, Stage, Verdict

EARTH_WEIGHT = 200
"""An earth that may be off comes before everything else."""


def earth_back(facts: Facts) -> Iterator[Pattern]:
    """An earth came off for a test, and nobody has said since that it is back and tight."""
    for owed in earths_owed(facts.record):
        tests = EARTHS[owed.slot]
        name = " and ".join(each.quantity.value for each in tests)
        concern = Concern(
            "earth not shown back",
            Verdict.OUTSIDE,
            f"Since {name}, {moment_words(owed.since)}, the installation may be without its earth."
            f" {_answered(owed, 'it is back on its bar and tight')}",
            ("the earthing conductor is still off its bar", "nobody looked again"),
            do(
                Act.LEAVE_OFF,
                "Leave everything off. See that it is on its bar and tight; then say so.",
            ),
            cite.LOOP_METHOD,
            EARTH_WEIGHT,
        )
        title = f"{facts.title(owed.slot.place)}: {measured_by(owed.slot).title}"
        yield Pattern(concern, owed.slot.place, title, (owed.slot, *tests), into=owed.slot)


def all_back(facts: Facts) -> Iterator[Pattern]:
    """What the dead tests took off or linked, and nobody has said since that it is put back.

    Before anything was live it is one more test to take; after that the installation may have been
    live without an earth, or with a link in.
    """
    answers = facts.attempts(PUT_BACK)
    owed = put_back_owed(facts.record)
    last = answers[-1].taken if answers else None
    wrong = last is not None and not (isinstance(last, Tick) and last.good)
    if owed is None and not wrong:
        return
    live = [
        each
        for attempts in facts.readings.values()
        for each in attempts
        if each.slot.stage is Stage.LIVE
        and isinstance(each.taken, Figure | Tick)
        and each.slot.place.part is not Part.ORIGIN
    ]
    # Answered right once, and a dead test since: live readings from before that say nothing.
    back = _found_right(facts, PUT_BACK)
    live = [each for each in live if back is None or owed is None or each.at > owed.since]
    what = owed.what if owed is not None else ()
    says = f"Off or in for the dead tests: {listed(what[:4])}. " if what else ""
    if owed is not None:
        says += _answered(owed, "all is put back")
    elif wrong:
        says += f"{_said_no(last)} doesn't put it back."
    grave = bool(live) or wrong
    concern = Concern(
        "not shown put back",
        Verdict.OUTSIDE if grave else Verdict.NOT_TAKEN,
        says + (f" {len(live)} live readings are on record all the same." if live else ""),
        ("a link is still in", "an earth, a bond or a neutral is still off"),
        do(Act.LEAVE_OFF, "Leave everything off.")
        + do(
            Act.UNLINK,
            "Look at each: links out, neutrals in their own places. Earths, bonds and electrode "
            "back and tight. Surge protection back, covers on. Then say so.",
        ),
        cite.COMMON,
        EARTH_WEIGHT - 10 if grave else 30,
    )
    title = f"{facts.title(BOARD)}: put back before it goes live"
    yield Pattern(concern, BOARD, title, (PUT_BACK,), into=PUT_BACK)


def surge_back(facts: Facts) -> Iterator[Pattern]:
    """An insulation test of feed or board later than the look at surge protection.

    A circuit that is tested by itself, its device off, doesn't reach it.
    """
    slot = slot_of(Quantity.SURGE, BOARD, Stage.LIVE)
    found = _found_right(facts, slot)
    if found is None:
        return
    later = [
        (when_taken(last), each)
        for each in facts.all_slots
        if kind_of(each.quantity) == "insulation"
        and each.place in (FEED, BOARD)
        and (last := _last_figure(facts, each)) is not None
        and when_taken(last) > when_taken(found)
    ]
    if not later:
        return
    at, test = max(later, key=lambda each: each[0])
    concern = Concern(
        "surge not shown back",
        Verdict.UNLIKELY,
        f"{facts.title(test.place)}, {test.quantity.value}, was read later, on "
        f"{moment_words(at[0])}. Surge protection is out for such a test. That it is back since "
        "isn't shown.",
        ("it was disconnected again",),
        do(Act.LOOK, "Look at it through the closed cover, and say so."),
        cite.INSULATION,
        10,
    )
    yield Pattern(concern, BOARD, "Board: surge protection back in", (slot, test), into=slot)


def _found_right(facts: Facts, slot: Slot) -> Reading | None:
    """Return the answer of a check that counts, if it is that all is right."""
    last = facts.last(slot)
    return last if last is not None and isinstance(last.taken, Tick) and last.taken.good else None


def _answered(owed: Owed, what: str) -> str:
    """Return what was said since something came off, which doesn't put it back."""
    if owed.answer is None or owed.answer.at < owed.since:
        return f"Nobody has said since that {what}."
    return f"{_said_no(owed.answer.taken)} doesn't put it back."


def _said_no(taken: object) -> str:
    match taken:
        case NotTaken(reason=reason):
            return f"“Could not: {reason.rstrip('.')}”"
        case NotNeeded(reason=reason):
            return f"“Not needed: {reason.rstrip('.')}”"
        case Tick(good=False):
            return "“No”"
    return "What was answered before it"


def _last_figure(facts: Facts, slot: Slot) -> Reading | None:
    taken = (each for each in reversed(facts.attempts(slot)) if isinstance(each.taken, Figure))
    return next(taken, None)
