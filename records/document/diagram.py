"""The single-line diagram: house board, feed, board, circuits; the same in words beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from records.document.as_built import device
from records.document.ink import Value
from records.document.reading_cells import Cells
from records.document.shapes import Sheet
from records.document.text_width import wrapped
from records.document.words import NOT_GIVEN, figure, given, joined
from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Run
from records.terms import Part, Verdict
from records.units import Unit

_WIDTH = 176.0
_IN_A_ROW = 9
_SIZE, _STEP = 8.0, 3.6
_TALLEST = 225.0
"""Of a sheet, so that it stands on a page with its heading [mm]."""
_GREY = "EFEFEF"


@dataclass(frozen=True, slots=True)
class _Column:
    """One circuit as the diagram shows it."""

    number: str
    lines: tuple[str, ...]
    """Device, cable, arrangement."""
    name: tuple[str, ...]
    marks: tuple[str, ...]
    open: bool


def single_line(record: Record, cells: Cells) -> dict[str, Any]:
    """Return the sheets of the diagram, and what it says in words.

    Args:
        record: The job.
        cells: Knows which readings are missing, and which findings a circuit has.
    """
    columns = _columns(record, cells)
    words = [
        *_feed_words(record),
        *(_circuit_words(*each) for each in zip(record.circuits, columns, strict=True)),
    ]
    said = " ".join(words)
    images: list[Value] = []
    for at, sheet in enumerate(_drawn(record, columns), start=1):
        name = f"Single-line diagram{f', sheet {at}' if at > 1 else ''}"
        images.append({"shapes": sheet.xml(name, said), "words": said})
    return {"images": images, "words": words}


def _columns(record: Record, cells: Cells) -> list[_Column]:
    width = _WIDTH / min(max(len(record.circuits), 1), _IN_A_ROW)
    return [_column(each, cells, width - 1.5) for each in record.circuits]


def _drawn(record: Record, columns: list[_Column]) -> list[Sheet]:
    rows = [columns[at : at + _IN_A_ROW] for at in range(0, len(columns), _IN_A_ROW)]
    sheets: list[Sheet] = []
    while rows or not sheets:
        head = _head_height(record) if not sheets else 8.0
        taken, height = 0, head
        while taken < len(rows) and (not taken or height + _row_height(rows[taken]) <= _TALLEST):
            height += _row_height(rows[taken])
            taken += 1
        sheet = Sheet(_WIDTH, height)
        if sheets:
            sheet.label((0, 3.0), "Sub-board, continued", bold=True, anchor="left")
        else:
            _draw_head(sheet, record, head)
        bar = head
        for row in rows[:taken]:
            _draw_row(sheet, row, bar, len(columns))
            bar += _row_height(row)
        sheets.append(sheet)
        rows = rows[taken:]
    return sheets


def _head(record: Record) -> tuple[list[str], list[str]]:
    """Return the lines of the house board and of the feed."""
    cable = joined(map(_run, record.feed.runs), " + ") or "feed: no cable given"
    return wrapped(_house(record), 70.0, _SIZE), wrapped(cable, 140.0, _SIZE)


def _head_height(record: Record) -> float:
    house, cable = _head(record)
    return 8.0 + len(house) * _STEP + 5 + len(cable) * _STEP + 12


def _draw_head(sheet: Sheet, record: Record, bar: float) -> None:
    """Draw house board, feed and main switch, down to the bar of the sub-board."""
    house, cable = _head(record)
    top = 8.0 + len(house) * _STEP
    middle = 20.0
    sheet.box((2, 2, 76, top), fill=_GREY)
    sheet.label((4, 4.4), "House board", bold=True, anchor="left")
    for at, line in enumerate(house):
        sheet.label((4, 8.0 + at * _STEP), line, anchor="left")
    switch = bar - 8
    sheet.line((middle, top), (middle, switch - 2.5), thick=1.5)
    for at, line in enumerate(cable):
        sheet.label((middle + 4, top + 3.4 + at * _STEP), line, anchor="left")
    sheet.box((middle - 5, switch - 2.5, middle + 5, switch + 2.5))
    main = f"Main switch {figure(record.board.main_switch, Unit.AMPERE)}"
    sheet.label((middle + 7, switch), main, anchor="left")
    sheet.line((middle - 3, switch + 1.5), (middle + 3, switch - 1.5), thick=1.5)
    sheet.line((middle, switch + 2.5), (middle, bar), thick=1.5)
    earth = record.board.earth.value if record.board.earth else f"earth {NOT_GIVEN}"
    sheet.label((_WIDTH, bar - 2.6), f"Sub-board · earth: {earth}", bold=True, anchor="right")


def _draw_row(sheet: Sheet, row: list[_Column], bar: float, number: int) -> None:
    sheet.line((0, bar), (_WIDTH, bar), thick=2.25)
    across = max(len(row), min(number, _IN_A_ROW))
    for at, column in enumerate(row):
        _draw(sheet, column, (at + 0.5) * _WIDTH / across, bar)


def _draw(sheet: Sheet, it: _Column, x: float, top: float) -> None:
    wide = max(4.0, 1.2 * len(it.number))
    sheet.line((x, top), (x, top + 3), thick=1.0, dashed=it.open)
    sheet.box((x - wide, top + 3, x + wide, top + 8), fill=_GREY)
    sheet.label((x, top + 5.5), it.number, bold=True)
    y = top + 10.4
    for line in it.lines:
        sheet.label((x, y), line)
        y += _STEP
    sheet.line((x, y - 1), (x, y + 2), thick=1.0, dashed=it.open)
    sheet.line((x - 1, y + 0.6), (x, y + 2), (x + 1, y + 0.6))
    y += 4.4
    for line in it.name:
        sheet.label((x, y), line)
        y += _STEP
    for line in it.marks:
        sheet.label((x, y), line, bold=True)
        y += _STEP


def _row_height(row: list[_Column]) -> float:
    most = max((len(each.lines) + len(each.name) + len(each.marks) for each in row), default=0)
    return 18.0 + most * _STEP


def _column(it: Circuit, cells: Cells, width: float) -> _Column:
    slots = cells.by_part(Part.CIRCUIT, it.id)
    open_ = any(
        own.verdict is Verdict.NOT_TAKEN
        for each in slots
        if (own := cells.own.get(each)) is not None
    )
    found = cells.ledger.at(it.id)
    length = sum(run.length for run in it.runs if run.length is not None)
    sizes = joined(dict.fromkeys(f"{run.csa:g}" for run in it.runs if run.csa is not None), ", ")
    parts = (
        _short_device(it),
        f"{sizes} mm²" if sizes else "no size",
        f"{length:g} m" if length else "no length",
        it.form.value if it.form else "",
    )
    lines = [line for part in parts if part for line in wrapped(part, width, _SIZE)]
    marks = [*wrapped(joined(found, " "), width, _SIZE, bold=True), *(["open"] if open_ else [])]
    return _Column(
        it.id, tuple(lines), tuple(wrapped(it.name or NOT_GIVEN, width, _SIZE)), tuple(marks), open_
    )


def _short_device(it: Circuit) -> str:
    kind, rating = it.device.kind, it.device.rating
    if kind is None or rating is None:
        return device(it.device)
    if kind.is_fuse:
        return f"{kind.value} {rating:g} A"
    return f"{kind.curve}{rating:g}{' RCBO' if kind.is_rcbo else ''}"


def _house(record: Record) -> str:
    ze = figure(record.origin.ze, Unit.OHM, 2)
    earthing = record.origin.earthing.value if record.origin.earthing else f"earthing {NOT_GIVEN}"
    return f"{device(record.feed.device)}. {earthing}, design Ze {ze}"


def _run(it: Run) -> str:
    size = f"{it.cores} × {figure(it.csa, Unit.SQUARE_MILLIMETRE)}"
    return joined(
        (it.cable.value if it.cable else f"cable {NOT_GIVEN}", size, figure(it.length, Unit.METRE))
    )


def _feed_words(record: Record) -> list[str]:
    runs = joined(map(_run, record.feed.runs), "; then ") or "no cable given"
    place = given(record.board.place).rstrip(".")
    return [
        f"House board: {_house(record)}.",
        f"Feed: {runs}.",
        f"Sub-board ({place}): main switch {figure(record.board.main_switch, Unit.AMPERE)}.",
    ]


def _circuit_words(it: Circuit, column: _Column) -> str:
    built = joined((_short_device(it), *column.lines[1:]))
    marks = joined(
        (
            *(each for each in column.marks if each != "open"),
            "readings missing" if column.open else "",
        )
    )
    return f"{it.id} {it.name or NOT_GIVEN}: {built}{f' ({marks})' if marks else ''}."
