"""Allowances for diversity in one household: IET On-Site Guide, Appendix A.

Read in the table of an electrician's text book that reprints them, not in the guide itself.
"""

import pytest

from records.tables.demand import cooker_socket, diversity
from records.tables.table import table
from records.terms import Basis

PRINTED = {
    "lighting": 0.66,
    "heating and power, first 10 A": 1.0,
    "heating and power, above 10 A": 0.5,
    "cooker, first 10 A": 1.0,
    "cooker, above 10 A": 0.3,
    "instantaneous water heaters, the two largest": 1.0,
    "instantaneous water heaters, each other": 0.25,
    "thermostatic water heater": 1.0,
    "floor warming": 1.0,
    "thermal storage heating": 1.0,
    "socket circuits, the largest": 1.0,
    "socket circuits, each other": 0.4,
}


@pytest.mark.parametrize(("load", "share"), PRINTED.items())
def test_an_allowance_is_the_printed_one(load, share):
    assert diversity(load).value == pytest.approx(share)
    assert diversity(load).source.basis is Basis.READ


def test_the_table_has_no_row_that_isn_t_held_against_the_print():
    assert set(table("diversity").under()) == set(PRINTED)


def test_a_cooker_of_66_a_counts_as_26_8_a_and_5_a_more_with_a_socket():
    """10 A + 30 % of the other 56 A: the worked figure that text books give (from memory)."""
    first, rest = diversity("cooker, first 10 A"), diversity("cooker, above 10 A")

    assert first.value * 10 + rest.value * 56 == pytest.approx(26.8)
    assert cooker_socket().value == 5.0
