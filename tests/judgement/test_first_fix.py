"""At first fix too: cross-connected readings, the armour, and the leads are entered and judged."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.ticks import should
from records.model.job import Instrument
from records.model.reading import Quantity, Tick
from records.model.record import Record
from records.model.slots import offered, slots
from records.terms import Cpc, Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    RING,
    SOUND,
    at,
    findings,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
)
from tests.judgement.test_patterns import with_leads

EARLY, DEAD = Stage.BEFORE_COVERING, Stage.DEAD
ARMOUR = at(Quantity.R1_R2_ARMOUR, stage=EARLY, part=Part.FEED)
APART = at(Quantity.ARMOUR_OPEN, stage=EARLY)
ZERO = at(Quantity.LEADS_ZERO, stage=EARLY)
TIPS_APART = at(Quantity.TIPS_APART, stage=EARLY)


def cross(quantity: Quantity, point: str):
    return at(quantity, "C1", EARLY, point=point)


def early(*taken, job: Record = SOUND) -> Record:
    more = [read(900 + n, slot, value, 5 + n) for n, (slot, value) in enumerate(taken)]
    return spoilt(*more, record=sound_job(job))


@pytest.mark.parametrize("job", [SOUND, ISLAND])
def test_they_can_be_entered_at_first_fix_and_nobody_has_to(job):
    may, must = offered(job, EARLY), slots(job, EARLY)
    wanted = [cross(each, "P1") for each in (Quantity.CROSS_LN, Quantity.CROSS_LE)]
    wanted += [ZERO, TIPS_APART, *((ARMOUR, APART) if job is ISLAND else ())]

    assert set(wanted) <= set(may)
    assert not set(wanted) & set(must)
    assert {each.model_copy(update={"stage": DEAD}) for each in wanted[:2]} <= set(slots(job, DEAD))


def test_a_crossed_reading_at_first_fix_has_an_expectation_and_a_verdict():
    slot = cross(Quantity.CROSS_LN, "P3")
    good = round(expected(SOUND).meter[slot].value, 2)

    assert own(early((slot, good)), slot).verdict is Verdict.WITHIN
    assert own(early((slot, good + 0.3)), slot).verdict is Verdict.UNLIKELY
    assert (
        "ring-point-cpc"
        in own(
            early((slot, good), (cross(Quantity.CROSS_LE, "P3"), over(99.9))),
            cross(Quantity.CROSS_LE, "P3"),
        ).patterns
    )


def test_crossed_on_the_same_leg_is_seen_at_first_fix():
    slots = [cross(Quantity.CROSS_LN, each.id) for each in RING.points]
    record = early(*zip(slots, (0.08, 0.15, 0.18, 0.14, 0.06), strict=True))

    assert [key for key in findings(record) if "before-covering/crossed on the same leg" in key]


# The armour of a feed whose earth is not exported.


def test_r1_and_the_armour_of_an_islands_feed_have_an_expectation():
    """30 m of 3-core 10 mm²: line 1.83 and armour 4.0 mΩ/m at 20 °C (BS 5467, from memory)."""
    found = expected(ISLAND).meter[ARMOUR]

    assert isinstance(found, Worked)
    assert found.value == pytest.approx(30 * (1.83 + 4.0) * 0.98e-3, rel=0.06)


@pytest.mark.parametrize(
    ("taken", "verdict"),
    [
        (0.17, Verdict.WITHIN),
        (0.4, Verdict.UNLIKELY),
        (over(99.9), Verdict.OUTSIDE),
    ],
)
def test_r1_and_the_armour_are_judged_at_first_fix(taken, verdict):
    assert own(early((ARMOUR, taken), job=ISLAND), ARMOUR).verdict is verdict


def test_a_feed_without_an_armour_has_no_such_reading():
    runs = (ISLAND.feed.runs[0].model_copy(update={"cable": None, "cpc": Cpc.NONE}),)
    bare = ISLAND.model_copy(update={"feed": ISLAND.feed.model_copy(update={"runs": runs})})

    assert ARMOUR not in offered(bare, EARLY)


@pytest.mark.parametrize(
    ("taken", "verdict"), [(over(999.0), Verdict.WITHIN), (0.9, Verdict.OUTSIDE)]
)
def test_an_islands_earth_is_shown_to_be_apart_from_the_armour_at_first_fix(taken, verdict):
    """Over range is what two separate earths show; under 1 MΩ they are joined (common practice)."""
    assert own(early((APART, taken), job=ISLAND), APART).verdict is verdict


# The leads.


@pytest.mark.parametrize(
    ("taken", "verdict"),
    [
        (0.0, "within"),
        (0.02, "within"),
        (0.03, "unlikely"),
        (0.14, "unlikely"),
        (over(20.0), "outside"),
    ],
)
def test_a_nulled_meter_shows_nothing_with_its_tips_joined(taken, verdict):
    assert own(early((ZERO, taken)), ZERO).verdict.value == verdict


@pytest.mark.parametrize(
    ("leads", "taken", "verdict"),
    [
        (0.08, 0.11, "within"),
        (0.08, 0.12, "unlikely"),
        (None, 0.33, "within"),
        (None, 0.34, "unlikely"),
    ],
)
def test_a_meter_that_does_not_null_shows_its_leads(leads, taken, verdict):
    meter = Instrument(id="M1", serial="1", nulled=False, leads=leads)
    job = SOUND.job.model_copy(update={"instruments": (meter,)})
    record = early((ZERO, taken)).model_copy(update={"job": job})

    assert own(record, ZERO).verdict.value == verdict


def test_tips_apart_that_are_not_over_range_are_judged_too():
    found = own(early((TIPS_APART, Tick(good=False))), TIPS_APART)

    assert found.verdict is Verdict.OUTSIDE
    assert "damp or dirty leads" in found.causes[0]
    assert should(TIPS_APART).source is not None


def test_what_the_tips_showed_explains_the_offset_of_the_series():
    zero = at(Quantity.LEADS_ZERO)
    record = spoilt(read(900, zero, 0.14, 5), record=with_leads(0.14))
    (found,) = (each for each in reviewed(record).findings if "leads not nulled" in each.patterns)

    assert "With its tips joined the meter showed 0.14 Ω: that is it." in found.why
