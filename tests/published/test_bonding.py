"""Main bonding conductors: Table 54.8 for TN-C-S, half the earthing conductor for others."""

import pytest

from records.expected.context import FEED
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from records.model.reading import place_of
from records.terms import Part
from tests.expected.jobs import ARMOUR, BOTH, NONE, XLPE, job, run

BOND = place_of(Part.BOARD, None, "B1")


def figures(earthing="TN-C-S", neutral=None, earthing_csa=16.0, **feed):
    board = {
        "earth": "carried over by the feed",
        "earthing_csa": earthing_csa,
        "bonds": [{"id": "B1", "csa": 10.0, "length": 3.0}],
    }
    origin = {"earthing": earthing, "ze": 0.3, "fault_current": 1.2, "neutral_csa": neutral}
    runs = [run(XLPE, 16.0, 30.0, method="D", **feed)]
    return expected(job(origin=origin, board=board, feed={"runs": runs})).design


@pytest.mark.parametrize(
    ("neutral", "least"),
    # BS 7671, Table 54.8 (from memory): copper equivalent of the supply neutral.
    [(None, 10), (16.0, 10), (35.0, 10), (50.0, 16), (70.0, 25), (95.0, 25), (120.0, 35)],
)
def test_tn_c_s_goes_by_the_supply_neutral(neutral, least):
    found = figures(neutral=neutral)[BOND, What.BOND_LEAST]

    assert found.value == least
    assert ("not entered" in found.note) is (neutral is None)


@pytest.mark.parametrize(("earthing_csa", "least"), [(6.0, 6), (16.0, 8), (25.0, 12.5), (95.0, 25)])
def test_others_take_half_the_earthing_conductor(earthing_csa, least):
    # BS 7671, Regulation 544.1.1: not less than half, at least 6 mm², need not be over 25 mm².
    assert figures("TN-S", earthing_csa=earthing_csa)[BOND, What.BOND_LEAST].value == least


def test_without_the_earthing_conductor_nothing_is_guessed():
    found = figures("TN-S", earthing_csa=None)[BOND, What.BOND_LEAST]

    assert isinstance(found, NotWorkedOut)
    assert "Board" in found.why


def test_armour_is_worth_little_copper_and_a_core_beside_it_adds_its_own():
    armour = figures(cpc=ARMOUR)[FEED, What.CPC_AS_COPPER]
    both = figures(cpc=BOTH)[FEED, What.CPC_AS_COPPER]

    # Steel conducts about an eighth as well as copper (its armour of 16 mm² three-core cable is
    # about 50 mm²: BS 5467, from memory): some 6 mm² of copper, well under 10 mm².
    assert 4 < armour.value < 8
    assert both.value == pytest.approx(armour.value + 16.0, rel=1e-6)
    assert "54.8" in armour.sources[0].place


def test_a_feed_that_carries_no_earth_is_no_bond():
    assert isinstance(figures(cpc=NONE)[FEED, What.CPC_AS_COPPER], NotWorkedOut)
