"""What would do, from the pages of the design: a table, and one of it taken over in one act."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from records.store.edits import put
from records.terms import Verdict

if TYPE_CHECKING:
    from records.options.circuit import CircuitChoice
    from records.options.feed import Choice
    from records.store.patch import Op
    from tui.dialogs.options_table import Line
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
    from records.options.feed import feed_options, remarks
    from records.options.rows import longest_run
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
        from records.options.feed import cpc_words, words

        option = choice.options[number]
        if option.verdict is Verdict.OUTSIDE:
            why = option.decides.why if option.decides is not None else ""
            step.tell(f"Not taken over: it would not do. {why}", "bad")
            return
        ops: list[Op] = put("/feed/runs", option.record.feed.runs)
        step.alter(
            ops, f"Run {at + 1}: {words(option.make)}, cpc: {cpc_words(option.make)}. Ctrl+Z takes "
            "it back. The certifier confirms it.",
        )  # fmt: skip

    head, lines, warned = _feed_lines(step, choice)
    now = ", * now" if choice.present is not None else ""
    title = f"Run {at + 1} of the feed: S smallest that passes, R leaves {choice.room:g} %{now}"
    notes = (*remarks(choice), *choice.notes)
    step.app.push_screen(OptionsTable(title, head, lines, warned, notes), take)


def _feed_lines(step: FormStep, choice: Choice) -> tuple[Sequence[str], list[Line], Sequence[str]]:
    from records.options.feed import cautions
    from records.options.rows import FEED_HEAD, behind, feed_row, telling
    from tui.dialogs.options_table import Line

    record = step.session.record
    near = {id(each) for each in telling(choice)}
    marks = {id(choice.roomy): "R", id(choice.smallest): "S"}
    lines = [
        Line(
            marks.get(id(each), each.verdict.mark),
            feed_row(each, record.origin.u0, now=each is choice.present),
            behind(FEED_HEAD, each.cells, each.decides), each.cells, id(each) in near,
        )
        for each in choice.options
    ]  # fmt: skip
    return FEED_HEAD, lines, tuple(cautions(record))


def _open_circuit(step: FormStep, id: str) -> None:
    from records.options.circuit import circuit_options
    from tui.dialogs.options_table import OptionsTable

    record = step.session.record
    choice = circuit_options(record, id)
    if choice.lacks:
        step.tell(choice.lacks[0], "warn")
        return
    number = next(at for at, each in enumerate(record.circuits) if each.id == id)

    def take(taken: int | None) -> None:
        if taken is None:
            return
        option = choice.options[taken]
        if option.verdict is Verdict.OUTSIDE:
            why = option.decides.why if option.decides is not None else ""
            step.tell(f"Not taken over: it would not do. {why}", "bad")
            return
        ops = put(f"/circuits/{number}", option.record.circuit(id))
        said = f"{option.form.words}, {option.csa:g} mm², {option.rating:g} A, {option.length:g} m"
        step.alter(ops, f"{id}: {said}. Ctrl+Z takes it back. The certifier confirms it.")

    head, lines = _circuit_lines(step, choice)
    title = f"What would do for {id}"
    confirm = ("The designer and the certifier confirm the design.",)
    step.app.push_screen(OptionsTable(title, head, lines, confirm, choice.notes), take)


def _circuit_lines(step: FormStep, choice: CircuitChoice) -> tuple[Sequence[str], list[Line]]:
    from records.options.rows import CIRCUIT_HEAD, behind, circuit_row, telling_circuit
    from tui.dialogs.options_table import Line

    near = {id(each) for each in telling_circuit(choice)}
    u0 = step.session.record.origin.u0
    lines = [
        Line(
            each.verdict.mark, circuit_row(each, u0),
            behind(CIRCUIT_HEAD, each.cells, each.decides), each.cells, id(each) in near,
        )
        for each in choice.options
    ]  # fmt: skip
    return CIRCUIT_HEAD, lines
