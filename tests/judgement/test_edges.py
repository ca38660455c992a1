"""Rules of thumb and limits on their edge, just over and just under, each with where it is from."""

from __future__ import annotations

import pytest

from records.judgement.review_types import Judged
from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import at, own, read, sound_job, spoilt

EARTHING = at(Quantity.EARTHING)
LIVE = Stage.LIVE
AT_ORIGIN = at(Quantity.VOLTAGE_LOADED, stage=LIVE, part=Part.ORIGIN)
UNDER_LOAD, CURRENT = (
    at(each, stage=LIVE) for each in (Quantity.VOLTAGE_LOADED, Quantity.LOAD_CURRENT)
)


@pytest.mark.parametrize(
    ("ohms", "verdict"),
    [(0.04, Verdict.WITHIN), (0.05, Verdict.NEAR), (0.051, Verdict.UNLIKELY)],
)
def test_a_short_conductor_shows_no_more_than_a_twentieth_of_an_ohm(
    ohms: float, verdict: Verdict
) -> None:
    """IET Guidance Note 3, continuity of protective bonding (from memory): about 0.05 Ω."""
    assert own(spoilt((EARTHING, ohms)), EARTHING).verdict is verdict


def loaded(origin: float, current: float, board: float) -> Judged:
    more = ((AT_ORIGIN, origin), (CURRENT, current), (UNDER_LOAD, board))
    readings = (read(900 + n, slot, value, 900 + n) for n, (slot, value) in enumerate(more))
    return own(spoilt(*readings, record=sound_job()), UNDER_LOAD)


def test_the_voltage_under_load_may_be_2_v_from_what_the_copper_loses() -> None:
    """30 m of 10 mm² there and back: IEC 60228 has 1.83 mΩ/m at 20 °C, here at 15 °C; 2 V of
    scatter are common practice."""
    drop = 10 * 2 * 30 * 1.83e-3 * (1 - 5 * 0.00393)
    limit = loaded(238.0, 10.0, 237.0).limit

    assert limit is not None
    assert limit.value == pytest.approx(238 - drop - 2, abs=0.02)
    assert limit.upper == pytest.approx(238 - drop + 2, abs=0.02)
    for volts, verdict in (
        (235.1, Verdict.WITHIN),
        (234.8, Verdict.UNLIKELY),
        (238.8, Verdict.WITHIN),
        (239.0, Verdict.UNLIKELY),
    ):
        assert loaded(238.0, 10.0, volts).verdict is verdict, volts


@pytest.mark.parametrize(
    ("amps", "verdict"),
    [
        (4.9, Verdict.UNLIKELY),
        (5.0, Verdict.WITHIN),
        (39.0, Verdict.WITHIN),
        (40.1, Verdict.OUTSIDE),
    ],
)
def test_a_load_to_measure_by_is_at_least_5_a_and_at_most_what_the_feed_carries(
    amps: float, verdict: Verdict
) -> None:
    """The feed's fuse is 40 A; half a kettle, 5 A, is common practice."""
    line = own(spoilt(read(900, CURRENT, amps, 900), record=sound_job()), CURRENT)

    assert line.verdict is verdict


ORIGIN_LN = at(Quantity.FAULT_LN, stage=LIVE, part=Part.ORIGIN)
BOARD_LN = at(Quantity.FAULT_LN, stage=LIVE)


@pytest.mark.parametrize(
    ("origin", "board", "above"),
    [(1.2, 1.3, True), (0.8, 0.9, True), (0.8, 0.7, False), (0.3, 0.4, True)],
)
def test_a_board_has_no_more_fault_current_than_what_feeds_it_however_small_that_is(
    origin: float, board: float, above: bool
) -> None:
    """U0 / (Ze + feed) is less than U0 / Ze: Ohm's law."""
    found = own(spoilt((ORIGIN_LN, origin), (BOARD_LN, board)), BOARD_LN)

    assert ("fault-above-origin" in found.patterns) is above
