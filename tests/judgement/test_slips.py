"""Figures a thousand times off: asked about as a slip of the unit, and held against no other.

The grid of a quick test is common practice; the prefixes are those of the SI (ISO 80000-1).
"""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What, Worked
from records.judgement.compare import SLACK
from records.judgement.unit_slips import _WITHIN, thousandfold
from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    ZDB,
    at,
    findings,
    over,
    own,
    place,
    read,
    sound_job,
    spoilt,
    zs,
)

LIVE = Stage.LIVE
RUN = at(Quantity.R1_R2, "C2")
TIME = at(Quantity.RCD_TIME, "C2", LIVE)
FAULT = at(Quantity.FAULT_LN, stage=LIVE)


@pytest.mark.parametrize(
    ("slot", "typed", "asked"),
    [
        (ZDB, 350.0, "350 would fit as mΩ: is it 0.35 Ω?"),
        (zs("C2"), 720.0, "720 would fit as mΩ: is it 0.72 Ω?"),
        (RUN, 350.0, "350 would fit as mΩ: is it 0.35 Ω?"),
        (FAULT, 620.0, "620 would fit as A: is it 0.62 kA?"),
        (TIME, 0.024, "0.024 would fit as s: is it 24 ms?"),
    ],
)
def test_a_figure_a_thousand_times_off_is_asked_about_with_its_unit(slot, typed, asked):
    found = own(spoilt((slot, typed)), slot)

    assert found.patterns == ("unit-slip",)
    assert asked in found.why
    assert "from the limit" not in found.why  # a margin of 514 kA makes no sense
    assert found.verdict is (Verdict.UNLIKELY if slot is TIME else Verdict.OUTSIDE)


@pytest.mark.parametrize(("slot", "typed"), [(ZDB, 350.0), (RUN, 350.0), (FEED_R1_R2, 120.0)])
def test_it_is_the_only_finding_for_no_other_reading_is_held_against_it(slot, typed):
    assert len(findings(spoilt((slot, typed)))) == 1


def test_a_loop_of_hundreds_of_ohms_is_still_locked_off_if_it_is_no_slip():
    assert "lock it off" in own(spoilt((ZDB, 350.0)), ZDB).next_check


@pytest.mark.parametrize(
    ("slot", "typed"), [(RUN, 350.0), (FEED_R1_R2, 110.0), (at(Quantity.EARTHING), 30.0)]
)
def test_a_path_of_tens_of_ohms_stays_locked_off_if_it_is_no_slip(slot, typed):
    found = own(spoilt((slot, typed)), slot)

    assert found.patterns == ("unit-slip",)
    assert "no sound path. It stays locked off" in found.next_check


@pytest.mark.parametrize(("value", "slip"), [(3.0, False), (9.9, False), (10.0, True)])
def test_less_than_a_meter_can_show_is_no_figure_that_was_meant(value, slip):
    """3 Ω in an earthing conductor is a bad joint, not 0.003 Ω: testers show 0.01 Ω at least."""
    slot = at(Quantity.EARTHING)

    assert ("unit-slip" in own(spoilt((slot, value)), slot).patterns) is slip


@pytest.mark.parametrize("quantity", [Quantity.RCD_FIVE, Quantity.RCD_TIME, Quantity.RCD_RAMP])
@pytest.mark.parametrize("value", [320.0, 450.0, 1900.0])
def test_an_rcd_that_is_too_slow_is_not_explained_by_microseconds(quantity, value):
    slot = at(quantity, "C2", LIVE)
    record = spoilt(*(() if quantity is Quantity.RCD_TIME else (read(900, slot, value, 900),)))
    if quantity is Quantity.RCD_TIME:
        record = spoilt((slot, value))
    found = own(record, slot)

    assert "unit-slip" not in found.patterns
    assert found.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY)


