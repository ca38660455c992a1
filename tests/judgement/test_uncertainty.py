"""Whose uncertainty counts: the instrument's own, else the standard's highest."""

from __future__ import annotations

import pytest

from records.evidence import COMMON_PRACTICE
from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.uncertainty import Guard, distance, guard
from records.model.reading import Quantity
from records.terms import Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import SOUND, ZDB, at, own, read, sound_job, spoilt, zs

NO_SHEET = SOUND.model_copy(
    update={
        "job": SOUND.job.model_copy(
            update={
                "instruments": (SOUND.job.instruments[0].model_copy(update={"uncertainty": None}),)
            }
        )
    }
)


@pytest.mark.parametrize(
    ("slot", "share", "of_limit"),
    [
        (ZDB, 0.3, False),
        (at(Quantity.IR_LN, "C1"), 0.3, False),
        (at(Quantity.IR_FOIL, "C1"), 0.3, False),
        (at(Quantity.R1, "C1"), 0.3, False),
        (at(Quantity.ELECTRODE), 0.3, False),
        (at(Quantity.FAULT_LN, stage=Stage.LIVE), 0.3, False),
        (at(Quantity.RCD_TIME, "C1", Stage.LIVE), 0.1, True),
        (at(Quantity.VOLTAGE, stage=Stage.LIVE), 0.0, False),
    ],
)
def test_without_a_sheet_the_most_that_the_standard_allows(slot, share, of_limit):
    """BS EN 61557-2, -3, -4, -5: 30 % (-5 from memory); -6: 10 % of the limit (from memory)."""
    band = guard(Facts.of(NO_SHEET, expected(NO_SHEET)), read(1, slot, 1.0))

    assert (band.share, band.of_limit) == (share, of_limit)


def test_the_sheet_of_the_instrument_goes_first():
    band = guard(Facts.of(SOUND, expected(SOUND)), read(1, ZDB, 1.0))

    assert band.share == 0.08
    assert band.ground == "± 8 % by the sheet of meter 1"


def test_a_reading_without_an_instrument_has_the_widest_band():
    band = guard(Facts.of(SOUND, expected(SOUND)), read(1, ZDB, 1.0, instrument=None))

    assert band.share == 0.3
    assert "BS EN 61557" in band.ground


def test_the_distance_is_said_in_uncertainties():
    """1.70 Ω keeps 1.75 Ω (0.8 × 2.19 Ω) and is 0.41 Ω under the exact 2.11 Ω; 30 % of it are
    0.51 Ω."""
    line = own(spoilt((zs("C2"), 1.70), record=sound_job(NO_SHEET)), zs("C2"))

    assert "only 0.41 Ω from the limit, less than the uncertainty of the meter" in line.why


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0.95, "more than 10 times"),
        (0.99, "about 10 times"),
        (1.40, "about 3 times"),
        (1.50, "about twice"),
        (1.58, "about as much as"),
        (1.62, "about as much as"),
        (1.63, "less than"),
    ],
)
def test_uncertainties_are_counted_in_round_words(value, words):
    """1.75 Ω less the reading, by 8 % of it: 10.5, 9.6, 3.1, 2.1, 1.3, 1.003 and 0.9.

    An uncertainty is an estimate itself, and no tenth of it is known: JCGM 100:2008, 7.2.6 (from
    memory).
    """
    limit = Limit(Sense.MOST, 1.75, Unit.OHM, COMMON_PRACTICE)
    said = distance(value, limit, Guard(0.08, False, "± 8 %"), Unit.OHM, 2)

    assert said.endswith(f" Ω from the limit, {words} the uncertainty of the meter (± 8 %)")


def test_a_wider_meter_makes_more_readings_near_their_limit():
    """5.6 Ω (B6, exact 7.11 Ω): 8 % on top stay inside of it, 30 % don't."""
    sharp = spoilt((zs("C3"), 5.6))
    wide = spoilt((zs("C3"), 5.6), record=sound_job(NO_SHEET))

    assert "Inside the exact limit" not in own(sharp, zs("C3")).why
    assert "Inside the exact limit of 7.11 Ω, but only" in own(wide, zs("C3")).why
    assert own(wide, zs("C3")).verdict is Verdict.UNLIKELY  # far above what feeds it, as well
