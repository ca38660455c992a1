"""The limits that readings are held against, through the review, against published figures."""

from __future__ import annotations

import pytest

from records.model.reading import Figure, Quantity
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Earthing, Part, RcdType, Sign, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
    circuit,
    own,
    read,
    sound_job,
    spoilt,
    without,
    zs,
)


def with_feed(kind: DeviceKind, rating: float):
    device = Device(kind=kind, rating=rating, breaking=80.0)
    return SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"device": device})})


@pytest.mark.parametrize(
    ("curve", "rating", "limit"),
    [
        (DeviceKind.RCBO_B, 6, 5.82),
        (DeviceKind.RCBO_B, 10, 3.49),
        (DeviceKind.RCBO_B, 16, 2.18),
        (DeviceKind.RCBO_B, 20, 1.75),
        (DeviceKind.RCBO_B, 32, 1.09),
        (DeviceKind.RCBO_C, 6, 2.91),
        (DeviceKind.RCBO_C, 16, 1.09),
        (DeviceKind.RCBO_C, 20, 0.87),
        (DeviceKind.RCBO_C, 32, 0.54),
    ],
)
def test_cold_limits_of_breakers_are_four_fifths_of_the_table_cut_down(curve, rating, limit):
    """BS 7671 Table 41.3 (7.28, 4.37, 2.73, 2.19, 1.37; 3.64, 1.37, 1.09, 0.68 Ω) times 0.8.

    The table from memory, the 0.8 from Appendix 3 (read in a secondary copy). Cut to 0.01 Ω: the
    common lists differ by 0.01 Ω where they round to the nearest.
    """
    record = circuit(SOUND, "C2", device=Device(kind=curve, rating=float(rating), breaking=6.0))

    line = own(record, zs("C2"))

    assert line.limit is not None
    assert line.limit.value == pytest.approx(limit)


@pytest.mark.parametrize(
    ("kind", "rating", "table", "cold"),
    [
        (DeviceKind.BS_88_2, 40, 1.30, 1.04),
        (DeviceKind.BS_88_2, 63, 0.78, 0.62),
        (DeviceKind.BS_88_3, 45, 1.00, 0.80),
    ],
)
def test_limits_of_the_feed_are_those_of_its_fuse_at_5_s(kind, rating, table, cold):
    """BS 7671, Table 41.4 (from memory), and four fifths of it, cut down."""
    line = own(with_feed(kind, float(rating)), ZDB)

    assert line.limit is not None
    assert line.limit.value == pytest.approx(cold)
    assert f"tabulated {table:.2f} Ω" in line.limit.note


def test_a_limit_is_cut_down_and_not_rounded():
    """32 A BS 88-3, 0.4 s: 0.91 × 0.8 = 0.728, written 0.72 Ω (read in a secondary copy)."""
    fuse = Device(kind=DeviceKind.BS_88_3, rating=32.0, breaking=16.0)
    line = own(circuit(SOUND, "C2", device=fuse), zs("C2"))

    assert line.limit is not None
    assert str(line.limit) == "at most 0.72 Ω"


@pytest.mark.parametrize(
    ("residual", "printed"), [(30, "1667"), (100, "500"), (300, "167"), (500, "100")]
)
def test_the_highest_electrode_behind_an_rcd(residual, printed):
    """BS 7671, Table 41.5: 1667, 500, 167, 100 Ω (read in a secondary copy); 50 V / IΔn."""
    rcd = Rcd(residual=float(residual), type=RcdType.A, delayed=True)
    record = ISLAND.model_copy(update={"board": ISLAND.board.model_copy(update={"rcd": rcd})})

    assert str(own(record, at(Quantity.ELECTRODE)).limit) == f"at most {printed} Ω"


def test_200_ohm_pass_a_100_ma_device_and_fail_a_300_ma_one():
    """IET On-Site Guide: 200 Ω still suit 250 mA (read in a secondary copy)."""
    ra = at(Quantity.ELECTRODE)
    for residual, verdict in ((100.0, Verdict.WITHIN), (300.0, Verdict.OUTSIDE)):
        rcd = Rcd(residual=residual, type=RcdType.A, delayed=True)
        record = ISLAND.model_copy(update={"board": ISLAND.board.model_copy(update={"rcd": rcd})})
        record = record.model_copy(update={"readings": (read(1, ra, 200.0),)})

        assert own(record, ra).verdict is verdict


@pytest.mark.parametrize(
    ("shown", "sign", "keeps"),
    [
        (1.00, Sign.EQUAL, True),
        (0.99, Sign.EQUAL, False),
        (999.0, Sign.OVER, True),
        (0.99, Sign.OVER, False),
    ],
)
def test_one_megohm_at_500_volt(shown, sign, keeps):
    """BS 7671, Table 64: 500 V d.c., 1.0 MΩ up to 500 V (read in a secondary copy)."""
    slot = at(Quantity.IR_LE, "C2", Stage.BEFORE_COVERING)
    line = own(spoilt((slot, Figure(value=shown, sign=sign))), slot)

    assert (line.verdict is not Verdict.OUTSIDE) is keeps
    assert str(line.limit) == "at least 1.0 MΩ"