@pytest.mark.parametrize("factor", [0.99, 1.01])
def test_it_fits_up_to_twice_what_is_expected(factor):
    """On either side of the named bound: common practice."""
    want = expected(sound_job()).meter[RUN]
    assert isinstance(want, Worked)
    found = spoilt((RUN, 1000 * _WITHIN * want.value * factor)).taken(RUN)[-1].taken
    fewer = spoilt((RUN, 1000 / _WITHIN * want.value / factor)).taken(RUN)[-1].taken

    assert (thousandfold(RUN, found, want) is not None) is (factor < 1)
    assert (thousandfold(RUN, fewer, want) is not None) is (factor < 1)


@pytest.mark.parametrize(("typed", "fits"), [(20.0, True), (51.0, False), (0.4, False)])
def test_without_an_expectation_the_limit_tells_which_unit_would_fit(typed, fits):
    """An earthing conductor of unknown length: at most 0.05 Ω with good contacts."""
    slot = at(Quantity.EARTHING)

    assert ("unit-slip" in own(spoilt((slot, typed)), slot).patterns) is fits


def test_a_reading_out_of_range_or_without_a_voltage_is_no_slip():
    volts = at(Quantity.VOLTAGE, stage=LIVE)

    assert "unit-slip" not in own(spoilt((ZDB, over(350.0))), ZDB).patterns
    assert "unit-slip" not in own(spoilt((volts, 0.239)), volts).patterns


@pytest.mark.parametrize("value", [0.2, 0.5, 0.99])
def test_a_low_insulation_reading_is_never_taken_for_gigohms(value):
    slot = at(Quantity.IR_LE, "C2")
    found = own(spoilt((slot, value)), slot)

    assert found.verdict is Verdict.OUTSIDE
    assert "would fit" not in found.why


def test_a_figure_in_kilohms_names_both_units_it_may_be_in():
    slot = at(Quantity.IR_LE, "C2")
    found = own(spoilt((slot, 400_000.0)), slot)

    assert "400000 would fit as kΩ: is it 400 MΩ? As Ω it is only 0.40 MΩ." in found.why
    assert "would fit" not in own(spoilt((slot, 20_000.0)), slot).why


@pytest.mark.parametrize(("count", "one"), [(2, False), (3, True), (4, True)])
def test_a_series_typed_in_milliohms_is_one_finding(count, one):
    """Three slips of one unit are a series: common practice."""
    runs = [FEED_R1_R2, *(at(Quantity.R1_R2, name) for name in ("C2", "C3", "C4"))][:count]
    record = spoilt(*((slot, 1000 * sound_job().taken(slot)[-1].taken.value) for slot in runs))
    found = findings(record)

    assert len(found) == (1 if one else count)
    if one:
        assert found == {"board/-/mΩ/dead/unit slips in a row": "outside"}


# Limits that can't be meant.


def _exact(record):
    return expected(record).design[place("C2"), What.ZS_LIMIT_EXACT]


@pytest.mark.parametrize("typed", [350.0, 5.0, 2.2])
def test_no_limit_of_a_loop_lies_below_zero_or_below_the_loop_before_it(typed):
    """BS 7671 Appendix 3: Zs,cold ≤ Zs,max − (hot/cold − 1)·(R1+R2); 2.19 Ω for 20 A type B."""
    found = _exact(spoilt((RUN, typed)))

    assert isinstance(found, Worked)
    assert 1.9 < found.value < 2.19
    assert "−" not in own(spoilt((RUN, typed)), zs("C2")).why


@pytest.mark.parametrize(("zdb", "known"), [(2.0, True), (2.12, False), (2.3, False)])
def test_where_the_loop_before_leaves_no_room_no_limit_is_made_up(zdb, known):
    found = _exact(spoilt((ZDB, zdb)))

    assert isinstance(found, Worked) is known
    if isinstance(found, NotWorkedOut):
        assert f"the loop before it, {zdb:.2f} Ω, leaves this run no room under 2.19 Ω" in found.why
    else:
        assert found.value > zdb + SLACK


def test_the_feeds_limit_is_held_against_ze():
    ze = at(Quantity.ZE, stage=LIVE, part=Part.ORIGIN)
    found = expected(spoilt((ze, 1.29))).design[place(part=Part.FEED), What.ZS_LIMIT_EXACT]

    assert isinstance(found, NotWorkedOut)
