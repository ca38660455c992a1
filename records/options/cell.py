"""One check of one choice as a cell of a table, and which of several decides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from records.expected.results import Result
from records.model.reading import Place
from records.terms import Verdict, Word


class Check(Word):
    """What is looked at, in the order of a table's columns."""

    LOAD = "load", "Ib ≤ In"
    RATING = "rating", "In ≤ Iz"
    DROP = "drop", "voltage drop"
    LOOP = "loop", "Zs"
    TIME = "time", "disconnection"
    CPC = "cpc", "cpc size"
    BOND = "bond", "as a bond"
    BREAKING = "breaking", "breaking capacity"


_ORDER = (Verdict.OUTSIDE, Verdict.NOT_TAKEN, Verdict.NEAR, Verdict.NOT_NEEDED, Verdict.WITHIN)
"""The gravest first: of several lines the first of these speaks for a column."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One check of one choice."""

    check: Check
    verdict: Verdict
    figure: str
    """As a table shows it; empty where there is none."""
    why: str
    place: Place
    result: Result | None = None
    used: float | None = None
    """Share of the limit that is used: 1 on the limit, above 1 outside it; None: not known."""


def columns(lines: Iterable[Cell]) -> Iterator[Cell]:
    """Yield of each column the line that decides: the gravest, then the one with least in hand."""
    by_check: dict[Check, list[Cell]] = {}
    for each in lines:
        by_check.setdefault(each.check, []).append(each)
    for check in Check:
        found = by_check.get(check)
        if found:
            yield min(found, key=gravity)


def gravity(cell: Cell) -> tuple[int, float]:
    """Return what puts cells in order, the gravest first, then the one with least in hand."""
    return _ORDER.index(cell.verdict), -(cell.used or 0.0)


def deciding(cells: Iterable[Cell]) -> Cell | None:
    """Return the cell that decides whether a choice will do, and how much is left.

    A device that is fully used says nothing of the cable: Ib ≤ In speaks only where it fails. A
    loop that is too high tells what it does to the time and the cpc.
    """
    found = [
        each
        for each in cells
        if each.verdict is not Verdict.NOT_NEEDED
        and not (each.check is Check.LOAD and each.verdict is Verdict.WITHIN)
    ]
    if any(each.check is Check.LOOP and each.verdict is Verdict.OUTSIDE for each in found):
        found = [each for each in found if each.check is not Check.TIME]
    return min(found, key=gravity, default=None)


def verdict_of(cells: Iterable[Cell]) -> Verdict:
    """Return the gravest verdict of some checks; NOT_TAKEN: a figure is needed first."""
    found = deciding(cells)
    return Verdict.NOT_TAKEN if found is None else found.verdict


def will_do(cells: Iterable[Cell]) -> bool:
    """Return whether no check fails and none needs a figure first."""
    return verdict_of(cells) in (Verdict.WITHIN, Verdict.NEAR)


class Tried:
    """What was tried, by its checks."""

    __slots__ = ()
    cells: tuple[Cell, ...]

    @property
    def verdict(self) -> Verdict:
        """The gravest of its checks; NOT_TAKEN: it needs a figure before it can be judged."""
        return verdict_of(self.cells)

    @property
    def will_do(self) -> bool:
        """Whether no check fails and none needs a figure first."""
        return will_do(self.cells)

    @property
    def decides(self) -> Cell | None:
        """The check that fails, or has least in hand."""
        return deciding(self.cells)
