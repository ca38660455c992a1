"""What an entry brings with it, whichever way it comes: from its field or from a line of shorthand.

Reference temperatures: BS 7671 Appendix 4, Tables 4B1 and 4B2: 30 °C in air, 20 °C in the ground
(from memory).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from records.entering.field import Several
from records.entering.line_changes import (
    ambient_brought,
    circuit_of,
    has_run,
    implied_ops,
    own_ops,
    run_at,
    run_of,
    run_ops,
    several_ops,
)
from records.entering.line_field import circuit_ops, feed_ops, saying, trial_of
from records.entering.model_fields import fields_of
from records.entering.summaries import bond_summary, device_summary, run_summary
from records.entering.whole_line import is_line_in_text, is_whole_line
from records.errors import BadRecord
from records.model.circuit import Circuit
from records.model.outbuilding import Bond, Feed
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.shorthand.line import Line, Scope, read_line
from records.store.patch import Op, apply
from records.store.state import plain, read
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, Use

AT = "/feed/runs/0"


def after(ops: list[Op], run: Run) -> Run:
    doc = plain(Record(feed=Feed(runs=(run,))))
    apply(doc, ops)
    return read(doc).feed.runs[0]


def by_field(run: Run, name: str, value: object) -> Run:
    """Return a run after one of its fields was filled."""
    (field,) = fields_of(run, AT, (name,))
    ops, _ = implied_ops(field, value, run)
    return after(ops, run.model_copy(update={name: value}))


def by_line(run: Run, text: str) -> Run:
    """Return a run after a line of shorthand was taken on its page."""
    line = read_line(text, Scope.RUN)
    assert not line.unknown
    assert not line.queries
    return after(run_ops(AT, run, line.values, line.implied), run)


@pytest.mark.parametrize(
    ("run", "method", "typed", "ambient"),
    [
        (Run(), Method.D, "buried", 20.0),
        (Run(ambient=35.0), Method.D, "buried", 35.0),
        (Run(method=Method.D, ambient=20.0), Method.C, "clipped", 30.0),
        (Run(method=Method.D, ambient=15.0), Method.C, "clipped", 15.0),
        (Run(method=Method.C, ambient=20.0), Method.E, "in free air", 20.0),
        (Run(method=Method.D, ambient=20.0), Method.D, "buried", 20.0),
        (Run(method=Method.D, ambient=30.0), Method.D, "", 30.0),
        (Run(), Method.C, "clipped", 30.0),
    ],
)
def test_a_cable_that_leaves_the_ground_is_rated_for_the_air_whichever_way_that_is_typed(
    run: Run, method: Method, typed: str, ambient: float
) -> None:
    """Else it would be rated for the cool of the ground: some 12 % too much at 30 °C."""
    assert by_field(run, "method", method).ambient == ambient
    found = read_line(typed or "1m", Scope.RUN)
    if found.values.get("method") is method:
        assert by_line(run, typed).ambient == ambient


def test_an_ambient_that_is_said_is_taken_as_said() -> None:
    buried = Run(method=Method.D, ambient=20.0)

    assert by_line(buried, "2.5/1.5 12m clipped 25C").ambient == 25.0
    assert ambient_brought(buried, {"method": Method.C, "ambient": 25.0}) == (None, "")


def test_what_another_method_brings_is_said() -> None:
    assert ambient_brought(Run(), {"method": Method.D})[1] == (" 20 °C is entered for the ground.")
    buried = Run(method=Method.D, ambient=20.0)
    assert ambient_brought(buried, {"method": Method.B})[1] == " 30 °C is entered for the air."
    assert ambient_brought(buried, {"length": 3.0}) == (None, "")


@pytest.mark.parametrize(
    ("run", "cpc", "cores"),
    [
        (Run(), Cpc.CORE, 2),
        (Run(cores=3), Cpc.CORE, 2),
        (Run(cpc=Cpc.SEPARATE, cores=3), Cpc.SEPARATE, 3),
    ],
)
def test_flat_cable_has_its_cpc_in_it_where_none_is_entered(run: Run, cpc: Cpc, cores: int) -> None:
    found = by_field(run, "cable", CableKind.FLAT)

    assert (found.cpc, found.cores) == (cpc, cores)


def test_only_the_cable_brings_a_cpc() -> None:
    flat = Run(cable=CableKind.FLAT)
    (field,) = fields_of(flat, AT, ("where",))

    assert implied_ops(field, CableKind.FLAT, flat) == ([], "")
    (field,) = fields_of(flat, AT, ("cable",))
    assert implied_ops(field, CableKind.FLAT, None) == ([], "")


def test_other_cables_bring_nothing() -> None:
    for cable in (CableKind.SINGLES, CableKind.SWA_XLPE, CableKind.FLEX):
        assert by_field(Run(), "cable", cable) == Run(cable=cable)


def test_what_is_implied_fills_gaps_and_takes_nothing_away() -> None:
    entered = Run(cable=CableKind.FLAT, cores=3, cpc=Cpc.SEPARATE)
    found = by_line(entered, "2.5/1.5 20m")

    assert (found.cores, found.cpc) == (3, Cpc.SEPARATE)
    assert (found.csa, found.cpc_csa, found.length) == (2.5, 1.5, 20.0)
    assert run_ops(AT, found, {"csa": 2.5}, frozenset()) == []  # nothing differs


def test_a_line_makes_a_circuit_with_all_that_it_says() -> None:
    line = read_line("“bench” sockets ring B32 rcbo 30ma 2.5/1.5 68m clipped", Scope.CIRCUIT)
    made = circuit_of("C4", line.values)

    assert (made.id, made.name, made.use, made.form) == ("C4", "bench", Use.SOCKETS, Form.RING)
    assert made.device == Device(kind=DeviceKind.RCBO_B, rating=32.0)
    assert made.rcd.residual == 30.0
    assert [(r.csa, r.cpc_csa, r.length, r.method) for r in made.runs] == [
        (2.5, 1.5, 68.0, Method.C)
    ]
    assert circuit_of("C4", read_line("B16", Scope.CIRCUIT).values).runs == ()


def test_a_word_for_what_it_feeds_names_a_circuit_once() -> None:
    values = read_line("heater C16", Scope.CIRCUIT).values
    paths = {op["path"] for op in own_ops("/circuits/0", values)}

    assert "called" in values
    assert "/circuits/0/name" not in paths
    assert "/circuits/0/name" in {op["path"] for op in own_ops("/circuits/0", values, named=False)}
    assert not any("called" in path for path in paths)


def _line(text: str, scope: Scope) -> Line:
    return read_line(text, scope)


def test_a_line_of_a_circuit_changes_its_only_run_or_adds_the_first() -> None:
    line = _line("2.5/1.5 20m clipped", Scope.CIRCUIT)
    one, none = Circuit(id="C1", runs=(Run(),)), Circuit(id="C1")
    two = Circuit(id="C1", runs=(Run(), Run()))

    assert {op["path"].rpartition("/")[0] for op in circuit_ops(one, "/circuits/0", line)} == {
        "/circuits/0/runs/0"
    }
    assert [op["path"] for op in circuit_ops(none, "/circuits/0", line)] == ["/circuits/0/runs/-"]
    with pytest.raises(BadRecord, match="several runs"):
        circuit_ops(two, "/circuits/0", line)
    device = _line("B16", Scope.CIRCUIT)
    assert all("runs" not in op["path"] for op in circuit_ops(two, "/circuits/0", device))


def test_a_line_of_the_feed_adds_a_run_only_if_it_speaks_of_a_cable() -> None:
    paths = [op["path"] for op in feed_ops(_line("63 bs88-3 3c 16 swa 46m", Scope.FEED))]

    assert paths[-1] == "/feed/runs/-"
    assert "/feed/device/rating" in paths
    assert "/feed/runs/-" not in [op["path"] for op in feed_ops(_line("63 bs88-3", Scope.FEED))]
    assert not has_run({"rating": 63.0})
    assert run_of({"rating": 63.0, "length": 4.0}) == Run(length=4.0)


def test_an_entry_of_a_field_goes_to_its_owner() -> None:
    entry = Several({"device": DeviceKind.RCBO_C, "rating": 16.0}, frozenset(), "C16 RCBO")
    for pointer, owner in (
        ("/feed/device/kind", "/feed"),
        ("/circuits/2/rcd/residual", "/circuits/2"),
        ("/circuits/2/use", "/circuits/2"),
    ):
        (field,) = fields_of(Device(), pointer.rpartition("/")[0], ("kind",))
        ops = several_ops(replace(field, pointer=pointer), entry, None)
        assert {op["path"] for op in ops} == {f"{owner}/device/kind", f"{owner}/device/rating"}


def test_the_run_that_a_pointer_leads_into() -> None:
    run = Run(length=3.0)
    record = Record(feed=Feed(runs=(Run(), run)), circuits=(Circuit(id="C1", runs=(run,)),))

    assert run_at(record, "/feed/runs/1/length") is record.feed.runs[1]
    assert run_at(record, "/circuits/0/runs/0/csa") is record.circuits[0].runs[0]
    for elsewhere in ("/feed/runs/1", "/feed/device/kind", "/circuits/0/name"):
        assert run_at(record, elsewhere) is None


def test_a_line_is_tried_only_if_it_can_mean_one_thing() -> None:
    trial = trial_of(Scope.RUN, lambda line: run_ops(AT, Run(), line.values, line.implied))

    assert trial("46m")[0]["path"] == f"{AT}/length"
    with pytest.raises(BadRecord, match="Enter asks which"):
        trial("46m conduit")
    with pytest.raises(BadRecord):
        trial("blue")
    say = saying(Scope.RUN)
    assert say(" ") == ""
    assert "46 m" in say("46m")


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("3c 10 swa 46m buried", True),
        ("46m", False),
        ("10", False),
        ("2.5/1.5 68m clipped", True),
    ],
)
def test_a_whole_line_in_a_field_of_one_answer(text: str, whole: bool) -> None:
    assert is_whole_line(text, Scope.RUN) is whole


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("sockets ring B32 2.5/1.5 68m", True),
        ("sockets ring B32 2.5/1.5 68m by the door", False),
        ("Bench sockets", False),
        ("sockets ring", False),
    ],
)
def test_a_name_is_a_line_only_if_all_of_it_is_understood(text: str, line: bool) -> None:
    name, use = fields_of(Circuit(id="C1"), "/circuits/0", ("name", "use"))

    assert is_line_in_text(name, text) is line
    assert not is_line_in_text(use, text)
    (where,) = fields_of(Run(), AT, ("where",))
    assert is_line_in_text(where, "3c 10 swa 46m buried cpc armour")
    (note,) = fields_of(Record().origin, "/origin", ("note",))
    assert not is_line_in_text(note, "sockets ring B32 2.5/1.5 68m")


@pytest.mark.parametrize(
    ("run", "words"),
    [
        (Run(), "length?, cable?, size?"),
        (
            Run(length=46.0, cable=CableKind.SWA_XLPE, csa=10.0, method=Method.D),
            "46 m, armoured XLPE, 10 mm², method D",
        ),
        (Run(cable=CableKind.FLAT, csa=2.5, cpc_csa=1.5), "length?, flat, 2.5/1.5 mm²"),
        (Run(cpc_csa=1.5), "length?, cable?, size?"),
        *(
            (Run(cable=cable, csa=4.0), f"length?, {words}, 4 mm²")
            for cable, words in (
                (CableKind.SINGLES, "singles"),
                (CableKind.FLEX, "flex"),
                (CableKind.SWA_PVC, "armoured PVC"),
            )
        ),
    ],
)
def test_a_run_in_a_few_words_says_what_is_open(run: Run, words: str) -> None:
    assert run_summary(run) == words


def test_a_device_and_a_bond_in_a_few_words() -> None:
    assert device_summary(Device(), Rcd()) == "device?"
    rcbo = Device(kind=DeviceKind.RCBO_B, rating=20.0)
    assert device_summary(rcbo, Rcd(residual=30.0)) == f"{DeviceKind.RCBO_B.value} 20 A, 30 mA"
    assert bond_summary(Bond(id="B1")) == "size?, length?"
    assert bond_summary(Bond(id="B1", csa=10.0, length=4.0)) == "10 mm², 4 m"
