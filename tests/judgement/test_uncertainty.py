"""Whose uncertainty counts: the instrument's own, else the standard's highest."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.uncertainty import guard
from records.model.reading import Quantity
from records.terms import Stage, Verdict
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
    assert band.ground == "± 8 % by the sheet of M1"


def test_a_reading_without_an_instrument_has_the_widest_band():
    band = guard(Facts.of(SOUND, expected(SOUND)), read(1, ZDB, 1.0, instrument=None))

    assert band.share == 0.3
    assert "BS EN 61557" in band.ground


def test_the_distance_is_said_in_uncertainties():
    """1.70 Ω is 0.05 Ω under 1.75 Ω (0.8 × 2.19 Ω); 8 % of it are 0.136 Ω: 0.4 of that."""
    line = own(spoilt((zs("C2"), 1.70)), zs("C2"))

    assert "only 0.05 Ω from the limit, 0.4 × the uncertainty of the meter" in line.why


def test_a_wider_meter_makes_more_readings_near_their_limit():
    """5.0 Ω of 5.82 Ω (B6): 8 % of it stay inside, 30 % of it don't."""
    sharp = spoilt((zs("C3"), 5.0))
    wide = spoilt((zs("C3"), 5.0), record=sound_job(NO_SHEET))

    assert "Inside the cold limit, but only" not in own(sharp, zs("C3")).why
    assert "Inside the cold limit, but only" in own(wide, zs("C3")).why
    assert own(wide, zs("C3")).verdict is Verdict.UNLIKELY  # far above what feeds it, as well
