"""A fault current of a few ampere is printed in ampere, not as 0.0045 kA."""

from __future__ import annotations

import pytest

from records.judgement.wording import amount, rounded
from records.units import Unit


@pytest.mark.parametrize(
    ("value", "words"),
    [(0.0045, "4.5 A"), (0.0999, "99.9 A"), (0.1, "0.10 kA"), (1.2, "1.20 kA"), (0.0, "0.00 kA")],
)
def test_a_small_current_is_in_ampere(value: float, words: str) -> None:
    assert amount(value, Unit.KILOAMPERE) == words
    assert rounded(value, Unit.KILOAMPERE) == words


def test_other_units_stay() -> None:
    assert amount(0.05, Unit.OHM) == "0.05 Ω"
