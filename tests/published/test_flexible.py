"""Flexible cable is a 60 °C cable: BS 7671, Tables 4F3A and 4F3B.

Ratings, temperature and ambient factors read in a supplier's copy of Table 4F3A; the printed
voltage drop from memory.
"""

import pytest

from records.expected.context import FEED
from records.expected.plan import expected
from records.expected.results import What
from records.tables.conductors import operating_temperature
from records.tables.ratings import ambient_factor
from records.terms import CableKind
from tests.expected.jobs import device, job, run


def iz(ambient):
    flex = run("flexible cable, 60 °C", 4.0, 5.0, method="E", ambient=ambient)
    record = job(feed={"device": device(rating=16.0), "load": 10.0, "runs": [flex]})
    return expected(record).design[FEED, What.IZ].value


def test_its_conductor_runs_at_60_degrees():
    assert operating_temperature("conductor", CableKind.FLEX.code).value == 60.0


@pytest.mark.parametrize(
    ("ambient", "factor"),
    [(30.0, 1.0), (35.0, 0.91), (40.0, 0.82), (45.0, 0.71), (50.0, 0.58), (55.0, 0.41)],
)
def test_its_own_ambient_factors(ambient, factor):
    assert ambient_factor(60.0, ambient, in_ground=False).value == factor


@pytest.mark.parametrize(
    ("ambient", "amperes"),
    [(30.0, 32.0), (30.1, 32 * 0.91), (35.0, 32 * 0.91), (35.1, 32 * 0.82), (40.0, 32 * 0.82)],
)
def test_a_run_of_it_is_rated_by_them(ambient, amperes):
    assert iz(ambient) == pytest.approx(amperes)


def test_an_older_record_that_calls_it_a_70_degree_cable_is_read():
    assert CableKind("flexible cable, 70 °C") is CableKind.FLEX
    flex = run("flexible cable, 70 °C", 4.0, 5.0, method="E")

    assert job(feed={"runs": [flex]}).feed.runs[0].cable is CableKind.FLEX
