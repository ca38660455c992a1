"""Pairs of entries that constrain each other: one rule each, and each tried here.

The pairs are in `pairs.py`: of each one that can't be and one that can, at the edge where there is
one. Sources beside them; where none stands it is common practice, or arithmetic.
"""

from __future__ import annotations

import pytest

from records.document.pictures import pictures
from records.expected.context import FEED, circuit_place
from records.expected.pictures.curve import time_current
from records.expected.plan import expected
from records.judgement.review import review
from records.model.record import Record
from records.model.wiring import Run
from records.terms import (
    CableKind,
    Cpc,
    Earthing,
    Form,
    Method,
)
from tests.judgement.jobs import HEATER, ISLAND, SOUND, reviewed, sound_job
from tests.judgement.pairs import PAIRS, feed, in_circuit, origin


def _found(record: Record) -> dict[str, str]:
    return {each.key: each.verdict.value for each in reviewed(record).lines if each.is_finding}


@pytest.mark.parametrize("name", PAIRS)
def test_what_can_t_be_beside_each_other_is_a_finding(name):
    pair = PAIRS[name]

    assert _found(pair.bad()).get(pair.key) == pair.verdict


@pytest.mark.parametrize("name", PAIRS)
def test_what_can_be_beside_each_other_is_none(name):
    pair = PAIRS[name]

    assert pair.key not in _found(pair.good())


@pytest.mark.parametrize("name", PAIRS)
def test_its_pictures_are_made_all_the_same(name):
    record = PAIRS[name].bad()
    result = expected(record)

    assert isinstance(pictures(record, result, review(record, result)), list)
    for place in (FEED, circuit_place(record.circuits[1])):
        assert time_current(record, result, place)


@pytest.mark.parametrize("name", PAIRS)
def test_it_says_what_stands_there_and_what_to_do(name):
    pair = PAIRS[name]
    (found,) = (each for each in reviewed(pair.bad()).lines if each.key == pair.key)

    assert found.why.endswith(".")
    assert found.next_check
    assert found.source is not None
    assert len(found.title) <= 68, found.title


def test_a_cpc_in_the_conduit_of_its_lines_has_no_least_size_of_its_own():
    """BS 7671, 543.1.1 speaks of conductors in no cable and no enclosure (from memory)."""
    singles = {"cable": CableKind.SINGLES, "method": Method.B}
    record = in_circuit(**singles, cpc=Cpc.SEPARATE, cpc_csa=1.5, protected=False)

    assert "circuit/C2/-/design/separate cpc of run 1" not in _found(record)


def test_an_earthing_conductor_as_thick_as_the_cpc_of_the_feed_is_judged_with_that():
    """Flat 10 mm² has a cpc of 4 mm²: its check decides (BS 7671, 543.1.1)."""
    thin = Run(cable=CableKind.FLAT, csa=10.0, cpc=Cpc.CORE, length=10.0, method=Method.C)
    record = feed(runs=(thin,))

    for size, is_found in ((4.0, False), (2.5, True)):
        found = _found(
            record.model_copy(
                update={"board": record.board.model_copy(update={"earthing_csa": size})}
            )
        )
        assert ("board/-/-/design/earthing conductor" in found) is is_found


@pytest.mark.parametrize("earthing", [Earthing.TT, None])
def test_with_an_electrode_the_fault_current_says_nothing_of_ze(earthing):
    assert "feed/-/-/design/Ze and fault current" not in _found(
        origin(earthing=earthing, fault_current=0.5)
    )


@pytest.mark.parametrize("whole", [SOUND, ISLAND])
def test_a_sound_job_has_none_of_them(whole):
    keys = {pair.key.rpartition("/")[2] for pair in PAIRS.values()}

    assert not [key for key in _found(sound_job(whole)) if key.rpartition("/")[2] in keys]


def test_the_heater_of_the_sound_job_is_the_one_that_is_changed_here():
    assert (HEATER.form, HEATER.fuse, HEATER.power) == (Form.FCU, 13.0, 2.0)
