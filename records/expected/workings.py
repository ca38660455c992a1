"""How a figure and its working are put together, and how a missing input is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from records.errors import FarboardError, NotTabulated
from records.expected.results import NotWorkedOut, Result, Worked

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
