"""What the question before the live tests says: which circuits may go live, and which may not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.interlock.dead_tests import board_words, circuit_words
from records.interlock.may_take import Interlock, Lock
from records.judgement.wording import listed
from records.model.reading import place_of
from records.model.slots import title
from records.terms import Part

ASKED = "Is the installation safe to test live, and are you competent to do it?"
BLOCKED = "Nothing goes live yet"
YES = "yes, go on"
NO = "no, leave it locked"


@dataclass(frozen=True, slots=True)
class LiveQuestion:
    """What stands before the question, and whether it can be answered with yes."""

    can_be_yes: bool
    """False while feed, board or earths aren't right: then nothing goes live."""
    bad: tuple[str, ...]
    """What stays locked off, and why."""
    good: tuple[str, ...]
    """What may go live."""

    @property
    def title(self) -> str:
        """The question, or that there is none to answer."""
        return ASKED if self.can_be_yes else BLOCKED

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it, what is locked first."""
        return (*self.bad, *self.good)


def live_question(found: Interlock) -> LiveQuestion:
    """Return what the question before the live tests says to the person who would take them."""
    stop = found.stops_live
    if stop is None:
        return LiveQuestion(True, tuple(_locked(found)), tuple(_may(found)))
    if stop.lock is not Lock.BOARD:
        return LiveQuestion(False, (stop.words,), ())
    return LiveQuestion(False, tuple(_board(found)), ())


def _board(found: Interlock) -> Iterator[str]:
    yield "Feed, board and earths must be satisfactory before anything goes live. Still open:"
    yield from (f"{each}." for each in board_words(found.record, found.dead.board))
    yield (
        "Only a test that the certifier did and recorded elsewhere can stand in: say so at that "
        "dead test (c)."
    )


def _locked(found: Interlock) -> Iterator[str]:
    locked = {id: tests for id, tests in found.dead.circuits.items() if tests}
    if locked:
        yield "These stay locked off until they are satisfactory:"
        yield from (f"{circuit_words(found.record, id, each)}." for id, each in locked.items())
    if found.dead.set_aside:
        count = found.dead.set_aside
        one = count == 1
        yield (
            f"{count} dead test{' is' if one else 's are'} set aside as not needed. A test set "
            "aside shows nothing."
        )


def _may(found: Interlock) -> Iterator[str]:
    may = [title(found.record, place_of(Part.CIRCUIT, id)) for id in found.dead.may_go_live]
    count = found.dead.right
    if not any(found.dead.circuits.values()):
        yield f"✓ {count} dead tests taken and satisfactory."
    if may:
        yield f"May go live, one circuit at a time: {listed(may)}."
    else:
        yield "No circuit may go live: the supply, feed and board only."
    names = {each.id: each.name for each in found.record.job.people}
    for slot, test in found.dead.elsewhere:
        yield (
            f"{title(found.record, slot.place)}, {slot.quantity.value}: tested elsewhere by "
            f"{names.get(test.by, test.by)}, recorded in: {test.where.rstrip('.')}."
        )
