"""The resistance of the leads: taken off once, in decimals, and both figures kept.

IET Guidance Note 3 (from memory): leads are nulled, or measured and taken off low-resistance
readings. 0.42 Ω with leads of 0.05 Ω is 0.37 Ω, on paper and here.
"""

from __future__ import annotations

import json
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from records.errors import BadQuantity
from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.lead_resistance import (
    as_shown,
    is_unknown,
    to_take_off,
    without_leads,
)
from records.judgement.review_types import Judged
from records.judgement.uncertainty import guard
from records.judgement.wording import in_full, less_leads, said
from records.model.job import Instrument
from records.model.measurements import MEASUREMENTS, measurement
from records.model.reading import Figure, Quantity, Reading, Slot
from records.terms import Part, Sign, Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import FEED_R1_R2, SOUND, at, own, read, reviewed, sound_job, spoilt

R1_R2 = measurement(Part.CIRCUIT, Quantity.R1_R2)
ZS = measurement(Part.CIRCUIT, Quantity.ZS)
PLAIN = Instrument(id="M1", leads=0.05, nulled=False)


def meter(**changes: object) -> Instrument:
    return PLAIN.model_copy(update=changes)


@pytest.mark.parametrize(
    ("shown", "leads", "left"),
    [
        (0.42, 0.05, 0.37),
        (0.3, 0.1, 0.2),
        (1.1, 0.08, 1.02),
        (0.05, 0.05, 0.0),
        (0.04, 0.05, -0.01),
        (0.425, 0.05, 0.375),
        (12.0, 0.11, 11.89),
    ],
)
def test_what_is_left_is_worked_out_as_on_paper(shown: float, leads: float, left: float) -> None:
    figure = without_leads(Figure(value=shown, typed=str(shown)), leads)

    assert (figure.value, figure.leads, figure.typed) == (left, leads, str(shown))
    assert as_shown(figure) == shown


@given(st.decimals("0", "99", places=3), st.decimals("0", "0.4", places=3))
def test_no_binary_noise_is_left_whatever_is_read(shown: Decimal, leads: Decimal) -> None:
    figure = without_leads(Figure(value=float(shown)), float(leads))

    assert Decimal(repr(figure.value)) == shown - leads
    assert as_shown(figure) == float(shown)


def test_it_is_not_taken_off_twice() -> None:
    once = without_leads(Figure(value=0.42), 0.05)

    assert without_leads(once, 0.05) == once


@pytest.mark.parametrize("sign", [Sign.OVER, Sign.UNDER])
def test_from_what_is_out_of_range_nothing_is_taken_off(sign: Sign) -> None:
    figure = Figure(value=20.0, sign=sign)

    assert without_leads(figure, 0.05) == figure
    with pytest.raises(ValidationError, match="Nothing can be taken off"):
        Figure(value=20.0, sign=sign, leads=0.05)


def test_leads_of_more_than_is_read_are_refused_with_what_would_mend_it() -> None:
    with pytest.raises(BadQuantity, match=r"0\.42 Ω less 5 Ω .* Correct the lead resistance"):
        without_leads(Figure(value=0.42), 5.0)


def test_only_a_meter_said_not_to_null_has_its_leads_taken_off() -> None:
    assert to_take_off(PLAIN, R1_R2) == 0.05
    for other in (None, meter(nulled=True), meter(nulled=None), meter(leads=None), meter(leads=0)):
        assert to_take_off(other, R1_R2) is None
    assert to_take_off(PLAIN, ZS) is None


def test_that_it_is_unknown_is_known() -> None:
    assert is_unknown(meter(leads=None), R1_R2)
    for other in (None, PLAIN, meter(leads=None, nulled=True), meter(leads=None, nulled=None)):
        assert not is_unknown(other, R1_R2)
    assert not is_unknown(meter(leads=None), ZS)


def test_leads_count_in_low_resistance_readings_and_nowhere_else() -> None:
    for each in MEASUREMENTS:
        low = each.instrument.startswith("low-resistance") and not each.is_check
        # The long lead is none of the meter's own; with the tips joined the leads are all there is.
        own = each.quantity not in (Quantity.R2_LONG, Quantity.LEADS_ZERO)
        assert each.leads == (low and own), each.title
        if each.leads:
            assert each.unit is Unit.OHM


def test_a_reading_is_told_with_what_was_taken_off_it() -> None:
    figure = Figure(value=0.37, leads=0.05)

    assert less_leads(figure, R1_R2) == "0.42 Ω − 0.05 Ω leads"
    assert in_full(figure, R1_R2) == "0.37 Ω (0.42 Ω − 0.05 Ω leads)"
    assert said(figure, R1_R2) == "0.37 Ω"
    fine = Figure(value=0.375, leads=0.055)
    assert in_full(fine, R1_R2) == "0.375 Ω (0.43 Ω − 0.055 Ω leads)"
    below = Figure(value=-0.01, leads=0.05)
    assert in_full(below, R1_R2) == "−0.01 Ω (0.04 Ω − 0.05 Ω leads)"
    assert less_leads(Figure(value=0.37), R1_R2) == ""
    assert in_full(Figure(value=0.37), R1_R2) == "0.37 Ω"


