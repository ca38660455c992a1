"""A property that is worked out once for each object."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar

T = TypeVar("T")


class kept(Generic[T]):  # noqa: N801
    """As `functools.cached_property`, without the lock that it takes in Python 3.11.

    That lock costs more than most of what is kept. Two threads may work the same out at once; they
    find the same. What raises is not kept.
    """

    def __init__(self, work: Callable[[Any], T]) -> None:
        self._work = work
        self._name = work.__name__
        self.__doc__ = work.__doc__

    def __get__(self, owner: Any, of: type | None = None) -> T:
        # Python asks here only as long as the object has no attribute of this name.
        found = owner.__dict__[self._name] = self._work(owner)
        return found