@pytest.mark.parametrize(("shown", "near"), [(1.42, True), (1.43, False)])
def test_insulation_is_proved_from_1_43_megohm_with_the_widest_meter(shown, near):
    """BS EN 61557-2 allows 30 % of the reading: 1.0 / 0.7 = 1.43 MΩ."""
    slot = at(Quantity.IR_LE, "C2", Stage.BEFORE_COVERING)
    reading = read(900, slot, shown, instrument=None)
    line = own(spoilt(reading, record=without(slot)), slot)

    assert ("Inside the limit, but only" in line.why) is near


@pytest.mark.parametrize(("delayed", "words"), [(False, "at most 300 ms"), (True, "130 to 500 ms")])
def test_break_times_at_the_rated_residual_current(delayed, words):
    """BS EN 61008-1 and 61009-1, Table 1 (read in a secondary copy)."""
    rcd = Rcd(residual=100.0, type=RcdType.A, delayed=delayed)
    record = SOUND.model_copy(update={"board": SOUND.board.model_copy(update={"rcd": rcd})})
    line = own(record, at(Quantity.RCD_TIME, stage=Stage.LIVE))

    assert str(line.limit) == words


@pytest.mark.parametrize(("earthing", "most"), [(Earthing.TN_C_S, 0.35), (Earthing.TN_S, 0.80)])
def test_ze_as_network_operators_declare_it_at_most(earthing, most):
    """0.35 Ω TN-C-S, 0.80 Ω TN-S: declarations of distributors (read in a secondary copy)."""
    origin = SOUND.origin.model_copy(update={"earthing": earthing})
    read_once = {"origin": origin, "readings": (read(1, ZE, 0.2),)}
    line = own(SOUND.model_copy(update=read_once), ZE)

    assert line.limit is not None
    assert line.limit.value == most


def test_a_ring_of_the_textbooks():
    """r1 = rn = 0.50 Ω, r2 = 0.83 Ω of 2.5/1.5 mm²: L-N 0.25 Ω, L-cpc 0.31 to 0.33 Ω.

    IET Guidance Note 3 (from memory): (r1 + rn)/4 and (r1 + r2)/4; near the board
    r1·r2/(r1 + r2) = 0.31 Ω by two paths side by side. The ring is 67 m long at 20 °C.
    """
    longer = circuit(
        SOUND,
        "C1",
        runs=(SOUND.circuits[0].runs[0].model_copy(update={"length": 67.5}),),
        points=tuple(
            each.model_copy(update={"at": (each.at or 0.0) * 1.35})
            for each in SOUND.circuits[0].points
        ),
    )
    record = sound_job(
        longer.model_copy(update={"job": SOUND.job.model_copy(update={"ambient": 20.0})})
    )
    ends = [
        (at(each, "C1", stage), value)
        for stage in (Stage.BEFORE_COVERING, Stage.DEAD)
        for each, value in ((Quantity.R1, 0.50), (Quantity.RN, 0.50), (Quantity.R2, 0.83))
    ]
    points = [(at(Quantity.CROSS_LN, "C1", point=f"P{n}"), 0.25) for n in range(1, 6)]
    points += [
        (at(Quantity.CROSS_LE, "C1", point=f"P{n}"), value)
        for n, value in enumerate((0.31, 0.33, 0.33, 0.33, 0.31), start=1)
    ]
    record = spoilt(*ends, *points, record=record)

    assert {own(record, slot).verdict for slot, _ in (*ends, *points)} == {Verdict.WITHIN}


def test_the_supply_may_be_10_percent_up_and_6_percent_down():
    """Supply regulations of 2002, regulation 27 (from memory): 216.2 to 253 V."""
    line = own(SOUND, at(Quantity.VOLTAGE, stage=Stage.LIVE))

    assert line.limit is not None
    assert line.limit.value == pytest.approx(216.2)
    assert line.limit.upper == pytest.approx(253.0)


def test_the_feed_has_no_zs_of_its_own_but_zdb():
    """Zdb = Ze + R1+R2 of the feed: IET Guidance Note 3 (from memory)."""
    record = sound_job()
    ze = next(each.taken.value for each in record.readings if each.slot == ZE)
    run = next(
        each.taken.value
        for each in record.readings
        if each.slot == at(Quantity.R1_R2, part=Part.FEED)
    )
    zdb = next(each.taken.value for each in record.readings if each.slot == ZDB)

    assert zdb == pytest.approx(ze + run, abs=0.011)
    assert own(record, ZDB).verdict is Verdict.WITHIN
