"""Shorthand in lists and figure fields, without a screen: what is offered and what is echoed."""

from __future__ import annotations

import pytest

from records.entering.field import Field, Several
from records.entering.model_fields import fields_of
from records.entering.typed_field import echo, offered, read_field
from records.errors import BadQuantity
from records.model.circuit import Circuit
from records.model.supply import Origin
from records.model.wiring import Device, Rcd, Run
from records.terms import CableKind, DeviceKind, Earthing, Form, Method, RcdType, Use

RUN, CIRCUIT = "/feed/runs/0", "/circuits/0"


def field(name: str) -> Field:
    piece, pointer, own = {
        "cable": (Run(), RUN, "cable"),
        "method": (Run(), RUN, "method"),
        "length": (Run(), RUN, "length"),
        "csa": (Run(), RUN, "csa"),
        "cores": (Run(), RUN, "cores"),
        "kind": (Device(), f"{CIRCUIT}/device", "kind"),
        "rating": (Device(), f"{CIRCUIT}/device", "rating"),
        "breaking": (Device(), f"{CIRCUIT}/device", "breaking"),
        "residual": (Rcd(), f"{CIRCUIT}/rcd", "residual"),
        "type": (Rcd(), f"{CIRCUIT}/rcd", "type"),
        "earthing": (Origin(), "/origin", "earthing"),
        "use": (Circuit(id="C1"), CIRCUIT, "use"),
        "form": (Circuit(id="C1"), CIRCUIT, "form"),
        "power": (Circuit(id="C1"), CIRCUIT, "power"),
        "load": (Circuit(id="C1"), CIRCUIT, "load"),
    }[name]
    return fields_of(piece, pointer, (own,))[0]


@pytest.mark.parametrize(
    ("name", "typed", "value"),
    [
        ("cable", "swa", CableKind.SWA_XLPE),
        ("cable", "swa pvc", CableKind.SWA_PVC),
        ("cable", "t+e", CableKind.FLAT),
        ("cable", "t&e", CableKind.FLAT),
        ("cable", "twin", CableKind.FLAT),
        ("method", "clipped", Method.C),
        ("method", "buried", Method.D),
        ("method", "C", Method.C),
        ("method", "102", Method.M102),
        ("earthing", "pme", Earthing.TN_C_S),
        ("earthing", "tncs", Earthing.TN_C_S),
        ("earthing", "tt", Earthing.TT),
        ("earthing", "tns", Earthing.TN_S),
        ("type", "A", RcdType.A),
        ("use", "lights", Use.LIGHTING),
        ("form", "ring", Form.RING),
        ("form", "fcu", Form.FCU),
        ("kind", "bs88-3", DeviceKind.BS_88_3),
    ],
)
def test_what_the_trade_calls_it_comes_first(name: str, typed: str, value: object) -> None:
    assert offered(field(name), typed)[0].value == value


@pytest.mark.parametrize(
    ("name", "typed", "words"),
    [
        ("kind", "B32", "Circuit-breaker type B 32 A."),
        ("kind", "32B", "Circuit-breaker type B 32 A."),
        ("kind", "C16 rcbo", "RCBO type C 16 A."),
        ("kind", "rcbo b20 30ma", "RCBO type B 20 A, 30 mA."),
        ("kind", "63 bs88-3", "BS 88-3 fuse 63 A."),
        ("cable", "10/4", "Twin-and-earth 10 mm² with 4 mm² cpc."),
        ("cable", "3c swa", "3 cores, steel-wire armoured, XLPE 90 °C."),
    ],
)
def test_an_answer_that_says_more_is_offered_in_full(name: str, typed: str, words: str) -> None:
    first = offered(field(name), typed)[0]
    assert isinstance(first.value, Several)
    assert first.label == words


@pytest.mark.parametrize(
    ("name", "typed", "values"),
    [
        ("method", "conduit", [Method.A, Method.B]),
        ("kind", "cutout", [DeviceKind.BS_1361, DeviceKind.BS_88_3]),
        ("kind", "rcbo", [DeviceKind.RCBO_B, DeviceKind.RCBO_C, DeviceKind.RCBO_D]),
    ],
)
def test_what_could_be_two_things_offers_each(name: str, typed: str, values: list[object]) -> None:
    assert [each.value for each in offered(field(name), typed)][: len(values)] == values


def test_sixty_amperes_of_a_cutout_offers_both_standards() -> None:
    words = [each.label for each in offered(field("kind"), "60a cutout")]
    assert words[:2] == ["BS 1361 fuse, before 2010 60 A.", "BS 88-3 fuse 60 A."]


@pytest.mark.parametrize(
    ("name", "typed", "value", "said"),
    [
        ("breaking", "6000", 6.0, "= 6 kA"),
        ("breaking", "6k", 6.0, "= 6 kA"),
        ("breaking", "6", 6.0, "= 6 kA"),
        ("breaking", "4500", 4.5, "= 4.5 kA"),
        ("length", "46m", 46.0, "= 46 m"),
        ("length", "46", 46.0, "= 46 m"),
        ("power", "3kW", 3.0, "= 3 kW"),
        ("load", "13A", 13.0, "= 13 A"),
        ("residual", "30ma", 30.0, "= 30 mA"),
        ("rating", "32A", 32.0, "= 32 A"),
    ],
)
def test_figures_as_they_are_written(name: str, typed: str, value: float, said: str) -> None:
    assert read_field(field(name), typed) == value
    assert echo(field(name), typed) == said


def test_a_figure_field_takes_shorthand_that_says_what_it_asks() -> None:
    both = read_field(field("rating"), "B32")
    assert isinstance(both, Several)
    assert echo(field("rating"), "B32") == "= Circuit-breaker type B 32 A."
    sizes = read_field(field("csa"), "10/4")
    assert isinstance(sizes, Several)
    assert sizes.values["cpc_csa"] == 4.0
    cores = read_field(field("cores"), "3c")
    assert isinstance(cores, Several)
    assert cores.values["cores"] == 3


@pytest.mark.parametrize(
    ("name", "typed"),
    [("length", "B32"), ("csa", "clipped"), ("rating", "wobble"), ("csa", "4/10")],
)
def test_shorthand_of_something_else_is_refused(name: str, typed: str) -> None:
    with pytest.raises(BadQuantity):
        read_field(field(name), typed)
