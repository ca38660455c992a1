"""What somebody is told to do next, with the state that everything has to be in before it."""

from __future__ import annotations

from records.judgement.advice.acts import Act, State
from records.judgement.advice.steps import NONE, Advice, Step, do, plan

__all__ = ["NONE", "Act", "Advice", "State", "Step", "do", "plan"]
