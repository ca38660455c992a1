"""One published table: figures as printed, in the printed unit, each row with its source."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, Generic, TypeVar

from records.errors import NotTabulated
from records.evidence import Source
from records.terms import Basis

T = TypeVar("T")

DATA = Path(__file__).parent / "data"

_BASES = {
    "read": Basis.READ,
    "memory": Basis.MEMORY,
    "worked out": Basis.WORKED_OUT,
    "common practice": Basis.COMMON_PRACTICE,
}

Printed = int | Decimal | str
"""A figure as it stands on the page, or words where the page has words."""


@dataclass(frozen=True, slots=True)
class Published(Generic[T]):
    """A figure in SI with the place it was published in."""

    value: T
    source: Source


@dataclass(frozen=True, slots=True)
class Table:
    """A published table; a row is found by its words, one for each level of the table."""

    name: str
    title: str
    unit: str
    """As printed."""
    about: str
    """What the words of a row mean."""
    note: str
    cells: Mapping[tuple[str, ...], Printed]
    sources: Mapping[Basis, Source]
    other_basis: Mapping[tuple[str, ...], Basis]
    main_basis: Basis
    seen: Mapping[tuple[str, ...], Source]
    """Rows that were held against a copy of the page, with that copy named."""
    cited: dict[tuple[str, ...], Source] = field(default_factory=dict, compare=False, repr=False)
    """The source of each row that was asked for."""

    def printed(self, *row: str) -> Printed:
        """Return a figure as printed.

        Raises:
            NotTabulated: If the table has no such row; the message says which it has.
        """
        try:
            return self.cells[row]
        except KeyError:
            raise NotTabulated(self._missing(row)) from None

    def source(self, *row: str) -> Source:
        """Return where a row was published, and on what basis it stands here."""
        found = self.cited.get(row)
        if found is None:
            place = self.seen.get(row) or self.sources[self.other_basis.get(row, self.main_basis)]
            found = self.cited[row] = replace(place, figure=self._figure(row), table=self.name)
        return found

    def _figure(self, row: tuple[str, ...]) -> str:
        cell = self.cells.get(row)
        if cell is None:
            return ""
        return f"{self.title}, {_label(row)}: {cell} {self.unit}".rstrip()

    def number(self, *row: str, times: float = 1.0) -> Published[float]:
        """Return a figure times `times` (the printed unit in SI) with its source.

        Raises:
            NotTabulated: If the table has no such row, or has words there.
        """
        cell = self.printed(*row)
        if isinstance(cell, str):
            raise NotTabulated(f"{self.title}: {', '.join(row)} is “{cell}”, not a figure.")
        return Published(float(cell) * times, self.source(*row))

    def under(self, *start: str) -> tuple[str, ...]:
        """Return the words of the next level below `start`, in the order of the table."""
        depth = len(start)
        found = (row[depth] for row in self.cells if row[:depth] == start and len(row) > depth)
        return tuple(dict.fromkeys(found))

    def _missing(self, row: tuple[str, ...]) -> str:
        for depth in range(len(row)):
            known = self.under(*row[:depth])
            if row[depth] not in known:
                have = f" It has {', '.join(known)}." if known else ""
                under = f" under {', '.join(row[:depth])}" if depth else ""
                return f"{self.title}: no row {row[depth]}{under} ({self.about}).{have}"
        return f"{self.title}: {', '.join(row)} is not one figure ({self.about})."


@cache
def table(name: str) -> Table:
    """Return the table in the data file `name`.toml, read once."""
    with (DATA / f"{name}.toml").open("rb") as file:
        page: dict[str, Any] = tomllib.load(file, parse_float=Decimal)
    head = page["source"]
    edition = head.get("edition")
    work = f"{head['work']}:{edition}" if edition else head["work"]
    cells = dict(_flat(page["rows"]))
    rows = {_label(row): row for row in cells}
    other = {
        rows[label]: _BASES[basis]
        for basis, labels in page.get("other_basis", {}).items()
        for label in labels
    }
    main = _BASES[head["basis"]]
    seen = {
        rows[label]: Source(work, head["place"], Basis.READ, _copy(each))
        for each in page.get("seen", ())
        for label in each["rows"]
    }
    return Table(
        name,
        head["title"],
        head["unit"],
        head["rows"],
        head.get("note", ""),
        cells,
        {basis: Source(work, head["place"], basis) for basis in (main, *other.values())},
        other,
        main,
        seen,
    )


def names() -> tuple[str, ...]:
    """Return the names of all tables, in alphabetical order."""
    return tuple(sorted(path.stem for path in DATA.glob("*.toml")))


def size(area_mm2: float) -> str:
    """Return a number as the tables write it in a row: 2.5, 16."""
    return f"{area_mm2:g}"


def _copy(seen: Mapping[str, Any]) -> str:
    """Return which copy a figure was read in: `as` says what that copy is of, and what was done."""
    return f"{seen['in']}, {seen['as']}" if "as" in seen else str(seen["in"])


def _label(row: tuple[str, ...]) -> str:
    return " · ".join(row)


def _flat(
    rows: Mapping[str, Any], above: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], Printed]]:
    for word, cell in rows.items():
        if isinstance(cell, dict):
            yield from _flat(cell, (*above, word))
        else:
            yield (*above, word), cell
