"""Designs side by side from the pages of the design, and one of them taken over in one act."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from records.store.edits import put
from records.terms import Verdict

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.cell import Tried
    from tui.steps.form_step import FormStep


Design = tuple[str, "Record", "Tried | None"]
"""A design with its name, and the option that it is, if it is one of a table's."""


def refused(step: FormStep, option: Tried) -> bool:
    """Say so, where an option fails: it is not taken over."""
    from tui.dialogs.options_table import OptionsTable

    if option.verdict is not Verdict.OUTSIDE:
        return False
    why = option.decides.why if option.decides is not None else ""
    said = f"Not taken over: it would not do. {why}"
    over = step.app.screen
    if isinstance(over, OptionsTable):
        over.say(said)
    else:
        step.tell(said, "bad")
    return True


def show_designs(step: FormStep, named: Sequence[Design]) -> None:
    """Show one or two designs beside that of the record; the one that is chosen is taken over.

    An option that fails isn't; of another record's design it is said how many checks get worse.

    Args:
        step: The step that it is shown over.
        named: One or two designs.
    """
    from records.options.compare import compared, taken_over
    from tui.dialogs.compare_table import CompareTable
    from tui.dialogs.options_table import OptionsTable

    record = step.session.record
    rows = compared([record, *(design for _, design, _ in named)])

    def take(number: int | None) -> None:
        if number is None:
            return
        name, design, option = named[number - 1]
        if option is not None and refused(step, option):
            return
        after = taken_over(record, design)
        parts = ("feed", "board", "circuits")
        ops = [
            op
            for part in parts
            if getattr(after, part) != getattr(record, part)
            for op in put(f"/{part}", getattr(after, part))
        ]
        if not ops:
            step.tell("Nothing differs in feed, board and circuits: nothing was taken over.")
            return
        bad = sum(row.sides[number].worse for row in rows)
        worse = f" {bad} checks get worse: see Review." if bad else ""
        said = f"Taken over: {name}.{worse} Ctrl+Z takes it back. The certifier confirms it."
        if step.alter(ops, said) and isinstance(step.app.screen, OptionsTable):
            step.app.screen.dismiss(None)  # its options were about the design of before

    step.app.push_screen(CompareTable(["now", *(name for name, _, _ in named)], rows), take)


def design_at(path: Path) -> Record:
    """Return the record in a record file or in exported JSON, to compare with.

    Raises:
        FarboardError: If there is none; the message says what is wrong.
    """
    from records.disk import open_ordinary, read_ordinary
    from records.errors import BadRecord
    from records.store.exchange import LARGEST, from_json
    from records.store.file import RecordFile
    from records.store.heading import check_is_file
    from records.store.showing import file_name

    check_is_file(path)
    try:
        with open_ordinary(path) as file:
            head = file.read(64).lstrip(b"\xef\xbb\xbf \t\r\n")
        if head.startswith((b"{", b"[")):
            return from_json(read_ordinary(path, 4 * LARGEST).decode("utf-8-sig"))
    except (OSError, UnicodeDecodeError) as error:
        raise BadRecord(f"{file_name(path)} can't be read: {error}.") from None
    with RecordFile.open(path, read_only=True) as opened:
        return opened.record
