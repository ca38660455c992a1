"""One line for a circuit, a feed or a run: taken, asked or named, never guessed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.shorthand.line import Line, Scope, read_line
from records.shorthand.slot_words import echo_of
from records.terms import CableKind, Cpc, DeviceKind, Form, LoadKind, Method, RcdType, Use

RING: dict[str, Any] = {
    "use": Use.SOCKETS,
    "form": Form.RING,
    "device": DeviceKind.RCBO_B,
    "rating": 32.0,
    "residual": 30.0,
    "cable": CableKind.FLAT,
    "csa": 2.5,
    "cpc_csa": 1.5,
    "cpc": Cpc.CORE,
    "cores": 2,
    "length": 68.0,
    "method": Method.C,
}
TRENCH: dict[str, Any] = {
    "cable": CableKind.SWA_XLPE,
    "cores": 3,
    "csa": 10.0,
    "length": 46.0,
    "method": Method.D,
    "depth": 0.5,
    "ambient": 20.0,
}


def values(line: Line) -> dict[str, Any]:
    """Return what a line fills, without the parts that a device is named by."""
    apart = ("family", "curve", "called")
    return {name: each for name, each in line.values.items() if name not in apart}


def test_a_ring_in_one_line():
    line = read_line("sockets ring B32 rcbo 30ma 2.5/1.5 68m clipped", Scope.CIRCUIT)

    assert values(line) == RING
    assert (line.queries, line.unknown) == ((), ())
    assert echo_of(line.values) == (
        "Sockets, ring. RCBO type B 32 A, 30 mA. Twin-and-earth 2.5 mm² with 1.5 mm² cpc, "
        "68 m long, method C (clipped direct)."
    )


def test_a_buried_run_in_one_line():
    line = read_line("3c 10 swa 46m buried 500", Scope.RUN)

    assert values(line) == TRENCH
    assert (line.queries, line.unknown) == ((), ())
    assert "20 °C" in echo_of(line.values)


@pytest.mark.parametrize(
    ("text", "scope", "wanted"),
    [
        ("B32", Scope.DEVICE, {"device": DeviceKind.BREAKER_B, "rating": 32.0}),
        ("b 32", Scope.DEVICE, {"device": DeviceKind.BREAKER_B, "rating": 32.0}),
        ("32B", Scope.DEVICE, {"device": DeviceKind.BREAKER_B, "rating": 32.0}),
        ("32 b", Scope.DEVICE, {"device": DeviceKind.BREAKER_B, "rating": 32.0}),
        ("C16 rcbo", Scope.DEVICE, {"device": DeviceKind.RCBO_C, "rating": 16.0}),
        ("63 bs88-3", Scope.FEED, {"device": DeviceKind.BS_88_3, "rating": 63.0}),
        ("6000", Scope.DEVICE, {"breaking": 6.0}),
        ("6k", Scope.DEVICE, {"breaking": 6.0}),
        ("6kA", Scope.DEVICE, {"breaking": 6.0}),
        (
            "10/4",
            Scope.RUN,
            {"cable": CableKind.FLAT, "csa": 10.0, "cpc_csa": 4.0, "cores": 2, "cpc": Cpc.CORE},
        ),
        ("t&e", Scope.RUN, {"cable": CableKind.FLAT, "cores": 2, "cpc": Cpc.CORE}),
        ("twin and earth", Scope.RUN, {"cable": CableKind.FLAT, "cores": 2, "cpc": Cpc.CORE}),
        ("3c swa", Scope.RUN, {"cable": CableKind.SWA_XLPE, "cores": 3}),
        ("3c pvc 10 swa", Scope.RUN, {"cable": CableKind.SWA_PVC, "cores": 3, "csa": 10.0}),
        (
            "singles 2.5/1.5",
            Scope.RUN,
            {"cable": CableKind.SINGLES, "csa": 2.5, "cpc_csa": 1.5, "cpc": Cpc.SEPARATE},
        ),
        ("46m", Scope.RUN, {"length": 46.0}),
        ("46 m", Scope.RUN, {"length": 46.0}),
        ("clipped", Scope.RUN, {"method": Method.C}),
        ("buried", Scope.RUN, {"method": Method.D, "ambient": 20.0}),
        ("buried 12°C", Scope.RUN, {"method": Method.D, "ambient": 12.0}),
        ("duct buried", Scope.RUN, {"method": Method.D, "duct": True, "ambient": 20.0}),
        ("3kW", Scope.CIRCUIT, {"power": 3.0}),
        ("grouped 3 method 102", Scope.RUN, {"grouped": 3, "method": Method.M102}),
        (
            "lights C6 1.5 22m",
            Scope.CIRCUIT,
            {
                "use": Use.LIGHTING,
                "rating": 6.0,
                "csa": 1.5,
                "device": DeviceKind.BREAKER_C,
                "length": 22.0,
            },
        ),
        (
            "16 sq mm 46m 80c",
            Scope.RUN,
            {"csa": 16.0, "length": 46.0, "ambient": 80.0},
        ),
        (
            "C16 20c",
            Scope.CIRCUIT,
            {"device": DeviceKind.BREAKER_C, "rating": 16.0, "ambient": 20.0},
        ),
        (
            '"Loom motor" motor fcu 13a C16',
            Scope.CIRCUIT,
            {
                "name": "Loom motor",
                "use": Use.FIXED,
                "kind": LoadKind.MOTOR,
                "form": Form.FCU,
                "fuse": 13.0,
                "device": DeviceKind.BREAKER_C,
                "rating": 16.0,
            },
        ),
        (
            "rcbo type b 20a 30ma type a",
            Scope.CIRCUIT,
            {"device": DeviceKind.RCBO_B, "rating": 20.0, "residual": 30.0, "rcd_type": RcdType.A},
        ),
        (
            "B32 rcd 30ma",
            Scope.CIRCUIT,
            {"device": DeviceKind.BREAKER_B, "rating": 32.0, "residual": 30.0, "rcd": True},
        ),
    ],
)
def test_shorthand_of_the_trade(text: str, scope: Scope, wanted: dict[str, Any]):
    line = read_line(text, scope)

    assert values(line) == wanted
    assert (line.queries, line.unknown) == ((), ())


@pytest.mark.parametrize(
    ("text", "scope", "asked"),
    [
        ("B32 30ma", Scope.CIRCUIT, ("an RCBO", "a circuit-breaker with an RCD apart")),
        ("rcbo 20a", Scope.CIRCUIT, ("type B", "type C", "type D")),
        ("60a cutout", Scope.FEED, ("BS 1361 fuse, before 2010", "BS 88-3 fuse")),
        ("63 bs88", Scope.FEED, ("BS 88-2 fuse", "BS 88-3 fuse")),
        ("type b", Scope.DEVICE, ("type B", "RCD type B")),
        ("10 25", Scope.RUN, ("10 mm²", "10 m long")),
        ("B32 B20", Scope.CIRCUIT, ("type B, In 32 A", "type B, In 20 A")),
        (
            "conduit",
            Scope.RUN,
            (
                "method A (in conduit in an insulated wall)",
                "method B (in conduit or trunking on a wall)",
            ),
        ),
        ("13A", Scope.CIRCUIT, ("In 13 A", "load 13 A")),
    ],
)
def test_what_could_be_two_things_is_asked(text: str, scope: Scope, asked: tuple[str, ...]):
    line = read_line(text, scope)

    assert tuple(each.words for each in line.queries[0].choices) == asked
    query = line.queries[0]
    for each in query.choices:
        taken = read_line(text, scope, {query.key: each.reading})
        assert query.key not in [again.key for again in taken.queries]
        assert each.reading.items() <= taken.values.items()


@pytest.mark.parametrize(
    ("text", "unknown", "says"),
    [
        ("lights wobble B6", ("wobble",), "“wobble” is not understood."),
        ("2x16 46m", ("2x16",), "type 2c 16 for one cable"),
        ("1,250m swa", ("1,250m",), "could be 1.250 or 1250"),
        ("0m swa", ("0m",), "not understood"),
        ("buried deep", ("deep",), "needs its figure beside it"),
        ("4/10", ("4/10",), "not understood"),
        ("102 clipped 20m", ("102",), "contradicts the rest"),
        # Nobody's 40 feet become 40 m, and 1.000,5 is not 1 mm² of 5 m.
        ("swa 40 feet", ("40 feet",), "give the figure its unit"),
        ("swa 12 ft", ("12 ft",), "give the figure its unit"),
        ("swa 12ft", ("12ft",), "not understood"),
        ("swa 12 '", ("12 '",), "give the figure its unit"),
        ("swa 1.000,5", ("1.000,5",), "is not one figure"),
        ("swa 2.5,68m", ("2.5,68m",), "is not one figure"),
    ],
)
def test_what_means_nothing_is_named_and_stays(text: str, unknown: tuple[str, ...], says: str):
    line = read_line(text, Scope.CIRCUIT)

    assert line.unknown == unknown
    assert says in line.reasons[0]
    assert line.left == " ".join(unknown)


def test_a_word_of_another_page_is_named():
    line = read_line("B32 46m", Scope.RUN)

    assert values(line) == {"length": 46.0}
    assert line.reasons == ("“B32” does not belong here.",)


LINES = {
    "sockets|ring|B32|rcbo|30ma|2.5/1.5|68m|clipped": Scope.CIRCUIT,
    "3c|10 swa|46m|buried 500": Scope.RUN,
    "lights|C6|1.5|22m|t+e|outside": Scope.CIRCUIT,
    "heater|fcu 13a|B16|rcbo|2.4kW|twin|2.5|14m|method 102": Scope.CIRCUIT,
    "63 bs88-3|16 swa|4c|31m|buried 600|type a|30 mA|6000": Scope.FEED,
    "B32|30ma|C16|10|25": Scope.CIRCUIT,
}


@given(
    st.sampled_from(sorted(LINES)).flatmap(
        lambda line: st.tuples(st.just(line), st.permutations(line.split("|")))
    )
)
@settings(max_examples=400, deadline=None)
def test_in_another_order_a_line_says_the_same_or_asks(drawn: tuple[str, list[str]]):
    written, order = drawn
    scope = LINES[written]
    wanted = values(read_line(written.replace("|", " "), scope))
    turned = read_line(" ".join(order), scope)
    for slot, value in values(turned).items():
        assert wanted.get(slot, value) == value, (slot, order)
    missing = set(wanted) - set(turned.values)
    assert not missing or turned.queries or turned.unknown


_GOOD = ["sockets", "ring", "B32", "rcbo", "30ma", "2.5/1.5", "68m", "clipped", "swa", "buried"]
_JUNK = st.from_regex(r"[a-z0-9#%!?/]{1,9}", fullmatch=True)


@given(st.lists(st.one_of(st.sampled_from(_GOOD), _JUNK), max_size=9))
@settings(max_examples=400, deadline=None)
def test_no_word_goes_unnoticed(words: list[str]):
    """Each word is small, or changes what is said, or is asked about, or is named."""
    from records.shorthand.tokens import tokens
    from records.shorthand.vocabulary import SMALL

    text = " ".join(words)
    line = read_line(text, Scope.CIRCUIT)
    for word in words:
        if word in SMALL or word in ("final", "fuse"):
            continue
        said = [each for each in tokens(text, Scope.CIRCUIT.slots) if word in each.text]
        named = any(word in each for each in line.unknown)
        asked = any(word in each.about for each in line.queries) or bool(line.queries)
        taken = any(any(each.readings) for each in said)
        assert named or asked or taken, (word, line)
        if said and not any(each.readings for each in said):
            assert named, (word, line)


@given(st.text(max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_text_is_read_without_a_fall(text: str):
    for scope in Scope:
        line = read_line(text, scope)
        assert len(line.unknown) == len(line.reasons)
        echo_of(line.values)
