"""What the review tells people to do next: in an order that nobody is hurt by, and short."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity, Tick
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
    findings,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    zs,
)
from tests.judgement.pattern_jobs import SPEAKS, WITH_SURGE

LIVE = Stage.LIVE
BACK = at(Quantity.EARTH_BACK, stage=LIVE, part=Part.ORIGIN)
SURGE = at(Quantity.SURGE, stage=LIVE)
RA = at(Quantity.ELECTRODE)
FAULT = at(Quantity.FAULT_LE, stage=LIVE)
RUN = at(Quantity.R1_R2, "C2")
LE = at(Quantity.IR_LE, "C2")


_PARTED = ("ze-changed", "ze-against-neutral", "tt-too-low", "ra-too-good", "island joined")


def test_nothing_comes_off_before_it_is_isolated():
    """IET Guidance Note 3 (from memory): the whole installation is isolated before the earth."""
    texts = {each.next_check for name in _PARTED for each in reviewed(SPEAKS[name]()).lines}
    parted = ("earthing conductor off", "electrode's conductor off", "off the electrode")
    found = [(text, what) for text in texts for what in parted if what in text]

    assert {what for _, what in found} == set(parted)
    for text, what in found:
        assert "prove dead (L-N, L-E, N-E)" in text[: text.find(what)], text
        assert "Back and tight at once" in text[text.find(what) :], text


def test_no_live_probing_stands_where_a_dead_reading_tells_as_much():
    """Electricity at Work Regulations 1989, regulation 14 (from memory): live only if needed."""
    check = own(spoilt((zs("C2"), 1.2)), zs("C2")).next_check

    assert check.startswith("Switch it off and lock it off. Lock off at the house too; prove dead")
    assert "R1+R2 here again" in check
    assert "before and just after the RCD" not in check


def test_a_loop_over_its_limit_is_switched_off_first():
    """It may not disconnect: BS 7671, Regulation 411.3.2 (from memory)."""
    check = own(spoilt((zs("C2"), 2.5)), zs("C2")).next_check

    assert check.startswith("Switch it off and lock it off: it may not disconnect in time.")
    assert check.index("prove dead") < check.index("Tighten") < check.index("Read the loop again")


def test_a_loose_joint_before_the_main_switch_is_nobodys_to_tighten():
    spread = [read(900 + n, ZE, value, 900 + n) for n, value in enumerate((0.6, 0.1, 0.26))]
    check = own(spoilt(*spread), ZE).next_check

    assert check.startswith("Earth back and tight first.")
    assert "you can't make it dead" in check
    assert "105" in check
    assert "Tighten" not in check


def test_the_bridge_of_an_island_is_looked_for_dead_and_with_low_ohms():
    check = own(spoilt((ZDB, 0.4), record=sound_job(ISLAND)), ZDB).next_check

    assert check.startswith("Dead test only: both poles of the feed off. Isolate, lock off")
    assert check.index("prove dead") < check.index("conductor off")
    assert check.endswith("No loop test while it is off.")


@pytest.mark.parametrize("slot", [FAULT, at(Quantity.FAULT_LE, stage=LIVE, part=Part.ORIGIN)])
def test_no_fault_current_to_earth_is_no_earth_unless_an_electrode_is_in_the_way(slot):
    """230 V over the 100 Ω of an electrode is 2.3 A: 0.00 on a scale in kA."""
    found = own(spoilt((slot, 0.0)), slot)

    assert found.verdict is Verdict.OUTSIDE
    assert "no earth is found here" in found.why
    assert "off" in found.next_check
    assert own(spoilt((slot, 0.01)), slot).patterns != found.patterns
    island = own(spoilt((FAULT, 0.0), record=sound_job(ISLAND)), FAULT)
    assert "no-fault-current" not in island.patterns


def test_the_three_ways_are_said_once():
    why = own(spoilt((zs("C2"), 1.9)), zs("C2")).why

    assert why.count("2.19 Ω") == 1
    assert why.count("1.75 Ω") == 1


# What must be put back.


def test_the_earth_that_came_off_again_for_ze_has_to_be_shown_back_again():
    """The bench asks; a sheet that was filled in elsewhere has to show it as well."""
    again = read(900, ZE, 0.26, 900)
    line = own(spoilt(again), BACK)

    assert line.verdict is Verdict.OUTSIDE
    assert "earth not shown back" in line.patterns
    assert "Leave everything off" in line.next_check
    back = read(901, BACK, Tick(good=True), 905)
    assert own(spoilt(again, back), BACK).verdict is Verdict.WITHIN
    assert findings(spoilt(again, back)) == {}


def test_a_loop_that_was_worked_out_took_no_earth_off():
    again = read(900, ZE, 0.26, 900, method="calculated from the fault current")

    assert own(spoilt(again), BACK).verdict is Verdict.WITHIN


@pytest.mark.parametrize("value", [2.3, 2.5])
def test_no_loop_behind_an_rcd_is_read_again_on_the_range_that_opens_it(value):
    """No-trip range where there is an RCD upstream: IET Guidance Note 3 (from memory)."""
    breaker = Device(kind=DeviceKind.BREAKER_B, rating=20, breaking=6)
    circuits = tuple(
        each.model_copy(update={"rcd": Rcd(), "device": breaker}) for each in SOUND.circuits
    )
    bare = sound_job(SOUND.model_copy(update={"circuits": circuits}))
    behind, plain = (
        own(spoilt((zs("C2"), value), record=job), zs("C2")) for job in (sound_job(), bare)
    )

    assert "high-current" not in behind.next_check
    assert "R1+R2" in behind.next_check
    assert "high-current range" in plain.next_check
    assert "an RCD adds to a no-trip reading" in behind.causes
    assert "an RCD adds to a no-trip reading" not in plain.causes


def test_surge_protection_comes_out_again_for_a_later_insulation_test():
    record = sound_job(WITH_SURGE)
    late = read(900, at(Quantity.IR_LE, part=Part.FEED), 480.0, 3000)
    alone = read(900, LE, 480.0, 3000)  # a circuit by itself doesn't reach it

    assert own(spoilt(alone, record=record), SURGE).verdict is Verdict.WITHIN
    assert own(record, SURGE).verdict is Verdict.WITHIN
    line = own(spoilt(late, record=record), SURGE)
    assert line.verdict is Verdict.UNLIKELY
    assert "insulation L-E" in line.why
    assert "That it is back since isn't shown" in line.why


# Worked out, and added up wrongly.


@pytest.mark.parametrize(("value", "off"), [(0.7, False), (0.71, False), (0.5, True), (0.9, True)])
def test_a_loop_that_was_worked_out_is_the_sum_of_its_parts(value, off):
    record = spoilt(read(900, zs("C2"), value, 900, method="calc"))
    line = own(record, zs("C2"))

    assert ("zs-sum-wrong" in line.patterns) is off
    assert (line.verdict is Verdict.UNLIKELY) is off


def test_a_low_run_that_is_below_nought_does_not_make_its_loop_too_high():
    assert list(findings(spoilt((RUN, -0.2)))) == ["circuit/C2/-/dead/R1+R2"]


def test_an_rcd_before_the_feed_may_add_to_the_loop_at_the_board():
    feed = SOUND.feed.model_copy(update={"rcd": Rcd(residual=100.0, type="A", delayed=True)})
    record = sound_job(SOUND.model_copy(update={"feed": feed}))

    assert "the RCD before the feed" in own(spoilt((ZDB, 0.7), record=record), ZDB).causes[0]
    assert "RCD" not in " ".join(own(spoilt((ZDB, 0.7)), ZDB).causes)


def test_the_electrode_test_starts_with_isolation():
    check = own(spoilt((RA, 2.0), record=sound_job(ISLAND)), RA).next_check

    assert check.index("prove dead") < check.index("everything off the electrode")
