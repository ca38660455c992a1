"""Every published figure in Farboard with the place it comes from, for `farboard sources`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from records.evidence import Source
from records.tables.table import names, table


class Entry(NamedTuple):
    """One printed figure."""

    table: str
    """Title of the table."""
    row: str
    printed: str
    unit: str
    source: Source


def all_tables() -> Iterator[Entry]:
    """Yield every published figure, table by table, as printed and in the printed unit."""
    for name in names():
        page = table(name)
        for row, cell in page.cells.items():
            yield Entry(page.title, " · ".join(row), str(cell), page.unit, page.source(*row))


def notes() -> dict[str, str]:
    """Return the note of each table that has one, by title."""
    return {page.title: page.note for page in map(table, names()) if page.note}
