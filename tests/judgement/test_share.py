"""The circuit's own share, Zs less Zdb, against R1+R2: tolerance on that share."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.loop.circuit_share import (
    LEAST_SHARE,
    NO_TRIP,
    PART,
    REPEATED,
    own_share,
    share_allowed,
)
from records.model.reading import Quantity
from records.terms import Verdict
from tests.judgement.jobs import (
    RADIAL,
    SOUND,
    ZDB,
    at,
    circuit,
    flat,
    own,
    read,
    shown,
    sound_job,
    spoilt,
    without,
    zs,
)
from tests.judgement.test_patterns import value_of

LONG = sound_job(circuit(SOUND, "C2", runs=(flat(2.5, 40.0),), points=()))
RUN, LOOP = at(Quantity.R1_R2, "C2"), zs("C2")


def given(slot, job=LONG):
    return job.taken(slot)[0].taken.value


def loop(share: float, job=LONG, **how):
    """Return the verdict on a loop that leaves so much for the circuit."""
    value = round(given(ZDB, job) + share, 4)
    return own(spoilt(read(900, LOOP, value, 2000, **how), record=job), LOOP)


def test_a_loop_read_at_the_near_socket_does_not_hide_in_the_whole():
    """Half a circuit is missing. Of the whole loop it is under 30 %: common practice."""
    run = given(RUN)
    found = loop(run / 2)

    assert run / 2 < 0.3 * (given(ZDB) + run) + 0.15
    assert found.verdict is Verdict.UNLIKELY
    assert "zs-below-sum" in found.patterns
    assert any("nearer point" in each for each in found.causes)
    assert "Less Zdb it leaves" in found.why


@pytest.mark.parametrize(("more", "told"), [(-0.002, False), (0.002, True)])
def test_how_much_less_than_its_own_conductors_a_loop_may_show(more, told):
    run = min(given(RUN), own_by_design())
    allowed = share_allowed(run, given(ZDB))

    assert ("zs-below-sum" in loop(run - allowed - more).patterns) is told


def own_by_design():
    facts = Facts.of(LONG, expected(LONG))
    return facts.meter_value(LOOP) - facts.meter_value(ZDB)


@pytest.mark.parametrize(("more", "told"), [(-0.002, False), (0.002, True)])
def test_how_much_more_than_its_own_conductors_a_loop_may_show(more, told):
    run = max(given(RUN), own_by_design())
    allowed = share_allowed(run, given(ZDB), no_trip=True)

    assert ("zs-above-sum" in loop(run + allowed + more).patterns) is told


def test_on_the_high_current_range_no_rcd_adds_to_it():
    short = sound_job()
    facts = Facts.of(short, expected(short))
    run = max(given(RUN, short), facts.meter_value(LOOP) - facts.meter_value(ZDB))
    between = run + (share_allowed(run, given(ZDB)) + NO_TRIP) / 2

    assert loop(between, short).verdict is Verdict.WITHIN
    assert "zs-above-sum" in loop(between, short, method="high-current range").patterns


def test_the_tolerance_is_of_the_share_with_a_least_and_more_through_an_electrode():
    assert share_allowed(0.2, 0.3) == LEAST_SHARE == 0.1
    assert share_allowed(0.2, 0.3, no_trip=True) == NO_TRIP == 0.2
    assert share_allowed(1.0, 0.3) == PART * 1.0 == 0.3
    assert share_allowed(0.2, 70.0) == REPEATED * 70.0 == pytest.approx(3.5)


def test_a_run_that_was_read_too_low_is_told_by_itself_and_not_by_the_loop():
    record = spoilt((RUN, 0.3), record=LONG)

    assert own(record, RUN).verdict is Verdict.UNLIKELY
    assert shown(record, LOOP) is Verdict.WITHIN


def test_a_run_that_was_read_too_high_is_told_by_itself_and_not_by_the_loop():
    record = spoilt((RUN, round(given(RUN) + 0.6, 2)), record=LONG)

    assert own(record, RUN).verdict.is_finding
    assert shown(record, LOOP) is Verdict.WITHIN


def test_without_r1_r2_the_design_is_held_against_the_share():
    job = without(RUN, record=LONG)
    found = loop(own_by_design() / 2, job)

    assert "zs-below-sum" in found.patterns
    assert "by the design" in found.why


def test_what_a_circuit_has_of_its_own():
    job = sound_job()
    facts = Facts.of(job, expected(job))
    assert own_share(facts, RADIAL) == value_of(RUN)
    bare = SOUND.model_copy(update={"circuits": (RADIAL.model_copy(update={"runs": ()}),)})
    assert own_share(Facts.of(bare, expected(bare)), bare.circuits[0]) is None


@pytest.mark.parametrize(("under", "told"), [(0.05, False), (0.051, True)])
def test_how_far_below_its_board_a_loop_may_be_by_scatter(under, told):
    """0.05 Ω, as long as a tenth of Zdb is less: common practice."""
    job = sound_job()
    assert given(ZDB, job) < 0.5
    found = own(spoilt((LOOP, round(given(ZDB, job) - under, 4)), record=job), LOOP)

    assert ("zs-below-zdb" in found.patterns) is told


@pytest.mark.parametrize(("share", "told"), [(0.1, False), (0.102, True)])
def test_a_tenth_of_a_high_board_loop_is_scatter(share, told):
    zdb = 0.8
    record = spoilt((ZDB, zdb), (LOOP, round(zdb * (1 - share), 4)), record=LONG)

    assert ("zs-below-zdb" in own(record, LOOP).patterns) is told
