"""Which instrument takes a reading."""

from __future__ import annotations

import pytest

from records.model.job import Instrument, InstrumentKind, Job
from records.model.measurements import MEASUREMENTS, measurement
from records.model.reading import Quantity
from records.model.record import Record
from records.taking.instruments import by_eye, fits, instrument_for, kind_for, words
from records.terms import Part, Stage
from tests.taking.job import slot, small_job, with_figure

R1 = measurement(Part.CIRCUIT, Quantity.R1)
IR = measurement(Part.CIRCUIT, Quantity.IR_LE)
ZS = measurement(Part.CIRCUIT, Quantity.ZS)
LOW = Instrument(id="M1", kind=InstrumentKind.LOW_OHM)
INSULATING = Instrument(id="M2", kind=InstrumentKind.INSULATION)
ALL = Instrument(id="M3", kind=InstrumentKind.MULTIFUNCTION, serial="77-A")


def job(*instruments: Instrument) -> Record:
    return Record(job=Job(instruments=instruments))


def test_every_measurement_by_instrument_names_a_kind_of_meter_or_needs_none():
    without = {each.quantity for each in MEASUREMENTS if kind_for(each) is None}

    assert without == {
        Quantity.VOLTAGE,
        Quantity.POLARITY,
        Quantity.EARTH_BACK,
        Quantity.RCD_BUTTON,
        Quantity.SURGE,
        Quantity.FUNCTION,
        Quantity.VOLTAGE_LE,
        Quantity.VOLTAGE_NE,
        Quantity.RCD_LOADED,
        Quantity.AFDD_BUTTON,
        Quantity.RCD_ALONE,
        Quantity.LOAD_CURRENT,
        Quantity.VOLTAGE_LOADED,
        Quantity.ELECTRODE_BACK,
        Quantity.ELECTRODE_LOOP_BACK,
        Quantity.PUT_BACK,
    }


@pytest.mark.parametrize(
    ("entry", "right"),
    [(R1, {"M1", "M3"}), (IR, {"M2", "M3"}), (ZS, {"M3"})],
)
def test_a_single_purpose_meter_fits_its_own_tests_only(entry, right: set[str]):
    assert {each.id for each in (LOW, INSULATING, ALL) if fits(each, entry)} == right


@pytest.mark.parametrize("entry", MEASUREMENTS, ids=lambda each: f"{each.part} {each.quantity}")
def test_a_multifunction_tester_and_one_of_unknown_kind_are_given_every_test(entry):
    """Whoever has not entered what the meter is can still say that it was the one."""
    for kind in (InstrumentKind.MULTIFUNCTION, None):
        assert fits(Instrument(id="M1", kind=kind, serial="1"), entry)


def test_the_latest_choice_that_can_do_it_is_taken():
    both = job(LOW, INSULATING, ALL)

    assert instrument_for(both, Stage.DEAD, R1, ["M2", "M1"]) == LOW
    assert instrument_for(both, Stage.DEAD, IR, ["M2", "M1"]) == INSULATING


def test_without_a_choice_the_one_used_before_or_the_only_one_serves_and_else_nobody_guesses():
    both = job(LOW, ALL)
    used = with_figure(small_job(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)
    used = used.model_copy(update={"job": Job(instruments=(LOW, ALL))})

    assert instrument_for(both, Stage.DEAD, R1, []) is None
    assert instrument_for(used, Stage.DEAD, R1, []) == LOW
    assert instrument_for(job(LOW), Stage.DEAD, R1, []) == LOW
    assert instrument_for(job(LOW), Stage.DEAD, ZS, []) is None
    assert instrument_for(used, Stage.BEFORE_COVERING, R1, []) is None


def test_a_check_by_eye_has_no_instrument():
    button = measurement(Part.CIRCUIT, Quantity.RCD_BUTTON)

    assert by_eye(button)
    assert instrument_for(job(ALL), Stage.LIVE, button, ["M3"]) is None


def test_an_instrument_is_called_by_id_kind_and_serial():
    assert words(ALL) == "M3 multifunction tester 77-A"
    assert words(Instrument(id="M4")) == "M4 instrument"
