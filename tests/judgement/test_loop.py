"""Loop readings: three limits, and every loop against the one before it."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import Expected, NotWorkedOut, What, Worked
from records.judgement.review import preview, review
from records.model.reading import Quantity
from records.model.supply import Ground
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Stage, Verdict
from records.units import Unit
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
    circuit,
    over,
    own,
    place,
    read,
    reviewed,
    shown,
    sound_job,
    spoilt,
    without,
    zs,
)
from tests.judgement.test_loop_scenes import DECLARED

C2 = place("C2")


def by_hand(table: float, cold: float, exact: float | None) -> Expected:
    """Limits of C2 typed by hand, nothing else."""

    def of(value: float) -> Worked:
        return Worked("Zs", value, Unit.OHM, "", "", ())

    why = NotWorkedOut("Zs", "R1+R2 is missing")
    return Expected(
        design={
            (C2, What.ZS_LIMIT): of(table),
            (C2, What.ZS_LIMIT_COLD): of(cold),
            (C2, What.ZS_LIMIT_EXACT): why if exact is None else of(exact),
        }
    )


@pytest.mark.parametrize(
    ("value", "exact", "verdict"),
    [
        (0.70, 1.30, "within"),
        (1.00, 1.30, "within"),
        (1.09, 1.30, "within"),  # at the cold limit: the room for warmth isn't asked for twice
        (1.09, 1.18, "within"),  # 8 % more is 1.177 Ω, inside the exact limit
        (1.09, 1.17, "near limit"),  # and here it isn't
        (1.10, 1.30, "near limit"),  # over the cold limit, exactly it holds
        (1.30, 1.30, "near limit"),
        (1.31, 1.30, "outside"),  # under the table, exactly it fails
        (1.37, 1.40, "near limit"),
        (1.38, 1.40, "outside"),  # over the table
        (1.10, None, "outside"),  # can't be shown to hold
        (1.05, 1.04, "near limit"),  # under the cold limit, exactly it fails
        (0.99, 0.98, "near limit"),
        (1.20, 1.04, "outside"),
    ],
)
def test_a_loop_is_judged_by_table_cold_limit_and_exactly(value, exact, verdict):
    """B32: 1.37 Ω by Table 41.3; × 0.8 cut down is 1.09 Ω (BS 7671 Appendix 3)."""
    record = SOUND.model_copy(update={"readings": (read(1, zs("C2"), value),)})

    line = preview(SOUND, by_hand(1.37, 1.09, exact), *record.readings)

    assert line.verdict.value == verdict
    if value > 1.09 and value <= 1.37:
        assert "Meets the table but not the cold limit" in line.why


def test_the_sentence_names_all_three():
    record = SOUND.model_copy(update={"readings": (read(1, zs("C2"), 1.2),)})

    why = review(record, by_hand(1.37, 1.09, 1.31)).of(zs("C2"))[0].why

    assert (
        "limit at most 1.09 Ω (0.8 of the tabulated 1.37 Ω; from there to 1.31 Ω, at operating "
        "temperature, the certifier decides)"
    ) in why


def test_the_exact_limit_counts_as_it_is_printed():
    """What is printed is never more than what was worked out, and a reading of it keeps it."""
    for value, verdict in ((1.29, Verdict.NEAR), (1.3, Verdict.OUTSIDE)):
        record = SOUND.model_copy(update={"readings": (read(1, zs("C2"), value),)})
        line = review(record, by_hand(1.37, 1.09, 1.297)).of(zs("C2"))[0]

        assert "from there to 1.29 Ω" in line.why
        assert line.verdict is verdict


def test_an_exact_limit_under_the_cold_one_says_so():
    record = SOUND.model_copy(update={"readings": (read(1, zs("C2"), 1.0),)})

    why = review(record, by_hand(1.37, 1.09, 1.05)).of(zs("C2"))[0].why

    assert (
        "(0.8 of the tabulated 1.37 Ω; over 1.05 Ω, at operating temperature, the certifier" in why
    )


def test_over_range_is_outside():
    assert own(spoilt((zs("C2"), over(1999.0))), zs("C2")).verdict is Verdict.OUTSIDE


def test_without_a_device_no_loop_is_within():
    circuit = SOUND.circuits[1].model_copy(
        update={"device": SOUND.circuits[1].device.model_copy(update={"rating": None})}
    )
    record = sound_job().model_copy(update={"circuits": (SOUND.circuits[0], circuit)})
    record = record.model_copy(
        update={
            "readings": tuple(
                each for each in record.readings if each.slot.place.circuit in (None, "C1", "C2")
            )
        }
    )

    line = own(record, zs("C2"))

    assert line.verdict is Verdict.NOT_TAKEN
    assert "In of the protective device is not entered yet" in line.why


def test_a_circuit_can_not_have_less_than_its_board():
    line = own(spoilt((zs("C2"), 0.20)), zs("C2"))

    assert line.verdict is Verdict.UNLIKELY
    assert "lower than the sub-board's own loop" in line.why
    assert line.causes[0] == "written against the wrong circuit"


def test_far_above_the_sum_behind_an_rcd_is_explained_and_nothing_taken_off():
    line = own(spoilt((zs("C2"), 1.20)), zs("C2"))

    assert line.verdict is Verdict.UNLIKELY
    assert line.causes[0] == "the RCD in the path, on a no-trip reading"
    assert "nothing is taken off" in line.why
    assert line.why.startswith("Read 1.20 Ω")


@pytest.mark.parametrize("rcbo", [True, False])
def test_an_rcbo_has_an_rcd_in_it_before_its_residual_current_is_entered(rcbo: bool):
    kind = DeviceKind.RCBO_B if rcbo else DeviceKind.BREAKER_B
    plain = sound_job()
    device = plain.circuit("C2").device.model_copy(update={"kind": kind})
    board = plain.board.model_copy(update={"rcd": Rcd()})
    feed = plain.feed.model_copy(update={"rcd": Rcd()})
    job = circuit(plain, "C2", device=device, rcd=Rcd())
    job = job.model_copy(update={"board": board, "feed": feed})
    line = own(spoilt((zs("C2"), 1.20), record=job), zs("C2"))

    assert ("the RCD in the path" in line.causes[0]) is rcbo


def test_far_above_the_sum_with_high_current_is_a_connection():
    record = spoilt(read(900, zs("C2"), 1.20, method="high-current"), record=without(zs("C2")))

    assert own(record, zs("C2")).causes[0] == "a loose connection"


def test_below_the_sum_asks_for_the_parallel_path():
    line = own(spoilt((zs("C3"), 0.70)), zs("C3"))

    assert line.verdict is Verdict.UNLIKELY
    assert "parallel path" in line.causes[0]


def test_a_worked_out_loop_says_so_and_is_not_compared_with_itself():
    calculated = read(900, zs("C2"), 0.71, method="calc: Zdb + R1+R2")
    line = own(spoilt(calculated, record=without(zs("C2"))), zs("C2"))

    assert line.verdict is Verdict.WITHIN
    assert "Calculated, not measured." in line.why


def test_a_board_loop_above_its_parts_points_to_the_gland():
    line = own(spoilt((ZDB, 0.80)), ZDB)

    assert line.verdict is Verdict.UNLIKELY
    assert "Ze and R1+R2 as measured add up to" in line.why
    assert "gland" in line.causes[0]


def test_a_board_loop_below_its_parts_is_doubted():
    line = own(spoilt((ZDB, 0.20)), ZDB)

    assert line.verdict is Verdict.UNLIKELY
    assert "parallel path" in line.causes[0]


def test_a_board_loop_as_designed_is_not_blamed_for_an_odd_reading_of_the_feed():
    """Zdb is what Ze and the cable give: it is R1+R2 of the feed that was read too low."""
    (run,) = SOUND.feed.runs
    far = SOUND.feed.model_copy(update={"runs": (run.model_copy(update={"length": 90.0}),)})
    record = spoilt((FEED_R1_R2, 0.05), record=sound_job(SOUND.model_copy(update={"feed": far})))

    assert shown(record, FEED_R1_R2) is Verdict.UNLIKELY
    assert "zdb-high" not in own(record, ZDB).patterns
    high = spoilt((ZDB, 1.2), record=record)
    assert "zdb-high" in own(high, ZDB).patterns


def test_one_high_board_loop_is_one_finding():
    """The circuits behind it agree with what was read at the board."""
    more = [
        (zs(each), value)
        for each, value in (("C1", 1.04), ("C2", 1.15), ("C3", 1.54), ("C4", 0.98))
    ]
    found = [
        each.key
        for each in reviewed(spoilt((ZDB, 0.80), *more)).findings
        if each.slot is not None
        and each.slot.quantity in (Quantity.ZDB, Quantity.ZS)
        and each.verdict is Verdict.UNLIKELY
    ]

    assert found == ["board/-/-/live/Zdb"]


def test_a_declared_ze_is_a_highest_one_and_less_is_no_surprise():
    origin = SOUND.origin.model_copy(update={"ze": 0.8, "ze_ground": Ground.DECLARED})
    record = sound_job().model_copy(update={"origin": origin})

    assert own(record, ZE).verdict is Verdict.WITHIN
    assert own(record, ZDB).verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0.25, "within"), (0.39, "within"), (0.45, "unlikely"), (0.09, "unlikely"), (0.9, "outside")],
)
def test_ze_against_the_survey_and_the_usual_maximum(value, verdict):
    """TN-S: 0.8 Ω is usually declared at most; 0.15 Ω of change since the survey stops work."""
    assert own(spoilt((ZE, value)), ZE).verdict.value == verdict


def test_a_ze_that_grew_stops_the_work():
    assert "Leave the outbuilding off" in own(spoilt((ZE, 0.45)), ZE).next_check


def test_three_readings_at_one_go_that_do_not_agree():
    tries = [read(900 + n, zs("C3"), value, 800 + n) for n, value in enumerate((1.1, 1.3, 1.05))]
    line = own(spoilt(*tries, record=without(zs("C3"))), zs("C3"))

    assert line.verdict is Verdict.UNLIKELY
    assert "3 readings at one go spread over 0.25 Ω." in line.why
    assert "it can start a fire" in line.causes[0]


def test_a_reading_repeated_the_next_day_is_no_spread():
    tries = [read(900 + n, zs("C3"), v, 1000 * (n + 1)) for n, v in enumerate((1.4, 1.2, 1.08))]

    assert own(spoilt(*tries, record=without(zs("C3"))), zs("C3")).verdict is Verdict.WITHIN


def test_an_island_with_a_low_loop_is_joined_to_another_earth():
    """BS 7671, Regulation 411.5 (from memory): low is not good there."""
    low = [(zs(f"C{n}"), 0.6 + n / 10) for n in range(1, 5)]
    record = spoilt((ZDB, 0.31), *low, record=sound_job(ISLAND))

    line = own(record, ZDB)
    found = [
        each.key
        for each in reviewed(record).findings
        if each.slot and each.slot.quantity in (Quantity.ZDB, Quantity.ZS)
    ]

    assert line.verdict is Verdict.UNLIKELY
    assert "Under 2 Ω cannot be the electrode alone" in line.why
    assert "armour" in line.causes[0]
    assert found == [line.key]
    assert own(record, zs("C1")).verdict is Verdict.UNLIKELY
    assert own(record, zs("C1")).part_of == line.key


def test_an_island_is_limited_by_its_rcd_not_by_the_breaker_tables():
    """50 V / 30 mA = 1667 Ω (BS 7671, Table 41.5), 50 V / 100 mA = 500 Ω at the board."""
    record = sound_job(ISLAND)

    assert str(own(record, zs("C1")).limit) == "at most 1667 Ω"
    assert str(own(record, ZDB).limit) == "at most 500 Ω"


def test_expectations_are_those_of_the_plan():
    record = sound_job()

    assert own(record, ZDB).expected == expected(record).meter[ZDB]
    assert at(Quantity.ZDB, stage=Stage.LIVE) == ZDB
    assert own(record, FEED_R1_R2).expected == expected(record).meter[FEED_R1_R2]


# High by design is no bad connection.


@pytest.fixture
def long_feed():
    """240 m of 10 mm² behind a 40 A BS 88-2 fuse: 1.15 Ω, where 1.04 Ω are the cold limit."""
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 240.0}),)
    return SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})


def test_a_loop_that_is_high_by_design_blames_no_connection_and_says_what_would_do(long_feed):
    """Table 41.4: 1.30 Ω for 40 A at 5 s (from memory), 0.8 of it cold (Appendix 3)."""
    found = own(sound_job(long_feed), ZDB)

    assert found.verdict is Verdict.OUTSIDE
    assert "high-by-design" in found.patterns
    assert not found.causes
    assert "the design itself doesn't meet it" in found.why
    assert found.next_check.startswith("Switch it off and lock it off")
    assert "What would meet it: an RCD at the house, delayed" in found.next_check


@pytest.mark.parametrize(("more", "designed"), [(0.05, True), (0.09, True), (0.12, False)])
def test_it_is_by_design_as_far_as_reading_and_design_agree(long_feed, more, designed):
    """Within 0.05 Ω or the meter's 8 %: common practice."""
    record = sound_job(long_feed)
    value = round(record.taken(ZDB)[-1].taken.value + more, 2)
    found = own(spoilt((ZDB, value), record=record), ZDB)

    assert found.verdict is Verdict.OUTSIDE
    assert ("high-by-design" in found.patterns) is designed
    assert ("a loose or corroded connection in line or earth" in found.causes) is not designed


