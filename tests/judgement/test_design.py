"""Design checks: every pair that has to fit, and what is missing."""

from __future__ import annotations

import pytest

from records.expected.results import Expected, NotWorkedOut, What, Worked
from records.judgement.review import review
from records.model.outbuilding import Bond
from records.model.reading import Quantity
from records.model.wiring import Device
from records.terms import Cpc, DeviceKind, Earthing, Part, Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    at,
    circuit,
    findings,
    flat,
    line,
    place,
    reviewed,
    sound_job,
    spoilt,
)

C2 = place("C2")


def figure(symbol: str, value: float, **more) -> Worked:
    return Worked(symbol, value, Unit.AMPERE, "", "", (), **more)


def judged(pairs: dict[What, Worked | NotWorkedOut], end: str):
    """Return the line of C2 on figures that were typed by hand."""
    expected = Expected(design={(C2, what): each for what, each in pairs.items()})
    found = review(SOUND, expected).lines
    return next(each for each in found if each.key == f"circuit/C2/-/design/{end}")


@pytest.mark.parametrize(
    ("what", "against", "good", "bad", "end"),
    [
        (What.IB, What.IN, (16, 16), (17, 16), "Ib"),
        (What.IZ, What.IN, (20, 20), (19, 20), "Iz"),
        (What.VOLT_DROP, What.VOLT_DROP_LIMIT, (6.9, 6.9), (7.0, 6.9), "voltage drop"),
        (What.ZS, What.ZS_LIMIT, (1.37, 1.37), (1.38, 1.37), "Zs"),
        (What.FAULT_HIGHEST, What.BREAKING, (6, 6), (6.1, 6), "breaking capacity"),
        (What.CPC_SIZE, What.CPC_LEAST, (1.5, 1.5), (1.0, 1.5), "cpc size"),
    ],
)
def test_a_pair_on_and_over_its_limit(what, against, good, bad, end):
    for (value, bound), verdict in ((good, Verdict.WITHIN), (bad, Verdict.OUTSIDE)):
        found = judged({what: figure("a", value), against: figure("b", bound)}, end)

        assert found.verdict is verdict
        assert found.expected is not None


def test_a_figure_that_rounds_to_its_limit_is_shown_finer_where_it_is_over():
    found = judged({What.IB: figure("Ib", 16.004), What.IN: figure("In", 16)}, "Ib")

    assert found.why.startswith("Ib 16.004 A; must be at most In, 16.000 A.")
    assert str(found.limit) == "at most 16.000 A"


def test_a_comparison_says_what_must_be_not_that_it_is():
    found = judged({What.IZ: figure("Iz", 14.5), What.IN: figure("In", 16)}, "Iz")

    assert found.why.startswith("Iz 14.50 A; must be at least In, 16.00 A.")


def test_a_range_that_reaches_over_is_near():
    pair = {
        What.ZS: figure("Zs", 1.3, low=1.3, high=1.4),
        What.ZS_LIMIT: figure("Zs", 1.37),
    }

    assert judged(pair, "Zs").verdict is Verdict.NEAR


def test_what_is_not_worked_out_is_not_taken_with_its_reason():
    missing = NotWorkedOut("Iz", "the length is not entered yet (Circuits, C2).")
    found = judged({What.IZ: missing, What.IN: figure("In", 20)}, "Iz")

    assert found.verdict is Verdict.NOT_TAKEN
    assert "the length is not entered yet (Circuits, C2)" in found.why


@pytest.mark.parametrize(
    ("over", "rcd", "verdict"),
    [
        (0.1, None, Verdict.WITHIN),
        (0.4, None, Verdict.WITHIN),
        (5.0, 0.04, Verdict.NEAR),
        (5.0, None, Verdict.OUTSIDE),
        (float("inf"), 0.3, Verdict.NEAR),
        (float("inf"), float("inf"), Verdict.OUTSIDE),
    ],
)
def test_disconnection_by_either_device(over, rcd, verdict):
    """TN: an RCD alone may disconnect (BS 7671 411.4.5, from memory); the certifier decides."""
    why = NotWorkedOut("t", "no RCD is entered")
    pairs = {
        What.TIME_REQUIRED: figure("t", 0.4),
        What.TIME: figure("t", over),
        What.TIME_RCD: why if rcd is None else figure("t", rcd),
    }

    assert judged(pairs, "disconnection time, overcurrent device").verdict is verdict


def test_a_loop_that_is_too_high_tells_the_time_as_well():
    record = circuit(SOUND, "C2", device=Device(kind=DeviceKind.RCBO_D, rating=20, breaking=6.0))
    record = circuit(record, "C2", runs=(flat(2.5, 60.0),))

    found = [
        each for each in findings(record) if each.startswith("circuit/C2") and "/design/" in each
    ]

    assert "circuit/C2/-/design/Zs" in found
    assert "circuit/C2/-/design/disconnection time, overcurrent device" not in found


