"""A field as it is asked for: its words, its unit, its answers, and how its value is shown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest

from records.entering import asked, asked_wiring
from records.entering.field import NOT_SAID, Field, Kind
from records.entering.model_fields import fields_of
from records.entering.remark import Asked, Remark
from records.model.buying import Buying
from records.model.circuit import Circuit, Point
from records.model.job import Instrument, Job, Person
from records.model.kinds import Piece
from records.model.noticed import Noticed
from records.model.outbuilding import Board, Bond, Feed
from records.model.record import Record
from records.model.supply import Origin
from records.model.wiring import Device, Rcd, Run
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    FeedLoad,
    Form,
    LoadKind,
    Method,
    OutbuildingEarth,
    RcdStandard,
)
from records.units import Unit


def one(piece: Piece, name: str) -> Field:
    (field,) = fields_of(piece, "/x", (name,))
    return field


@pytest.mark.parametrize(
    ("piece", "name", "kind", "unit"),
    [
        (Run(), "length", Kind.FIGURE, Unit.METRE),
        (Run(), "csa", Kind.FIGURE, Unit.SQUARE_MILLIMETRE),
        (Run(), "cores", Kind.COUNT, Unit.NUMBER),
        (Run(), "method", Kind.CHOICE, Unit.NUMBER),
        (Run(), "duct", Kind.YES_NO, Unit.NUMBER),
        (Run(), "where", Kind.TEXT, Unit.NUMBER),
        (Device(), "breaking", Kind.FIGURE, Unit.KILOAMPERE),
        (Origin(), "ze", Kind.FIGURE, Unit.OHM),
        (Job(), "started", Kind.DATE, Unit.NUMBER),
    ],
)
def test_a_field_is_filled_as_the_model_has_it(
    piece: Piece, name: str, kind: Kind, unit: Unit
) -> None:
    found = one(piece, name)

    assert (found.kind, found.unit, found.pointer) == (kind, unit, f"/x/{name}")
    assert found.label == type(piece).model_fields[name].title
    assert found.hint == (type(piece).model_fields[name].description or "")


def test_every_field_of_the_design_has_a_title_of_its_own() -> None:
    for model in (Job, Origin, Feed, Board, Circuit, Run, Device, Rcd, Point, Bond, Instrument):
        titles = [info.title for info in model.model_fields.values() if info.title]
        assert len(set(titles)) == len(titles), model


def test_what_may_stay_open_can_be_answered_so_and_what_may_not_can_t() -> None:
    assert one(Run(), "method").options[-1].label == NOT_SAID
    assert one(Run(), "method").options[-1].value is None
    plain = [each.label for each in one(Run(), "duct").options]
    assert plain[:2] == ["yes", "no"]
    assert (NOT_SAID in plain) is (Run().duct is None)


@pytest.mark.parametrize(
    ("field", "bare", "shown"),
    [
        (one(Run(length=46.0), "length"), "46", "46 m"),
        (one(Run(), "length"), "", ""),
        (one(Run(csa=2.5), "csa"), "2.5", "2.5 mm²"),
        (one(Run(method=Method.C), "method"), "C", "C"),
        (one(Run(duct=True), "duct"), "yes", "yes"),
        (one(Run(where="loft"), "where"), "loft", "loft"),
        (one(Job(started=date(2026, 3, 5)), "started"), "5 Mar 2026", "5 Mar 2026"),
    ],
)
def test_a_value_is_shown_with_its_unit_and_typed_without(
    field: Field, bare: str, shown: str
) -> None:
    assert (field.bare, field.shown) == (bare, shown)


@pytest.mark.parametrize(
    ("piece", "name", "value", "note"),
    [
        (Feed(), "loading", FeedLoad.RATED, "all that its device carries"),
        (Feed(), "loading", FeedLoad.TOGETHER, "you mark which circuits can be on at once"),
        (Run(), "method", Method.M100, "flat: above a ceiling, ≤ 100 mm of insulation"),
        (Run(), "method", Method.M101, "flat: above a ceiling, > 100 mm of insulation"),
        (Origin(), "earthing", Earthing.TN_C_S, "earth from the supply's neutral (PME)"),
        (Origin(), "earthing", Earthing.TT, "no earth from the supplier: an electrode"),
    ],
)
def test_an_answer_says_what_it_means(piece: Piece, name: str, value: object, note: str) -> None:
    """BS 7671, Table 4A2 and Part 2 (from memory)."""
    notes = {each.value: each.note for each in one(piece, name).options}

    assert notes[value] == note


# What every page together asks for


def _names(each: Asked) -> tuple[str, ...]:
    return () if isinstance(each, Remark) else each


def _wiring() -> Iterator[tuple[type[Piece], Asked]]:
    for cable in CableKind:
        for method in Method:
            run = Run(cable=cable, cpc=Cpc.SEPARATE, method=method, grouped=2)
            yield from ((Run, each) for each in asked_wiring.run_asked(run))
    old = Rcd(residual=30.0, standard=RcdStandard.BS_4293, delayed=True)
    for rcd in (Rcd(), old):
        yield from ((Rcd, each) for each in asked_wiring.rcd_asked(rcd, aged=True))
    yield from ((Device, each) for each in asked_wiring.device_asked(Device()))
    for kind in LoadKind:
        circuit = Circuit(id="C1", kind=kind, form=Form.FCU)
        record = Record(feed=Feed(loading=FeedLoad.TOGETHER))
        yield from ((Circuit, each) for each in asked_wiring.fuse_asked(circuit))
        yield from ((Circuit, each) for each in asked_wiring.circuit_load_asked(record, circuit))
    ring = Circuit(id="C1", form=Form.RING)
    yield Point, asked_wiring.point_fields(ring, Point(id="S1"))
    yield from ((Feed, each) for each in asked_wiring.feed_load_asked(Feed()))
    armoured = Feed(runs=(Run(cable=CableKind.SWA_PVC),))
    yield from ((Feed, each) for each in asked.armour_asked(armoured))


def _rest() -> Iterator[tuple[type[Piece], Asked]]:
    yield from ((Job, each) for each in asked.job_asked(Record(job=Job(edition="another"))))
    for earthing in Earthing:
        origin = Origin(earthing=earthing)
        yield from ((Origin, each) for each in asked.origin_asked(origin))
    for earth in OutbuildingEarth:
        record = Record(board=Board(earth=earth))
        yield from ((Board, each) for each in asked.earth_asked(record))
    yield from ((Instrument, each) for each in asked.instrument_asked(Instrument(id="M1")))
    yield from ((Person, each) for each in (asked.PERSON,))
    yield from ((Bond, each) for each in (asked.BOND,))
    yield from ((Buying, each) for each in (asked.BUYING,))
    yield from ((Noticed, each) for each in (asked.NOTICED,))


ELSEWHERE = {
    Job: {"people", "instruments", "edition_settled"},
    Feed: {"device", "rcd", "runs"},
    Board: {"rcd", "bonds", "place", "main_switch", "surge_protection"},
    Circuit: {"id", "name", "use", "form", "device", "rcd", "runs", "points"},
    Point: {"id", "spot"},
    Bond: {"id"},
    Instrument: {"id"},
    Person: {"id"},
    Noticed: {"id", "circuit", "at", "by"},
}
"""Lists and parts with rows of their own, ids, and what a page names itself."""


@pytest.mark.parametrize(
    "model",
    [Job, Origin, Feed, Board, Circuit, Run, Device, Rcd, Point, Bond, Instrument, Person, Buying],
)
def test_every_field_of_the_design_is_asked_for_on_some_page(model: type[Piece]) -> None:
    """Else it can be in a record and nobody can enter it, or correct it."""
    found = {
        name for kind, each in (*_wiring(), *_rest()) if kind is model for name in _names(each)
    }

    assert set(model.model_fields) - found - ELSEWHERE.get(model, set()) == set()


def test_the_kind_of_a_device_is_asked_for_first() -> None:
    first = next(iter(asked_wiring.device_asked(Device(kind=DeviceKind.BREAKER_B))))

    assert _names(first)[0] == "kind"


def test_flat_cable_whose_cpc_is_in_it_is_asked_for_its_place_first() -> None:
    flat = Run(cable=CableKind.FLAT, cpc=Cpc.CORE)

    assert list(asked_wiring.run_fields(flat))[:3] == ["where", "cable", "csa"]


def test_a_neutral_that_is_entered_stays_in_sight_without_pme() -> None:
    found = [_names(each) for each in asked.origin_asked(Origin(neutral_csa=25.0))]

    assert any("neutral_csa" in each for each in found)


def test_a_run_without_a_cable_is_no_armour() -> None:
    assert list(asked.armour_asked(Feed(runs=(Run(),)))) == []
    assert list(asked.armour_asked(Feed(runs=(Run(cable=CableKind.FLAT),)))) == []
