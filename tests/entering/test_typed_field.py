"""What a person may type into a field, right and wrong: read, echoed, and taken by the record."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from records.entering.field import Field
from records.entering.model_fields import fields_of
from records.entering.typed_field import echo, meanings, read_field
from records.errors import FarboardError
from records.model.record import Record
from records.session import Session
from records.store.edits import put
from records.store.file import RecordFile


@pytest.fixture
def session(tmp_path: Path) -> Iterator[Session]:
    path = tmp_path / "job.farboard"
    RecordFile.create(path).close()
    session = Session(RecordFile.open(path))
    yield session
    session.close()


def field(record: Record, part: str, name: str) -> Field:
    (row,) = fields_of(getattr(record, part), f"/{part}", [name])
    return row


def enter(session: Session, part: str, name: str, typed: str) -> None:
    """Enter a text in a field, as a form does once it is accepted."""
    row = field(session.record, part, name)
    session.change(put(row.pointer, read_field(row, typed)))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0.3 5", "is not one figure: type Ω, like 0.35"),
        ("35m", "a lone m could mean two things here, 35 mohm (thousandths) or 35 Mohm (millions)"),
        (">0.35", "this field takes a plain figure, without >"),
        ("1,250", "could be 1.250 or 1250"),
        ("0.35 volts", "is not a unit for this field: it takes Ω"),
        ("N/A", "is not one figure"),
        ("-1", "must be at least 0"),
        ("2e9", "is not"),
    ],
)
def test_a_wrong_figure_is_refused_in_words(session: Session, typed: str, said: str) -> None:
    with pytest.raises(FarboardError) as refused:
        enter(session, "origin", "ze", typed)

    assert said in str(refused.value)
    assert session.record.origin.ze is None


@pytest.mark.parametrize("typed", [".35", "0,35", "350 mohm", "0.35Ω"])
def test_a_figure_is_echoed_in_full_and_taken_so(session: Session, typed: str) -> None:
    assert echo(field(session.record, "origin", "ze"), typed) == "= 0.35 Ω"

    enter(session, "origin", "ze", typed)

    assert session.record.origin.ze == 0.35


@pytest.mark.parametrize(("typed", "taken"), [("40", True), ("40.5", False), ("-10", True)])
def test_a_limit_of_the_model_is_said_with_what_would_be_right(
    session: Session, typed: str, taken: bool
) -> None:
    if taken:
        enter(session, "job", "ambient", typed)
        assert session.record.job.ambient == float(typed)
    else:
        with pytest.raises(FarboardError, match="must be at least -10 and at most 40 °C"):
            enter(session, "job", "ambient", typed)


@pytest.mark.parametrize(
    "typed", ["2026-02-30", "31/02/2026", "20260320", "20 Smarch 2026", "soon"]
)
def test_what_is_no_day_is_refused(session: Session, typed: str) -> None:
    with pytest.raises(
        FarboardError, match=r"is not a day\. Type day, month and year, like 5/3/26"
    ):
        enter(session, "job", "started", typed)


def test_a_day_is_echoed_in_words(session: Session) -> None:
    assert echo(field(session.record, "job", "started"), "5/3/26") == "= 5 Mar 2026"
    enter(session, "job", "started", "5/3/26")
    assert session.record.job.started == date(2026, 3, 5)


def test_half_a_core_is_refused(session: Session) -> None:
    session.change([{"op": "add", "path": "/feed/runs/-", "value": {}}])
    (row,) = fields_of(session.record.feed.runs[0], "/feed/runs/0", ["cores"])

    with pytest.raises(FarboardError, match="is not a whole number"):
        read_field(row, "2.5")
    assert read_field(row, "3") == 3


def test_an_empty_text_is_what_an_empty_field_means(session: Session) -> None:
    enter(session, "origin", "ze", "0.35")
    enter(session, "origin", "ze", " ")

    assert session.record.origin.ze is None


@pytest.mark.parametrize(("typed", "kilo"), [("6", 6), ("6000", 6), ("1000", 1), ("10k", 10)])
def test_the_number_in_the_box_on_the_label_is_taken_as_it_stands(typed: str, kilo: float) -> None:
    (row,) = fields_of(Record().feed.device, "/feed/device", ["breaking"])

    assert read_field(row, typed) == kilo


def test_from_two_letters_on_shorthand_is_looked_for() -> None:
    (row,) = fields_of(Record().feed.device, "/feed/device", ["kind"])

    assert meanings(row, "b") == ()
    assert any("32" in each.words for each in meanings(row, "b32"))
