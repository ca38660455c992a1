"""The list of steps as lines: mark, name, count, state."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from textual.content import Content

from records.terms import Step
from tui.widgets.rail import tone_of, words

if TYPE_CHECKING:
    from records.judgement.todo.standing import Standing


def step_lines(standings: Mapping[Step, Standing]) -> list[Content]:
    """Return a line for each step."""
    lines = []
    for number, step in enumerate(Step, start=1):
        standing = standings[step]
        count = f"{standing.taken}/{standing.wanted}" if standing.wanted else ""
        lines.append(
            Content.assemble(
                f"{number:>2}  {standing.state.mark} {step.value:<16}{count:>8}   ",
                (words(standing), tone_of(standing)),
            )
        )
    return lines
