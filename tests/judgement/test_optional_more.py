"""Tips joined, foil, a board with every breaker off, a load: readings for the suspicious."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity, Tick
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    at,
    findings,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    under,
    without,
    zs,
)

DEAD, LIVE, EARLY = Stage.DEAD, Stage.LIVE, Stage.BEFORE_COVERING
GOOD, WRONG = Tick(good=True), Tick(good=False)
LE = at(Quantity.IR_LE, "C2")
TIPS = at(Quantity.TIPS_JOINED)
FOIL = at(Quantity.IR_FOIL, "C3", EARLY)
ALONE = at(Quantity.RCD_ALONE, stage=LIVE)
CURRENT = at(Quantity.LOAD_CURRENT, stage=LIVE)
LOADED = at(Quantity.VOLTAGE_LOADED, stage=LIVE)
AT_ORIGIN = at(Quantity.VOLTAGE_LOADED, stage=LIVE, part=Part.ORIGIN)


def with_(*readings, job=SOUND, record=None):
    """The job with readings more: slot, value, and the minute they are taken at."""
    more = [read(900 + n, slot, value, minute) for n, (slot, value, minute) in enumerate(readings)]
    return spoilt(*more, record=record or sound_job(job))


# The tips joined: an open lead reads over the range on anything (common practice).


def test_an_open_lead_takes_the_proof_from_every_reading_over_the_range():
    record = with_((TIPS, WRONG, 500))
    line = own(record, TIPS)

    assert line.verdict is Verdict.OUTSIDE
    assert "open lead" in line.causes[0]
    assert "whole series" in line.next_check
    assert own(record, LE).verdict is Verdict.OUTSIDE
    assert own(record, LE).part_of == line.key
    assert own(record, at(Quantity.IR_LE, "C2", EARLY)).verdict is Verdict.WITHIN


def test_a_good_check_in_between_keeps_what_came_before_it():
    last = max(each.at for each in sound_job().readings if each.slot.stage is DEAD)
    start = min(each.at for each in sound_job().readings)
    after = (last - start).total_seconds() / 60 + 5
    record = with_((TIPS, GOOD, after), (TIPS, WRONG, after + 60))

    assert own(record, TIPS).verdict is Verdict.OUTSIDE
    assert own(record, LE).verdict is Verdict.WITHIN


def test_tips_that_show_nought_say_nothing_more():
    assert findings(with_((TIPS, GOOD, 500))) == {}


# Foil or a metal lining beside the cable (common practice).


@pytest.mark.parametrize(
    ("taken", "verdict"),
    [
        (over(999.0), "within"),
        (250.0, "within"),
        (40.0, "unlikely"),
        (0.3, "outside"),
        (0.0, "outside"),
        (under(0.01), "outside"),
    ],
)
def test_foil_is_kept_apart_from_the_cable_like_earth(taken, verdict):
    line = own(with_((FOIL, taken, -50)), FOIL)

    assert line.verdict.value == verdict
    if verdict == "outside":
        assert "staple" in line.causes[0]
        assert "could be live, and no reading to earth shows it" in line.why


# An RCD with nothing on behind it.


def test_an_rcd_that_opens_with_every_breaker_off_has_a_joined_neutral():
    line = own(with_((ALONE, WRONG, 900), job=ISLAND), ALONE)

    assert line.verdict is Verdict.OUTSIDE
    assert "neutral and earth" in line.causes[0]
    assert "one neutral out at a time" in line.next_check
    assert own(with_((ALONE, GOOD, 900), job=ISLAND), ALONE).verdict is Verdict.WITHIN


# What the feed loses under load: 30 m of 10 mm², 2 × 0.054 Ω there and back (IEC 60228).


def loaded(origin, current, board):
    return with_((AT_ORIGIN, origin, 900), (CURRENT, current, 901), (LOADED, board, 902))


@pytest.mark.parametrize(
    ("board", "verdict", "cause"),
    [
        (236.9, "within", ""),
        (235.0, "within", ""),
        (233.0, "unlikely", "a bad joint or terminal"),
        (228.0, "unlikely", "a bad joint or terminal"),
        (241.0, "unlikely", "the load was off"),
    ],
)
def test_a_feed_loses_what_its_copper_loses(board, verdict, cause):
    """238 V less 10 A × 0.108 Ω is 236.9 V; 2 V of scatter: common practice."""
    line = own(loaded(238.0, 10.0, board), LOADED)

    assert line.verdict.value == verdict
    assert " ".join(line.causes[:1]).startswith(cause)
    assert line.limit is not None
    if verdict == "unlikely":
        assert line.source is not None
        assert "525" in line.source.place or cause == "the load was off"


def test_a_voltage_under_load_says_nothing_without_origin_and_current():
    record = with_((LOADED, 230.0, 900))

    assert own(record, LOADED).verdict is Verdict.NOT_TAKEN
    assert "voltage at the origin" in own(record, LOADED).why


def test_the_load_is_no_more_than_the_device_of_the_feed_carries():
    assert own(with_((CURRENT, 45.0, 900)), CURRENT).verdict is Verdict.OUTSIDE
    assert own(with_((CURRENT, 12.0, 900)), CURRENT).verdict is Verdict.WITHIN


def test_the_origin_under_load_keeps_the_band_of_the_supply():
    assert own(with_((AT_ORIGIN, 209.0, 900)), AT_ORIGIN).verdict is Verdict.OUTSIDE


# An insulation reading that moves while it is held.


def moving(*values, minutes=2.0):
    """Readings of one pair, one after the other, at the end of the day."""
    record = without(LE)
    return own(
        spoilt(
            *(
                read(900 + n, LE, value, 900 + n * minutes, test_voltage=500.0)
                for n, value in enumerate(values)
            ),
            record=record,
        ),
        LE,
    )


@pytest.mark.parametrize("values", [(800.0, 400.0), (over(999.0), 500.0), (900.0, 700.0, 300.0)])
def test_a_reading_that_falls_while_it_is_held_is_damp_or_a_leak_that_grows(values):
    """Steady or rising is sound (charging, absorption); falling isn't: from memory, GN3."""
    line = moving(*values)

    assert line.verdict is Verdict.UNLIKELY
    assert line.patterns == ("insulation-falling",)
    assert "damp" in line.causes[0]


