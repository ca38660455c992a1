"""Patterns across readings, each with its causes and its next check, and when it keeps quiet."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from records.model.reading import Figure, NotTaken, Quantity, Tick
from records.model.record import Record
from records.terms import Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    SOUND,
    START,
    ZDB,
    at,
    circuit,
    findings,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    without,
    zs,
)

PUT_BACK_KEY = "board/-/-/dead/put-back"
LOW = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.R2)


def keyed(record: Record, end: str):
    found = [each for each in reviewed(record).findings if each.key.endswith(end)]
    assert len(found) == 1, list(findings(record))
    assert found[0].causes
    assert found[0].next_check
    assert found[0].source is not None
    assert "http" not in str(found[0].source)
    return found[0]


def moved(record: Record, when) -> Record:
    """The record with some readings at another time: `when` gives it, or None to keep it."""
    readings = tuple(
        each.model_copy(update={"at": when(each) or each.at}) for each in record.readings
    )
    return record.model_copy(update={"readings": readings})


def value_of(slot) -> float:
    taken = next(each.taken for each in sound_job().readings if each.slot == slot)
    assert isinstance(taken, Figure)
    return taken.value


# Lead resistance


CROSSED = (Quantity.CROSS_LN, Quantity.CROSS_LE)


def with_leads(extra: float, kinds=(*LOW, *CROSSED, Quantity.EARTHING)) -> Record:
    changes = [
        (each.slot, round(each.taken.value + extra, 2))
        for each in sound_job().readings
        if each.slot.quantity in kinds
        and each.slot.stage is Stage.DEAD
        and isinstance(each.taken, Figure)
    ]
    return spoilt(*changes)


def times(factor: float) -> Record:
    return spoilt(
        *(
            (each.slot, round(each.taken.value * factor, 2))
            for each in sound_job().readings
            if each.slot.quantity in (*LOW, *CROSSED) and each.slot.stage is Stage.DEAD
        )
    )


@pytest.mark.parametrize("extra", [0.07, 0.14, 0.28])
def test_the_same_surplus_everywhere_is_the_leads(extra):
    found = keyed(with_leads(extra), "/leads not nulled")

    assert found.verdict is Verdict.UNLIKELY
    assert f"about {extra:.2f} Ω above what is expected" in found.why
    assert "The leads of meter 1 have 0.08 Ω." in found.why


@pytest.mark.parametrize("kinds", [(*LOW, *CROSSED, Quantity.EARTHING), LOW])
@pytest.mark.parametrize("extra", [0.06, 0.14, 0.6, 2.5, 9.0])
def test_an_offset_of_any_size_is_one_finding_about_the_meter_before_any_about_cables(extra, kinds):
    """Leads, worn tips, a bad range: the same in all readings, cross-connected too (common
    practice)."""
    found = findings(with_leads(extra, kinds))

    assert [key for key in found if "/dead/" in key] == ["board/-/M1/dead/leads not nulled"]


def test_the_finding_about_the_meter_is_as_grave_as_the_readings_it_stands_for():
    """With 9 Ω on every R1+R2 each one is over what its loop may have: that isn't made light of."""
    assert keyed(with_leads(9.0), "/leads not nulled").verdict is Verdict.OUTSIDE
    assert own(with_leads(9.0), FEED_R1_R2).verdict is Verdict.OUTSIDE


@pytest.mark.parametrize(("lead", "cause"), [(0.3, "the lead resistance"), (0.32, "worn or dirty")])
def test_more_than_leads_have_comes_from_the_tips_or_the_range(lead, cause):
    """Leads have 0.05 to 0.30 Ω: common practice."""
    assert keyed(with_leads(lead), "/leads not nulled").causes[0].startswith(cause)


def test_a_bad_joint_besides_is_still_told_beside_the_meter():
    slot = at(Quantity.R1_R2, "C2")
    found = findings(spoilt((slot, value_of(slot) + 0.9), record=with_leads(0.14)))

    assert set(found) == {"board/-/M1/dead/leads not nulled", "circuit/C2/-/dead/R1+R2"}


