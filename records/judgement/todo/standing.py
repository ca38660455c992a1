"""How a step of the walk stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class State(StrEnum):
    """How far a step is."""

    EMPTY = "empty"
    BEGUN = "begun"
    COMPLETE = "complete"
    FINDINGS = "has findings"

    @property
    def mark(self) -> str:
        """A sign for the state that needs no colour."""
        return _MARKS[self]

    @property
    def is_open(self) -> bool:
        """Whether nothing is wrong and something is still to come."""
        return self in (State.EMPTY, State.BEGUN)


_MARKS = {State.EMPTY: "·", State.BEGUN: "…", State.COMPLETE: "✓", State.FINDINGS: "!"}


@dataclass(frozen=True, slots=True)
class Standing:
    """How one step stands."""

    state: State
    taken: int = 0
    """What has been entered or taken."""
    wanted: int = 0
    """What the step wants in all."""
    open: int = 0
    """Findings with a real problem in them, not merely something missing."""
    needs: tuple[str, ...] = ()
    """What the step still lacks, in plain sentences."""


def standing(taken: int, wanted: int, open: int, needs: tuple[str, ...]) -> Standing:
    """Return a standing whose state follows from its counts: findings go first."""
    if open:
        state = State.FINDINGS
    elif taken == 0:
        state = State.EMPTY
    else:
        state = State.BEGUN if needs else State.COMPLETE
    return Standing(state, taken, wanted, open, needs)
