"""The points of a circuit, and a start for a row of sockets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from records.drafts import opened_up, swapped
from records.entering.asked_wiring import point_fields
from records.entering.field import Field
from records.entering.line_field import line_field
from records.entering.model_fields import fields_of
from records.entering.points import (
    how_many,
    named_points,
    new_point,
    read_points_line,
    row_of_points,
    same_load,
)
from records.errors import FarboardError
from records.judgement.todo.walking import rooms
from records.model.circuit import Circuit
from records.store.edits import insert, swap
from tui.steps.page import Doing, Page, Trail

if TYPE_CHECKING:
    from records.model.reading import Place
    from tui.steps.form_step import FormStep


def points_page(
    step: FormStep, circuit: Circuit, pointer: str, trail: Trail, name: str, place: Place
) -> Page:
    """Return the page with all points of a circuit."""
    page = Page(f"{name} › points", place)
    known = rooms(step.session.record)
    line = line_field(f"{pointer}/points", POINTS_LINE, lambda text: _say(circuit, text))
    page.line(line, lambda text: _take_points(step, circuit, pointer, line.key, text))
    for at, point in enumerate(circuit.points):
        here = f"{pointer}/points/{at}"
        called = point.name or point.id
        page.heading(called)
        fields = fields_of(point, here, point_fields(circuit, point))
        fields = tuple(_with_rooms(each, known) for each in fields)
        page.fields(fields)
        for each in fields:
            page.removals[each.key] = step.taking_out(here, f"Point {called}")
            page.inserts[each.key] = _inserting(step, circuit, pointer, at)
            if at > 0:
                page.moves_up[each.key] = _moving(step, circuit, pointer, each.key, at, at - 1)
            if at + 1 < len(circuit.points):
                page.moves_down[each.key] = _moving(step, circuit, pointer, each.key, at, at + 1)
    page.heading("More points")
    page.act(
        "+",
        "+ add a point",
        lambda: add(step, circuit, pointer, 1),
        "Ctrl+N puts one in before, Ctrl+↑ ↓ moves one, F8 removes one.",
    )
    if not circuit.points:
        page.act(
            "++",
            "+ add a row of points, named S1, S2 …",
            lambda: _ask_many(step, circuit, pointer),
            "Their distances stay open: pace them off, or leave them until you know.",
        )
    if len(circuit.points) > 1:
        page.act(
            "load",
            "the same load at every point",
            lambda: _ask_load(step, circuit, pointer),
            "Such as 10 W for each lamp. Voltage drop then takes the loads where they are.",
        )
    page.act("up", f"‹ back to {name}", step.action_up, "Esc does the same.")
    return page


POINTS_LINE = (
    "Such as S1 door 6m, S2 bench 11m, spur S3 4m; or L1-L10 from 3m every 1.2m. From the board "
    "along the cable; +5m is from the point before."
)


def _say(circuit: Circuit, text: str) -> str:
    """Return what a line of points says, in full."""
    if not text.strip():
        return ""
    found = read_points_line(circuit, text)
    return " ".join(filter(None, (found.echo, *found.reasons)))


def _take_points(step: FormStep, circuit: Circuit, pointer: str, key: str, text: str) -> None:
    """Add the points that a line names, in one change; what is not clear stays in it."""
    found = read_points_line(circuit, text)
    ops = named_points(circuit, pointer, found.points)
    why = " ".join(found.reasons)
    step.form.line_read(key, "", "")
    if ops and not step.alter(ops, f"{found.echo} Ctrl+Z takes it back."):
        step.form.line_read(key, text, "Nothing was taken.")
    elif why:
        step.form.line_read(key, found.left, f"{why} The rest is taken." if ops else why)


def _ask_load(step: FormStep, circuit: Circuit, pointer: str) -> None:
    """Ask for one load and put it at every point, in place of what stands there."""

    def take(text: str) -> None:
        said = f"{text.strip()} is entered at {len(circuit.points)} points."
        step.alter(same_load(circuit, pointer, text), said)

    question = "Load of each point: 10 W, 0.05 kW, or 2 A?"
    step.farboard.ask(question, _why_not(lambda text: same_load(circuit, pointer, text)), take)


def _why_not(read: Callable[[str], object]) -> Callable[[str], str]:
    """Return what says why a text can't be read; empty if it can."""

    def wrong(text: str) -> str:
        try:
            read(text)
        except FarboardError as error:
            return str(error)
        return ""

    return wrong


def _with_rooms(field: Field, known: tuple[str, ...]) -> Field:
    if not field.pointer.endswith("/room") or not known:
        return field
    hint = f"Type how one begins, → takes the rest. Named so far: {'; '.join(known)}."
    return replace(field, suggestions=known, hint=hint)


def add(step: FormStep, circuit: Circuit, pointer: str, count: int) -> None:
    """Add so many points at the end, named after their number."""
    ops = row_of_points(circuit, pointer, count)
    said = f"{new_point(circuit).id} is added." if count == 1 else f"{count} points are added."
    if step.alter(ops, said):
        step.form.show(step.form.rows, at=f"{pointer}/points/{len(circuit.points)}/name")


def _inserting(step: FormStep, circuit: Circuit, pointer: str, at: int) -> Doing:
    """Return what puts a point in before another one."""

    def insert_before() -> None:
        if not step.form.settle():
            return
        point = new_point(circuit)
        if step.alter(insert(f"{pointer}/points/{at}", point), f"{point.id} is put in."):
            opened_up(step.session.drafts, f"{pointer}/points", at)
            step.form.show(step.form.rows, at=f"{pointer}/points/{at}/name")

    return insert_before


def _moving(step: FormStep, circuit: Circuit, pointer: str, key: str, at: int, to: int) -> Doing:
    """Return what moves a point to the place of its neighbour; its readings go with it."""

    def move() -> None:
        if not step.form.settle():
            return
        points = step.session.record.circuit(circuit.id).points
        name = points[at].name or points[at].id
        if step.alter(swap(f"{pointer}/points", points, at, to), f"{name} is moved."):
            swapped(step.session.drafts, f"{pointer}/points", at, to)
            field = key.rpartition("/")[2]
            step.form.show(step.form.rows, at=f"{pointer}/points/{to}/{field}")

    return move


def _ask_many(step: FormStep, circuit: Circuit, pointer: str) -> None:
    step.farboard.ask(
        "How many points has the circuit, in the order of the cable?",
        _why_not(how_many),
        lambda text: add(step, circuit, pointer, how_many(text)),
    )
