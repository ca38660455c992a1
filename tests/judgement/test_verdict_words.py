"""What a verdict's word says, and what its sentence says, are the same.

outside: the limit is not kept. unlikely: inside the limit, and at odds with something. near limit:
inside by less than the meter is sure of, or right only by the exact working, or for the certifier
to decide.
"""

from __future__ import annotations

import re
from datetime import date

import pytest

from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Sense
from records.model.outbuilding import Bond
from records.model.reading import Figure, Quantity, Reading
from records.model.record import Record
from records.model.wiring import Rcd
from records.terms import Earthing, Part, RcdType, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    START,
    ZDB,
    at,
    line,
    own,
    reviewed,
    sound_job,
    spoilt,
)
from tests.judgement.pattern_jobs import SPEAKS

_NEAR = (
    "Inside the limit, but",
    "Inside the cold limit, but",
    "It holds, but",
    "certifier decides",
)
JOBS = {"sound": sound_job, "island": lambda: sound_job(ISLAND), "demo": demo_record}
EARTHING = at(Quantity.EARTHING)


def _lines():
    for scene in (*SPEAKS.values(), *JOBS.values()):
        yield from reviewed(scene()).lines


@pytest.mark.slow
def test_who_is_near_a_limit_is_near_it_or_the_certifier_decides():
    near = [each for each in _lines() if each.verdict is Verdict.NEAR]

    assert len(near) > 5
    for each in near:
        said = f"{each.why} {each.next_check}"
        assert any(words in said for words in _NEAR), each.why


@pytest.mark.slow
def test_who_is_outside_the_limit_is_called_so():
    told = [each for each in _lines() if "Outside the limit" in each.why]

    assert len(told) > 5
    assert {each.verdict for each in told} == {Verdict.OUTSIDE}


def test_a_long_earthing_conductor_is_more_than_usual_not_outside_a_limit():
    """0.05 Ω is the trade's rule for a short conductor: common practice, so no limit of its own."""
    found = own(spoilt((EARTHING, 0.07)), EARTHING)

    assert found.verdict is Verdict.UNLIKELY
    assert "0.02 Ω more than a short conductor shows; its length isn't known here." in found.why
    assert "a rule of thumb" in found.why
    assert "Outside" not in found.why


def _series() -> Record:
    board = SOUND.board.model_copy(update={"rcd": Rcd(residual=30.0, type=RcdType.A)})
    return SOUND.model_copy(update={"board": board})


def _buried_metal() -> Record:
    bonds = (Bond(id="B1", what="water pipe", csa=10.0, length=5.0),)
    board = SOUND.board.model_copy(update={"metal_in_ground": True, "bonds": bonds})
    origin = SOUND.origin.model_copy(update={"earthing": Earthing.TN_C_S})
    return SOUND.model_copy(update={"board": board, "origin": origin})


@pytest.mark.parametrize(
    ("record", "end"),
    [
        (_series, "design/RCDs before circuits"),
        (_buried_metal, "board/-/-/design/bonding"),
    ],
)
def test_what_the_certifier_decides_says_so(record, end):
    found = line(record(), end)

    assert found.verdict is Verdict.NEAR
    assert "the certifier decides" in found.why.lower()


# A meter out of calibration


def _out_of_calibration() -> Record:
    meter = SOUND.job.instruments[0].model_copy(update={"due": date(2026, 3, 1)})
    job = sound_job().job.model_copy(update={"instruments": (meter,)})
    return sound_job().model_copy(update={"job": job})


def test_a_good_reading_is_good_whatever_day_its_meter_was_due():
    """IET Guidance Note 3, test instruments, from memory: accuracy is to be confirmed; no reading
    is wrong for the day alone."""
    review = reviewed(_out_of_calibration())
    found = [each for each in review.lines if "calibration" in each.patterns]

    assert [each.verdict for each in found] == [Verdict.NEAR]
    assert "makes none of them wrong: the certifier decides" in found[0].why
    assert ZDB in found[0].about
    assert [each.verdict for each in review.of(ZDB)] == [Verdict.WITHIN]


# A reading of what is printed as the limit


