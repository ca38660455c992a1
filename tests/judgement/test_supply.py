"""Voltages at the sub-board: line, neutral and earth, by the kind of earthing."""

from __future__ import annotations

import pytest

from records.judgement.harm import Harm, harm_of
from records.model.reading import Quantity, Tick
from records.model.supply import Ground
from records.terms import Earthing, Stage, Verdict
from tests.judgement.jobs import ISLAND, SOUND, at, findings, own, read, sound_job, spoilt
from tests.judgement.test_loop_scenes import PME, with_origin

LIVE = Stage.LIVE
LN = at(Quantity.VOLTAGE, stage=LIVE)
LE = at(Quantity.VOLTAGE_LE, stage=LIVE)
NE = at(Quantity.VOLTAGE_NE, stage=LIVE)
POLARITY = at(Quantity.POLARITY, stage=LIVE)
PME_ISLAND = with_origin(Earthing.TN_C_S, 0.2, Ground.MEASURED, ISLAND)
TOUCH = "Touch no metal, tap, pipe, frame or switchgear case"


def supply(ln=239.0, le=None, ne=None, job=SOUND):
    """Return the job with these voltages at its sub-board."""
    given = [(slot, value) for slot, value in ((LE, le), (NE, ne)) if value is not None]
    more = [read(900 + n, slot, value, 900 + n) for n, (slot, value) in enumerate(given)]
    return spoilt((LN, ln), *more, record=sound_job(job))


def line(slot, job=SOUND, **volts):
    return own(supply(job=job, **volts), slot)


@pytest.mark.parametrize(
    ("volts", "verdict"),
    [
        (230.0, "within"),
        (216.3, "within"),
        (216.0, "outside"),
        (253.0, "within"),
        (254.0, "outside"),
    ],
)
def test_the_band_of_the_supply(volts, verdict):
    """230 V + 10 % − 6 %: Electricity Safety, Quality and Continuity Regulations 2002, reg. 27."""
    assert line(LN, ln=volts).verdict.value == verdict
    assert line(LE, ln=volts, le=volts).verdict.value == verdict


def test_what_the_european_standard_would_still_allow_is_said():
    """BS EN 50160: 230 V ± 10 %, so down to 207 V (from memory)."""
    assert "BS EN 50160" in line(LN, ln=210.0).why
    assert "BS EN 50160" not in line(LN, ln=200.0).why


def test_no_voltage_is_no_proof_of_dead_and_no_fault_of_the_supply():
    found = line(LN, ln=0.0)

    assert "proves nothing dead" in found.next_check
    assert "two-pole indicator" in found.next_check
    assert "network operator" not in found.next_check


def test_the_voltage_between_two_lines_is_told_at_once():
    """400 V between L and N: two phases, or a lost neutral of three; it destroys and burns."""
    found = line(LN, ln=400.0)

    assert "two phases" in found.causes[0]
    assert found.next_check.startswith("Off at once")


# L-N, L-E and N-E belong together.


@pytest.mark.parametrize(("le", "apart"), [(239.0, False), (236.0, False), (228.0, True)])
def test_line_to_neutral_and_line_to_earth_are_about_the_same(le, apart):
    """Neutral and earth differ by a few volts at most, so do the voltages to them."""
    found = line(LE, ln=239.0, le=le)

    assert ("voltages-apart" in found.patterns) is apart
    assert (found.verdict is Verdict.UNLIKELY) is apart


def test_three_voltages_that_can_not_be_together_are_said_so():
    """|L-N − L-E| ≤ N-E, by the triangle of voltages."""
    odd = line(LE, ln=239.0, le=221.0, ne=0.4)
    even = line(LE, ln=239.0, le=228.0, ne=11.0)

    assert "N-E of 0.4 V" in odd.why
    assert "Read all three again" in odd.next_check
    assert "N-E" not in even.why.replace("N-E of", "")


def test_full_voltage_on_the_neutral_is_a_cross_where_line_to_neutral_is_right():
    crossed = line(NE, ln=239.0, le=1.0, ne=238.0)
    floating = line(NE, ln=2.0, ne=236.0)

    assert "crossed" in crossed.causes[0]
    assert "neutral is broken" in floating.causes[0]
    assert crossed.verdict is floating.verdict is Verdict.OUTSIDE
    # A single-pole breaker now opens the neutral and leaves the line in.
    assert crossed.next_check.startswith("Lock off at a double-pole switch")
    assert "not you" in crossed.next_check


def test_no_voltage_to_earth_is_a_missing_earth_or_a_cross():
    missing = line(LE, ln=239.0, le=30.0)
    crossed = line(LE, ln=239.0, le=0.0, ne=239.0)

    assert "isn't joined" in missing.causes[0]
    assert "prove dead (L-N, L-E, N-E). Read the earths" in missing.next_check
    assert "lock it off" in missing.next_check
    assert "crossed" in crossed.causes[0]


def test_polarity_ticked_right_against_the_voltages_is_doubted():
    record = supply(ne=238.0)
    found = own(record, POLARITY)

    assert found.verdict is Verdict.UNLIKELY
    assert "polarity-contradicted" in found.patterns
    assert found.next_check.startswith("Main switch off. Live test: competent person only")
    assert own(supply(ne=0.5), POLARITY).verdict is Verdict.WITHIN
    assert own(spoilt((POLARITY, Tick(good=False)), record=record), POLARITY).verdict is (
        Verdict.OUTSIDE
    )


# A broken supply neutral, and what metal does then.


