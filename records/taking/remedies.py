"""What can be put on record about a verdict of the review, and what is asked for it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from records.errors import BadText
from records.judgement.review_types import Judged, slots_of
from records.session import Session
from records.taking.desk import desk_for
from records.taking.finding_text import tests_after
from records.taking.outcome import Outcome
from records.taking.typed_work import Work, check_said
from records.terms import Verdict, WorkKind
from records.text import NOTE_LENGTH, checked_text


class Asked(Enum):
    """What is asked about a verdict before something goes on record."""

    WORK = auto()
    """Which work was done, when."""
    WHY_NOT_NEEDED = auto()
    """Why the tests that some work made void are not needed."""
    DECISION = auto()
    """What the certifier has to know to decide."""


@dataclass(frozen=True, slots=True)
class Note:
    """A question about a verdict, what it is for, and what is said once it is answered."""

    question: str
    words: str
    kept: str


NOTES = {
    Asked.WHY_NOT_NEEDED: Note(
        "Why?",
        "Say why they are not needed. The schedule prints it with your name.",
        "On record: not needed, with your reason.",
    ),
    Asked.DECISION: Note(
        "What must the certifier know?",
        "It stays a finding, marked “to decide by the certifier”, with your note beside it.",
        "On record: to decide by the certifier. It stays a finding.",
    ),
}


def remedy_asked(finding: Judged) -> Asked:
    """Return what is asked where somebody wants to say what was done.

    Raises:
        BadText: If there is nothing to put right.
    """
    if "earlier tests again" in finding.patterns and finding.is_finding:
        return Asked.WHY_NOT_NEEDED
    if not finding.verdict.is_finding or finding.verdict is Verdict.NOT_TAKEN:
        raise BadText("There is nothing to put right here.")
    return Asked.WORK


def check_decision(finding: Judged) -> None:
    """Refuse to pass to the certifier what is no finding.

    Raises:
        BadText: If so.
    """
    if not finding.is_finding:
        raise BadText("There is nothing to decide here.")


def kinds_for(finding: Judged) -> tuple[WorkKind, ...]:
    """Return the kinds of work that can have been done: a design is not misread."""
    return tuple(each for each in WorkKind if each is not WorkKind.MISREAD or slots_of(finding))


def what_was_done(kind: WorkKind) -> str:
    """Return the question on what was done."""
    misread = kind is WorkKind.MISREAD
    return "Why was the first reading wrong?" if misread else "What was done about it?"


def done_about(kind: WorkKind) -> str:
    """Return what becomes of the answer."""
    return (
        f"{kind.words.capitalize()}. It stands in the schedule beside the reading, with your name."
    )


def check_work(session: Session, finding: Judged, kind: WorkKind, text: str, when: str) -> Work:
    """Return some work on a finding as it would go on record.

    Args:
        session: The opened record.
        finding: What it was done about.
        kind: Which kind.
        text: What was done, or why the first reading was wrong.
        when: A time or a day; empty: now.
    Raises:
        FarboardError: If the text says nothing, or it can't have been done then.
    """
    check_said(checked_text(text, NOTE_LENGTH))
    at = desk_for(session, finding).work(finding, f"{WorkKind.OTHER.value}, {when}").at
    return Work(kind, at)


def record_work(session: Session, finding: Judged, kind: WorkKind, text: str, when: str) -> Outcome:
    """Put some work on a finding on record; see `check_work`."""
    work = check_work(session, finding, kind, text, when)
    made = desk_for(session, finding).remedy(finding, text, work)
    again = "Press a to test again." if slots_of(finding) else "The design decides the rest."
    repeat = tests_after(session.record, session.review, made)
    then = f" Then repeat {repeat}." if repeat else ""
    return Outcome(f"On record. {again}{then}", "good")


def record_note(session: Session, finding: Judged, asked: Asked, text: str) -> Outcome:
    """Put a reason, or a question to the certifier, on record about a finding.

    Raises:
        FarboardError: If it says nothing, or could not be put on disk.
    """
    check_said(checked_text(text, NOTE_LENGTH))
    desk_for(session, finding).remedy(finding, text, to_decide=asked is Asked.DECISION)
    return Outcome(NOTES[asked].kept, "good")
