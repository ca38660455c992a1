"""The question “safe to cover this wall?” with its answers: what is missing, and what to record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum, auto

from records.days import day_words, read_day
from records.errors import BadQuantity
from records.judgement.fabric.cover import Open, safe_to_cover
from records.model.fabric import Surface
from records.session import Session

_DONE = 5
"""Readings that are within, named before an answer."""
_PHOTO = "A photograph is worth more than any drawing: take one now."


class Act(Enum):
    """What an answer does to the day on which a surface was covered."""

    TODAY = auto()
    ASK_DAY = auto()
    OPEN_AGAIN = auto()


_SAID = {
    Act.TODAY: "Covered today: record it",
    Act.ASK_DAY: "Covered on another day: type it",
    Act.OPEN_AGAIN: "It is open again: what is entered now can be seen",
}


@dataclass(frozen=True, slots=True)
class CoverQuestion:
    """Title, what there is to know, and the answers: what is missing first, so that its numbers are
    those of the list."""

    title: str
    text: str
    first: tuple[Open, ...]
    acts: tuple[Act, ...]

    @property
    def answers(self) -> list[str]:
        """The answers in words."""
        said = dict(_SAID)
        if self.first:
            said[Act.ASK_DAY] = "It is covered already: type the day. What is missing stays missing"
        return [*(each.what for each in self.first), *(said[each] for each in self.acts)]

    def chosen(self, at: int) -> Open | Act:
        """Return what the answer of this number is about."""
        count = len(self.first)
        return self.first[at] if at < count else self.acts[at - count]


def cover_question(session: Session, surface: Surface) -> CoverQuestion:
    """Return the question about one surface, as the record is now."""
    found = safe_to_cover(session.record, session.review, surface)
    name = surface.name or surface.id
    count = len(found.first)
    things = "1 thing" if count == 1 else f"{count} things"
    if surface.covered is not None:
        missing = f"{things} missing" if count else "Nothing is missing"
        text = f"{missing}. What is entered from now on is marked as from memory."
        title = f"{name}: covered {day_words(surface.covered)}"
        return CoverQuestion(title, text, found.first, (Act.OPEN_AGAIN,))
    more = len(found.done) - _DONE
    text = "\n".join(found.done[:_DONE])
    if more > 0:
        text = f"{text}\n… and {more} more readings within"
    text = "\n".join([each for each in (text, *(f"! {one}" for one in found.older)) if each])
    if found.safe:
        title = f"Safe to cover {name}: YES"
        return CoverQuestion(title, f"{text}\n{_PHOTO}", (), (Act.TODAY, Act.ASK_DAY))
    title = f"Safe to cover {name}: NOT YET, {things} first"
    return CoverQuestion(title, text, found.first, (Act.ASK_DAY,))


def read_covered(text: str, today: date) -> date:
    """Return the day on which something was covered, as typed.

    Raises:
        BadQuantity: If it is no day, or is still to come.
    """
    day = read_day(text, today)
    if day > today:
        raise BadQuantity("That day is still to come. Type the day on which it was covered.")
    return day


def covered_words(surface: Surface, day: date | None) -> str:
    """Return what is said once the day is on record; None: it is open again."""
    name = surface.name or surface.id
    return f"{name}: open again." if day is None else f"{name}: covered {day_words(day)}."
