"""One way to take a typed line apart, for cables and devices as for places on a wall."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.errors import BadPlace
from records.places.words import groups, millimetres
from records.shorthand.split import split
from records.shorthand.tokens import tokens


@pytest.mark.parametrize(
    ("line", "texts"),
    [
        ("S1 450 up, 620 along", ["S1", "450", "up", ",", "620", "along"]),
        ("every 900,from 450", ["every", "900", ",", "from", "450"]),
        ("0,45m up", ["0,45m", "up"]),
        ("S1,450 up", ["S1", ",", "450", "up"]),
        ('swa "Shed feed" 10/4; 18m', ["swa", '"Shed feed"', "10/4", ";", "18m"]),
        ("“Yarn store” 2g", ["“Yarn store”", "2g"]),
        ('a " b', ["a", '"', "b"]),
    ],
)
def test_words_names_in_quotes_decimal_commas_and_breaks(line, texts):
    assert [each.text for each in split(line)] == texts


@given(st.text(max_size=60))
def test_nothing_of_a_line_is_lost_but_blanks_and_the_order_is_kept(line):
    pieces = split(line)

    assert all(line[each.start : each.end] == each.text for each in pieces)
    assert all(one.end <= other.start for one, other in pairwise(pieces))
    left = "".join(line[at] for at in range(len(line)) if not _within(pieces, at))
    assert left.strip() == ""


def _within(pieces, at):
    return any(each.start <= at < each.end for each in pieces)


def test_a_name_in_quotes_is_one_word_in_both():
    (group,) = groups("“Yarn store” 450 up")
    assert (group[0].text, group[0].quoted) == ("Yarn store", True)
    first, *_ = tokens("“Yarn store” 2.5mm", {"name", "csa"})
    assert first.text == "“Yarn store”"


def test_a_decimal_comma_is_no_new_part_and_a_thousands_comma_is_asked_about():
    assert millimetres(groups("0,45m")[0][0].text) == 450
    with pytest.raises(BadPlace):
        millimetres(groups("4,800")[0][0].text)
