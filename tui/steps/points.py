"""The points of a circuit, and a start for a row of sockets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from records.drafts import opened_up, swapped
from records.errors import FarboardError
from records.judgement.todo.walking import rooms
from records.model.circuit import Circuit, Point
from records.model.record import next_id
from records.store.edits import append, insert, put, swap
from records.store.patch import Op
from records.terms import Form
from records.typed import read_typed
from records.units import Unit
from tui.fields import fields_of
from tui.steps.one_line import line_field
from tui.steps.page import Doing, Page, Trail
from tui.widgets.rows import Field

if TYPE_CHECKING:
    from records.model.reading import Place
    from records.shorthand.points_line import NewPoint
    from tui.steps.form_step import FormStep

MOST_AT_ONCE = 40


def points_page(
    step: FormStep, circuit: Circuit, pointer: str, trail: Trail, name: str, place: Place
) -> Page:
    """Return the page with all points of a circuit."""
    page = Page(f"{name} › points", place)
    ring = circuit.form is Form.RING
    known = rooms(step.session.record)
    line = line_field(f"{pointer}/points", POINTS_LINE, lambda text: _say(circuit, text))
    page.line(line, lambda text: _take_points(step, circuit, pointer, line.key, text))
    for at, point in enumerate(circuit.points):
        here = f"{pointer}/points/{at}"
        called = point.name or point.id
        page.heading(called)
        spur = ("spur",) if ring or point.spur is not None else ()
        fused = ("fuse",) if spur or point.fuse is not None else ()
        names = ("name", "room", "at", *spur, *fused, *_load_fields(point), "cpc_ends")
        fields = fields_of(point, here, names)
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


def _there(circuit: Circuit) -> list[NewPoint]:
    from records.shorthand.points_line import NewPoint

    return [NewPoint(each.name or each.id, each.at, each.spur) for each in circuit.points]


def _say(circuit: Circuit, text: str) -> str:
    """Return what a line of points says, in full."""
    from records.shorthand.points_line import read_points

    if not text.strip():
        return ""
    found = read_points(text, _there(circuit))
    return " ".join(filter(None, (found.echo, *found.reasons)))


def _take_points(step: FormStep, circuit: Circuit, pointer: str, key: str, text: str) -> None:
    """Add the points that a line names, in one change; what is not clear stays in it."""
    from records.shorthand.points_line import read_points

    found = read_points(text, _there(circuit))
    points, ops = list(circuit.points), list[Op]()
    for each in found.points:
        id = next_id("S", points)
        point = Point(id=id, name=each.name).model_copy(update={"at": each.at, "spur": each.spur})
        points.append(point)
        ops += append(f"{pointer}/points", point)
    why = " ".join(found.reasons)
    step.form.line_read(key, "", "")
    if ops and not step.alter(ops, f"{found.echo} Ctrl+Z takes it back."):
        step.form.line_read(key, text, "Nothing was taken.")
    elif why:
        step.form.line_read(key, found.left, f"{why} The rest is taken." if ops else why)


def _load_fields(point: Point) -> tuple[str, ...]:
    """Return the load in A and in kW; one of them once the other holds a value."""
    if point.load is not None:
        return ("load",) if point.power is None else ("load", "power")
    return ("power",) if point.power is not None else ("load", "power")


def _ask_load(step: FormStep, circuit: Circuit, pointer: str) -> None:
    """Ask for one load and put it at every point, in place of what stands there."""

    def ops(text: str) -> list[Op]:
        name = "power" if "w" in text.casefold() else "load"
        other = "load" if name == "power" else "power"
        unit = Unit.KILOWATT if name == "power" else Unit.AMPERE
        value = read_typed(text, unit).value
        return [
            each
            for at, _ in enumerate(circuit.points)
            for each in (
                *put(f"{pointer}/points/{at}/{name}", value),
                *put(f"{pointer}/points/{at}/{other}", None),
            )
        ]

    def refused(text: str) -> str:
        try:
            ops(text)
        except FarboardError as error:
            return str(error)
        return ""

    def take(text: str) -> None:
        step.alter(ops(text), f"{text.strip()} is entered at {len(circuit.points)} points.")

    step.farboard.ask("Load of each point: 10 W, 0.05 kW, or 2 A?", refused, take)


def _with_rooms(field: Field, known: tuple[str, ...]) -> Field:
    if not field.pointer.endswith("/room") or not known:
        return field
    hint = f"Type how one begins, → takes the rest. Named so far: {'; '.join(known)}."
    return replace(field, suggestions=known, hint=hint)


def add(step: FormStep, circuit: Circuit, pointer: str, count: int) -> None:
    """Add so many points at the end, named after their number."""
    points, ops = list(circuit.points), []
    for _ in range(count):
        id = next_id("S", points)
        point = Point(id=id, name=id)
        points.append(point)
        ops += append(f"{pointer}/points", point)
    said = f"{points[-1].id} is added." if count == 1 else f"{count} points are added."
    if step.alter(ops, said):
        step.form.show(step.form.rows, at=f"{pointer}/points/{len(circuit.points)}/name")


def _inserting(step: FormStep, circuit: Circuit, pointer: str, at: int) -> Doing:
    """Return what puts a point in before another one."""

    def insert_before() -> None:
        if not step.form.settle():
            return
        id = next_id("S", circuit.points)
        if step.alter(insert(f"{pointer}/points/{at}", Point(id=id, name=id)), f"{id} is put in."):
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
    def wanted(text: str) -> str:
        number = int(text) if text.isascii() and text.isdigit() else 0
        if not 1 <= number <= MOST_AT_ONCE:
            return f"“{text[:20]}”: type how many points, 1 to {MOST_AT_ONCE}."
        return ""

    step.farboard.ask(
        "How many points has the circuit, in the order of the cable?",
        wanted,
        lambda text: add(step, circuit, pointer, int(text)),
    )
