"""No more is said than the readings show: a sign, a missing reading, a word in a note."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity, Tick
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
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
from tests.judgement.test_loop_scenes import PME
from tests.judgement.test_optional_more import FOIL, TIPS, loaded, moving, with_
from tests.judgement.test_supply import NE, PME_ISLAND, TOUCH, supply

DEAD, LIVE, EARLY = Stage.DEAD, Stage.LIVE, Stage.BEFORE_COVERING
LE, LN = at(Quantity.IR_LE, "C2"), at(Quantity.IR_LN, "C2")
GROUP = at(Quantity.IR_GROUP)
RA = at(Quantity.ELECTRODE)
EARTHING = at(Quantity.EARTHING)
LOADED = at(Quantity.VOLTAGE_LOADED, stage=LIVE)


# Signs: “less than 200” is not 200, “more than 200” neither.


@pytest.mark.parametrize("values", [(over(999.0), over(200.0)), (under(500.0), 150.0)])
def test_a_reading_that_may_be_as_high_as_before_has_not_fallen(values):
    assert "insulation-falling" not in moving(*values).patterns


def test_a_reading_that_may_be_as_low_as_before_has_not_crept_up():
    assert "insulation-rising" not in moving(300.0, under(900.0)).patterns


def test_less_than_much_at_a_low_test_voltage_is_no_sign_of_electronics():
    gentle = read(900, LE, under(100.0), 900, test_voltage=250.0)
    full = read(901, LE, 4.0, 990, test_voltage=500.0)
    shown = read(900, LE, 100.0, 900, test_voltage=250.0)

    assert "insulation-electronics" not in own(spoilt(gentle, full), LE).patterns
    assert "insulation-electronics" in own(spoilt(shown, full), LE).patterns


@pytest.mark.parametrize(("circuit", "blamed"), [(300.0, True), (under(300.0), False)])
def test_a_group_is_only_held_against_what_the_circuits_showed(circuit, blamed):
    """Side by side, by the sum of conductances: from “less than 300” no such sum follows."""
    record = spoilt((LE, circuit), read(900, GROUP, 40.0, 900))
    found = own(record, GROUP)

    assert ("group-below-circuits" in found.patterns) is blamed
    assert ("circuits that were read alone come to 97 MΩ" in found.why) is blamed


@pytest.mark.parametrize(("taken", "risen"), [(under(200.0), False), (90.0, True)])
def test_an_electrode_has_only_risen_if_the_meter_shows_it(taken, risen):
    record = spoilt(read(900, RA, taken, 900), record=sound_job(ISLAND))

    assert ("ra-risen" in own(record, RA).patterns) is risen


def test_a_meter_that_ran_out_of_a_low_range_shows_no_open_leads():
    """A range of 2 Ω ends at 1.99: three long runs pass it with sound leads (common practice)."""
    slots = [at(each, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2)]
    slots += [at(Quantity.R1_R2, each) for each in ("C2", "C3", "C4")]
    slots += [at(Quantity.R1_R2, part=Part.FEED)]

    def leads_blamed(taken):
        record = spoilt(*((slot, taken) for slot in slots))
        return [each for each in reviewed(record).findings if "open leads" in each.patterns]

    assert leads_blamed(over(19.99))
    assert not leads_blamed(over(1.99))


@pytest.mark.parametrize("taken", [over(19.99), over(200.0)])
def test_a_loop_over_a_range_of_twenty_ohms_is_open(taken):
    """Such a range ends at 19.99 Ω: common practice."""
    found = own(spoilt((zs("C2"), taken)), zs("C2"))

    assert found.patterns[0] == "loop-open"
    assert "lock it off" in found.next_check


# What was not read.


def test_other_pairs_are_only_called_high_if_they_were_read():
    fallen = spoilt((LE, 5.0))
    alone = spoilt((LE, 5.0), record=without(LN, at(Quantity.IR_NE, "C2")))

    assert "the other pairs are still high" in own(fallen, LE).why
    assert "insulation-fallen" in own(alone, LE).patterns
    assert "other pairs" not in own(alone, LE).why


# Words in a note.


@pytest.mark.parametrize(
    "note",
    [
        "drops to the switches in conduit",
        "steady, not falling",
        "doesn't matter, no longer falling",
        "cable drops clipped",
        "behind the waterfalls",
    ],
)
def test_a_note_about_something_else_says_of_no_reading_that_it_falls(note):
    record = spoilt(read(900, LE, 400.0, 900, note=note), record=without(LE))

    assert own(record, LE).patterns == ()


@pytest.mark.parametrize("note", ["it drops", "the reading drops to 20", "drops slowly", "Falling"])
def test_a_note_that_the_reading_falls_is_heard(note):
    record = spoilt(read(900, LE, 400.0, 900, note=note), record=without(LE))

    assert "insulation-falling" in own(record, LE).patterns


# An open lead, found between two good checks.


def test_a_good_check_with_new_leads_does_not_prove_what_was_read_with_the_old_ones():
    """Repeat what came before the bad check: IET Guidance Note 3 (from memory)."""
    record = with_((TIPS, Tick(good=False), 3000), (TIPS, Tick(good=True), 3010))
    again = spoilt(read(950, LE, over(999.0), 3005), record=record)

    assert own(record, TIPS).verdict is Verdict.OUTSIDE
    assert own(record, LE).part_of
    assert not own(again, LE).part_of


def test_one_reading_rests_and_several_rest():
    one = without(*(each.slot for each in sound_job().readings if each.slot != LE))
    many = own(with_((TIPS, Tick(good=False), 3000)), TIPS).why
    single = own(with_((TIPS, Tick(good=False), 3000), record=one), TIPS).why

    assert "readings over the range rest on a check" in many
    assert "1 reading over the range rests on a check" in single


# A voltage under load that is no question of the feed.


@pytest.mark.parametrize(("board", "says"), [(400.0, "Off at once"), (0.0, "proves nothing dead")])
def test_what_no_supply_gives_is_told_before_the_drop_of_the_feed(board, says):
    """230 V + 10 %: Electricity Safety, Quality and Continuity Regulations 2002, reg. 27."""
    found = own(loaded(238.0, 10.0, board), LOADED)

    assert found.verdict is Verdict.OUTSIDE
    assert says in found.next_check
    assert "drop-low" not in found.patterns


@pytest.mark.parametrize(
    ("slot", "taken", "words"),
    [
        (zs("C2"), over(1.99), "and with that over the limit"),
        (LE, under(0.5), "and with that under the limit"),
    ],
)
def test_a_sign_that_proves_it_is_said_to(slot, taken, words):
    """`> 1.99 Ω` is over 1.75 Ω, and `< 0.5 MΩ` is under 1 MΩ, whatever the figure."""
    found = own(spoilt((slot, taken)), slot)

    assert words in found.why
    assert "no proof" not in found.why


@pytest.mark.parametrize(("slot", "taken"), [(EARTHING, under(0.05)), (LE, over(1.0))])
def test_of_a_sign_at_the_limit_no_distance_is_told(slot, taken):
    found = own(spoilt((slot, taken)), slot)

    assert "Inside the limit, but by how much doesn't show." in found.why
    assert "0.00" not in found.why


# Causes that can be.


@pytest.mark.parametrize("volts", [9.0, 20.0, 40.0])
@pytest.mark.parametrize("job", [SOUND, PME, PME_ISLAND])
def test_a_few_volts_on_the_neutral_are_no_line(volts, job):
    """Crossed with the line it stands at U0, and loads are what tells a drop: common practice."""
    found = own(supply(ne=volts, job=job), NE)

    assert "neutral-lifted" in found.patterns
    assert "crossed" not in " ".join(found.causes)
    if TOUCH not in found.next_check:
        assert "loads off" in found.next_check


@pytest.mark.parametrize(("volts", "suspected"), [(6.0, False), (24.0, False), (40.0, True)])
def test_a_few_volts_between_neutral_and_ground_are_the_load_of_the_street(volts, suspected):
    """A TN-C-S neutral seldom stands on the ground's own potential: common practice."""
    found = own(supply(ne=volts, job=PME_ISLAND), NE)

    assert found.verdict is Verdict.OUTSIDE
    assert ("open PEN" in found.causes[0]) is suspected
    assert (TOUCH in found.next_check) is suspected