def test_the_uncertainty_is_a_share_of_what_the_meter_showed() -> None:
    facts = Facts.of(SOUND, expected(SOUND))
    plain = guard(facts, read(1, FEED_R1_R2, 0.37))
    less = guard(facts, read(1, FEED_R1_R2, Figure(value=0.37, leads=0.05)))

    assert plain.at(0.37, 1.0) == pytest.approx(0.08 * 0.37)
    assert less.at(0.37, 1.0) == pytest.approx(0.08 * 0.42)


def test_the_verdict_is_on_what_is_left_and_says_both() -> None:
    slot = at(Quantity.R1_R2, "C2")
    value = next(each for each in sound_job().readings if each.slot == slot).taken
    assert isinstance(value, Figure)
    line = own(spoilt((slot, value.model_copy(update={"leads": 0.05}))), slot)

    assert line.verdict is Verdict.WITHIN
    assert f"Read {value.value:.2f} Ω ({value.value + 0.05:.2f} Ω − 0.05 Ω leads)" in line.why


def test_leads_that_were_taken_off_are_no_cause_of_a_high_reading() -> None:
    slot = at(Quantity.R1_R2, "C2")
    high = own(spoilt((slot, 0.9)), slot)
    less = own(spoilt((slot, Figure(value=0.9, leads=0.05))), slot)

    assert "the leads were not nulled" in high.causes
    assert less.verdict is high.verdict
    assert less.causes == tuple(each for each in high.causes if "nulled" not in each)


def test_less_than_nothing_after_the_leads_is_a_matter_of_what_was_entered_for_them() -> None:
    slot = at(Quantity.EARTHING)
    line = own(spoilt((slot, Figure(value=-0.04, leads=0.06))), slot)

    assert line.verdict is Verdict.UNLIKELY
    assert line.causes[0] == "the lead resistance entered for the meter is too high"
    assert "(Job)" in line.next_check


def test_what_is_said_of_the_meter_later_changes_no_reading() -> None:
    job = spoilt((FEED_R1_R2, Figure(value=0.11, leads=0.05)))
    first = job.job.instruments[0].model_copy(update={"leads": 0.3, "nulled": False})
    later = job.model_copy(update={"job": job.job.model_copy(update={"instruments": (first,)})})

    assert "0.11 Ω (0.16 Ω − 0.05 Ω leads)" in own(later, FEED_R1_R2).why
    assert [each.why for each in reviewed(later).lines] == [
        each.why for each in reviewed(job).lines
    ]


def test_a_reading_keeps_both_figures_as_json() -> None:
    made = read(1, FEED_R1_R2, Figure(value=0.37, typed=".42", leads=0.05))
    text = made.model_dump_json()

    assert Reading.model_validate_json(text) == made
    assert json.loads(text)["taken"] == {
        "kind": "figure",
        "value": 0.37,
        "sign": "=",
        "typed": ".42",
        "leads": 0.05,
    }


def low_ones(extra: float, taken_off: dict[int, float]) -> list[tuple[Slot, Figure]]:
    """Return the dead continuity readings, high by so much, from some of which leads are off."""
    wanted = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.R2)
    sound = [
        (each.slot, each.taken)
        for each in sound_job().readings
        if each.slot.quantity in wanted
        and each.slot.stage is Stage.DEAD
        and isinstance(each.taken, Figure)
    ]
    return [
        (slot, Figure(value=round(figure.value + extra, 2), leads=taken_off.get(at)))
        for at, (slot, figure) in enumerate(sound)
    ]


def told(readings: list[tuple[Slot, Figure]]) -> list[Judged]:
    found = reviewed(spoilt(*readings)).findings
    return [each for each in found if "leads not nulled" in each.patterns]


def test_leads_that_were_taken_off_are_not_called_unnulled_but_for_what_remains() -> None:
    every = dict.fromkeys(range(99), 0.05)
    assert told(low_ones(0.0, every)) == []

    (remains,) = told(low_ones(0.14, every))
    assert "about 0.14 Ω above what is expected" in remains.why
    assert "That is after the leads were taken off." in remains.why
    assert remains.causes[0] == "the leads have more than was entered for them"


def test_those_taken_before_the_leads_were_known_are_told_by_themselves() -> None:
    """Three with the leads still in them, the rest without: only the three are high."""
    high, sound = low_ones(0.08, {}), low_ones(0.0, dict.fromkeys(range(99), 0.08))
    (found,) = told([*high[:3], *sound[3:]])

    assert found.about == tuple(slot for slot, _ in high[:3])
    assert "3 readings are about 0.08 Ω above" in found.why
