"""What a reading would mean if it were accepted: judged on a copy, before anything is written."""

from __future__ import annotations

from records.expected.results import Expected
from records.judgement.review_types import Judged
from records.model.certifier import list_for
from records.model.reading import Reading
from records.model.record import Record


def with_reading(record: Record, reading: Reading) -> Record:
    """Return a copy of the record that has this reading too; the record itself stays as it is."""
    name = list_for(record, reading)
    return record.model_copy(update={name: (*getattr(record, name), reading)})


def trial(record: Record, expected: Expected, reading: Reading) -> tuple[Judged, ...]:
    """Return the verdicts that a reading would have: its own first, then patterns it would join.

    What is expected of a reading does not depend on the reading itself, so what is expected of the
    record as it stands serves.
    """
    from records.judgement.review import preview, review  # all rules; the bench stands before

    grown = with_reading(record, reading)
    found = review(grown, expected).of(reading.slot)
    if grown.readings is record.readings:  # the line of the slot is that of the other reading
        return (preview(record, expected, reading), *found[1:])
    return found
