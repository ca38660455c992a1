"""What was worked out before, kept as long as nothing that it asked for is another.

A calculation is given maps to look things up in, and divides its work into parts with a name. Each
part is kept with all keys that it asked for. When the maps are given again, every key under which
something else stands now is found, and every part that asked for one of them is forgotten. Nobody
has to say what a part rests on, so nobody can forget to.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, ItemsView, Iterator, Mapping, ValuesView
from operator import is_
from typing import Any, NamedTuple, TypeVar

K = TypeVar("K")
V = TypeVar("V")
T = TypeVar("T")

_ALL = object()
"""The key that is asked for by whoever looks through a map: all that is in it, or how many."""
_NOTHING = object()


class Once:
    """Works each part out once, for one set of maps."""

    notes = False
    """Whether it notes what is asked for."""

    def __init__(self) -> None:
        self._parts: dict[Hashable, _Part] = {}

    def now(
        self, name: str, whole: Mapping[K, V], same: Callable[[object, object], bool] | None = None
    ) -> Mapping[K, V]:
        """Return a map as the parts are to look into it.

        Args:
            name: What it holds; each map has its own.
            whole: The map. Neither it nor what stands in it may change any more.
            same: Whether two things that stand in it say the same; None: if they are one thing, or
                tuples of the same things.
        """
        return whole

    def once(self, name: Hashable, work: Callable[[], T], *given: object) -> T:
        """Return what a part gives: worked out now, or known already.

        Args:
            name: Of the part: the same for the same work.
            work: Works it out. It must look at nothing but the maps, what is given, and what never
                changes; and what it returns must not change any more.
            given: What else it goes by, told apart by identity.
        """
        part = self._parts.get(name)
        if part is None or not _same(part.given, given):
            part = self._parts[name] = self._worked_out(work, given)
        self._handed_on(part)
        result: T = part.result
        return result

    def unkept(self, work: Callable[[], T]) -> T:
        """Return what is worked out each time from parts: what it asks for matters to nobody."""
        return work()

    def _worked_out(self, work: Callable[[], object], given: tuple[object, ...]) -> _Part:
        return _Part(work(), given, {})

    def _handed_on(self, part: _Part) -> None:
        """Take note of what a part asked for, for another part that asks for it."""


class _Part(NamedTuple):
    result: Any
    given: tuple[object, ...]
    asked: Mapping[str, frozenset[object]]
    """The keys that it asked for, by the name of the map."""


class Reuse(Once):
    """Works a part out again only if something that it asked for is another than before.

    Things are told apart by identity, tuples piece by piece, unless a map says otherwise: what was
    made again counts as another, even if it is equal. What is asked for outside any part counts as
    asked for by all of them.

    Only one thread may work with it.
    """

    notes = True

    def __init__(self) -> None:
        super().__init__()
        self._maps: dict[str, Asked[Any, Any]] = {}
        self._depth = 0

    def now(
        self, name: str, whole: Mapping[K, V], same: Callable[[object, object], bool] | None = None
    ) -> Mapping[K, V]:
        """Return a map that notes what is asked for; forget the parts for which it is another."""
        before = self._maps.get(name)
        asked = self._maps[name] = Asked(whole)
        if before is None:
            return asked
        changed = before.changes_to(whole, same or _same)
        if before.keys_asked.isdisjoint(changed):
            asked.keys_asked = before.keys_asked
            self._parts = {
                part: each
                for part, each in self._parts.items()
                if changed.isdisjoint(each.asked.get(name, ()))
            }
        else:
            self._parts.clear()
            for each in self._maps.values():
                each.keys_asked = set()
        return asked

    def unkept(self, work: Callable[[], T]) -> T:
        """Return what is worked out each time; see `Once.unkept`."""
        outside = {name: each.keys_asked for name, each in self._maps.items()}
        for each in self._maps.values():
            each.keys_asked = set()
        try:
            return work()
        finally:
            for name, keys in outside.items():
                self._maps[name].keys_asked = keys

    def _worked_out(self, work: Callable[[], object], given: tuple[object, ...]) -> _Part:
        outside = {name: each.keys_asked for name, each in self._maps.items()}
        for each in self._maps.values():
            each.keys_asked = set()
        self._depth += 1
        try:
            result = work()
        except BaseException:
            for name, keys in outside.items():  # whoever goes on from here rests on what was asked
                self._maps[name].keys_asked |= keys
            raise
        finally:
            self._depth -= 1
        asked = {}
        for name, keys in outside.items():
            each = self._maps[name]
            if each.keys_asked:
                asked[name] = frozenset(each.keys_asked)
            each.keys_asked = keys
        return _Part(result, given, asked)

    def _handed_on(self, part: _Part) -> None:
        if self._depth:
            for name, keys in part.asked.items():
                self._maps[name].keys_asked |= keys


class Asked(Mapping[K, V]):
    """A map that notes which of its keys are asked for."""

    __slots__ = ("_whole", "keys_asked")

    def __init__(self, whole: Mapping[K, V]) -> None:
        self._whole = whole
        self.keys_asked: set[object] = set()
        """Those that were asked for by the part that is being worked out, or outside any."""

    def changes_to(
        self, whole: Mapping[K, V], same: Callable[[object, object], bool]
    ) -> set[object]:
        """Return the keys under which another map has something else."""
        before = self._whole
        if before is whole:
            return set()
        changed: set[object] = {
            key
            for key, value in whole.items()
            if (known := before.get(key, _NOTHING)) is not value and not same(known, value)
        }
        changed |= before.keys() - whole.keys()
        if changed or list(before) != list(whole):
            changed.add(_ALL)
        return changed

    def get(self, key: Any, default: Any = None) -> Any:
        """Return what stands under a key, or the default."""
        self.keys_asked.add(key)
        return self._whole.get(key, default)

    def __getitem__(self, key: K) -> V:
        self.keys_asked.add(key)
        return self._whole[key]

    def __contains__(self, key: object) -> bool:
        self.keys_asked.add(key)
        return key in self._whole

    def __iter__(self) -> Iterator[K]:
        self.keys_asked.add(_ALL)
        return iter(self._whole)

    def __len__(self) -> int:
        self.keys_asked.add(_ALL)
        return len(self._whole)

    def values(self) -> ValuesView[V]:
        """Return all that stands in it."""
        self.keys_asked.add(_ALL)
        return self._whole.values()

    def items(self) -> ItemsView[K, V]:
        """Return all that stands in it, with the keys."""
        self.keys_asked.add(_ALL)
        return self._whole.items()


def unnoted(noted: Mapping[K, V]) -> Mapping[K, V]:
    """Return a map itself, for who looks through all of it."""
    if not isinstance(noted, Asked):
        return noted
    noted.items()
    return noted._whole


def _same(one: object, other: object) -> bool:
    """Return whether two things are one, or tuples of the same things."""
    if one is other:
        return True
    if not (type(one) is tuple and type(other) is tuple and len(one) == len(other)):
        return False
    return all(map(is_, one, other))
