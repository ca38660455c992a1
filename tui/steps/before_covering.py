"""Before covering: the dead readings that can only be put right while everything is open."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType

from records import terms
from records.model.reading import Slot
from records.taking.stage_help import stage_help
from tui import keys
from tui.keys import LETTERS
from tui.steps.bench_step import Act, BenchStep


class BeforeCovering(BenchStep):
    """Readings before the boards go on."""

    step = terms.Step.BEFORE_COVERING
    stage = terms.Stage.BEFORE_COVERING
    STEP_TITLE = "Before covering"
    KEYS = (*BenchStep.KEYS, *keys.SURFACES)
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "surfaces", "Surfaces", show=False, tooltip="Where cables and boxes are")
    ]
    HELP = f"{stage_help(terms.Stage.BEFORE_COVERING)}\n\n{LETTERS}"

    def letters(self) -> dict[str, Act]:
        """Return what letters do in an empty field: surfaces too."""
        return {
            **super().letters(),
            "s": ("Surfaces: where cables are, safe to cover?", self.action_surfaces),
        }

    def action_surfaces(self) -> None:
        """Show the surfaces; a reading that is missing there is gone to."""
        from tui.dialogs.surfaces import Surfaces

        self.app.push_screen(Surfaces(self.session), self._go_to)

    def _go_to(self, slot: Slot | None) -> None:
        self.bench.look_again()
        if slot is None or self.bench.go_to(slot):
            self.show_all()
        else:
            self.act(lambda: self.bench.conditions.ask_for(slot))

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field; surfaces are there before any reading is."""
        if character == "s":
            self.action_surfaces()
            return True
        return super().command(character)
