"""The quick way against the walk, which has the workings: the same figures for any board."""

import random

import pytest

from records.errors import FarboardError
from records.expected.context import BOARD, FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import What
from tests.bench.calculation import board
from tests.expected.jobs import ARMOUR, NONE, PVC, XLPE, circuit, job, ring, run
from tests.expected.quick import ends


def close(value):
    return pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_the_quick_way_gives_what_the_walk_gives(seed):
    record = board(random.Random(seed))
    design = expected(record).design
    feed, *finals = ends(record)

    assert design[FEED, What.ZS].value == close(feed.zs)
    assert design[BOARD, What.FAULT_LN].value == close(feed.line_neutral / 1000)
    assert design[BOARD, What.FAULT_LE].value == close(feed.line_earth / 1000)
    for each, end in zip(record.circuits, finals, strict=True):
        place = circuit_place(each)
        assert design[place, What.ZS].value == close(end.zs)
        assert design[place, What.FAULT_LOWEST].value == close(end.lowest)
        assert design[place, What.FAULT_LN].value == close(end.line_neutral / 1000)
        assert design[place, What.FAULT_LE].value == close(end.line_earth / 1000)


@pytest.mark.parametrize("csa", [16.0, 25.0, 50.0])
@pytest.mark.parametrize("cable", [XLPE, PVC])
def test_reactance_and_several_runs_come_out_alike(cable, csa):
    feed = {"runs": [run(cable, csa, 40.0, cpc=ARMOUR, method="D"), run(csa=16.0, length=5.0)]}
    record = job(feed=feed)
    design = expected(record).design
    own, final = ends(record)

    assert design[FEED, What.ZS].value == close(own.zs)
    place = circuit_place(record.circuits[0])
    assert design[place, What.ZS].value == close(final.zs)
    assert design[place, What.FAULT_LE].value == close(final.line_earth / 1000)


@pytest.mark.parametrize(
    "parts",
    [
        {"circuits": [ring()]},
        {"origin": {"earthing": "TT", "ze": 20.0, "fault_current": 1.0}},
        {"board": {"earth": "own earth electrode"}},
        {"circuits": [circuit(runs=[])]},
        {"circuits": [circuit(runs=[run(length=None)])]},
        {"circuits": [circuit(runs=[run(cpc=NONE)])]},
    ],
)
def test_what_the_quick_way_does_not_cover_it_refuses(parts):
    with pytest.raises(FarboardError):
        ends(job(**parts))
