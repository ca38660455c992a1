"""Break times of RCDs by the standard they are made to."""

import pytest

from records.errors import NotTabulated
from records.tables.disconnection import rcd_times
from records.terms import RcdStandard


@pytest.mark.parametrize(
    ("residual", "from_multiple"),
    [(10.0, 25.0), (30.0, 250 / 30), (30.1, 5.0), (100.0, 5.0), (None, 5.0)],
)
def test_up_to_30_ma_40_ms_is_assured_from_a_quarter_of_an_ampere(residual, from_multiple):
    """BS EN 61008-1, Table 1, note: 0.25 A in place of 5 × IΔn (an article on tripping times)."""
    last = rcd_times(delayed=False, residual_ma=residual)[-1]

    assert last.multiple == pytest.approx(from_multiple)
    assert last.longest == 0.04


def test_a_delayed_one_keeps_its_five_times():
    """The note is about RCDs without delay (BS EN 61008-1, Table 1, from memory)."""
    assert rcd_times(delayed=True, residual_ma=30.0)[-1].multiple == 5.0


@pytest.mark.parametrize("standard", [RcdStandard.BS_4293, RcdStandard.BS_7288])
def test_older_ones_open_within_200_ms_and_40_ms(standard):
    found = rcd_times(delayed=False, standard=standard)

    assert [(each.multiple, each.longest) for each in found] == [(1.0, 0.2), (5.0, 0.04)]


def test_a_delayed_older_one_without_its_delay_has_no_time():
    with pytest.raises(NotTabulated, match="delay on its label"):
        rcd_times(delayed=True, standard=RcdStandard.BS_4293)
