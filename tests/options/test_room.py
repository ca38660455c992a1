"""The room that a design leaves really is its edge: one step more fails, the edge itself holds."""

import pytest

from records.errors import OutOfRange
from records.expected.context import Context
from records.expected.feed_load import feed_current
from records.expected.plan import expected
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.model.circuit import Point
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.options.assumptions import assumed
from records.options.feed import feed_options, with_cable
from records.options.room import (
    AMPERES,
    METRES,
    assumed_for_room,
    later_words,
    room_left,
    with_load_later,
)
from records.terms import Cpc, Verdict
from records.units import Unit
from tests.judgement.jobs import HEATER, ISLAND, LIGHTS, SOUND, circuit, sound_job
from tests.options.test_as_the_review import simulated

pytestmark = pytest.mark.slow

DESIGN = SOUND.model_copy(update={"readings": ()})
CARRIED = 32.0
"""A that the feed carries: 26 A are entered, but its ring can take 32 A."""


def bad(record):
    lines = design_lines(Facts.of(record, expected(record)))
    return {each.key for each in lines if each.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY)}


def room(where, record=DESIGN):
    return next(each for each in room_left(record) if each.where.startswith(where))


def with_feed_load(load):
    return DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"load": load})})


def test_the_board_bears_what_is_said_and_no_half_ampere_more():
    found = room("At the board")
    assert found.more is not None
    assert found.more > 0
    load = CARRIED + found.more

    assert bad(with_feed_load(load)) <= bad(DESIGN)
    assert bad(with_feed_load(load + AMPERES)) - bad(DESIGN)
    assert found.stops[0].key in bad(with_feed_load(load + AMPERES))


def test_a_run_bears_the_metres_that_are_said_and_no_half_metre_more():
    found = room("Feed")
    assert found.more is not None
    assert found.more > 0

    def longer(more):
        run = DESIGN.feed.runs[0].model_copy(update={"length": 30.0 + more})
        return DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": (run,)})})

    assert bad(longer(found.more)) <= bad(DESIGN)
    assert bad(longer(found.more + METRES)) - bad(DESIGN)


def test_the_far_end_of_a_circuit_bears_what_is_said_and_no_half_ampere_more():
    found = room("C4")
    assert found.more is not None
    assert found.more > 0
    now = 2000 / 230

    def loaded(more):
        changed = circuit(with_feed_load(CARRIED + more), "C4", load=now + more, power=None)
        return bad(changed)

    assert loaded(found.more) <= bad(DESIGN)
    assert loaded(found.more + AMPERES) - bad(DESIGN)


def test_sockets_can_take_all_of_their_device_already():
    found = room("C1")

    assert found.more == 0
    assert "Ib ≤ In" in found.binds


def test_what_fails_already_leaves_no_room_for_more_of_it():
    thin = DESIGN.feed.runs[0].model_copy(update={"length": 200.0})
    record = DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": (thin,)})})

    assert bad(record)
    assert room("At the board", record).more == 0


def test_points_move_with_the_run_that_leads_to_them():
    """A lamp with a load of its own gets farther when its cable does; else length would be free."""
    lamps = (Point(id="P1", at=25.0, load=1.2),)
    at_point = room("C3, its run", circuit(DESIGN, "C3", points=lamps))
    at_end = room("C3, its run", DESIGN)

    assert at_point.more == at_end.more


@pytest.mark.parametrize("missing", ["length", "load"])
def test_what_is_not_entered_is_asked_for_and_no_number_is_given(missing):
    if missing == "length":
        run = DESIGN.feed.runs[0].model_copy(update={"length": None})
        feed = DESIGN.feed.model_copy(update={"runs": (run,)})
        found = room("Feed", DESIGN.model_copy(update={"feed": feed}))
    else:
        record = circuit(DESIGN, "C4", power=None, fuse=None, points=())
        found = room("C4", record)

    assert found.more is None
    assert "entered yet" in found.why


def test_a_heater_in_two_years_is_tried_without_changing_the_record():
    small, large = with_load_later(DESIGN, 0.5), with_load_later(DESIGN, 9.0)

    assert small.fails == ()
    assert large.fails
    assert len(large.record.circuits) == len(DESIGN.circuits) + 1
    assert large.record.feed.load == pytest.approx(CARRIED + 9000 / 230)
    assert DESIGN.feed.load == 26.0


def test_the_circuit_of_a_later_load_is_no_trouble_of_its_own():
    found = with_load_later(DESIGN, 3.0, 5.0)
    new = found.record.circuits[-1]

    assert new.runs[0].cpc is Cpc.CORE
    assert not any(f"/{new.id}/" in key for key in bad(found.record))


def test_room_is_told_of_each_circuit_and_each_run_once():
    names = [each.where for each in room_left(DESIGN)]

    assert len(names) == len(set(names)) == 1 + 4 + 5
    assert HEATER.id in {name[:2] for name in names}
    assert LIGHTS.id in {name[:2] for name in names}


BLANK = Record()
FAR = BLANK.feed.model_copy(update={"runs": (Run(length=46.0),), "load": 26.0})


@pytest.mark.parametrize(
    "record",
    [
        BLANK,
        BLANK.model_copy(update={"feed": FAR}),
        BLANK.model_copy(update={"feed": FAR, "circuits": DESIGN.circuits}),
        circuit(DESIGN, "C2", device=Device()),
    ],
    ids=["blank", "distance and load", "circuits too", "one device missing"],
)
def test_where_a_check_can_t_be_judged_no_room_is_promised(record):
    """A check that is silent for want of an input stops nothing: no figure may come of that."""
    found = room_left(record)

    assert found
    unknown = [each for each in found if each.more is None]
    assert unknown
    assert all("entered yet" in each.why for each in unknown)
    if record is BLANK or record.feed is FAR:
        assert unknown == list(found)
        later = with_load_later(record, 3.0)
        assert later.why
    told = {each.where[:2] for each in unknown}
    assert "C2" in told or record.circuits == () or record.feed is FAR


