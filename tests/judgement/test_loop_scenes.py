"""Loop readings that are too low, too high or contradict one another, by the kind of earthing."""

from __future__ import annotations

import pytest

from records.model.outbuilding import Board
from records.model.reading import Quantity
from records.model.supply import Ground, Origin
from records.model.wiring import Rcd
from records.terms import Earthing, OutbuildingEarth, Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
    findings,
    over,
    own,
    read,
    sound_job,
    spoilt,
    under,
    without,
    zs,
)

LIVE = Stage.LIVE
ORIGIN_LN = at(Quantity.FAULT_LN, stage=LIVE, part=Part.ORIGIN)


def with_origin(earthing: Earthing, ze: float, ground: Ground, job=SOUND, **more):
    origin = Origin(
        earthing=earthing, ze=ze, ze_ground=ground, fault_current=1.2, fault_current_ground=ground
    )
    return job.model_copy(update={"origin": origin, **more})


PME = with_origin(Earthing.TN_C_S, 0.2, Ground.MEASURED)
DECLARED = with_origin(Earthing.TN_C_S, 0.35, Ground.DECLARED)
TT = with_origin(
    Earthing.TT,
    60.0,
    Ground.DECLARED,
    feed=SOUND.feed.model_copy(update={"rcd": Rcd(residual=100.0, type="A")}),
)
"""A house with an earth electrode, whose earth the feed carries over."""


def line(slot, taken, job=SOUND):
    return own(spoilt((slot, taken), record=sound_job(job)), slot)


# Too high, and open.


def test_an_rcd_is_not_blamed_for_more_than_it_adds():
    """0.1 to 0.6 Ω on a no-trip reading: makers' sheets and trade notes; common practice."""
    some, much = line(zs("C2"), 1.2), line(zs("C2"), 1.7)

    assert some.causes[0].startswith("the RCD in the path")
    assert much.causes[0] == "a loose connection"
    assert "more than an RCD adds" in much.why
    assert "terminals" in much.next_check


@pytest.mark.parametrize("value", [25.0, 99.9, 1999.0])
def test_a_loop_that_is_open_is_a_missing_earth_and_dangerous(value):
    found = line(zs("C2"), over(value))

    assert found.verdict is Verdict.OUTSIDE
    assert found.patterns[0] == "loop-open"
    assert "the cpc is broken or not landed" in found.causes[0]
    assert found.next_check.startswith("Switch it off and lock it off")
    assert " more." not in found.why


@pytest.mark.parametrize("taken", [5.0, 12.0, over(3.99), over(12.0), over(1999.0)])
def test_a_supply_without_an_earth_stops_the_work(taken):
    found = line(ZE, taken, DECLARED)

    assert found.verdict is Verdict.OUTSIDE
    assert "supply" in found.causes[0]
    assert found.next_check.startswith("Earth back and tight first.")
    assert "the house too" in found.next_check
    assert "emergency number: 105" in found.next_check


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (0.35, "within"),
        (0.36, "near limit"),
        (0.38, "near limit"),
        (0.39, "outside"),
        (0.9, "outside"),
        (4.99, "outside"),
    ],
)
def test_what_is_declared_is_no_limit_and_no_emergency(value, verdict):
    """0.35 Ω is usually declared for TN-C-S (DNO practice); within 8 % of the meter is near."""
    found = line(ZE, value, DECLARED)

    assert found.verdict.value == verdict
    assert "emergency" not in found.next_check
    assert "declared at most 0.35 Ω" in found.why
    assert "limit at most" not in found.why
    if value > 0.35:
        name = "ze-above-usual" if value <= 0.93 else "ze-above-device"
        assert found.patterns[0] == name
        assert "network operator" in found.next_check
        assert "The feed's own device would allow 0.93 Ω here." in found.why
        assert found.next_check.startswith("Earth back and tight first.")
        assert ("Leave the outbuilding off" in found.next_check) is (value > 0.93)


def test_what_is_only_usual_is_called_usual():
    origin = SOUND.origin.model_copy(update={"ze": 0.8, "ze_ground": Ground.TYPICAL})

    assert (
        "Above what is usually declared."
        in line(ZE, 0.9, SOUND.model_copy(update={"origin": origin})).why
    )


@pytest.mark.parametrize(("said", "asked"), [("", True), ("earth lifted at the house bar", False)])
def test_before_ze_zdb_or_an_electrode_is_doubted_it_is_asked_where_the_earth_was_lifted(
    said, asked
):
    """Common practice: an earth lifted at the wrong end is the usual reason."""
    tried = [
        (ZE, 0.06, PME),
        (ZE, 0.5, DECLARED),
        (ZDB, 0.9, SOUND),
        (at(Quantity.ELECTRODE), 2.0, ISLAND),
    ]
    for slot, value, job in tried:
        record = sound_job(job)
        record = spoilt(read(900, slot, value, 900, note=said), record=record)
        found = own(record, slot)
        assert found.verdict is not Verdict.WITHIN
        assert ("Say where the earth was lifted" in found.next_check) is asked
        assert found.next_check.startswith("Earth back and tight first") is (slot == ZE)


def test_the_earth_of_a_tt_house_that_is_open_is_outside_whatever_was_declared():
    assert line(ZE, over(1999.0), TT).verdict is Verdict.OUTSIDE


def test_the_earth_of_a_tt_house_is_held_against_the_rcd_of_the_feed():
    """RA × IΔn ≤ 50 V: 500 Ω at 100 mA (BS 7671, Regulation 411.5.3, read)."""
    assert line(ZE, 520.0, TT).verdict is Verdict.OUTSIDE
    assert line(ZE, 60.0, TT).verdict is Verdict.WITHIN


