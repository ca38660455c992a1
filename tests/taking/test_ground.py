"""A value that was said just before is not said again by its verdict."""

from __future__ import annotations

import pytest

from records.taking.sentences import ended, ground


@pytest.mark.parametrize(
    ("why", "value", "left"),
    [
        ("Not correct. It has to be put right.", "not correct", "It has to be put right."),
        ("Not needed: no metal.", "not needed: no metal", ""),
        (
            "Could not be taken: locked.. Agree on it.",
            "could not be taken: locked.",
            "Agree on it.",
        ),
        ("Read 0.31 Ω; expected 0.28 Ω.", "0.31 Ω", "Read 0.31 Ω; expected 0.28 Ω."),
        ("Not correctly wired.", "not correct", "Not correctly wired."),
        ("Not taken yet.", "", "Not taken yet."),
    ],
)
def test_only_a_sentence_that_says_no_more_than_the_value_goes(
    why: str, value: str, left: str
) -> None:
    assert ground(why, value) == left


def test_a_sentence_ends_once() -> None:
    assert (
        ended("not needed: no metal.") == ended("not needed: no metal") == "not needed: no metal."
    )