def test_the_feed_of_circuits_that_are_not_entered_has_room_up_to_its_share():
    """2.5 % of 230 V are 5.75 V; 10 mm² XLPE: 4.7 mV/A/m (BS 7671, Table 4E4B, from memory)."""
    record = DESIGN.model_copy(update={"circuits": ()})
    record = record.model_copy(update={"feed": record.feed.model_copy(update={"load": 26.0})})
    found = room("At the board", record)
    most = 5.75 / (4.7e-3 * 30.0)

    assert found.more is not None
    assert found.more == min(int((most - 26.0) / AMPERES) * AMPERES, 40.0 - 26.0)


def test_apart_from_what_fails_already_the_room_is_told_too():
    lamps = circuit(
        DESIGN, "C3", runs=(DESIGN.circuit("C3").runs[0].model_copy(update={"length": 250.0}),)
    )
    fails = bad(lamps)
    assert fails
    found, sound = room("At the board", lamps), room("At the board", DESIGN)

    assert (found.more, found.already) == (0.0, True)
    assert found.apart is not None
    assert sound.more is not None
    more = found.apart.more
    assert more is not None

    def loaded(load):
        return lamps.model_copy(update={"feed": lamps.feed.model_copy(update={"load": load})})

    assert bad(loaded(CARRIED + more)) == fails
    assert bad(loaded(CARRIED + more + AMPERES)) > fails


def test_a_load_that_no_circuit_carries_is_refused_in_a_sentence():
    with pytest.raises(OutOfRange, match="Try up to"):
        with_load_later(DESIGN, 30.0)


def test_where_a_later_load_would_not_do_the_feed_that_would_is_named():
    """9 kW beside the 32 A are 71 A: more than the 40 A device, whatever the cable is."""
    small, far = with_load_later(DESIGN, 0.5), with_load_later(DESIGN, 1.5)
    told = later_words(far, 1.5)

    assert later_words(small, 0.5) == ("0.5 kW more on its own circuit: every check holds.",)
    assert far.fails
    assert "Run 1 of the feed would do with it as" in told[-1]
    none = later_words(with_load_later(DESIGN, 9.0), 9.0)
    assert none[-1] == "No cable of the feed alone would do with it."


def test_before_the_electrode_is_driven_room_is_told_with_a_resistance_that_is_said():
    """Nobody can read RA of a design: all of it was “not known” for want of that reading."""
    island = ISLAND.model_copy(update={"readings": ()})
    found = room_left(island)

    assert all(each.more is not None for each in found)
    # 50 V / 100 mA would allow 500 Ω; above 200 Ω it may not be stable (411.5.3, Note 2).
    assert "200 Ω is assumed" in assumed_for_room(island)
    less = island.board.model_copy(update={"rcd": Rcd(residual=500.0)})
    assert "100 Ω is assumed" in assumed_for_room(island.model_copy(update={"board": less}))
    assert assumed_for_room(DESIGN) == ""
    assert assumed_for_room(sound_job(ISLAND)) == ""


@pytest.mark.parametrize("seed", [0, 3, 4, 6, 9])
def test_room_is_the_edge_in_simulated_jobs_too(seed):
    """By the review's own lines: the load and the metres told hold, one step more does not."""
    record = simulated(seed)
    at = len(record.feed.runs) - 1
    choice = feed_options(record, at)
    option = choice.smallest or choice.options[-1]
    whole = with_cable(assumed(record).record, at, option.make)
    load = feed_current(Context(whole)).value
    was = bad(whole)

    def loaded(more):
        feed = whole.feed.model_copy(update={"load": load + more})
        return bad(whole.model_copy(update={"feed": feed}))

    def longer(more):
        runs = list(whole.feed.runs)
        runs[at] = runs[at].model_copy(update={"length": runs[at].length + more})
        feed = whole.feed.model_copy(update={"runs": tuple(runs)})
        return bad(whole.model_copy(update={"feed": feed}))

    name = "Feed, its run" if at == 0 else f"Feed, run {at + 1}"
    for where, tried, step in (("At the board", loaded, AMPERES), (name, longer, METRES)):
        found = room(where, whole)
        assert found.more is not None
        if found.more:
            assert tried(found.more) <= was
        if found.stops and not found.already:
            assert tried(found.more + step) - was


def test_a_later_circuit_and_a_missing_temperature_are_taken_as_the_tables_have_them():
    """BS 7671, Tables 4B1 and 4B2: the ratings hold for air of 30 °C and ground of 20 °C."""
    later = with_load_later(DESIGN, 2.0).record.circuits[-1]
    assert [each.ambient for each in later.runs] == [30.0]
    (run,) = DESIGN.feed.runs
    for entered, taken in ((None, 20.0), (35.0, 35.0)):  # what was entered is not changed
        unlaid = run.model_copy(update={"ambient": entered, "method": None})
        feed = DESIGN.feed.model_copy(update={"runs": (unlaid,)})
        filled = assumed(DESIGN.model_copy(update={"feed": feed}))
        assert [each.ambient for each in filled.record.feed.runs] == [taken]
        assert any(f"method D, ground {taken:g} °C" in each for each in filled.notes)


def test_room_at_the_board_is_in_ampere_and_along_a_run_in_metre():
    units = {each.where: each.unit for each in room_left(DESIGN)}

    assert units["At the board"] is Unit.AMPERE
    assert {unit for where, unit in units.items() if where.startswith("Feed")} == {Unit.METRE}
