"""One line of shorthand on a step: what it says goes into the record in one change."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from records.errors import BadRecord, FarboardError
from records.model.circuit import Circuit
from records.model.outbuilding import Feed
from records.model.wiring import Run
from records.store.edits import append
from tui.dialogs.choose import Choose
from tui.steps.line_changes import Ops, has_run, own_ops, run_of, run_ops
from tui.widgets.rows import Field, Kind

if TYPE_CHECKING:
    from records.shorthand.line import Line, Scope
    from records.shorthand.vocabulary import Reading
    from tui.steps.form_step import FormStep


_WHOLE = 3
"""Things that a text has to say before it is taken from a field of one answer to the line."""


def line_field(
    key: str, hint: str, say: Callable[[str], str], whole: Callable[[str], bool] | None = None
) -> Field:
    """Return the field for a line.

    Args:
        key: Where in the record it is about.
        hint: What can be typed in it.
        say: Echoes it while it is typed.
        whole: Says whether a text typed in another field is meant for it.
    """
    return Field(f"{key}/=", "In one line", Kind.LINE, hint, say=say, whole=whole)


def scope_field(key: str, hint: str, scope: Scope) -> Field:
    """Return the field for a line of shorthand about a scope."""

    def whole(text: str) -> bool:
        from records.shorthand.line import read_line

        line = read_line(text, scope)
        return len(line.values.keys() - line.implied) >= _WHOLE

    return line_field(key, hint, saying(scope), whole)


def saying(scope: Scope) -> Callable[[str], str]:
    """Return what echoes a line in full while it is typed."""

    def say(text: str) -> str:
        from records.shorthand.line import read_line
        from records.shorthand.slot_words import echo_of

        if not text.strip():
            return ""
        line = read_line(text, scope)
        asked = " ".join(map(str, line.queries))
        return " ".join(filter(None, (echo_of(line.values), asked, *line.reasons)))

    return say


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


def trial_of(scope: Scope, ops_of: Callable[[Line], Ops]) -> Callable[[str], Ops]:
    """Return what gives the changes that a line would make, to be tried before it is taken.

    What it returns raises BadRecord if the line could be two things, or says nothing.

    Args:
        scope: What the line is about.
        ops_of: The changes of what was read.
    """

    def trial(text: str) -> Ops:
        from records.shorthand.line import read_line

        line = read_line(text, scope)
        if line.queries:
            raise BadRecord(f"{line.queries[0]} Enter asks which, then it can be tried.")
        if not line.values:
            raise BadRecord(" ".join(line.reasons) or "Nothing of this line is understood.")
        return ops_of(line)

    return trial


def feed_ops(line: Line) -> Ops:
    """Return the changes that a line makes in the feed; its cable becomes a new run."""
    ops = own_ops("/feed", line.values)
    return ops + append("/feed/runs", run_of(line.values)) if has_run(line.values) else ops


def into_feed(step: FormStep, feed: Feed, line: Line) -> str:
    """Put a line into the feed."""
    _change(step, feed_ops(line), line)
    if line.unknown and has_run(line.values):
        step.open(("run", str(len(feed.runs))))
        return f"/feed/runs/{len(feed.runs)}/="
    return "/feed/="


def circuit_ops(circuit: Circuit, pointer: str, line: Line) -> Ops:
    """Return the changes that a line makes in a circuit: its cable in its only run, or a first one.

    Raises:
        BadRecord: If it has several runs, so that nobody knows which one is meant.
    """
    ops = own_ops(pointer, line.values, named=bool(circuit.name))
    if has_run(line.values) and len(circuit.runs) > 1:
        raise BadRecord("This circuit has several runs: type the cable on the page of its run.")
    if has_run(line.values) and circuit.runs:
        ops += run_ops(f"{pointer}/runs/0", circuit.runs[0], line.values, line.implied)
    elif has_run(line.values):
        ops += append(f"{pointer}/runs", run_of(line.values))
    return ops


def into_circuit(step: FormStep, circuit: Circuit, pointer: str, line: Line) -> str:
    """Put a line into a circuit; raises as `circuit_ops`."""
    _change(step, circuit_ops(circuit, pointer, line), line)
    return f"{pointer}/="


def into_run(step: FormStep, run: Run, pointer: str, line: Line) -> str:
    """Put a line into a run."""
    _change(step, run_ops(pointer, run, line.values, line.implied), line)
    return f"{pointer}/="


def _change(step: FormStep, ops: Ops, line: Line) -> None:
    from records.shorthand.slot_words import echo_of

    if ops:
        step.session.change(ops)
    step.tell(f"{echo_of(line.values)} Ctrl+Z takes it back.", "good")
