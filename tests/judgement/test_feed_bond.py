"""The feed's cpc as main bonding conductor of metal in the ground, TN-C-S only.

The sizes: BS 7671, Regulation 544.1.1 and Table 54.8 (10 mm² to 35 mm² of supply neutral, 25 mm² to
95 mm²), from memory.
"""

import pytest

from records.expected.plan import expected
from records.judgement.review import review
from records.terms import Verdict
from tests.expected.jobs import ARMOUR, BOTH, XLPE, job, run

KEY = "feed/-/-/design/feed as bonding conductor"


def found(cpc, earthing="TN-C-S", metal=True, neutral=None):
    board = {
        "earth": "carried over by the feed",
        "metal_in_ground": metal,
        "earthing_csa": 16.0,
        "bonds": [{"id": "B1", "csa": 10.0, "length": 3.0}],
    }
    origin = {"earthing": earthing, "ze": 0.3, "fault_current": 1.2, "neutral_csa": neutral}
    feed = {"runs": [run(XLPE, 16.0, 30.0, method="D", cpc=cpc)]}
    record = job(origin=origin, board=board, feed=feed)
    return {each.key: each for each in review(record, expected(record)).lines}


def test_armour_alone_conducts_less_than_the_copper_asked_for():
    line = found(ARMOUR)[KEY]

    assert line.verdict is Verdict.OUTSIDE
    assert "must be at least 10 mm²" in line.why
    assert str(line.limit) == "at least 10 mm²"


def test_a_core_beside_the_armour_is_enough():
    assert found(BOTH)[KEY].verdict is Verdict.WITHIN


@pytest.mark.parametrize("other", [{"earthing": "TN-S"}, {"metal": False}])
def test_it_is_asked_only_where_the_supply_neutral_could_be_carried(other):
    assert KEY not in found(ARMOUR, **other)


def test_a_larger_supply_neutral_asks_for_a_larger_bond():
    line = found(BOTH, neutral=70.0)["board/-/B1/design/bond size"]

    assert line.verdict is Verdict.OUTSIDE
    assert "at least 25 mm²" in line.why
