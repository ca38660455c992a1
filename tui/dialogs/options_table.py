"""A table of what would do: one option taken over in one act, or two compared with what is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from records.options.confirm import CONFIRM
from tui.dialogs.table import Line, Table


class OptionsTable(Table[int]):
    """Shows options; Enter gives back the number of the one that is taken over."""

    KEYS_LINE = "Enter takes it · F2 working · s order · a all · c compare · Esc"
    HELP = (
        "What would do, thin cables first. Under the table: which check decides, or why the cell "
        "under the cursor is as it is. F2 shows how it was calculated. s puts the rows in order "
        "by the column of the cursor. a shows all that was tried, n the notes.\n\n"
        "space marks up to two rows; c shows them beside the design as it is.\n\n"
        "Enter puts the option into the record, and Ctrl+Z takes it back. One that fails is not "
        f"taken over. {CONFIRM}"
    )
    NOTES = "Cautions, and what was taken for granted"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "all", show=False),
        Binding("space", "mark", show=False, priority=True),
        Binding("c", "compare", show=False),
        Binding("enter", "take", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        head: Sequence[str],
        lines: Sequence[Line],
        cautions: Sequence[str],
        notes: Sequence[str],
        compare: Callable[[Sequence[int]], None],
    ) -> None:
        """Prepare the table.

        Args:
            title: What is chosen.
            head: Names of the columns.
            lines: The options.
            cautions: They stay in view.
            notes: Remarks, and what was taken for granted; as many as find room.
            compare: Shows options, by their numbers, beside the design as it is.
        """
        super().__init__(title, head, lines, cautions, notes)
        self._all = not any(each.near for each in lines)
        self._compare = compare
        self._marked: list[int] = []

    def first(self) -> int:
        """Begin on the smallest that will do."""
        marked = [at for at, each in enumerate(self.lines) if each.mark == "S"]
        return marked[0] if marked else 0

    def wanted(self, line: Line) -> bool:
        """Show all, or those worth reading."""
        return self._all or line.near

    def action_all(self) -> None:
        """Show all options, or only the nearest."""
        at = self.at
        self._all = not self._all
        self.fill(at or 0, self.table.cursor_column)

    def action_mark(self) -> None:
        """Mark the option for the comparison, or no longer; of three the first goes."""
        at = self.at
        if at is None:
            return
        if at in self._marked:
            self._marked.remove(at)
        else:
            self._marked = [*self._marked[-1:], at]
        self.chosen = frozenset(self._marked)
        self.fill(at, self.table.cursor_column)

    def action_compare(self) -> None:
        """Show the marked options beside the design as it is; without a mark the one here."""
        at = self.at
        chosen = self._marked or ([] if at is None else [at])
        if chosen:
            self._compare(sorted(chosen))

    def action_take(self) -> None:
        """Close with the option of the cursor."""
        self.dismiss(self.at)


ASK_LENGTH = -1
"""What the table of a circuit gives back where a length is to be asked for."""


class CircuitTable(OptionsTable):
    """The same for a circuit; r asks how long a radial would be."""

    KEYS_LINE = "Enter takes it · F2 working · s order · a all · r radial · c compare · Esc"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("r", "radial", show=False)]
    HELP = f"{OptionsTable.HELP}\n\nr asks how much cable a radial would need: its way is another."

    def action_radial(self) -> None:
        """Close, to have a length asked for."""
        self.dismiss(ASK_LENGTH)
