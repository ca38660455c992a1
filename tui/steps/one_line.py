"""One line of shorthand on a step: what it says goes into the record in one change."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from records.entering.line_changes import Ops, ambient_brought, has_run, run_ops
from records.entering.line_field import circuit_ops, feed_ops
from records.errors import FarboardError
from records.model.circuit import Circuit
from records.model.outbuilding import Feed
from records.model.wiring import Run
from tui.dialogs.choose import Choose

if TYPE_CHECKING:
    from records.shorthand.line import Line, Scope
    from records.shorthand.vocabulary import Reading
    from tui.steps.form_step import FormStep


def take_line(
    step: FormStep,
    key: str,
    text: str,
    scope: Scope,
    put_in: Callable[[Line], str],
    answers: Mapping[str, Reading] | None = None,
) -> None:
    """Take what a line says; ask first what could be two things, and name what is not understood.

    Args:
        step: The step whose form the line stands in.
        key: Of the field.
        text: As typed.
        scope: What it is about.
        put_in: Puts the values in the record and returns the key of the line for what is left.
        answers: To the questions asked so far.
    """
    from records.shorthand.line import read_line

    line = read_line(text, scope, answers)
    if not line.queries:
        _put(step, key, text, line, put_in)
        return
    query = line.queries[0]
    step.form.line_read(key, text, str(query))

    def answered(number: int | None) -> None:
        if number is not None:
            reading = query.choices[number].reading
            take_line(step, key, text, scope, put_in, {**(answers or {}), query.key: reading})

    words = [each.words[:1].upper() + each.words[1:] for each in query.choices]
    step.app.push_screen(Choose(f"“{query.about}”: which is it?", words), answered)


def _put(step: FormStep, key: str, text: str, line: Line, put_in: Callable[[Line], str]) -> None:
    why = " ".join(line.reasons)
    if not line.values:
        step.form.line_read(key, text, why)
        return
    try:
        # Cleared first: what the change draws again must not take it for text still typed.
        step.form.line_read(key, "", "")
        goes_on = put_in(line)
    except FarboardError as error:
        step.form.line_read(key, text, str(error))
        return
    if line.unknown:
        step.form.show(step.form.rows, at=goes_on)
        step.form.line_read(goes_on, line.left, f"{why} The rest is taken.")


def into_feed(step: FormStep, feed: Feed, line: Line) -> str:
    """Put a line into the feed."""
    _change(step, feed_ops(line), line)
    if line.unknown and has_run(line.values):
        step.open(("run", str(len(feed.runs))))
        return f"/feed/runs/{len(feed.runs)}/="
    return "/feed/="


def into_circuit(step: FormStep, circuit: Circuit, pointer: str, line: Line) -> str:
    """Put a line into a circuit; raises as `circuit_ops`."""
    _change(step, circuit_ops(circuit, pointer, line), line)
    return f"{pointer}/="


def into_run(step: FormStep, run: Run, pointer: str, line: Line) -> str:
    """Put a line into a run."""
    _, brings = ambient_brought(run, line.values)
    _change(step, run_ops(pointer, run, line.values, line.implied), line, brings)
    return f"{pointer}/="


def _change(step: FormStep, ops: Ops, line: Line, brings: str = "") -> None:
    from records.shorthand.slot_words import echo_of

    if ops:
        step.session.change(ops)
    step.tell(f"{echo_of(line.values)}{brings} Ctrl+Z takes it back.", "good")
