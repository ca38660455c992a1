"""Records that are odd but valid: from another program, or of a design that changed since."""

from __future__ import annotations

import pytest

from records.interlock.dead_tests import dead_tests
from records.judgement.todo.progress import progress
from records.judgement.todo.walking import BOARD, HOUSE, NO_ROOM, left
from records.model.circuit import Point
from records.model.reading import Quantity, Tick
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    ZDB,
    at,
    circuit,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
)
from tests.judgement.pattern_jobs import WITH_SURGE

pytestmark = pytest.mark.slow

LIVE = Stage.LIVE
TIPS = at(Quantity.TIPS_JOINED)


@pytest.mark.parametrize("quantity", list(Quantity))
@pytest.mark.parametrize("part", [Part.ORIGIN, Part.FEED, Part.BOARD])
def test_a_reading_of_what_is_not_measured_there_is_kept_and_hides_nothing(quantity, part):
    """A file may hold any quantity at any place: what no rule knows is kept as it is."""
    slot = at(quantity, stage=LIVE, part=part)
    tips = read(900, TIPS, Tick(good=False), 3000)
    record = spoilt(tips, read(901, slot, 0.5, 3001), record=sound_job(WITH_SURGE))
    review = reviewed(record)

    assert progress(record, review)
    assert isinstance(dead_tests(record, review.verdicts).board, tuple)
    assert own(record, TIPS).verdict is Verdict.OUTSIDE
    assert any(each.slot == slot and each.attempts for each in review.lines)


@pytest.mark.parametrize("room", [HOUSE, BOARD, NO_ROOM])
def test_a_room_that_is_called_as_a_place_of_its_own_is_one_stop(room):
    """Common practice: a lamp at the sub-board is “at the sub-board”."""
    job = circuit(SOUND, "C2", points=(Point(id="P1", at=18.0, room=room),))
    stops = left(job, Stage.DEAD)

    first = [each.name for each in stops if not each.again]
    assert len(set(first)) == len(first)
    assert sum(len(each.slots) for each in stops) == len({s for each in stops for s in each.slots})


def test_a_minus_sign_typed_by_mistake_joins_no_island_to_another_earth():
    found = own(spoilt((ZDB, -0.4), record=sound_job(ISLAND)), ZDB)

    assert "below-nothing" in found.patterns
    assert "island joined" not in found.patterns
