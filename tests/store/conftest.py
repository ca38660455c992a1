"""A small job of no real place, and a file to keep it in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from records.model.circuit import Circuit, Point
from records.model.job import Job, Person
from records.model.reading import Figure, Place, Quantity, Reading, Slot
from records.model.record import Record
from records.model.wiring import Run
from records.store.file import RecordFile
from records.terms import Form, Part, Stage

NOON = datetime(2026, 3, 20, 12, 0, tzinfo=UTC)


def small_record() -> Record:
    """Return a record with two circuits and no reading."""
    circuits = (
        Circuit(id="C1", name="Lamps", form=Form.RADIAL, runs=(Run(length=18.0),)),
        Circuit(id="C2", name="Sockets", form=Form.RING, points=(Point(id="S1"), Point(id="S2"))),
    )
    return Record(job=Job(reference="T-1", people=(Person(id="P1", name="A"),)), circuits=circuits)


def reading(number: int, value: float = 0.35) -> Reading:
    """Return a loop reading at the first circuit."""
    slot = Slot(
        quantity=Quantity.ZS, place=Place(part=Part.CIRCUIT, circuit="C1"), stage=Stage.LIVE
    )
    return Reading(id=f"M{number}", slot=slot, taken=Figure(value=value, typed=str(value)), at=NOON)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a shed, Ωμ.farboard"


@pytest.fixture
def file(path: Path) -> Iterator[RecordFile]:
    with RecordFile.create(path, small_record(), by="A") as made:
        yield made


@pytest.fixture
def own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep what goes to the person's data folder within the test."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path / "data"
