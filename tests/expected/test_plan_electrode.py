"""The walk of a record behind an earth electrode: the loop, its limit, and its time."""

import pytest

from records.expected.context import BOARD, FEED, ORIGIN
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from records.terms import Part, Stage
from tests.expected.jobs import (
    NONE,
    XLPE,
    circuit,
    device,
    job,
    reading,
    run,
)
from tests.expected.test_plan import HOT_70, HOT_90, design, meter


def tt_outbuilding(**more):
    return job(
        board={"earth": "own earth electrode", "rcd": {"residual": 100.0, "delayed": True}},
        feed={
            "device": device("BS 88-3 fuse"),
            "load": 25.0,
            "runs": [run(XLPE, 6.0, 30.0, cores=2, cpc=NONE)],
        },
        circuits=[circuit(rcd={"residual": 30.0})],
        **more,
    )


def test_an_outbuilding_with_its_own_electrode_has_the_electrode_in_its_loop():
    record = tt_outbuilding(readings=[reading("R1", "RA", "board", 68.0)])
    found = meter(record, "Zdb", Part.BOARD, stage=Stage.LIVE)

    assert found.value == pytest.approx(68.0 + 0.030 * 3.08)
    assert found.high == pytest.approx(found.value + 21)
    assert design(record, What.ZS).value > 68
    assert design(record, What.FAULT_LOWEST).value == pytest.approx(
        0.95 * 230 / (68 + 21 + 0.030 * 3.08 * HOT_90 + 0.020 * 19.51 * HOT_70)
    )


def test_behind_an_electrode_the_rcd_sets_the_limit_and_0_2_s_are_required():
    record = tt_outbuilding()

    assert design(record, What.TIME_REQUIRED).value == 0.2
    assert design(record, What.ZS_LIMIT).value == 1667  # as Table 41.5 prints it
    assert isinstance(design(record, What.ZS_LIMIT_COLD), NotWorkedOut)
    assert expected(record).design[BOARD, What.RA_LIMIT].value == pytest.approx(500)


@pytest.mark.parametrize(
    ("board", "feed", "most"), [(100.0, 300.0, 500), (None, 100.0, 500), (None, None, 1667)]
)
def test_the_electrode_is_held_against_the_rcd_in_front_of_the_board(board, feed, most):
    """BS 7671, Regulation 411.5.3 (read in a secondary copy): RA × IΔn at most 50 V.

    A fault to the case of the sub-board flows before the RCDs of its circuits: 30 mA there say
    nothing of it.
    """
    record = tt_outbuilding()
    with_rcd = lambda part, residual: part.model_copy(  # noqa: E731
        update={"rcd": part.rcd.model_copy(update={"residual": residual})}
    )
    record = record.model_copy(
        update={"board": with_rcd(record.board, board), "feed": with_rcd(record.feed, feed)}
    )

    assert expected(record).design[BOARD, What.RA_LIMIT].value == pytest.approx(most, abs=1)


def test_points_without_a_load_are_named_beside_the_sum_of_the_others():
    """A sum that leaves lamps out is no load of the circuit: it says which it leaves out."""
    lamps = [{"id": "P1", "load": 0.4}, {"id": "P2", "name": "Porch"}, {"id": "P3", "power": 0.046}]
    lights = circuit(use="lighting", device=device(rating=6.0), points=lamps)
    lights.pop("load", None)
    found = design(job(circuits=[lights]), What.IB)

    assert found.value == pytest.approx(0.6)
    assert "Porch" in found.note
    assert "P3" not in found.note


def test_an_electrode_not_measured_yet_is_named_and_the_rcd_still_has_its_time():
    record = tt_outbuilding()
    zdb = meter(record, "Zdb", Part.BOARD, stage=Stage.LIVE)

    assert isinstance(zdb, NotWorkedOut)
    assert "RA" in zdb.why
    # At 1667 Ω: 0.95 × 4.6 = 4.37 times IΔn, over 2: 150 ms (BS EN 61008-1, Table 1).
    assert design(record, What.TIME_RCD).value == 0.15


def test_a_feed_from_a_tn_house_stays_tn_with_its_armour_earthed_at_the_house():
    """Common practice: 5 s, and the fault returns by the armour to the house's earth."""
    record = tt_outbuilding()
    figures = expected(record).design

    assert figures[FEED, What.TIME_REQUIRED].value == 5
    steel = 7.0 * 1.1 * (1 + 0.0045 * 60)
    assert figures[FEED, What.ZS].value == pytest.approx(0.3 + 0.030 * (3.08 * HOT_90 + steel))


def test_tt_throughout_has_the_house_electrode_in_ze():
    record = job(
        origin={"earthing": "TT", "ze": 71.0, "fault_current": 1.2},
        feed={
            "device": device(),
            "rcd": {"residual": 100.0, "delayed": True},
            "runs": [run(XLPE, 6.0, 30.0)],
        },
        circuits=[circuit(rcd={"residual": 30.0})],
    )
    figures = expected(record).design

    assert figures[FEED, What.TIME_REQUIRED].value == 1
    assert figures[FEED, What.ZS_LIMIT].value == pytest.approx(500)
    assert figures[ORIGIN, What.RA_LIMIT].value == pytest.approx(500)
    assert (BOARD, What.RA_LIMIT) not in figures
    assert design(record, What.TIME).words == "may not open at all"
    assert design(record, What.TIME_RCD).value == 0.04
