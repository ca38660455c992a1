"""Figures that were held against a readable copy of their page, and which copy that was.

The figures beside the rows are those of the copies: tables of 2008 and 2011 have no Cmin, so they
are multiplied by 0.95 here (BS 7671 Appendix 3) and compared to half a unit of the last digit.
"""

import pytest

from records.tables.catalogue import all_tables
from records.tables.table import names, table
from records.terms import Basis

C_MIN = 0.95


@pytest.mark.parametrize(
    ("name", "row", "without_cmin"),
    [
        ("max_zs_breaker", ("B", "0.4 s", "32"), 1.44),
        ("max_zs_breaker", ("C", "0.4 s", "16"), 1.44),
        ("max_zs_breaker", ("D", "0.4 s", "6"), 1.92),
        ("max_zs_bs_88_2", ("5 s", "20"), 2.95),
        ("max_zs_bs_88_3", ("0.4 s", "16"), 2.42),
        ("max_zs_bs_3036", ("0.4 s", "30"), 1.09),
    ],
)
def test_a_limit_is_that_of_2008_or_2011_times_cmin(name, row, without_cmin):
    page = table(name)

    assert float(page.printed(*row)) == pytest.approx(without_cmin * C_MIN, abs=0.01)
    assert page.source(*row).basis is Basis.READ
    assert "× 0.95 for Cmin" in str(page.source(*row))


@pytest.mark.parametrize(
    ("name", "row", "printed"),
    [
        ("rating_armoured_xlpe_2", ("C", "10"), 85),
        ("rating_singles", ("B", "6"), 41),
        ("rating_flex", ("2.5",), 25),
        ("bonding_pme", ("50",), 16),
    ],
)
def test_a_figure_read_in_a_copy_is_that_of_the_copy(name, row, printed):
    page = table(name)

    assert float(page.printed(*row)) == printed
    assert page.source(*row).basis is Basis.READ
    assert page.source(*row).seen


def test_type_d_at_5_s_stays_from_memory():
    """Copies of 2008 and 2011 take 20 × In at 5 s too: none has the 10 × In taken here."""
    assert table("max_zs_breaker").source("D", "5 s", "20").basis is Basis.MEMORY


def test_what_is_only_implied_by_a_text_stays_from_memory():
    assert table("cpc_class_3").source("C", "up to 16 A", "3 kA").basis is Basis.MEMORY


def test_no_row_is_said_to_be_read_and_something_else():
    for name in names():
        page = table(name)
        assert not set(page.seen) & set(page.other_basis), name
        assert set(page.seen) <= set(page.cells), name


def test_more_than_half_of_all_figures_have_been_read():
    bases = [entry.source.basis for entry in all_tables()]

    assert bases.count(Basis.READ) > len(bases) / 2