def test_on_an_electrode_the_rcd_is_meant_to_disconnect():
    found = line(sound_job(ISLAND), "circuit/C2/-/design/disconnection time, overcurrent device")

    assert found.verdict is Verdict.WITHIN
    assert "the RCD disconnects, as it is meant to" in found.why


def test_a_missing_length_is_told_once():
    record = circuit(
        SOUND, "C2", runs=(SOUND.circuits[1].runs[0].model_copy(update={"length": None}),)
    )
    lines = [
        each
        for each in reviewed(record).lines
        if each.key.startswith("circuit/C2/-/design") and "length" in each.why
    ]

    assert len(lines) > 2
    assert len({each.why for each in lines if each.is_finding}) == len(
        [each for each in lines if each.is_finding]
    )


def test_a_ring_needs_20_a_in_a_leg():
    """BS 7671, Regulation 433.1.204 (read in a secondary copy); method 103: 13.5 A."""
    from records.terms import Method

    runs = (SOUND.circuits[0].runs[0].model_copy(update={"method": Method.M103}),)
    found = line(circuit(SOUND, "C1", runs=runs), "circuit/C1/-/design/Iz")

    assert found.verdict is Verdict.OUTSIDE
    assert "at least 20 A" in found.why


def test_a_ring_of_thin_cable_is_none():
    runs = (flat(1.5, 50.0),)
    found = line(circuit(SOUND, "C1", runs=runs), "circuit/C1/-/design/ring conductors")

    assert found.verdict is Verdict.OUTSIDE


def board(**changes):
    return SOUND.model_copy(update={"board": SOUND.board.model_copy(update=changes)})


def test_a_main_switch_weaker_than_its_feed():
    assert line(board(main_switch=32.0), "design/main switch").verdict is Verdict.OUTSIDE
    assert line(board(main_switch=40.0), "design/main switch").verdict is Verdict.WITHIN
    assert line(board(main_switch=None), "design/main switch").verdict is Verdict.NOT_TAKEN


def test_an_earth_that_no_cable_carries():
    runs = (SOUND.feed.runs[0].model_copy(update={"cpc": Cpc.NONE}),)
    record = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    found = line(record, "design/earth of the outbuilding")

    assert found.verdict is Verdict.OUTSIDE
    assert "run 1 of the feed carries none" in found.why


def test_metal_in_the_ground_wants_a_bond():
    bond = Bond(id="B1", what="water pipe", csa=10.0, length=5.0)

    assert line(board(metal_in_ground=True), "design/bonding").verdict is Verdict.OUTSIDE
    bonded = board(metal_in_ground=True, bonds=(bond,))
    assert line(bonded, "design/bonding").verdict is Verdict.WITHIN
    pme = bonded.model_copy(
        update={"origin": SOUND.origin.model_copy(update={"earthing": Earthing.TN_C_S})}
    )
    assert line(pme, "design/bonding").verdict is Verdict.NEAR


def test_a_thin_bond():
    """BS 7671, 544.1.1: half of the earthing conductor, at least 6 mm²; PME 10 mm² (Table 54.8)."""
    bond = Bond(id="B1", what="water pipe", csa=4.0, length=5.0)
    record = board(metal_in_ground=True, bonds=(bond,))
    pme = record.model_copy(
        update={"origin": SOUND.origin.model_copy(update={"earthing": Earthing.TN_C_S})}
    )

    assert line(record, "board/-/B1/design/bond size").verdict is Verdict.OUTSIDE
    thin = line(pme, "board/-/B1/design/bond size")
    assert thin.verdict is Verdict.OUTSIDE
    assert str(thin.limit) == "at least 10 mm²"


def test_a_fault_current_that_was_read_softens_the_worst_case():
    record = SOUND.model_copy(
        update={
            "origin": SOUND.origin.model_copy(update={"fault_current": 16.0}),
            "feed": SOUND.feed.model_copy(
                update={"runs": (SOUND.feed.runs[0].model_copy(update={"length": 5.0}),)}
            ),
        }
    )
    end = "circuit/C1/-/design/breaking capacity"
    assert line(record, end).verdict is Verdict.OUTSIDE
    assert line(record, "circuit/C2/-/design/breaking capacity").part_of.startswith("circuit/C1")
    ln, le = (at(each, stage=Stage.LIVE) for each in (Quantity.FAULT_LN, Quantity.FAULT_LE))
    house = at(Quantity.FAULT_LN, stage=Stage.LIVE, part=Part.ORIGIN)
    read = spoilt((ln, 1.0), (le, 0.8), (house, 1.2), record=sound_job(record))

    assert line(read, end).verdict is Verdict.NEAR
    assert "Read there: 1.00 kA, inside" in line(read, end).why
    # One that contradicts what was read at the house softens nothing.
    odd = spoilt((ln, 1.0), (le, 0.8), record=sound_job(record))
    assert line(odd, end).verdict is Verdict.OUTSIDE
