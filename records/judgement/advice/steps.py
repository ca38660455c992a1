"""Advice as data: steps, each an act with its words; the state that an act needs is put before it.

do(Act.OPEN, "Split the run half way and read each half.")
do(Act.LEAVE_OFF, "Switch it off and lock it off.") + do(Act.ASK, "Tell the certifier.")
"""

from __future__ import annotations

from dataclasses import dataclass

from records.judgement.advice.acts import Act, State
from records.terms import Part, Stage


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do."""

    act: Act
    words: str
    """A plain sentence, or two; without the state that the act needs, which the table adds."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next, in order."""

    steps: tuple[Step, ...] = ()

    def __add__(self, other: Advice) -> Advice:
        """Return this, and the other after it."""
        return Advice((*self.steps, *other.steps))

    def __bool__(self) -> bool:
        """Whether there is anything to do."""
        return bool(self.steps)

    def text(self, stage: Stage | None = None, part: Part | None = None) -> str:
        """Return it in words: before an act the state that it needs, once; after it what follows.

        Args:
            stage: At which the finding shows; None if it is about the design or several stages.
            part: What the finding is about.
        """
        said: list[str] = []
        follows: list[str] = []
        now, off = State.ANY, False
        for step in self.steps:
            act, needs = step.act, step.act.needs
            if needs is not State.DEAD:
                # What came off or was opened is dealt with before anything else is done.
                said += follows
                follows.clear()
            if needs not in (State.ANY, now):
                said.append(needs.before(stage, part, off=off))
                now = needs
            if step.words not in said:
                said.append(step.words)
            if act is Act.LEAVE_OFF:
                off = True
            elif needs is State.COMPETENT or (act is Act.AGAIN and stage is Stage.LIVE):
                now, off = needs, False  # it is live again
            if act.after and act.after not in follows:
                (said if act is Act.EARTH_OFF else follows).append(act.after)
        return " ".join((*said, *follows))


NONE = Advice()
"""Nothing to do."""


def do(act: Act, words: str) -> Advice:
    """Return advice of one step.

    Args:
        act: What it asks somebody to do: the gravest act in its words.
        words: A sentence that begins with its verb.
    """
    return Advice((Step(act, words),))


def plan(words: str) -> str:
    """Return advice to change the design, in words: what holds if it is built already follows it.

    Args:
        words: What would put it right, the cheapest first.
    """
    return do(Act.PLAN, words).text()
