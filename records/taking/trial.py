"""What a reading would mean if it were accepted: judged on a copy, before anything is written."""

from __future__ import annotations

from records.expected.results import Expected
from records.judgement.review import review
from records.judgement.review_types import Judged
from records.model.reading import Reading
from records.model.record import Record


def with_reading(record: Record, reading: Reading) -> Record:
    """Return a copy of the record that has this reading too; the record itself stays as it is."""
    return record.model_copy(update={"readings": (*record.readings, reading)})


def trial(record: Record, expected: Expected, reading: Reading) -> tuple[Judged, ...]:
    """Return the verdicts that a reading would have: its own first, then patterns it would join.

    What is expected of a reading does not depend on the reading itself, so what is expected of the
    record as it stands serves.
    """
    return review(with_reading(record, reading), expected).of(reading.slot)
