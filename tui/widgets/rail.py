"""The ten steps at the left, each with its state in a mark and a word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive

from records.terms import Step
from tui.widgets.still import Still

if TYPE_CHECKING:
    from records.judgement.todo.standing import Standing


class Rail(Still):
    """How far the work is. Two lines for a step where the height allows it, else one."""

    standings: reactive[Mapping[Step, Standing]] = reactive(dict, layout=False)
    """How each step stands; set by the step that shows the rail."""
    current: reactive[Step | None] = reactive(None)

    @dataclass
    class Chosen(Message):
        """A step was clicked."""

        step: Step

    def render(self) -> Content:
        """Return the list."""
        return Content("\n").join(line for step in Step for line in self._lines(step))

    def on_click(self, event: events.Click) -> None:
        """Go to the step that was clicked."""
        row = event.get_content_offset(self)
        at = row.y // self._tall if row else len(Step)
        if at < len(Step):
            self.post_message(self.Chosen(tuple(Step)[at]))

    @property
    def _tall(self) -> int:
        return 2 if self.size.height >= 2 * len(Step) else 1

    def _lines(self, step: Step) -> list[Content]:
        standing = self.standings.get(step)
        here = step is self.current
        mark = standing.state.mark if standing else "·"
        count = f"{standing.taken}/{standing.wanted}" if standing and standing.wanted else ""
        width = max(self.size.width, 1)
        first = f"{mark} {step.value}"
        if self._tall == 1 and len(first) + len(count) < width:
            first = f"{first}{count:>{width - len(first)}}"
        look = "bold $ink on $primary" if here else "bold" if self._tall == 2 else ""
        lines = [Content.styled(f"{first:<{width}}", look)]
        if self._tall == 2:
            lines.append(Content.assemble(f"  {count:<8}", (words(standing), tone_of(standing))))
        return lines


def words(standing: Standing | None) -> str:
    """Return the state of a step in words, with what is open."""
    if standing is None:
        return ""
    if standing.open:
        return f"{standing.open} open" if standing.open > 1 else "1 open"
    return standing.state.value


def tone_of(standing: Standing | None) -> str:
    """Return the style for a step's state."""
    if standing is None or standing.state.is_open:
        return "$quiet"
    return "bold $error" if standing.open else "$success"