@pytest.mark.parametrize("quantity", [Quantity.IR_LE, Quantity.IR_NE, Quantity.IR_LN])
def test_a_dead_short_first_asks_for_the_links(quantity):
    """R1+R2 comes before insulation, and its link is what is left in: common practice."""
    slot = at(quantity, "C2")
    short, leak = (own(spoilt((slot, value)), slot).next_check for value in (0.0, 0.4))

    assert "link" in short.casefold()
    assert "link" not in leak.casefold()


def test_an_electrode_out_of_range_starts_at_the_leads():
    check = own(spoilt((RA, over(2000.0)), record=sound_job(ISLAND)), RA).next_check

    dry = own(spoilt((RA, 600.0), record=sound_job(ISLAND)), RA).next_check

    assert check.index("Look at leads, spikes and clamp") < check.index("Drive the rod deeper")
    assert "Look at leads" not in dry
    for each in (check, dry):
        assert "not energised before" in each[: each.index("buried services")]


def test_a_joint_that_is_open_has_no_half_way():
    found = own(spoilt((EARTHING, over(19.9))), EARTHING)

    assert "half way" not in found.next_check
    assert found.next_check.startswith("It stays locked off")
    assert "Read across each contact" in found.next_check


@pytest.mark.parametrize("quantity", [Quantity.R2_LONG, Quantity.RN_R2])
def test_where_there_is_one_way_back_no_other_has_to_be_lifted(quantity):
    """R2 by a long lead, Rn+R2: one cpc, at both ends of the leads (IET Guidance Note 3, from
    memory)."""
    slot = at(quantity, "C2")
    found = own(spoilt(read(900, slot, 0.02, 900)), slot)

    assert "one-way-low" in found.patterns
    assert "other way back" not in " ".join((*found.causes, found.next_check))
    assert "furthest point" in found.next_check


