"""The acts that advice asks for: the state each needs, how it is worded, what follows it.

Said once, here. The words before a sentence, those after it and the tests to repeat come from this
table, so that no rule has to remember them.

Grounds: Electricity at Work Regulations 1989, regulations 12 to 14, with HSE HSR25 and GS38; BS
7671:2018, Regulation 643.1 for the tests that are repeated (all from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from records.model.reading import Quantity
from records.terms import Part, Stage

_PAIRS = "(L-N, L-E, N-E)"
"""Proved dead between all three: a single-pole device leaves the neutral in."""


class State(Enum):
    """What everything has to be in before somebody does what a sentence says."""

    ANY = "as it is"
    DEAD = "isolated, locked off at the house and proved dead"
    COMPETENT = "live, covers on, by somebody competent in live testing"
    SERVICES = "the feed locked off, and buried services looked for"

    def before(self, stage: Stage | None, part: Part | None, *, off: bool) -> str:
        """Return the sentence that brings everything into this state; empty where none is needed.

        Args:
            stage: At which the finding shows; None if it is about the design or several stages.
            part: What it is about; the feed and the origin have an end in the house board.
            off: Whether the sentences before it have it switched off and locked already.
        """
        match self:
            case State.ANY:
                return ""
            case State.COMPETENT:
                return "Live test: competent person only, covers on."
            case State.SERVICES:
                return (
                    "Lock the feed off at the house and look for buried services first (plans, "
                    "locator)."
                )
            case State.DEAD if stage is Stage.BEFORE_COVERING:
                return f"See that nothing is connected at either end; prove dead {_PAIRS}."
            case State.DEAD if part in (Part.FEED, Part.ORIGIN):
                return (
                    f"House main switch off and locked; prove dead {_PAIRS}. Cut-out, meter and "
                    "tails stay live: not yours."
                )
            case State.DEAD if off:
                return f"Lock off at the house too; prove dead {_PAIRS}."
            case State.DEAD:
                return f"Isolate, lock off at the house, prove dead {_PAIRS}."


_CONTINUITY = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.R2)
_INSULATION = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
_OPENED = (*_CONTINUITY, *_INSULATION, Quantity.POLARITY)
"""What a conductor that was moved can change without being seen."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A row of the table."""

    name: str
    """Tells it from other rows that need the same."""
    needs: State
    after: str = ""
    """What has to be said once it is done."""
    repeat: tuple[Quantity, ...] = ()
    """Tests that it makes void."""


class Act(Enum):
    """Something that advice asks somebody to do."""

    LOOK = Kind("look", State.ANY)
    """Look at what can be seen with every cover on."""
    ASK = Kind("ask", State.ANY)
    """Ask, tell or ring somebody."""
    ENTER = Kind("enter", State.ANY)
    """Type, correct or mark something in the record."""
    AGAIN = Kind("read again", State.ANY)
    """Take a reading again: its own card says the state that it needs."""
    LEAVE_OFF = Kind("leave off", State.ANY)
    """Switch off and lock off, or leave off."""
    PLAN = Kind(
        "plan",
        State.ANY,
        after="If it is built already: isolate, lock off at the house, prove dead first.",
    )
    """Change the design."""
    READ_DEAD = Kind("read dead", State.DEAD)
    """Take a dead reading that is asked for from somewhere else."""
    OPEN = Kind("open", State.DEAD, repeat=_OPENED)
    """Open a point, a joint, a box or a run; tighten, dry or remake what is in it."""
    LIFT = Kind("lift", State.DEAD, "Put each back in its own place, tight.")
    """Take a neutral, a load or electronics off what they are landed on."""
    UNLINK = Kind("links out", State.DEAD, "The links stay out.")
    """Take the links of earlier tests out: one left in is a dead short when it goes live."""
    EARTH_OFF = Kind(
        "earth off", State.DEAD, "Back and tight at once; say so before anything goes live."
    )
    """Take an earth or a bond off: nothing goes live before it is back."""
    CHANGE = Kind("change", State.DEAD, repeat=_OPENED)
    """Change or put in a device."""
    JOIN = Kind("join", State.DEAD, "Take every link out again.")
    """Join conductors for a test."""
    FIT = Kind("fit", State.DEAD)
    """Fit a clamp or an adaptor inside a board: a hand beside what would be live."""
    READ_LIVE = Kind("read live", State.COMPETENT)
    """Take a live reading: never the first check, and not the reader's unless competent."""
    DRIVE = Kind("drive", State.SERVICES)
    """Drive a rod or dig."""

    @property
    def needs(self) -> State:
        """The state that everything has to be in before it."""
        return self.value.needs

    @property
    def after(self) -> str:
        """The sentence that follows it: what goes back, and which tests to repeat."""
        kind = self.value
        names = dict.fromkeys(_NAMES[each] for each in kind.repeat)
        if not names:
            return kind.after
        *most, last = names
        return f"Repeat {', '.join(most)} and {last} of what you opened."


_NAMES = {
    **dict.fromkeys(_CONTINUITY, "continuity"),
    **dict.fromkeys(_INSULATION, "insulation"),
    Quantity.POLARITY: "polarity",
}
