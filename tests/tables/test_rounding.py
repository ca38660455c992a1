"""A calculated maximum is cut to what is printed: never up, and never by a slip of binary."""

import math
from decimal import ROUND_DOWN, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.tables.rounding import cut_down, raised


@pytest.mark.parametrize(
    ("exact", "digits", "printed"),
    [
        (1.2956, 2, 1.29),
        (1.299999, 2, 1.29),
        (1.3, 2, 1.3),
        (2.18, 2, 2.18),
        (0.8 * 2.73, 2, 2.18),
        (1.4 * 0.8, 2, 1.12),
        (1666.67, 0, 1666.0),
        (0.009, 2, 0.0),
    ],
)
def test_it_is_cut_and_what_is_short_enough_stays(exact, digits, printed):
    """0.8 × 2.73 = 2.184 and 0.8 × 1.4 = 1.12: by hand."""
    assert cut_down(exact, digits) == pytest.approx(printed, abs=1e-9)


@given(st.decimals("0", "2000", places=4))
def test_it_is_what_decimal_arithmetic_cuts(exact):
    """Python's decimal module, ROUND_DOWN, as the second opinion."""
    assert cut_down(float(exact)) == pytest.approx(
        float(exact.quantize(Decimal("0.01"), ROUND_DOWN)), abs=1e-9
    )


def test_what_has_no_end_stays_so() -> None:
    """A device that isn't assured to open has no longest time."""
    assert cut_down(math.inf) == math.inf
    assert cut_down(1e308) == raised(1e308) == 1e308  # as good as none: its decimals have no end
    assert raised(-math.inf) == -math.inf
