"""The figures that stand behind a reading, each under its name."""

from __future__ import annotations

from records.expected.results import Expected, Result
from records.model.record import Record
from records.model.slots import title
from records.taking.queue import Entry


def behind(record: Record, expected: Expected, entry: Entry) -> list[tuple[str, Result]]:
    """Return the expectation of a reading, then all that was worked out for its place."""
    own = expected.meter.get(entry.slot)
    place = entry.slot.place.whole
    where = title(record, place)
    return [
        *([(f"{entry.place}: {entry.measurement.symbol}, on the meter", own)] if own else []),
        *(
            (f"{where}: {what.value}, from the {source}", result)
            for source, results in (("readings", expected.measured), ("design", expected.design))
            for (at, what), result in results.items()
            if at == place
        ),
    ]
