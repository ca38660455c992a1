"""The glossary: what somebody who has never seen these symbols looks up."""

from __future__ import annotations

import re

import pytest

from records.glossary import OURS, TRADE
from records.terms import Verdict
from tui.dialogs.reader import help_text

GLOSSARY = TRADE + OURS


@pytest.mark.parametrize(
    "symbol",
    [
        "Ze",
        "Zdb",
        "Zs",
        "R1+R2",
        "r1",
        "rn",
        "r2",
        "Ib",
        "In",
        "Iz",
        "cpc",
        "PSCC",
        "PEFC",
        "IΔn",
        "RA",
        "RCD",
        "TT",
        "feed",
        "run",
        "walk",
        "rail",
        "bench",
        "origin",
        "board",
    ],
)
def test_each_symbol_is_spelt_out(symbol):
    words = {part for term in GLOSSARY for part in re.split(r", | \(|\)", term.word)}

    assert symbol in words


def test_each_verdict_is_spelt_out():
    assert {each.words for each in Verdict} <= {term.word for term in OURS}


def test_no_meaning_takes_more_than_twenty_words_a_sentence():
    long = [
        term
        for term in GLOSSARY
        for sentence in re.split(r"(?<=\.) ", term.meaning)
        if len(sentence.split()) > 20
    ]

    assert long == []


def test_nothing_is_said_twice():
    assert len({term.word for term in GLOSSARY}) == len(GLOSSARY)


def test_the_help_of_every_screen_has_it():
    blocks = help_text("What this screen is for.", "", (("F1", "help"),))

    rows = {row for block in blocks if isinstance(block, tuple) for row in block}
    assert set(GLOSSARY) <= rows
