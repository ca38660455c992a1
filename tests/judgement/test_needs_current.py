"""Checks of a highest current where none is known, or where a reading is worse than the design."""

from __future__ import annotations

from dataclasses import replace

import pytest

from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.remedy.smallest_change import mends
from records.judgement.review import review
from records.model.reading import Quantity
from records.model.supply import Ground
from records.model.wiring import Device
from records.terms import DeviceKind, Earthing, Part, Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import at, circuit, place, sound_job, spoilt

FEED_BREAKING, C2_CPC = "feed/-/-/design/breaking capacity", "circuit/C2/-/design/cpc size"
ORIGIN_LN = at(Quantity.FAULT_LN, stage=Stage.LIVE, part=Part.ORIGIN)
BOARD_LN = at(Quantity.FAULT_LN, stage=Stage.LIVE)


def lines(record, found=None):
    return {each.key: each for each in review(record, found or expected(record)).lines}


def unknown(breaking, **more):
    """The sound job before anything is read, with Ze declared and no fault current."""
    job = sound_job().model_copy(update={"readings": (), "remedies": ()})
    given = {
        "earthing": Earthing.TN_C_S,
        "ze_ground": Ground.DECLARED,
        "fault_current": None,
        "fault_current_ground": None,
    }
    device = job.feed.device.model_copy(update={"breaking": breaking})
    return job.model_copy(
        update={
            "origin": job.origin.model_copy(update={**given, **more}),
            "feed": job.feed.model_copy(update={"device": device}),
        }
    )


@pytest.mark.parametrize(
    ("breaking", "verdict"),
    [(16.0, Verdict.WITHIN), (16.5, Verdict.WITHIN), (15.9, Verdict.OUTSIDE)],
)
def test_breaking_capacity_is_held_against_the_typical_most_and_says_so(breaking, verdict):
    """16 kA: typical most of a single-phase supply of 100 A (read in a secondary copy)."""
    line = lines(unknown(breaking))[FEED_BREAKING]

    assert line.verdict is verdict
    assert "Assumed: the highest fault current usual at an origin, 16 kA." in line.why
    assert "Enter the fault current that the operator declares" in line.next_check


def with_breaker(record):
    device = Device(kind=DeviceKind.BREAKER_B, rating=40.0, breaking=6.0)
    return record.model_copy(update={"feed": record.feed.model_copy(update={"device": device})})


def test_nothing_is_bought_for_an_assumption():
    record = unknown(6.0)
    line = lines(record)[FEED_BREAKING]

    assert line.verdict is Verdict.OUTSIDE
    assert mends(record, line) == ()
    assert "may not survive" not in line.why
    entered = with_breaker(unknown(6.0, fault_current=6.5))
    assert mends(entered, lines(entered)[FEED_BREAKING])
    assert mends(with_breaker(record), lines(with_breaker(record))[FEED_BREAKING]) == ()


def test_an_entered_current_ends_the_assumption():
    line = lines(unknown(6.0, fault_current=1.2))[FEED_BREAKING]

    assert line.verdict is Verdict.WITHIN
    assert "ssumed" not in line.why
    assert not line.next_check


def thin(high, assumed):
    record = sound_job()
    found = expected(record)
    least = Worked(
        "S", 1.4, Unit.SQUARE_MILLIMETRE, "", "", (), high=high, note="Note.", assumed=assumed
    )
    size = Worked("S", 1.5, Unit.SQUARE_MILLIMETRE, "", "", ())
    at_c2 = place("C2")
    design = {**found.design, (at_c2, What.CPC_SIZE): size, (at_c2, What.CPC_LEAST): least}
    return lines(record, replace(found, design=design))[C2_CPC]


@pytest.mark.parametrize(
    ("high", "assumed", "verdict"),
    [
        (1.5, "Read it.", Verdict.WITHIN),
        (1.49, "Read it.", Verdict.WITHIN),
        (1.51, "Read it.", Verdict.NOT_TAKEN),
        (1.51, "", Verdict.NEAR),
        (None, "", Verdict.WITHIN),
    ],
)
def test_a_cpc_that_only_an_assumption_would_fail_needs_a_current(high, assumed, verdict):
    line = thin(high, assumed)

    assert line.verdict is verdict
    if verdict is Verdict.NOT_TAKEN:
        assert "Needs a current." in line.why
        assert line.next_check == "Read it."


def strong(current):
    """The sound job with C2 behind a breaker of 1.5 kA, and a fault current read at the board."""
    device = Device(kind=DeviceKind.BREAKER_B, rating=20.0, breaking=1.5)
    return spoilt((BOARD_LN, current), record=circuit(sound_job(), "C2", device=device))


@pytest.mark.parametrize(
    ("current", "verdict"),
    [(1.5, Verdict.WITHIN), (1.4, Verdict.WITHIN), (1.51, Verdict.OUTSIDE)],
)
def test_a_current_read_at_the_board_reaches_the_devices_there(current, verdict):
    line = lines(strong(current))["circuit/C2/-/design/breaking capacity"]

    assert line.verdict is verdict


def test_what_a_doubted_reading_does_to_the_design_points_to_the_reading():
    found = lines(strong(1.8))

    assert found["board/-/-/live/fault-ln"].verdict is Verdict.OUTSIDE
    told = found["circuit/C2/-/design/breaking capacity"].part_of
    assert told == "board/-/-/live/fault-ln"


def test_a_higher_ze_reaches_the_disconnection_of_every_circuit():
    """Zs = Ze + the rest (IET Guidance Note 3): a Ze of 2 Ω is over what any 20 A type B takes."""
    ze = at(Quantity.ZE, stage=Stage.LIVE, part=Part.ORIGIN)
    zdb = at(Quantity.ZDB, stage=Stage.LIVE)
    record = sound_job()
    record = record.model_copy(
        update={"readings": tuple(each for each in record.readings if each.slot != zdb)}
    )
    plain, bad = lines(record), lines(spoilt((ze, 2.2), record=record))

    assert plain["circuit/C2/-/design/Zs"].verdict is Verdict.WITHIN
    worse = bad["circuit/C2/-/design/Zs"]
    assert worse.verdict is Verdict.OUTSIDE
    assert "With Ze as measured, 2.2 Ω" in worse.why
    assert worse.part_of == "origin/-/-/live/Ze"


def test_a_higher_zdb_that_is_sound_by_itself_stays_a_finding_of_the_design():
    zdb = at(Quantity.ZDB, stage=Stage.LIVE)
    record = sound_job()
    at_limit = expected(record).design[place("C2"), What.ZS_LIMIT].value
    own = expected(record).design[place("C2"), What.R1_R2].value
    for reading, verdict in (
        (at_limit - own, Verdict.WITHIN),
        (at_limit - own + 0.01, Verdict.OUTSIDE),
    ):
        found = lines(spoilt((zdb, reading), record=record))
        assert found["circuit/C2/-/design/Zs"].verdict is verdict