def test_a_reading_that_creeps_up_is_the_cable_charging_and_no_finding():
    line = moving(300.0, 420.0, 600.0)

    assert line.verdict is Verdict.WITHIN
    assert line.patterns == ("insulation-rising",)
    assert "takes up charge" in line.why


def test_a_re_test_on_another_day_or_a_little_less_is_no_movement():
    assert moving(800.0, 400.0, minutes=600.0).patterns == ()
    assert moving(800.0, 700.0).patterns == ()


@pytest.mark.parametrize("word", ["falling", "falls slowly", "drops while held"])
def test_a_note_that_it_falls_is_taken_at_its_word(word):
    record = spoilt(read(900, LE, 400.0, 900, note=word), record=without(LE))

    assert "insulation-falling" in own(record, LE).patterns


# Loops in even steps.


def test_loops_that_rise_by_the_same_step_from_circuit_to_circuit_are_doubted():
    """Readings scatter; steps of 0.10 Ω all the way are made up: common practice."""
    many = tuple(
        each.model_copy(update={"id": f"C{n}"})
        for n, each in enumerate(SOUND.circuits[1:] * 2, start=1)
    )
    record = sound_job(SOUND.model_copy(update={"circuits": many}))
    steps = [(zs(each.id), round(0.6 + 0.1 * n, 2)) for n, each in enumerate(many)]
    broken = [*steps[:-1], (steps[-1][0], 1.14)]

    assert _steps(spoilt(*steps, record=record))
    assert not _steps(spoilt(*broken, record=record))
    assert not _steps(sound_job())


def _steps(record):
    return [each for each in reviewed(record).findings if "even steps" in each.patterns]
