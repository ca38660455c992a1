"""What must hold for any job: lengths, sizes, order of runs, and never an error."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.context import circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What, Worked
from records.model.record import Record
from records.terms import CableKind, Cpc, DeviceKind, Earthing, Form, Method, OutbuildingEarth, Use
from tests.expected.jobs import BOTH, CORE, FLAT, XLPE, circuit, job, run

SOME = settings(deadline=None, max_examples=40)
FLAT_SIZES = [1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0]
lengths = st.floats(1, 100)


def zs(*runs):
    record = job(circuits=[circuit(runs=list(runs))])
    return expected(record).design[circuit_place(record.circuits[0]), What.ZS].value


@SOME
@given(length=lengths, more=st.floats(0, 50), csa=st.sampled_from(FLAT_SIZES))
def test_more_length_never_lowers_zs(length, more, csa):
    assert zs(run(FLAT, csa, length)) <= zs(run(FLAT, csa, length + more))


@SOME
@given(length=lengths, sizes=st.lists(st.sampled_from(FLAT_SIZES), min_size=2, max_size=2))
def test_more_copper_never_raises_zs(length, sizes):
    small, large = sorted(sizes)

    assert zs(run(FLAT, large, length)) <= zs(run(FLAT, small, length)) * (1 + 1e-12)


@SOME
@given(length=lengths, csa=st.sampled_from([1.5, 6.0, 16.0, 35.0]))
def test_armour_beside_a_core_never_raises_zs(length, csa):
    both, core = (run(XLPE, csa, length, cpc=cpc, method="C") for cpc in (BOTH, CORE))

    assert zs(both) <= zs(core)


@SOME
@given(
    runs=st.lists(
        st.builds(lambda c, n: run(FLAT, c, n), st.sampled_from(FLAT_SIZES), lengths),
        min_size=2,
        max_size=3,
    ),
    order=st.randoms(use_true_random=False),
)
def test_the_order_of_runs_does_not_matter(runs, order):
    shuffled = list(runs)
    order.shuffle(shuffled)

    assert abs(zs(*runs) - zs(*shuffled)) < 1e-9


maybe = {
    "length": st.none() | lengths,
    "csa": st.none() | st.sampled_from([0.75, 1.0, 2.5, 3.0, 6.0, 16.0, 25.0, 95.0, 120.0]),
    "cable": st.none() | st.sampled_from([each.code for each in CableKind]),
    "cpc": st.none() | st.sampled_from([each.code for each in Cpc]),
    "method": st.none() | st.sampled_from([each.code for each in Method]),
    "cores": st.integers(1, 6),
    "ambient": st.floats(-10, 40),
    "grouped": st.integers(1, 40),
    "insulated": st.floats(0, 1000),
}
any_run = st.fixed_dictionaries(maybe)
any_device = st.fixed_dictionaries(
    {
        "kind": st.none() | st.sampled_from([each.code for each in DeviceKind]),
        "rating": st.none() | st.sampled_from([3.0, 6.0, 13.0, 32.0, 33.0, 63.0, 100.0, 400.0]),
    }
)
any_rcd = st.fixed_dictionaries(
    {"residual": st.none() | st.sampled_from([10.0, 30.0, 300.0]), "delayed": st.booleans()}
)
any_circuit = st.fixed_dictionaries(
    {
        "use": st.none() | st.sampled_from([each.code for each in Use]),
        "form": st.none() | st.sampled_from([each.code for each in Form]),
        "device": any_device,
        "rcd": any_rcd,
        "runs": st.lists(any_run, max_size=2),
        "fuse": st.none() | st.sampled_from([3.0, 5.0, 13.0]),
        "load": st.none() | st.floats(0.1, 100),
        "points": st.lists(
            st.fixed_dictionaries({"at": st.none() | lengths, "spur": st.none() | lengths}),
            max_size=2,
        ),
    }
)
any_job = st.fixed_dictionaries(
    {
        "origin": st.fixed_dictionaries(
            {
                "earthing": st.none() | st.sampled_from([each.code for each in Earthing]),
                "u0": st.sampled_from([12.0, 110.0, 230.0, 240.0, 400.0]),
                "ze": st.none() | st.floats(0, 500),
                "fault_current": st.none() | st.floats(0.01, 50),
            }
        ),
        "board": st.fixed_dictionaries(
            {
                "earth": st.none() | st.sampled_from([each.code for each in OutbuildingEarth]),
                "rcd": any_rcd,
            }
        ),
        "feed": st.fixed_dictionaries(
            {"device": any_device, "rcd": any_rcd, "runs": st.lists(any_run, max_size=2)}
        ),
        "circuits": st.lists(any_circuit, max_size=2),
    }
)


@pytest.mark.slow
@settings(deadline=None, max_examples=150)
@given(parts=any_job)
def test_no_valid_record_makes_an_error_and_every_outcome_is_a_figure_or_a_reason(parts):
    for number, each in enumerate(parts["circuits"], start=1):
        each["id"] = f"C{number}"
        for at, point in enumerate(each["points"], start=1):
            point["id"] = f"P{at}"
    record = Record.model_validate_json(json.dumps(parts))

    result = expected(record)

    for found in (*result.meter.values(), *result.design.values(), *result.measured.values()):
        if isinstance(found, NotWorkedOut):
            assert len(found.why) > 15
        else:
            assert isinstance(found, Worked)
            assert found.value == found.value  # not NaN
            assert str(found)
