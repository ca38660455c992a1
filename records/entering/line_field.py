"""One line of shorthand on a page of the design: what it says, and the changes it would make."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from records.entering.field import Field, Kind
from records.entering.line_changes import Ops, has_run, own_ops, run_of, run_ops
from records.entering.whole_line import is_whole_line
from records.errors import BadRecord
from records.model.circuit import Circuit
from records.store.edits import append

if TYPE_CHECKING:
    from records.shorthand.line import Line, Scope


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
    return line_field(key, hint, saying(scope), lambda text: is_whole_line(text, scope))


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
