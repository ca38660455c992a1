"""What follows from readings, and what is said where something can't be worked out."""

import pytest

from records.expected.context import FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What, Worked
from records.model.record import Record
from records.terms import Basis
from tests.expected.jobs import (
    ARMOUR,
    NONE,
    circuit,
    device,
    job,
    reading,
    ring,
    run,
)

HOT_70 = 1 + 0.00393 * 50


def design(record, what, number=0):
    return expected(record).design[circuit_place(record.circuits[number]), what]


def measured(record, what, number=0):
    return expected(record).measured[circuit_place(record.circuits[number]), what]


def test_from_readings_zs_is_the_reading_or_else_added_up():
    added = job(
        readings=[
            reading("R1", "Zdb", "board", 0.5, stage="live tests"),
            reading("R2", "R1+R2", "circuit", 0.4, circuit="C1"),
        ]
    )
    assert measured(added, What.ZS).value == pytest.approx(0.9)

    both = job(
        readings=[
            reading("R1", "Zdb", "board", 0.5, stage="live tests"),
            reading("R2", "R1+R2", "circuit", 0.4, circuit="C1"),
            reading("R3", "Zs", "circuit", 1.0, circuit="C1", stage="live tests"),
        ]
    )
    assert measured(both, What.ZS).value == 1.0
    assert measured(both, What.FAULT_LOWEST).value == pytest.approx(
        0.95 * 230 / (1.0 + (HOT_70 - 1) * 0.4)
    )
    assert measured(both, What.TIME).words == "within 0.1 s"


def test_from_readings_the_last_re_test_counts():
    record = job(
        readings=[
            reading("R1", "Zs", "circuit", 2.4, circuit="C1", stage="live tests"),
            reading("R2", "Zs", "circuit", 0.9, circuit="C1", stage="live tests"),
        ]
    )

    assert measured(record, What.ZS).value == 0.9


def test_from_readings_a_ring_takes_its_highest_crossed_reading():
    record = job(
        circuits=[ring()],
        readings=[
            reading("R1", "Ze", "origin", 0.3, stage="live tests"),
            reading("R2", "R1+R2", "feed", 0.2),
            reading("R3", "cross-connected L-cpc", "circuit", 0.19, circuit="C1", point="P1"),
            reading("R4", "cross-connected L-cpc", "circuit", 0.21, circuit="C1", point="P2"),
        ],
    )

    assert measured(record, What.ZS).value == pytest.approx(0.3 + 0.2 + 0.21)


def test_a_reading_beyond_the_meter_is_no_figure_to_calculate_with():
    over = reading("R1", "Zs", "circuit", 1999, circuit="C1", stage="live tests", sign=">")
    record = job(readings=[over])

    assert isinstance(measured(record, What.ZS), NotWorkedOut)


def test_a_blank_record_gives_reasons_and_never_an_error():
    result = expected(Record())

    assert all(isinstance(each, NotWorkedOut) for each in result.measured.values())
    assert isinstance(result.design[FEED, What.IZ], NotWorkedOut)
    assert "Feed" in result.design[FEED, What.IZ].why


@pytest.mark.parametrize(
    ("parts", "what", "why"),
    [
        ({"circuits": [circuit(runs=[])]}, What.ZS, "no run of cable"),
        ({"circuits": [circuit(runs=[run(length=None)])]}, What.ZS, "length is not entered"),
        (
            {"circuits": [circuit(runs=[run(csa=3.0)])]},
            What.ZS,
            "3 mm² is no tabulated size of flat",
        ),
        ({"circuits": [circuit(runs=[run(cpc=None)])]}, What.ZS, "serves as cpc"),
        ({"circuits": [circuit(runs=[run(cpc=ARMOUR)])]}, What.ZS, "no armour"),
        ({"circuits": [circuit(runs=[run(cpc=NONE)])]}, What.ZS, "not exported"),
        ({"circuits": [circuit(runs=[run(method=None)])]}, What.IZ, "installation method"),
        ({"circuits": [circuit(runs=[run(method="D")])]}, What.IZ, "no row D"),
        ({"circuits": [circuit(device={})]}, What.ZS_LIMIT, "protective device"),
        ({"circuits": [circuit(device=device(rating=33.0))]}, What.ZS_LIMIT, "33 A is made"),
        (
            {"circuits": [circuit(device=device("BS 3036 fuse", 35.0))]},
            What.TIME,
            "35 A is made",
        ),
        ({"circuits": [circuit(use=None)]}, What.TIME_REQUIRED, "what the circuit feeds"),
        ({"circuits": [circuit(form=None)]}, What.ZS, "arrangement of the circuit"),
        ({"circuits": [circuit(device=device("RCBO type B"))]}, What.TIME_RCD, "IΔn of the RCBO"),
        ({"origin": {"earthing": "TN-S"}}, What.ZS, "Ze is"),
        ({"origin": {}}, What.FAULT_HIGHEST, "fault current at the"),
        ({"origin": {"ze": 0.3}}, What.TIME_REQUIRED, "earthing of the supply"),
        ({"board": {}}, What.ZS, "earth of the outbuilding"),
    ],
)
def test_what_is_missing_or_not_made_is_named_and_the_rest_still_worked_out(parts, what, why):
    record = job(**parts)
    found = design(record, what)

    assert isinstance(found, NotWorkedOut), found
    assert why in found.why
    assert any(isinstance(each, Worked) for each in expected(record).design.values())


def test_every_figure_carries_a_formula_what_was_put_in_and_sources():
    record = job(
        circuits=[ring(), circuit("C2", rcd={"residual": 30.0})],
        readings=[reading("R1", "Zs", "circuit", 1.0, circuit="C2", stage="live tests")],
    )
    result = expected(record)
    figures = [*result.meter.values(), *result.design.values(), *result.measured.values()]
    worked = [each for each in figures if isinstance(each, Worked)]

    assert len(worked) > 40
    for each in worked:
        assert each.formula, each
        assert each.put_in, each
        assert each.sources, each
        assert all(isinstance(source.basis, Basis) for source in each.sources)


def test_every_reason_for_no_figure_is_a_sentence():
    result = expected(job(origin={}, board={}))
    reasons = {
        each.why
        for each in (*result.meter.values(), *result.design.values(), *result.measured.values())
        if isinstance(each, NotWorkedOut)
    }

    assert reasons
    assert all(len(why) > 15 and why.endswith(".") for why in reasons), reasons
