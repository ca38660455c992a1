"""The cut-out sheet on the screen: each hole from one corner, ticked off once it is cut."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from records.document.walls.cut_sheet import ARROWS, cut_rows, plunge_words
from records.expected.boxes import Placed
from records.judgement.fabric.cutouts import cut_outs
from records.judgement.fabric.legs import surface_name
from records.model.fabric import Surface
from records.session import Session
from tui.dialogs.dialog import Dialog
from tui.widgets.wall_picture import things


class CutOuts(Dialog[None]):
    """Lists the holes of a surface; Enter ticks one off."""

    KEYS_LINE = "↑ ↓ move · Enter: cut, or not yet · d from the other corner · Esc closes"
    HELP = (
        "One line a hole. Measure along from the corner named, and up from the finished floor: to "
        "the middle of the hole. Enter ticks it off once it is cut; once more takes the tick away."
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("d", "turn", show=False)]

    def __init__(self, session: Session, surface: Surface, tick: Callable[[Placed], str]) -> None:
        """Prepare the sheet.

        Args:
            session: The opened record.
            surface: One of its surfaces.
            tick: Ticks a hole off; says why not, or nothing.
        """
        super().__init__(f"Cut-out sheet: {surface_name(surface)}")
        self._session, self._surface, self._tick = session, surface, tick
        self._far = False

    def compose_inside(self) -> ComposeResult:
        """Compose what the figures are from, the holes, and how deep to plunge."""
        yield Static("", id="cut-from", markup=False)
        yield OptionList(compact=True)
        yield Static(f"{plunge_words(self._surface)}\n{ARROWS}", id="cut-words", markup=False)

    def on_mount(self) -> None:
        """Show the holes."""
        self._show(0)

    def _show(self, at: int) -> None:
        record, surface = self._session.record, self._surface
        placed = {each.name: each for each in things(record, surface)}
        holes = cut_outs(record, surface, from_far=self._far)
        self._holes = [placed[each.name] for each in holes]
        rows = [cut_rows(each) for each in holes]
        wide = [max((len(row[cell]) for row in rows), default=0) for cell in range(7)]
        corner = "the other corner" if self._far else surface.corner
        empty = "" if rows else " No hole is entered here."
        self.query_one("#cut-from", Static).update(
            f"Along from {corner}, up from finished floor, in mm: hole, size, middle along and up, "
            f"edges, cable behind.{empty}"
        )
        options = self.query_one(OptionList)
        options.clear_options()
        for each, row in zip(self._holes, rows, strict=True):
            cells = " ".join(cell.ljust(room) for cell, room in zip(row, wide, strict=True))
            mark = "x" if each.spot.cut else " "
            options.add_option(Option(Content(f"[{mark}] {cells}".rstrip())))
        options.highlighted = min(at, len(rows) - 1) if rows else None
        self.set_focus(options)

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        why = self._tick(self._holes[event.option_index])
        self._show(event.option_index)
        if why:
            self.query_one("#cut-from", Static).update(why)

    def action_turn(self) -> None:
        """Measure from the other corner, or from the first again."""
        self._far = not self._far
        self._show(self.query_one(OptionList).highlighted or 0)
