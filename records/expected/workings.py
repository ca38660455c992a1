"""How a figure and its working are put together, and how a missing input is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from records.errors import FarboardError, NotTabulated
from records.expected.results import Cited, NotWorkedOut, Result, Text, Worked
from records.units import Unit

T = TypeVar("T")


class Missing(FarboardError):
    """An input that a figure needs is not there; says which, and where to enter it."""


def need(value: T | None, what: str, where: str) -> T:
    """Return an input that must be there.

    Args:
        value: The input.
        what: What it is, with its verb: "its length is".
        where: Where to enter it: "Feed, run 2".
    Raises:
        Missing: If it is None.
    """
    if value is None:
        raise Missing(f"{what} not entered yet ({where}).")
    return value


def placed(error: NotTabulated, where: str) -> NotTabulated:
    """Return the same error with where its input is entered: "Feed, run 2"."""
    return NotTabulated(f"{str(error).rstrip('.')} ({where}).")


def attempt(symbol: str, work: Callable[[], Worked]) -> Result:
    """Return what `work` gives, or why there is no figure."""
    try:
        return work()
    except FarboardError as error:
        return NotWorkedOut(symbol, str(error))


def figure_of(result: Result) -> Worked:
    """Return a result that another one is built on.

    Raises:
        Missing: If there is no figure, for the same reason.
    """
    if isinstance(result, NotWorkedOut):
        raise Missing(result.why)
    return result


def value_of(result: Result) -> float:
    """Return the value of a result that another one is built on; raises as `figure_of`."""
    if isinstance(result, NotWorkedOut):
        raise Missing(result.why)
    return result.value


def worked(
    symbol: str,
    value: float,
    unit: Unit,
    formula: Text,
    put_in: Text,
    sources: Cited,
    *,
    digits: int = 2,
    low: float | None = None,
    high: float | None = None,
    words: Text = "",
    note: Text = "",
    assumed: str = "",
) -> Worked:
    """Return a figure with its working; arguments as `Worked` has them.

    The same as calling the class, in two thirds of the time: Python 3.11 packs the arguments of a
    class into a tuple and a dictionary first.
    """
    figure = _blank(Worked)
    _fill(
        figure, symbol, value, unit, formula, put_in, sources, digits=digits, low=low, high=high,
        words=words, note=note, assumed=assumed,
    )  # fmt: skip
    return figure


_blank, _fill = Worked.__new__, Worked.__init__