@pytest.mark.parametrize("name", JOBS)
def test_a_reading_equal_to_the_printed_limit_keeps_it(name):
    job = JOBS[name]()
    worked_out = expected(job)
    tried = 0
    for slot in Facts.of(job, worked_out).all_slots:
        limit = own_line(Facts.of(job, worked_out), slot).limit
        if limit is None or limit.sense is Sense.SHOULD:
            continue
        for text in re.findall(r"[\d.]+", str(limit)):
            reading = Reading(
                id="R9999", slot=slot, taken=Figure(value=float(text)), at=START.replace(year=2027)
            )
            found = own_line(Facts.of(job, worked_out, (reading,)), slot)
            tried += 1

            assert "Outside the limit" not in found.why, found.why

    assert tried > 20


VOLTAGE = at(Quantity.VOLTAGE, stage=Stage.LIVE)


def test_a_voltage_just_under_the_band_says_by_how_much():
    """230 V + 10 % / - 6 %: 253.0 V and 216.2 V (the Electricity Safety, Quality and Continuity
    Regulations 2002, regulation 27, from memory)."""
    found = own(spoilt((VOLTAGE, 216.0)), VOLTAGE)

    assert found.verdict is Verdict.OUTSIDE
    assert str(found.limit) == "216.2 to 253.0 V"
    assert "Outside the limit: 0.2 V from the limit" in found.why


def test_the_limit_by_a_30_ma_rcd_is_the_one_printed():
    """BS 7671, Table 41.5: 1667 Ω for 30 mA, from memory."""
    slot = at(Quantity.ZS, "C2", Stage.LIVE)
    for value, is_over in ((1667.0, False), (1668.0, True)):
        found = own(spoilt((slot, value), record=sound_job(ISLAND)), slot)

        assert ("Outside the limit" in found.why) is is_over


# What is only assumed


def test_a_breaking_capacity_that_is_not_entered_is_assumed_and_shows_nothing():
    device = SOUND.feed.device.model_copy(update={"breaking": None})
    feed = SOUND.feed.model_copy(update={"device": device})
    found = line(SOUND.model_copy(update={"feed": feed}), "feed/-/-/design/breaking capacity")

    assert found.verdict is Verdict.NOT_TAKEN
    assert "must be at most Icn, 16.5 kA, assumed." in found.why
    assert "Assumed by its kind, BS 88-2 fuse: the lowest usual one" in found.why
    assert found.next_check == (
        "Read the breaking capacity off the label, covers on; enter it (Feed)."
    )


def test_an_assumed_breaking_capacity_that_does_not_do_is_outside_all_the_same():
    device = SOUND.circuits[1].device.model_copy(update={"breaking": None})
    circuits = (
        SOUND.circuits[0],
        SOUND.circuits[1].model_copy(update={"device": device}),
        *SOUND.circuits[2:],
    )
    origin = SOUND.origin.model_copy(update={"fault_current": 40.0, "ze": 0.006})
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 0.5}),)
    feed = SOUND.feed.model_copy(update={"runs": runs})
    record = SOUND.model_copy(update={"circuits": circuits, "origin": origin, "feed": feed})
    found = line(record, "circuit/C2/-/design/breaking capacity")

    assert found.verdict is Verdict.OUTSIDE
    assert "6.0 kA, assumed" in found.why


def test_no_electrode_has_a_limit_before_the_earth_is_chosen():
    board = SOUND.board.model_copy(update={"earth": None})
    found = expected(SOUND.model_copy(update={"board": board})).design

    assert not [
        place for place, what in found if what.value == "RA limit" and place.part is Part.BOARD
    ]


@pytest.mark.parametrize(
    ("slot", "value", "says"),
    [
        (at(Quantity.FAULT_LN, part=Part.ORIGIN, stage=Stage.LIVE), 0.71, False),
        (at(Quantity.IR_LE, "C2"), 350.0, False),
        (at(Quantity.ZS, "C2", Stage.LIVE), 0.75, True),
    ],
)
def test_no_distance_is_told_where_it_says_nothing(slot, value, says):
    """A PSCC of 0.71 kA is not “79.29 kA from the limit” of an 80 kA fuse."""
    found = own(spoilt((slot, value)), slot)

    assert ("from the limit" in found.why) is says