@pytest.mark.parametrize(("ln", "suspected"), [(206.0, True), (207.0, False), (215.0, False)])
def test_a_little_too_little_is_no_sign_of_a_broken_neutral(ln, suspected):
    """Open-PEN protection acts under 207 V: BS 7671, Regulation 722.411.4.1 (from memory)."""
    found = line(LN, PME, ln=ln)

    assert found.verdict is Verdict.OUTSIDE
    assert ("pen-suspected" in found.patterns) is suspected
    assert (TOUCH in found.next_check) is suspected
    assert "broken neutral of the supply" in " ".join(found.causes)


@pytest.mark.parametrize("ln", [200.0, 262.0])
def test_an_electrode_of_its_own_makes_no_broken_neutral_harmless(ln):
    """The house is still earthed by the supply's neutral: its metal is live, and who is sent there
    to read once more would touch it."""
    found = line(LN, PME_ISLAND, ln=ln)

    assert found.patterns == ("pen-suspected",)
    assert found.next_check.startswith("Stop.")
    assert TOUCH in found.next_check


@pytest.mark.parametrize("ln", [200.0, 262.0])
def test_with_tn_c_s_a_voltage_that_is_off_may_be_the_broken_neutral_and_metal_is_live(ln):
    """An open PEN lifts all that is earthed by it; a switch doesn't cut the earth."""
    found = line(LN, PME, ln=ln)

    assert found.patterns == ("pen-suspected",)
    assert TOUCH in found.next_check
    assert "Switching off doesn't help" in found.next_check
    assert "Ring 105" in found.next_check
    assert "Take no more readings" in found.next_check
    assert "broken neutral of the supply" in " ".join(found.causes)
    assert TOUCH not in line(LN, SOUND, ln=ln).next_check


@pytest.mark.parametrize(("volts", "floats"), [(24.9, False), (25.0, True), (60.0, True)])
def test_more_than_a_load_drops_is_first_of_all_an_earth_that_floats(volts, floats):
    """By common practice: a loaded feed drops a few volts, an earth that isn't joined stands at
    anything up to half of U0."""
    found = line(NE, ne=volts)

    assert ("earth of the outbuilding isn't joined" in found.causes[0]) is floats
    assert found.next_check.startswith("Switch it off and lock it off") is floats


def test_an_earth_that_is_missing_comes_before_a_dim_lamp():
    """The order by harm: no earth, and 400 V in the sockets, are shock or fire now."""
    for slot, volts in ((LE, {"le": 90.0}), (LE, {"le": 0.0}), (LN, {"ln": 400.0})):
        found = line(slot, **volts)
        assert harm_of(found.verdict, found.key, found.patterns, [slot.quantity]) is Harm.DANGER
    low = line(LN, ln=210.0)
    assert harm_of(low.verdict, low.key, low.patterns, [LN.quantity]) is Harm.FUNCTION


def test_a_supply_that_is_low_to_neutral_and_earth_alike_is_no_missing_earth():
    found = line(LE, ln=210.0, le=209.0)

    assert found.verdict is Verdict.OUTSIDE
    assert "earth" not in " ".join(found.causes)
    assert "the earth of the outbuilding isn't joined" in line(LE, ln=230.0, le=209.0).causes


def test_a_neutral_that_is_lifted_on_tn_c_s_is_first_of_all_in_the_house_or_the_feed():
    """Neutral and earth are one at the intake: what parts them lies behind it."""
    found = line(NE, PME, ne=9.0)

    assert found.verdict is Verdict.OUTSIDE
    assert "earth of the outbuilding isn't joined" in found.causes[0]
    assert "between the intake and here" in found.causes[1]
    # Its metal may have no earth: nothing is read live before that is known.
    assert found.next_check.startswith("Switch it off and lock it off")
    assert found.next_check.index("Read the earths, dead") < found.next_check.index("loads off")


def test_a_break_before_the_intake_does_not_show_between_neutral_and_a_tn_c_s_earth():
    """Neutral and earth are one conductor there (BS 7671, Part 2, PME, from memory): it lifts both
    alike, so N-E is no sign of it; L-N is."""
    found = line(NE, PME, ne=9.0)

    assert "broken neutral of the supply" not in " ".join(found.causes)
    assert TOUCH not in found.next_check


def test_the_electrode_of_an_island_shows_a_lifted_supply_neutral_itself():
    """Its earth is the ground: N-E there is how far the supply's neutral stands off the ground."""
    found = line(NE, PME_ISLAND, ne=40.0)

    assert "broken neutral of the supply" in found.causes[0]
    assert found.next_check.startswith("Stop. Touch no metal")


@pytest.mark.parametrize("job", [SOUND, PME, PME_ISLAND])
def test_what_to_do_about_voltages_has_room_on_a_screen(job):
    """Five lines of 80 columns, less the label beside them."""
    for volts in ({"ln": 200.0}, {"ln": 0.0}, {"ln": 400.0}, {"le": 20.0}, {"ne": 40.0}):
        record = supply(job=job, **volts)
        for slot in (LN, LE, NE):
            if slot.quantity is not Quantity.VOLTAGE and slot not in _slots(record):
                continue
            assert len(own(record, slot).next_check) <= 5 * 68


def _slots(record):
    return {each.slot for each in record.readings}


def test_sound_voltages_find_nothing():
    for job in (SOUND, PME, ISLAND):
        assert findings(supply(239.0, 238.0, 0.6, job=job)) == {}