@pytest.mark.parametrize(
    ("kinds", "found"),
    [((Quantity.R1_R2, Quantity.RN, Quantity.R2), True), ((Quantity.R1_R2, Quantity.R2), False)],
)
def test_four_of_five_have_to_agree_before_it_is_the_meter(kinds, found):
    """Six of the seven ends agree, or five: common practice."""
    keys = findings(with_leads(0.14, kinds))

    assert ("board/-/M1/dead/leads not nulled" in keys) is found


def test_a_ring_longer_than_entered_is_off_in_proportion_and_no_matter_of_the_meter():
    """r1 and rn in 2.5, r2 in 1.5 mm²: 12.1/7.41 (IEC 60228); a quarter of it at the points."""
    ring = [
        each
        for each in sound_job().readings
        if each.slot.place.circuit == "C1"
        and each.slot.stage is Stage.DEAD
        and each.slot.quantity in (*LOW, *CROSSED)
    ]
    others = [
        each.slot
        for each in sound_job().readings
        if each.slot.quantity in LOW and each.slot.place.circuit != "C1"
    ]
    record = spoilt(
        *((each.slot, round(each.taken.value * 1.5, 2)) for each in ring), record=without(*others)
    )

    assert not [key for key in findings(record) if key.startswith("board/-/M1")]


@pytest.mark.parametrize(("factor", "found"), [(1.2, False), (1.3, True), (2.0, True), (0.7, True)])
def test_a_common_factor_is_the_range_or_the_test_current(factor, found):
    """A meter that tests with a few mA shows doubled values that look plausible: common practice;
    BS EN 61557-4 asks for 200 mA (read)."""
    keys = findings(times(factor))

    assert ("board/-/M1/dead/meter off by a factor" in keys) is found
    if found:
        assert len([key for key in keys if "/dead/" in key]) == 1


def test_the_leads_tell_for_every_reading_that_is_high_by_them():
    record = with_leads(0.14)

    assert [each for each in findings(record) if "R1+R2" in each] == []
    assert own(record, FEED_R1_R2).part_of.endswith("/leads not nulled")


@pytest.mark.parametrize(("extra", "found"), [(0.0, False), (0.04, False), (0.06, True)])
def test_less_than_two_readings_may_differ_by_is_not_the_leads(extra, found):
    keys = findings(with_leads(extra))

    assert any(each.endswith("leads not nulled") for each in keys) is found


@pytest.mark.parametrize("less", [0.06, 0.14])
def test_all_too_low_is_the_nulling(less):
    found = keyed(with_leads(-less), "/nulled with other leads")

    assert "longer leads" in found.causes[0]
    assert f"about {less:.2f} Ω below what is expected" in found.why


# Swapped


def test_two_readings_in_each_others_row():
    one, two = at(Quantity.R1_R2, "C2"), at(Quantity.R1_R2, "C3")
    record = spoilt((one, value_of(two)), (two, value_of(one)))
    found = keyed(record, "/readings swapped")

    assert set(found.about) == {one, two}
    assert "R1+R2 of C2 Radial and C3 Lights" in found.title
    assert own(record, one).part_of == found.key


def test_one_odd_reading_is_not_swapped():
    record = spoilt((at(Quantity.R1_R2, "C2"), 0.9))

    assert not [each for each in findings(record) if each.endswith("swapped")]


# Order and pace


def test_a_dead_test_repeated_after_live_ones_is_no_wrong_order():
    """But what came off for it goes back again, and that is asked for."""
    record = spoilt(read(900, at(Quantity.R1_R2, "C3"), value_of(at(Quantity.R1_R2, "C3"))))

    assert findings(record) == {PUT_BACK_KEY: "not taken"}


def test_before_covering_after_the_dead_test():
    slot = at(Quantity.R1_R2, "C3", Stage.BEFORE_COVERING)
    late = START.replace(day=20)
    found = keyed(
        moved(sound_job(), lambda each: late if each.slot == slot else None), "/covered before read"
    )

    assert "1 reading from before covering came after" in found.why


def test_readings_from_before_the_work_began():
    job = SOUND.job.model_copy(update={"started": date(2026, 3, 17)})
    record = sound_job().model_copy(update={"job": job})

    assert "before the work started on 17 Mar 2026" in keyed(record, "/before the start").why


