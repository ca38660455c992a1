"""What is said after an act at the bench: in one sentence, and in lines where there is room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from records.judgement.review_types import Judged
from records.judgement.wording import in_full, said
from records.taking.queue import Entry
from records.taking.sentences import ended, ground
from records.terms import Verdict

Tone = Literal["good", "warn", "bad", "plain"]
ALL_DONE = "Everything of this stage has something entered."


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of an act; one that was refused raises instead, and leaves all as it was."""

    words: str = ""
    tone: Tone = "plain"
    mark: str = ""
    """The sign before the words, where a verdict is said."""
    lines: tuple[str, ...] = ()
    """The same at length; empty: the words will do."""
    done: bool = False
    """Whether it was the last thing to do at this stage."""

    @property
    def all_lines(self) -> tuple[str, ...]:
        """What is said line by line."""
        return self.lines or (self.words,)


_TONES: dict[Verdict, Tone] = {
    Verdict.OUTSIDE: "bad",
    Verdict.UNLIKELY: "bad",
    Verdict.NEAR: "warn",
    Verdict.WITHIN: "good",
}


def tone_of(verdict: Verdict) -> Tone:
    """Return the tone in which a message about a verdict is said."""
    return _TONES.get(verdict, "plain")


def reading_outcome(entry: Entry, note: str, *, done: bool) -> Outcome:
    """Return what is said of a reading that has just been put on record.

    Args:
        entry: The reading with its verdict.
        note: What else there is to know of it, as sentences with a blank before each.
        done: Whether nothing of the stage is left.
    """
    test, verdict = entry.measurement, entry.verdict
    taken = entry.attempts[-1].taken
    # Within: one line, so that nothing jumps. Else all of it: this is where it must be read.
    why = entry.judged.why if entry.judged and entry.is_bad else ""
    value = "" if said(taken, test).casefold() in why.casefold() else in_full(taken, test)
    value = value if value.startswith(verdict.value) else f"{verdict.value}. {value}".strip(". ")
    words = f"{entry.place}, {test.symbol}: {value}. {why}".strip() + note
    lines = (f"Kept. {value_line(entry)}{note}", *verdict_lines(entry))
    return Outcome(
        f"{words} {ALL_DONE}" if done else words,
        tone_of(verdict),
        verdict.mark,
        (*lines, ALL_DONE) if done else lines,
        done,
    )


def value_line(entry: Entry) -> str:
    """Return which value an entry has now."""
    return ended(f"{entry.place}, {entry.measurement.symbol}: {entry_value(entry)}")


def entry_value(entry: Entry) -> str:
    """Return the last reading of an entry in words; empty if there is none."""
    return in_full(entry.attempts[-1].taken, entry.measurement) if entry.attempts else ""


def told_verdicts(entry: Entry) -> tuple[Judged, ...]:
    """Return the verdicts on an entry that are told at the bench: its own, and each finding."""
    return tuple(each for each in entry.lines if each is entry.own or each.is_finding)


def next_check(entry: Entry) -> str:
    """Return what to do about the last reading of an entry; empty if nothing has to be done."""
    found = entry.judged.next_check if entry.is_bad and entry.judged else ""
    return f"Do next: {found}" if found else ""


def verdict_lines(entry: Entry) -> Iterator[str]:
    """Yield how the last reading of an entry stands; the reading itself was said just before."""
    value = entry_value(entry)
    for each in told_verdicts(entry):
        yield f"Verdict: {each.verdict.value}. {ground(each.why, value)}".rstrip()
    if check := next_check(entry):
        yield check


def doubt_words(judged: Judged, value: str) -> str:
    """Return that a figure is not kept yet, as it would be outside or unlikely."""
    return (
        f"{value} is not kept yet. It would be {judged.verdict.value}: "
        f"{ground(judged.why, value)} If that is what the meter shows, type keep."
    )
