"""A pasted column of values: offered to the next fields, or refused with the reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.errors import BadQuantity
from records.model.reading import Figure, Tick
from records.taking.queue import Entry, Queue
from records.taking.typed_reading import understand

MOST = 60
"""Lines that one paste may have: more is a mistake, or a table."""


@dataclass(frozen=True, slots=True)
class Fill:
    """A value and the field that it would go into."""

    entry: Entry
    taken: Figure | Tick


def values(text: str) -> tuple[str, ...]:
    """Return the values in pasted text, one a line; empty lines at the ends don't count."""
    return tuple(line.strip() for line in text.strip().splitlines())


def fills(queue: Queue, at: int, lines: Sequence[str]) -> tuple[Fill, ...]:
    """Return which field each pasted value would go into: the open ones from `at` on.

    Raises:
        BadQuantity: If one of them doesn't fit; then nothing at all is filled.
    """
    if len(lines) > MOST:
        raise BadQuantity(f"{len(lines)} lines were pasted; {MOST} is the most. Nothing was taken.")
    places = [each for each in queue.entries[at:] if each.is_open]
    if len(lines) > len(places):
        raise BadQuantity(
            f"{len(lines)} lines were pasted, but from here on {_fields(len(places))} in this "
            "stage. Nothing was taken: copy fewer."
        )
    found: list[Fill] = []
    for number, (line, entry) in enumerate(zip(lines, places, strict=False), start=1):
        try:
            _check(line, entry, places[0])
            found.append(Fill(entry, understand(line, entry.measurement)))
        except BadQuantity as error:
            raise BadQuantity(
                f"Line {number} of the paste, for {entry.place}, {entry.measurement.symbol}: "
                f"{error} Nothing was taken."
            ) from None
    return tuple(found)


def _check(line: str, entry: Entry, first: Entry) -> None:
    if not line:
        raise BadQuantity("it is empty: copy one value a line, without empty lines between them.")
    if "\t" in line:
        raise BadQuantity("it has several columns: copy one column of values.")
    if entry.measurement.is_check:
        raise BadQuantity("this is a check, which you answer yourself: copy only up to here.")
    if entry.family is not first.family:
        raise BadQuantity("other tests begin here, with their own caution: copy up to here.")


def _fields(count: int) -> str:
    if not count:
        return "no field is open"
    return "one field is open" if count == 1 else f"{count} fields are open"
