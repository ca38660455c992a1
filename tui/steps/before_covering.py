"""Before covering: the dead readings that can only be put right while everything is open."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.binding import Binding, BindingType

from records import terms
from records.model.reading import Slot
from records.model.slots import measured_by
from records.taking.cautions import HELP
from tui import keys
from tui.keys import LETTERS
from tui.steps.bench_acts import Bench

_HELP = """These readings are taken on bare ends, while walls and trench are open. They are the \
only ones with nothing connected: prove that, at both ends. What is wrong now costs minutes, not a \
wall.

Know what is in the wall and the ground before you drill, dig or drive: plans, locator. Old sheds \
can hold asbestos: leave it, have it looked at.

Nothing is covered while a reading here is outside or unlikely. The same readings are taken again \
in the dead tests: a fall since now is another finding."""


class BeforeCovering(Bench):
    """Readings before the boards go on."""

    step = terms.Step.BEFORE_COVERING
    stage = terms.Stage.BEFORE_COVERING
    STEP_TITLE = "Before covering"
    KEYS = (*Bench.KEYS, *keys.SURFACES)
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "surfaces", "Surfaces", show=False, tooltip="Where cables and boxes are")
    ]
    HELP = f"{_HELP}\n\n{HELP}\n\n{LETTERS}"

    def _acts(self) -> dict[str, tuple[str, Callable[[], object]]]:
        return {
            **super()._acts(),
            "s": ("Surfaces: where cables are, safe to cover?", self.action_surfaces),
        }

    def action_surfaces(self) -> None:
        """Show the surfaces; a reading that is missing there is gone to."""
        from tui.dialogs.surfaces import Surfaces

        self.app.push_screen(Surfaces(self.session), self._go_to)

    def _go_to(self, slot: Slot | None) -> None:
        if slot is not None and slot not in self.sitting.more and measured_by(slot).optional:
            self.sitting.more.append(slot)
        self.record_changed()
        found = self._queue.index(slot) if slot is not None else None
        if found is not None:
            self.enter(found)

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field; surfaces are there before any reading is."""
        if character == "s":
            self.action_surfaces()
            return True
        return super().command(character)
