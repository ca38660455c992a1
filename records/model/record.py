"""The record: everything known about one job."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Annotated, Literal, Protocol

from pydantic import AfterValidator, Field, model_validator

from records.errors import BadRecord
from records.model.buying import Buying
from records.model.circuit import Circuit
from records.model.fabric import Fabric
from records.model.job import Job
from records.model.kinds import MOST_ENTRIES, Piece
from records.model.noticed import Noticed
from records.model.outbuilding import Board, Feed
from records.model.reading import (
    CautionRead,
    Left,
    LiveGate,
    Place,
    Reading,
    Remedy,
    Slot,
    place_of,
    when_taken,
)
from records.model.supply import Origin
from records.terms import Part

MOST_CIRCUITS = 60
MOST_READINGS = MOST_ENTRIES


class _Named(Protocol):
    @property
    def id(self) -> str: ...


def _newest(_: int) -> Literal[3]:
    return 3


class Record(Piece):
    """One job. Lists are in the order of entry; ids are unique within their list."""

    format: Annotated[Literal[1, 2, 3], AfterValidator(_newest)] = Field(
        3,
        description=(
            "Form of the record: 2 has rooms of points, lead resistance taken off, and a few tests "
            "more; 3 says more of loads, remedies, live answers and cautions read. An older one "
            "says none of it, and is read as it is."
        ),
    )
    job: Job = Job.blank()
    origin: Origin = Origin.blank()
    feed: Feed = Feed.blank()
    board: Board = Board.blank()
    circuits: tuple[Circuit, ...] = Field((), max_length=MOST_CIRCUITS)
    fabric: Fabric = Fabric.blank()
    buying: Buying = Buying.blank()
    readings: tuple[Reading, ...] = Field((), max_length=MOST_READINGS)
    certifier_readings: tuple[Reading, ...] = Field(
        (),
        max_length=MOST_READINGS,
        description=(
            "Readings that the certifier took of what somebody else had read; they stand beside."
        ),
    )
    remedies: tuple[Remedy, ...] = Field((), max_length=MOST_READINGS)
    live_gate: tuple[LiveGate, ...] = Field((), max_length=MOST_READINGS)
    left: tuple[Left, ...] = Field(
        (),
        max_length=MOST_READINGS,
        description="How it was left each time that somebody said so, after live work.",
    )
    noticed: tuple[Noticed, ...] = Field(
        (), max_length=MOST_CIRCUITS, description="What somebody noticed of it in use."
    )
    cautions_read: tuple[CautionRead, ...] = Field((), max_length=MOST_READINGS)

    @model_validator(mode="after")
    def _holds_together(self) -> Record:
        lists: tuple[tuple[str, Sequence[_Named]], ...] = (
            ("person", self.job.people),
            ("instrument", self.job.instruments),
            ("bond", self.board.bonds),
            ("circuit", self.circuits),
            ("reading", (*self.readings, *self.certifier_readings)),
            ("remedy", self.remedies),
            ("thing noticed", self.noticed),
            ("surface", self.fabric.surfaces),
            ("fixture", self.fabric.fixtures),
            ("leg of cable", self.fabric.legs),
            ("stretch in the ground", self.fabric.buried),
            *((f"point of circuit {each.id}", each.points) for each in self.circuits),
        )
        for name, items in lists:
            ids = [each.id for each in items]
            if len(set(ids)) != len(ids):
                raise ValueError(f"Two entries carry the same {name} id; each needs its own.")
        known = set(self._places())
        for reading in (*self.readings, *self.certifier_readings):
            if reading.slot.place not in known:
                raise ValueError(
                    f"Reading {reading.id} belongs to {_words(reading.slot.place)}, which is not "
                    "in this record. What has readings can't be removed: a reading is never "
                    "deleted."
                )
        return self

    def _places(self) -> Iterable[Place]:
        for part in (Part.ORIGIN, Part.FEED, Part.BOARD):
            yield place_of(part)
        for bond in self.board.bonds:
            yield place_of(Part.BOARD, None, bond.id)
        for circuit in self.circuits:
            yield place_of(Part.CIRCUIT, circuit.id)
            for point in circuit.points:
                yield place_of(Part.CIRCUIT, circuit.id, point.id)

    def circuit(self, id: str) -> Circuit:
        """Return the circuit with this id.

        Raises:
            BadRecord: If there is none.
        """
        for each in self.circuits:
            if each.id == id:
                return each
        raise BadRecord(f"The record has no circuit {id}.")

    def taken(self, slot: Slot) -> tuple[Reading, ...]:
        """Return all readings of a slot, oldest first; the last one counts."""
        return _by_slot(self.readings).get(slot, ())


def next_id(letter: str, items: Iterable[_Named]) -> str:
    """Return an id with this letter that none of the items carries, such as `C3`."""
    return f"{letter}{max((int(each.id[1:]) for each in items), default=0) + 1}"


_latest: tuple[tuple[Reading, ...], dict[Slot, tuple[Reading, ...]]] = ((), {})


def _by_slot(readings: tuple[Reading, ...]) -> dict[Slot, tuple[Reading, ...]]:
    # Every slot of a job is asked for after each change: once sorted, that is no search any more.
    # Kept by identity and outside the record, for a copy of a record would take a cache with it.
    global _latest
    known, found = _latest
    if known is not readings:
        sorted_out: dict[Slot, list[Reading]] = {}
        for each in sorted(readings, key=when_taken):
            sorted_out.setdefault(each.slot, []).append(each)
        found = {slot: tuple(each) for slot, each in sorted_out.items()}
        _latest = (readings, found)
    return found


def _words(place: Place) -> str:
    return " ".join(filter(None, (place.part.value, place.circuit, place.point)))
