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
        state: set[State] = {State.ANY}
        for at, step in enumerate(self.steps):
            needs = step.act.needs
            if needs not in state:
                off = any(each.act is Act.LEAVE_OFF for each in self.steps[:at])
                said.append(needs.before(stage, part, off=off))
                state.add(needs)
            said.append(step.words)
            if all(each.act is not step.act for each in self.steps[at + 1 :]):
                said.append(step.act.after)
        return " ".join(dict.fromkeys(filter(None, said)))


NONE = Advice()
"""Nothing to do."""


def do(act: Act, words: str) -> Advice:
    """Return advice of one step.

    Args:
        act: What it asks somebody to do: the gravest act in its words.
        words: A sentence that begins with its verb.
    """
    return Advice((Step(act, words),))


def words_of(advice: Advice | str, stage: Stage | None, part: Part | None) -> str:
    """Return advice in words, whether it was given as steps or as a bare sentence."""
    return advice if isinstance(advice, str) else advice.text(stage, part)
