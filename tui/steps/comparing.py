"""Designs side by side from the pages of the design, and one of them taken over in one act."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from records.errors import BadRecord

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.cell import Tried
    from tui.steps.form_step import FormStep


Design = tuple[str, "Record", "Tried | None"]
"""A design with its name, and the option that it is, if it is one of a table's."""


def say_over(step: FormStep, words: str) -> None:
    """Say why something was not taken over, where the person looks: a table may be open."""
    from tui.dialogs.options_table import OptionsTable

    over = step.app.screen
    if isinstance(over, OptionsTable):
        over.say(words)
    else:
        step.tell(words, "bad")


def show_designs(step: FormStep, named: Sequence[Design]) -> None:
    """Show one or two designs beside that of the record; the one that is chosen is taken over.

    An option that fails isn't; of another record's design it is said how many checks get worse.

    Args:
        step: The step that it is shown over.
        named: One or two designs.
    """
    from records.entering.take_over import check_will_do, design_taken
    from records.options.compare import compared
    from tui.dialogs.compare_table import CompareTable
    from tui.dialogs.options_table import OptionsTable

    record = step.session.record
    rows = compared([record, *(design for _, design, _ in named)])

    def take(number: int | None) -> None:
        if number is None:
            return
        name, design, option = named[number - 1]
        try:
            if option is not None:
                check_will_do(option)
        except BadRecord as error:
            say_over(step, str(error))
            return
        ops, said = design_taken(record, design, name, rows, number)
        if not ops:
            step.tell(said)
            return
        if step.alter(ops, said) and isinstance(step.app.screen, OptionsTable):
            step.app.screen.dismiss(None)  # its options were about the design of before

    step.app.push_screen(CompareTable(["now", *(name for name, _, _ in named)], rows), take)