def test_an_island_with_a_high_loop_looks_at_its_electrode_and_not_at_the_feed():
    found = line(ZDB, 300.0, ISLAND)

    assert "electrode" in found.causes[0]
    assert "gland" not in " ".join((*found.causes, found.next_check))
    assert "expected from the electrode" in found.why


# Low is not good.


@pytest.mark.parametrize("slot", [ZE, ZDB, zs("C2")])
@pytest.mark.parametrize("value", [0.0, 0.02])
def test_next_to_no_loop_is_not_believed(slot, value):
    """0.05 Ω would be 4.6 kA in a shed: common practice, meters hardly tell so little."""
    found = line(slot, value, DECLARED)

    assert found.verdict is Verdict.UNLIKELY
    assert "loop-too-good" in found.patterns


@pytest.mark.parametrize("taken", [0.3, 1.9, under(1.0)])
def test_a_tt_supply_with_a_fraction_of_an_ohm_is_none(taken):
    """A TT loop goes by an electrode: common practice."""
    found = line(ZE, taken, TT)

    assert found.verdict is Verdict.UNLIKELY
    assert found.patterns[0] == "tt-too-low"
    assert "isn't TT" in " ".join(found.causes)


def test_a_figure_under_the_range_joins_an_island_as_well():
    assert "island joined" in line(ZDB, under(1.0), ISLAND).patterns
    assert "island joined" not in line(ZDB, under(60.0), ISLAND).patterns


def test_an_island_with_a_loop_of_a_few_ohms_has_lost_its_separation():
    found = line(ZDB, 5.0, ISLAND)

    assert found.verdict is Verdict.UNLIKELY
    assert "armour" in found.causes[0]


def test_a_board_can_not_have_less_than_the_supply_behind_it():
    """Ze is part of Zdb, whether or not R1+R2 was read and however Ze was known before."""
    record = spoilt((ZE, 0.34), (ZDB, 0.2), record=without(FEED_R1_R2, record=sound_job(DECLARED)))

    assert own(record, ZDB).verdict is Verdict.UNLIKELY
    assert "zdb-low" in own(record, ZDB).patterns


# With TN-C-S the neutral is the earth.


@pytest.mark.parametrize(
    ("ze", "pattern"),
    [(0.06, True), (0.15, True), (0.16, False), (0.2, False), (0.23, False), (0.24, True)],
)
def test_with_tn_c_s_line_to_neutral_and_line_to_earth_are_one_loop(ze, pattern):
    """1.2 kA is 0.19 Ω; neutral and earth are one conductor up to the intake.

    Two readings agree within √(Ua² + Ub²) (common practice): 8 % of each, and two digits.
    """
    record = spoilt((ZE, ze), (ORIGIN_LN, 1.2), record=sound_job(DECLARED))
    found = own(record, ZE)

    assert ("ze-against-neutral" in found.patterns) is pattern
    assert (found.verdict is Verdict.UNLIKELY) is pattern


def test_with_tn_s_only_less_than_the_neutral_is_odd():
    record = sound_job(with_origin(Earthing.TN_S, 0.8, Ground.DECLARED))
    much = spoilt((ZE, 0.6), (ORIGIN_LN, 1.2), record=record)
    less = spoilt((ZE, 0.07), (ORIGIN_LN, 1.2), record=record)

    assert "ze-against-neutral" not in own(much, ZE).patterns
    assert "ze-against-neutral" in own(less, ZE).patterns


# One wrong reading is one finding.


def test_a_board_loop_that_is_too_low_is_told_once_and_not_by_every_circuit():
    found = findings(spoilt((ZDB, 0.1)))

    assert "board/-/-/live/Zdb" in found
    assert not [key for key in found if key.endswith("/Zs")]


def test_r1_r2_that_is_too_low_does_not_make_its_loop_too_high():
    found = findings(spoilt((at(Quantity.R1_R2, "C2"), 0.01)))

    assert list(found) == ["circuit/C2/-/dead/R1+R2"]


def test_a_loop_that_is_high_by_the_design_too_is_told_beside_them():
    found = findings(spoilt((ZDB, 0.1), (zs("C2"), 1.3)))

    assert {"board/-/-/live/Zdb", "circuit/C2/-/live/Zs"} <= set(found)


# Words.


@pytest.mark.parametrize("job", [SOUND, ISLAND, TT])
def test_a_limit_reads_as_a_sentence(job):
    for slot in (ZDB, zs("C2")):
        why = line(slot, 300.0, job).why
        assert ".)" not in why
        assert "exactly not worked out" not in why


def test_a_tt_job_with_all_readings_right_finds_nothing():
    board = Board(**{**SOUND.board.model_dump(), "earth": OutbuildingEarth.CARRIED_OVER})
    record = sound_job(TT.model_copy(update={"board": board}))

    assert [key for key in findings(record) if "/design/" not in key] == []
    assert own(record, ZDB).limit is not None


@pytest.mark.parametrize("ze", [0.04, 0.05, 2.0, 12.0])
def test_a_supply_earth_that_is_off_is_not_told_by_the_board_as_well(ze):
    """Zdb as the design has it, beside a Ze that is doubted: the Ze is the trouble."""
    found = findings(spoilt((ZE, ze), record=sound_job(PME)))

    assert "origin/-/-/live/Ze" in found
    assert "board/-/-/live/Zdb" not in found


def test_an_open_loop_blames_nothing_that_only_makes_it_higher():
    found = line(zs("C2"), over(1999.0))

    assert found.patterns == ("loop-open",)
    assert not any("adds to a no-trip reading" in each for each in found.causes)
