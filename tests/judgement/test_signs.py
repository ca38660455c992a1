"""`>` and `<`: what they prove, what they don't, and that no blame is laid where nothing shows."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    ZDB,
    ZE,
    at,
    over,
    own,
    sound_job,
    spoilt,
    under,
    zs,
)

LIVE = Stage.LIVE
TIME = at(Quantity.RCD_TIME, "C2", LIVE)
SLOW = at(Quantity.RCD_TIME, stage=LIVE)
FAULT = at(Quantity.FAULT_LN, stage=LIVE)
LE = at(Quantity.IR_LE, "C2")
RUN = at(Quantity.R1_R2, "C2")
R1 = at(Quantity.R1, "C1")
POINT = at(Quantity.CROSS_LN, "C1", point="P3")
EARTHING = at(Quantity.EARTHING)
RA = at(Quantity.ELECTRODE)


def line(slot, taken, job=None):
    return own(spoilt((slot, taken), record=sound_job(job) if job else None), slot)


@pytest.mark.parametrize(
    ("slot", "taken"),
    [
        (TIME, over(40.0)),
        (TIME, under(400.0)),
        (FAULT, over(0.5)),
        (zs("C2"), over(0.2)),
        (zs("C2"), under(5.0)),
        (RUN, under(3.0)),
        (EARTHING, over(0.01)),
        (EARTHING, under(0.1)),
        (LE, over(0.5)),
        (LE, under(200.0)),
        (ZE, over(0.2)),
    ],
)
def test_a_figure_that_proves_nothing_blames_nothing(slot, taken):
    """`> 40 ms` is no proof of 300 ms and no sign of a bad RCD: another range has to tell."""
    found = line(slot, taken)

    assert found.verdict is Verdict.OUTSIDE
    assert "no-proof" in found.patterns
    assert "limit" not in found.patterns
    assert found.causes == ()
    assert "range" in found.next_check


@pytest.mark.parametrize("taken", [over(130.0), under(300.0), over(499.0)])
def test_a_delayed_rcd_is_not_proved_by_a_figure_with_a_sign(taken):
    found = line(SLOW, taken, ISLAND)

    assert (found.verdict, found.patterns) == (Verdict.OUTSIDE, ("no-proof",))


@pytest.mark.parametrize(
    ("slot", "taken", "pattern"),
    [
        (TIME, over(300.0), "limit"),
        (SLOW, over(500.0), "limit"),
        (SLOW, under(40.0), "rcd-too-quick"),
        (LE, under(0.01), "limit"),
        (EARTHING, over(99.9), "open"),
        (RA, over(1999.0), "limit"),
    ],
)
def test_a_figure_that_proves_the_worst_does_so(slot, taken, pattern):
    found = line(slot, taken, ISLAND if slot in (SLOW, RA) else None)

    assert found.verdict is Verdict.OUTSIDE
    assert pattern in found.patterns
    assert "no-proof" not in found.patterns
    assert found.causes


def test_less_than_a_high_figure_asks_whether_more_was_meant():
    assert "> 200 MΩ" in line(LE, under(200.0)).next_check


@pytest.mark.parametrize("slot", [R1, POINT])
def test_without_a_limit_less_than_something_proves_nothing(slot):
    """`< 5 Ω` end to end can be a sound ring or half of one."""
    found = line(slot, under(5.0))

    assert found.verdict is Verdict.NOT_TAKEN
    assert "a range that shows the figure" in found.why


@pytest.mark.parametrize("slot", [RUN, R1, POINT])
def test_a_low_range_that_ran_out_is_no_open_conductor(slot):
    found = line(slot, over(0.2))

    assert found.verdict is Verdict.OUTSIDE
    assert "open" not in found.patterns
    assert "higher range" in found.next_check


@pytest.mark.parametrize("slot", [zs("C2"), ZDB, ZE, LE, TIME, FAULT, RA])
def test_no_meter_shows_less_than_nothing(slot):
    """A minus sign there is a slip of the typing; only a nulled ohmmeter shows one."""
    found = line(slot, -0.2, ISLAND if slot == RA else None)

    assert found.verdict in (Verdict.UNLIKELY, Verdict.OUTSIDE)
    assert "below-nothing" in found.patterns
    assert "typed" in found.causes[0]


def test_the_neutral_of_the_board_has_no_negative_voltage_either():
    slot = at(Quantity.FAULT_LE, stage=LIVE, part=Part.ORIGIN)
    assert "below-nothing" in line(slot, -0.4).patterns


def test_how_far_away_a_limit_is_stays_a_figure_that_means_something():
    """A share of next to nothing: a thousand times the uncertainty says no more than ten times."""
    why = line(TIME, 2.0).why

    assert "more than 10 times the uncertainty" in why