def test_the_button_before_the_timed_test():
    slot = at(Quantity.RCD_BUTTON, "C2", Stage.LIVE)
    timed = next(
        each.at
        for each in sound_job().readings
        if each.slot == at(Quantity.RCD_TIME, "C2", Stage.LIVE)
    )
    early = timed.replace(minute=timed.minute - 1)
    found = keyed(
        moved(sound_job(), lambda each: early if each.slot == slot else None),
        "/button before time",
    )

    assert found.verdict is Verdict.NEAR


def rushed(count: int, seconds: int, notes: bool) -> Record:
    first = sound_job().readings[0].at
    readings = []
    for number, each in enumerate(sound_job().readings):
        if number < count:
            when = first.replace(second=0, microsecond=number * seconds * 1000)
            late = datetime(2026, 3, 20, tzinfo=UTC) if notes else None
            readings.append(each.model_copy(update={"at": when, "from_notes": late}))
        else:
            readings.append(each)
    return sound_job().model_copy(update={"readings": tuple(readings)})


def test_twenty_readings_in_two_minutes():
    assert "20 readings within two minutes" in keyed(rushed(20, 1, False), "/too fast").why


def test_nineteen_are_not_told_and_honest_notes_neither():
    assert not [each for each in findings(rushed(19, 1, False)) if each.endswith("too fast")]
    record = rushed(20, 1, True)
    assert not [each for each in findings(record) if each.endswith("too fast")]
    assert "entered later from notes 20 Mar 2026 00:00." in own(record, record.readings[0].slot).why


# Copied or made up


def test_r1_r2_that_is_zs_less_zdb_on_every_circuit_is_worked_out_backwards():
    radials = tuple(
        each.model_copy(update={"id": f"C{number}"})
        for number, each in enumerate(SOUND.circuits[1:] * 2, start=1)
    )
    record = sound_job(SOUND.model_copy(update={"circuits": radials}))
    assert not [each for each in findings(record) if each.endswith("backwards")]
    zdb = value_of(ZDB)
    exact = [
        (
            zs(each.id),
            round(
                zdb
                + next(
                    reading.taken.value
                    for reading in record.readings
                    if reading.slot == at(Quantity.R1_R2, each.id)
                ),
                2,
            ),
        )
        for each in radials
    ]

    assert "On all 6 circuits" in keyed(spoilt(*exact, record=record), "/worked out backwards").why


def test_readings_that_all_end_in_nought_or_five():
    kinds = (*LOW, Quantity.ZS, Quantity.ZDB)
    coarse = [
        (each.slot, round(round(each.taken.value / 0.05) * 0.05, 2))
        for each in sound_job().readings
        if each.slot.quantity in kinds and isinstance(each.taken, Figure)
    ]

    assert "end in 0 or 5" in keyed(spoilt(*coarse), "/only fives and noughts").why


def test_much_that_could_not_be_taken():
    gone = [each.slot for each in sound_job().readings if each.slot.stage is Stage.LIVE]
    record = spoilt(*((slot, NotTaken(reason="no supply yet")) for slot in gone))
    found = keyed(record, "/much not taken")

    assert found.verdict is Verdict.NOT_TAKEN
    assert "could not be taken" in found.why


# What they share


def test_a_pattern_points_from_each_of_its_readings():
    record = with_leads(0.14)
    told = reviewed(record).of(FEED_R1_R2)

    assert told[0].slot == FEED_R1_R2
    assert told[1].key.endswith("/leads not nulled")
    assert told[1].title in told[0].why


def test_a_reading_that_was_not_taken_is_not_made_unlikely_by_a_pattern():
    record = with_leads(0.14)
    record = without(FEED_R1_R2, record=record)

    assert own(record, FEED_R1_R2).verdict is Verdict.NOT_TAKEN


def test_a_found_wrong_polarity_is_one_finding():
    record = spoilt((at(Quantity.POLARITY, "C2"), Tick(good=False)))

    assert findings(record) == {"circuit/C2/-/dead/polarity": "outside"}


def test_one_bad_run_is_one_finding():
    """The loop behind it was read with the same bad run: it agrees with what was read."""
    record = spoilt((at(Quantity.R1_R2, "C2"), 0.60), (zs("C2"), round(value_of(ZDB) + 0.6, 2)))

    assert findings(record) == {"circuit/C2/-/dead/R1+R2": "unlikely"}


def test_a_circuit_without_points_or_runs_is_no_trouble():
    bare = circuit(SOUND, "C1", runs=(), points=())

    assert reviewed(bare).lines