def test_an_island_that_is_joined_is_told_its_causes_once():
    record = spoilt((ZDB, 0.4), record=sound_job(ISLAND))
    causes = own(record, ZDB).causes

    assert {"island joined", "zdb-low"} <= set(own(record, ZDB).patterns)
    assert sum("armour" in each for each in causes) == 1
    assert sum("pipe" in each for each in causes) == 1


# Words.


def test_a_check_must_be_found_right():
    limit = own(sound_job(), at(Quantity.POLARITY, "C2")).limit

    assert str(limit) == "must be correct"


@pytest.mark.parametrize(("ze", "words"), [(0.55, "0.30 Ω more"), (0.05, "0.20 Ω less")])
def test_which_way_ze_has_gone_since_the_survey_is_said_of_the_reading(ze, words):
    said = f"Ze is {words} than at the survey, where it was 0.25 Ω."
    assert said in own(spoilt((ZE, ze)), ZE).why


def test_a_lining_that_is_near_its_limit_is_not_called_live():
    near, outside = (own(with_((FOIL, value, -50)), FOIL) for value in (1.02, 0.9))

    assert "could be live" not in near.why
    assert "near-limit" in near.patterns
    assert "could be live" in outside.why


def test_a_loop_of_next_to_nothing_is_not_sent_to_a_range_that_opens_its_rcd():
    found = own(spoilt((zs("C2"), 0.01)), zs("C2"))

    assert "loop-too-good" in found.patterns
    assert "high-current range" not in found.next_check.replace(
        "high-current range only if there is no RCD upstream", ""
    )
