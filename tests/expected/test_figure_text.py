"""Figures beside a picture keep their unit where a reader would lose it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from records.expected.pictures.figure_text import amperes, ohms, seconds


@pytest.mark.parametrize(
    ("text", "value", "words"),
    [
        (seconds, 0.01, "10 ms"),
        (seconds, 0.099, "99 ms"),
        (seconds, 0.1, "0.1 s"),
        (seconds, 0.4, "0.4 s"),
        (seconds, 1000, "1000 s"),
        (amperes, 10, "10 A"),
        (amperes, 463, "463 A"),
        (amperes, 999.4, "999 A"),
        (amperes, 999.5, "1 kA"),
        (amperes, 1200, "1.2 kA"),
        (ohms, 0.47, "0.47 Ω"),
        (ohms, 99.5, "99.50 Ω"),
        (ohms, 100, "100 Ω"),
        (ohms, 1666.7, "1667 Ω"),
    ],
)
def test_a_figure_is_short_and_exact_enough(
    text: Callable[[float], str], value: float, words: str
) -> None:
    assert text(value) == words
