"""A reading that could not be taken shows nothing: what it is about stays off, the earth above all.

Common practice; BS 7671, Regulation 643.1 (from memory): tested before it is put into service.
"""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.advice.not_taken import stands_in
from records.judgement.facts import Facts
from records.judgement.ticks import found_wrong
from records.model.measurements import MEASUREMENTS
from records.model.reading import NotTaken, Place, Quantity, Slot, StandIn
from records.terms import Part, Stage
from tests.judgement.jobs import at, own, read, sound_job, spoilt

LIVE = Stage.LIVE
NO_TIME = NotTaken(reason="no time")
BACK = [(entry.part, entry.back) for entry in MEASUREMENTS if entry.back is not None]


@pytest.mark.parametrize(("part", "quantity"), BACK)
def test_nothing_stands_in_for_an_earth_that_came_off(part, quantity):
    said = stands_in(at(quantity, stage=LIVE, part=part), NO_TIME)

    assert said == "Nothing replaces the earth. Leave everything off; put it back."


@pytest.mark.parametrize(
    ("slot", "off"),
    [
        (at(Quantity.R1_R2, "C2"), True),
        (at(Quantity.EARTHING), True),
        (at(Quantity.ZS, "C2", LIVE), True),
        (at(Quantity.RCD_TIME, "C2", LIVE), True),
        (at(Quantity.ZE, stage=LIVE, part=Part.ORIGIN), False),
        (at(Quantity.LOAD_CURRENT, stage=LIVE), False),
        (at(Quantity.R1_R2, "C2", Stage.BEFORE_COVERING), False),
    ],
)
def test_what_could_not_be_taken_stays_off_where_something_hangs_on_it(slot, off):
    assert ("off" in stands_in(slot, NO_TIME)) is off
    if slot.stage is not Stage.BEFORE_COVERING and off:
        record = spoilt(read(900, slot, NO_TIME, 900))
        assert stands_in(slot, NO_TIME) in own(record, slot).why


@pytest.mark.parametrize(
    ("slot", "says"),
    [
        (at(Quantity.PUT_BACK), "Nothing else will do. Leave everything off; look at each"),
        (at(Quantity.EARTHING), "Leave the outbuilding off until this is read"),
        (at(Quantity.R1_R2, part=Part.FEED), "stays locked off"),
        (at(Quantity.ZS, "C2", LIVE), "Leave it off until the certifier agrees"),
        (at(Quantity.ZDB, stage=LIVE), "Leave it off until the certifier agrees"),
    ],
)
def test_it_says_what_stays_off_and_what_to_look_at(slot, says):
    assert says in stands_in(slot, NO_TIME)


def test_a_test_elsewhere_counts_instead_but_not_for_what_came_off():
    elsewhere = NotTaken(reason="done", stands_in=StandIn(by="A2", where="sheet 12"))

    assert "That test counts instead" in stands_in(at(Quantity.EARTHING), elsewhere)
    assert "look at each" in stands_in(at(Quantity.PUT_BACK), elsewhere)
    assert "put it back" in stands_in(at(BACK[0][1], stage=LIVE, part=BACK[0][0]), elsewhere)


CHECKS = [entry for entry in MEASUREMENTS if entry.is_check]


@pytest.mark.parametrize("entry", CHECKS, ids=lambda each: f"{each.part} {each.quantity}")
def test_every_check_that_is_found_wrong_says_what_to_do(entry):
    circuit = "C2" if entry.part is Part.CIRCUIT else None
    slot = Slot(
        quantity=entry.quantity,
        place=Place(part=entry.part, circuit=circuit),
        stage=entry.stages[-1],
    )
    concern = found_wrong(Facts.of(sound_job(), expected(sound_job())), slot)

    assert concern.next_check
    assert concern.causes
