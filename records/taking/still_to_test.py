"""What a stage still lacks, by where one stands, ready to be gone to."""

from __future__ import annotations

from dataclasses import dataclass

from records.judgement.todo.walking import left
from records.model.record import Record
from records.taking.queue import Entry, Queue
from records.terms import Stage


@dataclass(frozen=True, slots=True)
class Stop:
    """A place to stand, and the entries of the queue that are left there."""

    name: str
    entries: tuple[tuple[int, Entry], ...]
    """Each with where it stands in the queue."""


def missing(record: Record, stage: Stage, queue: Queue) -> tuple[Stop, ...]:
    """Return what is left of a stage in walking order.

    Args:
        record: The job.
        stage: The stage that the queue is of.
        queue: Its entries, in either order.
    """
    at = {each.slot: number for number, each in enumerate(queue.entries)}
    return tuple(
        Stop(stop.heading, tuple((at[slot], queue.entries[at[slot]]) for slot in stop.slots))
        for stop in left(record, stage)
    )
