"""The bounds within which readings are put down to the meter, each tried on both sides."""

from __future__ import annotations

import pytest

from records.judgement import cite
from records.judgement.patterns.meter_offset import _alike, _Off, _spread_of_factor
from records.judgement.review_types import Limit, Sense
from records.judgement.unit_slips import thousandfold
from records.model.reading import Figure, Quantity
from records.units import Unit
from tests.judgement.jobs import at, findings, spoilt, without
from tests.judgement.test_patterns import LOW, times, with_leads

RUNS = [at(Quantity.R1_R2, f"C{n}") for n in range(1, 6)]


def off(*pairs: tuple[float, float]) -> tuple[_Off, ...]:
    """Readings with what is expected, each on its own circuit."""
    return tuple(
        _Off(slot, value, due, None) for slot, (value, due) in zip(RUNS, pairs, strict=False)
    )


@pytest.mark.parametrize(("third", "alike"), [(0.43, True), (0.44, False)])
def test_short_runs_are_alike_within_three_hundredths(third, alike):
    """Offsets 0.2, 0.2 and 0.23 or 0.24 over an expected 0.2 Ω: common practice."""
    found = _alike(off((0.4, 0.2), (0.4, 0.2), (third, 0.2)))

    assert (found is not None) is alike


@pytest.mark.parametrize(("third", "alike"), [(1.3, True), (1.31, False)])
def test_long_runs_are_alike_within_a_tenth(third, alike):
    found = _alike(off((0.4, 0.2), (0.4, 0.2), (third, 1.0)))

    assert (found is not None) is alike


@pytest.mark.parametrize(("count", "alike"), [(2, False), (3, True)])
def test_three_readings_have_to_agree(count, alike):
    found = _alike(off(*[(0.4, 0.2)] * count))

    assert (found is not None) is alike


@pytest.mark.parametrize(("extra", "alike"), [(0.049, False), (0.05, True), (-0.05, True)])
def test_an_offset_counts_from_five_hundredths(extra, alike):
    assert (_alike(off(*[(0.2 + extra, 0.2)] * 3)) is not None) is alike


@pytest.mark.parametrize(("one", "fits"), [(0.55, True), (0.57, False)])
def test_a_common_factor_may_miss_a_reading_by_a_tenth_and_three_hundredths(one, fits):
    """Twice 0.2 is 0.4; 0.02 of a tenth of it is left over besides the 0.03 of two readings."""
    readings = off((2.0, 1.0), (1.0, 0.5), (1.0, 0.5), (1.0, 0.5), (one, 0.25))

    assert (_spread_of_factor(readings) <= 0.03) is fits


@pytest.mark.parametrize(
    ("gone", "found"), [((), True), (("C2",), True), (("C2", "C3", "C4"), False)]
)
def test_a_factor_is_looked_for_over_three_places(gone, found):
    """The feed, the ring and three runs; without the runs two places are left: common practice."""
    record = without(*(at(Quantity.R1_R2, name) for name in gone), record=times(2.0))

    assert ("board/-/M1/dead/meter off by a factor" in findings(record)) is found


@pytest.mark.parametrize(("typed", "fits"), [(0.006, True), (0.004, False), (0.49, True)])
def test_without_an_expectation_a_slip_fits_from_a_hundredth_of_the_limit(typed, fits):
    """At most 500 Ω: 5 to 500 Ω would fit as kiloohms; no electrode has 4 Ω alone."""
    slot = at(Quantity.ELECTRODE)
    limit = Limit(Sense.MOST, 500.0, Unit.OHM, cite.COMMON)

    assert (thousandfold(slot, Figure(value=typed), None, limit) is not None) is fits


@pytest.mark.parametrize(("value", "told"), [(0.21, True), (0.23, False)])
def test_an_earthing_conductor_belongs_to_the_offset_if_the_rest_is_good_contacts(value, told):
    """0.14 Ω of leads, 0.05 Ω of contacts and 0.03 Ω of scatter (common practice)."""
    slot = at(Quantity.EARTHING)
    record = spoilt((slot, value), record=with_leads(0.14, LOW))

    assert ("board/-/-/dead/earthing" not in findings(record)) is told
