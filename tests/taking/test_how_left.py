"""How the job is left after live work: off, locked, not for use before the certificate."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.document.people import left
from records.document.words import Clock
from records.model.reading import NotTaken, Quantity, Reading
from records.model.record import Record
from records.store.exchange import from_json, to_json
from records.taking.hand_over import limitations
from records.taking.how_left import NOT_SAID, asks, left_now, left_words
from records.terms import Stage
from tests.taking.job import AT, slot, small_job, with_figure

ZS = slot(Quantity.ZS, Stage.LIVE, "C1")
LATER = AT + timedelta(hours=1)


def _left(record: Record, off: bool = True, words: str = "") -> Record:
    return record.model_copy(update={"left": (*record.left, left_now(off, words, "A1", LATER))})


def test_nothing_live_asks_nothing():
    dead = with_figure(small_job(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)
    refused = Reading(id="R9", slot=ZS, taken=NotTaken(reason="rain"), at=AT)

    assert not asks(small_job())
    assert not asks(dead)
    assert not asks(small_job().model_copy(update={"readings": (refused,)}))
    assert left_words(dead) == ""
    assert left(dead, Clock(dead, AT)) == []


def test_a_live_reading_asks_until_it_is_said_and_a_later_one_asks_again():
    live = with_figure(small_job(), ZS, 0.9)
    said = _left(live)
    again = with_figure(said, ZS, 0.9)
    newer = again.readings[-1].model_copy(update={"at": LATER + timedelta(minutes=1)})

    assert asks(live)
    assert not asks(said)
    assert asks(said.model_copy(update={"readings": (*said.readings, newer)}))


def test_notes_entered_later_ask_by_when_they_were_entered():
    said = _left(with_figure(small_job(), ZS, 0.9))
    entered = LATER + timedelta(hours=3)
    notes = said.readings[0].model_copy(update={"id": "R2", "from_notes": entered})

    assert asks(said.model_copy(update={"readings": (*said.readings, notes)}))


@pytest.mark.parametrize(
    ("off", "words", "told"),
    [
        (
            True,
            "the owner",
            "Left off and locked off; earths back, links out, covers on. "
            "Key: the owner. Not for use before the certificate.",
        ),
        (
            False,
            "heat for the pipes",
            "LEFT LIVE. heat for the pipes. Not for use before the certificate.",
        ),
        (False, "", "LEFT LIVE. No reason was given. Not for use before the certificate."),
    ],
)
def test_hand_over_and_schedule_say_how_it_was_left(off: bool, words: str, told: str):
    record = _left(with_figure(small_job(), ZS, 0.9), off, words)
    (line,) = left(record, Clock(record, LATER))

    assert left_words(record) == told
    assert told in limitations(record)
    assert line.endswith("Not for use before the certificate.")
    assert ("LEFT LIVE" in line) is not off
    assert words in line


def test_what_was_not_said_is_taken_for_live():
    live = with_figure(small_job(), ZS, 0.9)

    assert NOT_SAID in limitations(live)
    assert left(live, Clock(live, AT)) == [NOT_SAID]


def test_it_goes_into_the_file_and_out_of_it():
    record = _left(with_figure(small_job(), ZS, 0.9), True, "the owner")

    assert from_json(to_json(record)).left == record.left
