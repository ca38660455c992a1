"""What would do, from the pages of the design: a table, and one of it taken over in one act."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from records.errors import BadRecord
from records.terms import Use
from tui.steps.comparing import Design, say_over, show_designs

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.cell import Cell
    from records.options.circuit import CircuitChoice
    from records.options.feed import Choice
    from records.store.patch import Op
    from tui.dialogs.table import Line, Told
    from tui.steps.form_step import FormStep
    from tui.steps.page import Page

_HINT = "Tries all that is made and says which check decides. Nothing changes until you take one."


def feed_option_rows(step: FormStep, page: Page, run: int | None = None) -> None:
    """Add the row that opens the table of cables.

    Args:
        step: The step.
        page: Its page.
        run: Which run is tried, from 0; None: the longest.
    """
    name = "what cable would do here" if run is not None else "what cable would do"
    page.act(f"options/{run}", f"? {name}", lambda: _open_feed(step, run), _HINT)


def circuit_option_rows(step: FormStep, page: Page, id: str) -> None:
    """Add the row that opens the table of forms, sizes and devices of a circuit."""
    page.act(
        "options", "? what would do: ring, radial, size", lambda: _open_circuit(step, id), _HINT
    )


def _open_feed(step: FormStep, run: int | None) -> None:
    from records.entering.take_over import feed_taken
    from records.options.feed import (
        cautions,
        feed_options,
        longest_run,
        remarks,
    )
    from records.options.rows import FEED_HEAD, feed_row
    from tui.dialogs.options_table import OptionsTable

    record = step.session.record
    at = longest_run(record) if run is None else run
    choice = feed_options(record, at)
    if choice.lacks:
        step.tell(choice.lacks[0], "warn")
        return

    def take(number: int | None) -> None:
        if number is None:
            return
        _take(step, lambda: feed_taken(choice, number))

    now = ", * now" if choice.present is not None else ""
    title = f"Run {at + 1} of the feed: S smallest that passes, R leaves {choice.room:g} %{now}"
    notes = (*remarks(choice), *choice.notes)
    u0 = record.origin.u0
    named = [(" ".join(feed_row(each, u0)[:2]), each.record, each) for each in choice.options]
    compare = _comparing(step, named)
    lines = _feed_lines(record, choice)
    table = OptionsTable(title, FEED_HEAD, lines, tuple(cautions(record)), notes, compare)
    step.app.push_screen(table, take)


def _take(step: FormStep, make: Callable[[], tuple[list[Op], str]]) -> None:
    """Put an option into the record, or say why it is not taken over."""
    try:
        ops, said = make()
    except BadRecord as error:
        say_over(step, str(error))
        return
    step.alter(ops, said)


def _comparing(step: FormStep, named: Sequence[Design]) -> Callable[[Sequence[int]], None]:
    """Return what shows some of the options beside the design as it is."""

    def compare(numbers: Sequence[int]) -> None:
        show_designs(step, [named[at] for at in numbers])

    return compare


def _feed_lines(record: Record, choice: Choice) -> list[Line]:
    from records.options.rows import FEED_HEAD, behind, feed_row, telling
    from tui.dialogs.table import Line

    near = {id(each) for each in telling(choice)}
    marks = {id(choice.roomy): "R", id(choice.smallest): "S"}
    return [
        Line(
            feed_row(each, record.origin.u0, now=each is choice.present),
            _behind(behind(FEED_HEAD, each.cells, each.decides)),
            _told(each.cells),
            marks.get(id(each), each.verdict.mark),
            id(each) in near,
            id(each) in marks,
        )
        for each in choice.options
    ]


def _behind(cells: Iterable[Cell | None]) -> list[Told | None]:
    return [None if each is None else _of_cell(each) for each in cells]


def _told(cells: Iterable[Cell]) -> list[Told]:
    return [_of_cell(each) for each in cells]


def _of_cell(cell: Cell) -> Told:
    from tui.dialogs.table import Told

    at = f", {cell.place.circuit}" if cell.place.circuit else ""
    return Told(f"{cell.check.words}{at}", cell.why, cell.result)


def _open_circuit(step: FormStep, id: str, radial: float | None = None) -> None:
    from records.entering.take_over import circuit_taken
    from records.options.circuit import circuit_options
    from records.options.confirm import CONFIRM
    from records.options.rows import CIRCUIT_HEAD
    from tui.dialogs.options_table import ASK_LENGTH, CircuitTable, OptionsTable

    record = step.session.record
    choice = circuit_options(record, id, radial=radial)
    if choice.lacks:
        step.tell(choice.lacks[0], "warn")
        return
    named = [
        (f"{each.form.words} {each.csa:g} mm², {each.rating:g} A", each.record, each)
        for each in choice.options
    ]

    def take(taken: int | None) -> None:
        if taken is None:
            return
        if taken == ASK_LENGTH:
            _ask_radial(step, id)
            return
        _take(step, lambda: circuit_taken(record, id, choice.options[taken], named[taken][0]))

    title, compare = f"What would do for {id}", _comparing(step, named)
    lines = _circuit_lines(record, choice)
    kind = CircuitTable if choice.circuit.use is Use.SOCKETS else OptionsTable
    step.app.push_screen(kind(title, CIRCUIT_HEAD, lines, (CONFIRM,), choice.notes, compare), take)


def _ask_radial(step: FormStep, id: str) -> None:
    """Ask how long a radial would be, and show the table with that."""
    from records.entering.take_over import radial_length
    from records.errors import FarboardError
    from tui.dialogs.ask import Ask

    def wrong(text: str) -> str:
        try:
            radial_length(text)
        except FarboardError as error:
            return str(error)
        return ""

    def asked(text: str | None) -> None:
        length = None if text is None else radial_length(text)
        _open_circuit(step, id, length)

    step.app.push_screen(Ask(f"How long would a radial for {id} be, in metres?", wrong), asked)


def _circuit_lines(record: Record, choice: CircuitChoice) -> list[Line]:
    from records.options.rows import CIRCUIT_HEAD, behind, circuit_row, telling_circuit
    from tui.dialogs.table import Line

    near = {id(each) for each in telling_circuit(choice)}
    return [
        Line(
            circuit_row(each, record.origin.u0),
            _behind(behind(CIRCUIT_HEAD, each.cells, each.decides)),
            _told(each.cells),
            each.verdict.mark,
            id(each) in near,
        )
        for each in choice.options
    ]
