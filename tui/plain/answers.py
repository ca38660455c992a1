"""What a person can answer at the line bench: a value, or one of a few words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum


class Word(StrEnum):
    """What can be said beside a value; those with a colon take words after it."""

    HELP = "?"
    SKIP = "skip"
    BACK = "back"
    AGAIN = "again"
    CANT = "cant:"
    NOT_NEEDED = "not needed:"
    ELSEWHERE = "elsewhere:"
    EXCEPTION = "exception:"
    NOTE = "note:"
    METHOD = "method:"
    DONE = "done:"
    OK = "ok"
    KEEP = "keep"
    WHY = "why"
    SHOW = "show"
    LEFT = "left"
    GO = "go:"
    BY = "by:"
    METER = "meter:"
    TAKEN = "taken:"
    LOWER = "lower:"
    USUAL = "usual"
    ORDER = "order"
    OTHERS = "others"
    OTHER = "other:"
    UNDO = "undo"
    REDO = "redo"
    QUIT = "quit"


HELP = (
    "Type what the meter shows and press Enter: 0.35, .35, 0,35, 350 mohm, >999. For a check: y "
    "or n. The verdict follows, and “kept” once it is on disk.",
    "Enter alone: on from a reading that was taken to the next one that is open.",
    "skip: the next reading. back: the one before. go: C2 Zs: to a reading by its words; go: loft: "
    "to what is next to take in that room.",
    "again: test again; what was read first stays in the record.",
    "cant: and why, if it can't be taken. not needed: and why.",
    "elsewhere: P3, and where it is recorded: a dead test of feed, board or earths that who "
    "certifies did. exception: P3, and why: who certifies lets a circuit that is locked off be "
    "tested live.",
    "note: or method: and words, which go with the next reading.",
    "done: what was done about the finding here, with its kind and day: done: joint, 5 "
    "Mar 2026: locknut tightened. Kinds: device, joint, cable, point, earth, other, misread.",
    "ok: a caution was read. keep: keep a value that is outside or unlikely.",
    "show: this reading once more. why: what its verdict rests on. left: what is still to test, "
    "by where you stand.",
    "by: who takes the readings. meter: M1, which instrument. taken: 14:30, for readings from "
    "notes; taken: now ends that.",
    "lower: and why, for insulation tests of this circuit at 250 V; usual ends that.",
    "order: by test or by circuit. others: tests that nobody has to take; other: C1 half, and one "
    "of them is asked for.",
    "undo: take the last change back; it stays in the history. redo: make it again.",
    "quit: leave. All that was said to be kept is on disk.",
)
"""Explains the answers, a line each."""

_SAME = {
    "help": Word.HELP,
    "h": Word.HELP,
    "q": Word.QUIT,
    "exit": Word.QUIT,
    "next": Word.SKIP,
    "missing": Word.LEFT,
    "retest": Word.AGAIN,
    "re-test": Word.AGAIN,
    "read": Word.OK,
}
_ALONE = {each.value: each for each in Word if not each.value.endswith(":")} | _SAME
_WITH = re.compile(
    r"(?P<cant>can.?t(?: be taken)?|could not be taken)\s*:|(?P<other>[a-z ]+?)\s*:",
    re.IGNORECASE,
)
_NAMED = {each.value[:-1]: each for each in Word if each.value.endswith(":")}


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer as understood."""

    word: Word | None
    """None: a value."""
    text: str
    """The value, or what comes after the colon."""
    lacks: bool = False
    """Whether the word wants something after a colon, and nothing is there."""


def understood(text: str) -> Answer:
    """Return which word an answer is, or that it is a value."""
    plain = text.strip()
    alone = " ".join(plain.casefold().split())
    if alone in _ALONE:
        return Answer(_ALONE[alone], "")
    match = _WITH.match(plain)
    if match is not None:
        name = "cant" if match["cant"] else " ".join(match["other"].casefold().split())
        if name in _NAMED:
            rest = plain[match.end() :].strip()
            return Answer(_NAMED[name], rest, lacks=not rest)
    if alone in _NAMED or alone in ("can't", "can’t"):
        return Answer(_NAMED.get(alone, Word.CANT), "", lacks=True)
    return Answer(None, plain)
