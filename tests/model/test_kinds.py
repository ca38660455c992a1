"""Values in a record: in their unit, finite, and of the size that such a thing can have."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from records.model import kinds
from records.model.buying import Buying
from records.model.circuit import Circuit, Point
from records.model.job import Instrument, Job, Person
from records.model.kinds import In, Piece
from records.model.outbuilding import Board, Bond, Feed
from records.model.record import Record
from records.model.supply import Origin
from records.model.wiring import Device, Rcd, Run
from records.units import Unit

PHYSICAL = {
    "Ohms": Unit.OHM,
    "Metres": Unit.METRE,
    "Distance": Unit.METRE,
    "SquareMillimetres": Unit.SQUARE_MILLIMETRE,
    "Amperes": Unit.AMPERE,
    "MilliAmperes": Unit.MILLIAMPERE,
    "KiloAmperes": Unit.KILOAMPERE,
    "Volts": Unit.VOLT,
    "Celsius": Unit.CELSIUS,
    "KiloWatts": Unit.KILOWATT,
    "SoilResistivity": Unit.KELVIN_METRE_PER_WATT,
    "Millimetres": Unit.MILLIMETRE,
    "Percent": Unit.PERCENT,
}


def _adapter(name: str) -> TypeAdapter[float]:
    return TypeAdapter(getattr(kinds, name))


@pytest.mark.parametrize(("name", "unit"), PHYSICAL.items())
def test_a_physical_kind_carries_its_unit(name, unit):
    assert [each for each in getattr(kinds, name).__metadata__ if isinstance(each, In)] == [
        In(unit)
    ]


@pytest.mark.parametrize("name", PHYSICAL)
@pytest.mark.parametrize("bad", [True, "5", "0.35 ohm", None, math.nan, math.inf, 1e9, [5.0]])
def test_a_physical_kind_takes_plain_figures_only(name, bad):
    with pytest.raises(ValidationError):
        _adapter(name).validate_python(bad)


@pytest.mark.parametrize(
    ("name", "lowest", "below"),
    [
        ("Ohms", 0.0, -0.01),
        ("Distance", 0.0, -1.0),
        ("Metres", 0.1, 0.0),
        ("SquareMillimetres", 1.0, 0.0),
        ("Amperes", 1.0, 0.0),
        ("Celsius", -10.0, -10.1),
        ("SoilResistivity", 0.5, 0.4),
    ],
)
def test_nothing_that_has_to_be_there_may_be_zero(name, lowest, below):
    assert _adapter(name).validate_python(lowest) == lowest
    with pytest.raises(ValidationError):
        _adapter(name).validate_python(below)


@pytest.mark.parametrize("good", ["C1", "P12", "R12345"])
def test_an_id_is_a_letter_and_a_number(good):
    assert TypeAdapter(kinds.Id).validate_python(good) == good


@pytest.mark.parametrize("bad", ["", "c1", "C", "1", "C-1", "C1 ", "C1/2", "CC1", "C123456", 1])
def test_what_is_no_id_is_refused(bad):
    with pytest.raises(ValidationError):
        TypeAdapter(kinds.Id).validate_python(bad)


def test_a_text_with_a_control_character_is_refused_with_its_place():
    with pytest.raises(ValidationError, match=r"Character 2 \(U\+001B\)"):
        TypeAdapter(kinds.Text).validate_python("a\x1b[31m")


@settings(deadline=None)
@given(st.text(max_size=40))
def test_a_text_is_kept_or_refused_never_changed_inside(text):
    try:
        kept = TypeAdapter(kinds.Text).validate_python(text)
    except ValidationError:
        return
    assert kept == text.strip()


def test_everything_that_a_person_fills_in_has_a_title_for_it():
    """A message about a field names it as the screen does."""
    nested = {"id", "device", "rcd", "runs", "points", "bonds", "people", "instruments"}
    asked = (
        Job,
        Person,
        Instrument,
        Origin,
        Feed,
        Board,
        Bond,
        Circuit,
        Point,
        Device,
        Rcd,
        Run,
        Buying,
    )
    untitled = [
        f"{piece.__name__}.{name}"
        for piece in asked
        for name, field in piece.model_fields.items()
        if name not in nested and not field.title
    ]

    assert untitled == []


def test_the_published_schema_can_be_written_as_json():
    schema = Record.model_json_schema()

    assert json.loads(json.dumps(schema)) == schema
    assert set(schema["properties"]) == set(Record.model_fields)


def test_every_piece_refuses_what_it_does_not_know_and_cannot_be_altered():
    for piece in _pieces(Piece):
        assert piece.model_config["extra"] == "forbid"
        assert piece.model_config["frozen"] is True
        assert piece.model_config["allow_inf_nan"] is False


def _pieces(base: type[Piece]) -> list[type[Piece]]:
    found = [each for each in base.__subclasses__() if each.__module__.startswith("records.")]
    assert found or base is not Piece
    return [*found, *(deeper for each in found for deeper in _pieces(each))]
