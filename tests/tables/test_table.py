"""The data files and their reader."""

import re

import pytest

from records.errors import NotTabulated
from records.tables.catalogue import all_tables, notes
from records.tables.table import DATA, names, table
from records.terms import Basis


def test_every_figure_has_a_source_that_names_a_work_and_a_basis():
    entries = list(all_tables())

    assert len(entries) > 850
    for entry in entries:
        assert entry.source.work, entry
        assert isinstance(entry.source.basis, Basis)
        assert entry.printed
        assert entry.table
        assert entry.row


def test_no_source_is_a_web_page_or_a_person():
    for path in DATA.glob("*.toml"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"https?:|www\.|\.com|\.co\.uk|forum", text), path.name


def test_figures_stay_as_printed():
    """7.80 Ω for a 6 A fuse is printed with its zero (BS 7671, Table 41.2(a), from memory)."""
    assert str(table("max_zs_bs_88_2").printed("0.4 s", "6")) == "7.80"


def test_a_row_that_differs_from_its_table_says_so():
    flat = table("rating_flat")

    assert flat.source("C", "2.5").basis is Basis.READ
    assert flat.source("C", "4").basis is Basis.MEMORY


def test_a_missing_row_is_refused_with_the_rows_that_exist():
    with pytest.raises(NotTabulated, match=r"no row 3 .*1, 1\.5, 2\.5, 4"):
        table("copper_class_2").number("3")


def test_words_in_a_table_are_not_taken_for_a_figure():
    with pytest.raises(NotTabulated, match="S/2"):
        table("cpc_by_line").number("S over 35")


def test_half_a_row_is_refused():
    with pytest.raises(NotTabulated, match="not one figure"):
        table("rating_flat").number("C")


def test_every_exception_of_basis_names_a_row_of_its_table():
    for name in names():
        page = table(name)
        assert set(page.other_basis) <= set(page.cells)


def test_notes_belong_to_tables():
    assert set(notes()) <= {entry.table for entry in all_tables()}
