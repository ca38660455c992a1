"""What the pages of the design ask for: nothing that means nothing there, and nothing entered is
hidden."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from records.entering.asked import (
    armour_asked,
    earth_asked,
    instrument_asked,
    job_asked,
    origin_asked,
)
from records.entering.asked_wiring import (
    circuit_load_asked,
    device_asked,
    feed_load_asked,
    fitting,
    fuse_asked,
    point_fields,
    rcd_asked,
    run_asked,
    run_fields,
)
from records.entering.model_fields import fields_of
from records.entering.remark import Asked, Remark
from records.model.circuit import Circuit, Point
from records.model.job import Instrument, Job
from records.model.kinds import Piece
from records.model.outbuilding import Board, Feed
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
    Use,
)
from tests.taking.job import small_job


def names(asked: Iterable[Asked]) -> list[str]:
    return [name for each in asked if not isinstance(each, Remark) for name in each]


def told(asked: Iterable[Asked]) -> list[Remark]:
    return [each for each in asked if isinstance(each, Remark)]


def with_board(**update: object) -> Record:
    return small_job().model_copy(update={"board": Board().model_copy(update=update)})


@pytest.mark.parametrize(
    ("piece", "asked"),
    [
        (Job(), job_asked(Record())),
        (Origin(), origin_asked(Origin())),
        (Board(), earth_asked(Record())),
        (Instrument(id="M1"), instrument_asked(Instrument(id="M1"))),
        (Feed(), feed_load_asked(Feed())),
        (Device(), device_asked(Device())),
        (Rcd(), rcd_asked(Rcd())),
        (Run(), run_asked(Run())),
        (Circuit(id="C1"), circuit_load_asked(Record(), Circuit(id="C1"))),
        (Point(id="S1"), (point_fields(Circuit(id="C1"), Point(id="S1")),)),
    ],
)
def test_each_name_that_is_asked_for_is_a_field_and_none_is_asked_twice(
    piece: Piece, asked: Iterable[Asked]
) -> None:
    found = names(asked)

    assert found
    assert len(set(found)) == len(found)
    assert [each.pointer for each in fields_of(piece, "/x", found)] == [f"/x/{n}" for n in found]


@pytest.mark.parametrize(
    ("cable", "cpc", "method", "there", "gone"),
    [
        (None, None, None, ("cores", "cpc", "insulated"), ("cpc_csa", "depth", "duct")),
        (CableKind.FLAT, Cpc.CORE, Method.C, ("csa", "insulated"), ("cores", "cpc", "depth")),
        (CableKind.SWA_XLPE, Cpc.ARMOUR, Method.D, ("depth", "soil", "duct"), ("insulated", "gap")),
        (CableKind.SWA_XLPE, Cpc.CORE, Method.E, ("cpc_csa", "hot_terminals"), ("depth", "soil")),
        (CableKind.SINGLES, Cpc.SEPARATE, Method.B, ("cpc_csa", "protected"), ("hot_terminals",)),
    ],
)
def test_a_run_is_asked_what_means_something_for_its_cable_and_its_way(
    cable: CableKind | None,
    cpc: Cpc | None,
    method: Method | None,
    there: tuple[str, ...],
    gone: tuple[str, ...],
) -> None:
    found = run_fields(Run(cable=cable, cpc=cpc, method=method))

    assert set(there) <= set(found)
    assert not set(gone) & set(found)


def test_buried_cables_side_by_side_are_asked_for_the_gap_between_them() -> None:
    one, two = (Run(method=Method.D, grouped=count) for count in (1, 2))

    assert "gap" not in run_fields(one)
    assert "gap" in run_fields(two)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("depth", 0.6),
        ("soil", 1.5),
        ("duct", True),
        ("gap", 0.1),
        ("hot_terminals", True),
        ("cpc_csa", 1.5),
        ("protected", True),
        ("insulated", 100.0),
    ],
)
def test_what_is_entered_stays_in_sight_even_where_it_would_not_be_asked(
    name: str, value: object
) -> None:
    run = Run(cable=CableKind.FLAT, cpc=Cpc.CORE, method=Method.C).model_copy(update={name: value})
    buried = run.model_copy(update={"method": Method.D})

    assert name in run_fields(run)
    assert name in run_fields(buried)


def test_a_size_that_nobody_sells_is_kept_and_said_under_its_field() -> None:
    odd = Run(cable=CableKind.FLAT, cpc=Cpc.CORE, csa=3.0, cpc_csa=1.2)
    asked = list(run_asked(odd))
    at = asked.index(("csa",))

    assert isinstance(asked[at + 1], Remark)
    assert len(told(asked)) == 2
    assert all(each.urgent and "Nothing that depends on it" in each.text for each in told(asked))
    assert not told(run_asked(Run(cable=CableKind.FLAT, cpc=Cpc.CORE, csa=2.5, cpc_csa=1.5)))


def test_armour_is_no_core_of_a_flat_cable_and_no_separate_cpc_of_an_armoured_one() -> None:
    def answers(run: Run) -> set[object]:
        (field,) = fitting(run, fields_of(run, "/feed/runs/0", ("cpc",)))
        return {each.value for each in field.options}

    assert Cpc.SEPARATE not in answers(Run(cable=CableKind.SWA_XLPE))
    assert Cpc.ARMOUR in answers(Run(cable=CableKind.SWA_XLPE))
    assert Cpc.SEPARATE in answers(Run(cable=CableKind.SWA_XLPE, cpc=Cpc.SEPARATE))
    assert Cpc.SEPARATE in answers(Run(cable=CableKind.SINGLES))


def test_armoured_cable_has_the_answers_for_its_cpc_that_it_can_have() -> None:
    (field,) = fitting(
        Run(cable=CableKind.SWA_PVC), fields_of(Run(), "/feed/runs/0", ("cpc", "length"))[:1]
    )

    assert {each.value for each in field.options} == {
        Cpc.ARMOUR,
        Cpc.CORE,
        Cpc.CORE_AND_ARMOUR,
        Cpc.NONE,
        None,
    }


@pytest.mark.parametrize(
    ("run", "both"),
    [
        (Run(cable=CableKind.FLAT, cpc=Cpc.CORE), False),
        (Run(cable=CableKind.FLAT, cpc=Cpc.CORE, cores=3), True),
        (Run(cable=CableKind.FLAT, cpc=Cpc.SEPARATE), True),
        (Run(cable=CableKind.FLEX, cpc=Cpc.CORE), True),
    ],
)
def test_cores_and_cpc_are_left_out_only_where_the_cable_says_both(run: Run, both: bool) -> None:
    assert ("cores" in run_fields(run)) is both
    assert ("cpc" in run_fields(run)) is both


@pytest.mark.parametrize(
    ("rcd", "there"),
    [
        (Rcd(residual=30, standard=RcdStandard.BS_4293), False),
        (Rcd(residual=30, delayed=True), False),
        (Rcd(residual=30, standard=RcdStandard.BS_7288, delayed=True), True),
        (Rcd(residual=30, delay=200.0), True),
    ],
)
def test_the_delay_on_the_label_is_asked_of_an_old_delayed_rcd(rcd: Rcd, there: bool) -> None:
    assert ("delay" in names(rcd_asked(rcd))) is there


def test_an_rcd_is_asked_for_its_kind_once_there_is_one() -> None:
    assert names(rcd_asked(Rcd())) == ["residual"]
    assert names(rcd_asked(Rcd(residual=30))) == ["residual", "type", "delayed"]
    assert "standard" in names(rcd_asked(Rcd(residual=30), aged=True))
    old = Rcd(residual=30, standard=RcdStandard.BS_4293, delayed=True)
    assert names(rcd_asked(old))[-2:] == ["standard", "delay"]


def test_an_rcbo_without_its_residual_current_says_where_to_read_it() -> None:
    rcbo = Device(kind=next(each for each in DeviceKind if each.is_rcbo))
    (remark,) = told(rcd_asked(Rcd(), rcbo))

    assert remark.urgent
    assert "from the label" in remark.text
    assert not told(rcd_asked(Rcd(residual=30), rcbo))
    assert not told(rcd_asked(Rcd(), Device()))


def test_a_device_of_a_rating_that_is_not_made_is_said_so() -> None:
    odd = Device(kind=DeviceKind.BS_1362, rating=7.0)

    assert told(device_asked(odd))
    assert not told(device_asked(Device(kind=DeviceKind.BS_1362, rating=13.0)))


@pytest.mark.parametrize("earth", [None, *OutbuildingEarth])
def test_an_electrode_beside_an_exported_earth_can_be_entered_for_it_is_a_mixture(
    earth: OutbuildingEarth | None,
) -> None:
    found = names(earth_asked(with_board(earth=earth)))

    assert ("electrode" in found) is (earth is not None)
    assert ("earthing_laid" in found) is (earth is OutbuildingEarth.OWN_ELECTRODE)


def test_what_a_load_is_asked_for_follows_from_the_circuit_and_from_the_feed() -> None:
    def asked(loading: FeedLoad | None, **update: object) -> list[str]:
        circuit = Circuit(id="C1").model_copy(update=update)
        record = Record(feed=Feed(loading=loading))
        return names(circuit_load_asked(record, circuit))

    assert asked(None) == ["load", "power", "outdoors", "hidden"]
    assert "kind" in asked(None, use=Use.FIXED)
    assert "kind" in asked(FeedLoad.DIVERSITY)
    assert "together" in asked(FeedLoad.TOGETHER)
    assert "starting" in asked(None, kind=LoadKind.MOTOR)
    assert "cooker_socket" in asked(None, kind=LoadKind.COOKING)
    assert "together" in asked(None, together=False)  # entered once, and not hidden since


def test_the_load_of_a_feed_is_one_thing_or_the_other() -> None:
    assert names(feed_load_asked(Feed())) == ["load", "loading"]
    assert names(feed_load_asked(Feed(load=32.0))) == ["load"]
    both = Feed(load=32.0, loading=FeedLoad.RATED)
    assert names(feed_load_asked(both)) == ["load", "loading"]


def test_armour_of_the_feed_is_asked_for_where_there_is_some() -> None:
    armoured = Feed(runs=(Run(cable=CableKind.SWA_PVC),))

    assert names(armour_asked(Feed())) == []
    assert names(armour_asked(armoured)) == ["armour_earthed"]


def test_the_fuse_of_a_connection_unit_is_asked_for_with_one() -> None:
    assert names(fuse_asked(Circuit(id="C1"))) == []
    assert names(fuse_asked(Circuit(id="C1", form=Form.FCU))) == ["fuse"]
    assert names(fuse_asked(Circuit(id="C1", fuse=13.0))) == ["fuse"]
    plug = Circuit(id="C1", device=Device(kind=DeviceKind.BS_1362))
    assert len(told(fuse_asked(plug))) == 1


@pytest.mark.parametrize(
    ("load", "power", "asked"),
    [
        (None, None, ["load", "power"]),
        (2.0, None, ["load"]),
        (None, 0.1, ["power"]),
        (2.0, 0.1, ["load", "power"]),
    ],
)
def test_a_point_has_its_load_in_amperes_or_in_kilowatts(
    load: float | None, power: float | None, asked: list[str]
) -> None:
    found = point_fields(Circuit(id="C1"), Point(id="S1", load=load, power=power))

    assert [each for each in found if each in ("load", "power")] == asked


def test_points_of_a_ring_can_be_spurs() -> None:
    assert "spur" in point_fields(Circuit(id="C1", form=Form.RING), Point(id="S1"))
    assert "spur" not in point_fields(Circuit(id="C1", form=Form.RADIAL), Point(id="S1"))


@pytest.mark.parametrize(
    ("leads", "nulled", "words", "urgent"),
    [
        (None, None, "", False),
        (None, True, "", False),
        (None, False, "Join the tips", True),
        (0.0, False, "", False),
        (0.2, False, "0.2 Ω is taken off", False),
        (1.0, False, "1 Ω is taken off", False),
        (1.01, False, "more than sound leads have", True),
    ],
)
def test_what_becomes_of_the_leads_is_said_where_they_are_entered(
    leads: float | None, nulled: bool | None, words: str, urgent: bool
) -> None:
    """Test leads have 0.05 to 0.3 Ω, with a fuse in them more: common practice (from memory)."""
    found = told(instrument_asked(Instrument(id="M1", leads=leads, nulled=nulled)))

    assert bool(found) is bool(words)
    for each in found:
        assert words in each.text
        assert each.urgent is urgent


@pytest.mark.parametrize("earthing", Earthing)
def test_the_neutral_of_the_supply_is_asked_for_with_pme(earthing: Earthing) -> None:
    found = names(origin_asked(Origin(earthing=earthing)))

    assert ("neutral_csa" in found) is (earthing is Earthing.TN_C_S)