@pytest.mark.parametrize("method", ["", "no-trip", "high-current range"])
def test_no_range_is_asked_for_that_was_used_already(method):
    job = sound_job(DECLARED)
    found = own(spoilt(read(900, ZDB, 1.4, 900, method=method), record=job), ZDB)
    assert found.verdict is Verdict.OUTSIDE
    assert ("high-current range" in found.next_check) is ("high" not in method)
    # For Ze the main earth would come off once more: the operator is asked instead.
    found = own(spoilt(read(900, ZE, 0.5, 900, method=method), record=job), ZE)
    assert found.verdict is Verdict.OUTSIDE
    assert "high-current range" not in found.next_check
    assert "Ask the network operator" in found.next_check


def test_a_circuit_behind_its_rcd_asks_the_certifier_and_else_names_the_rcd_first():
    runs = (SOUND.circuits[1].runs[0].model_copy(update={"length": 95.0}),)
    behind = sound_job(circuit(SOUND, "C2", runs=runs))
    assert "if the RCD alone may disconnect" in own(behind, zs("C2")).next_check
    bare = circuit(
        SOUND,
        "C2",
        runs=runs,
        rcd=Rcd(),
        device=Device(kind=DeviceKind.BREAKER_B, rating=20.0, breaking=6.0),
    )
    assert "What would meet it: an RCD;" in own(sound_job(bare), zs("C2")).next_check
