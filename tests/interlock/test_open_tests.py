"""Which dead tests keep the board, or one circuit, from going live: a blank is never a pass."""

from __future__ import annotations

import pytest

from records.interlock.comes_off import PUT_BACK
from records.interlock.dead_tests import DeadTestsOf, OpenTest, board_words, dead_tests
from records.model.reading import (
    Figure,
    NotNeeded,
    NotTaken,
    Quantity,
    Reading,
    Slot,
    StandIn,
    Tick,
)
from records.model.record import Record, next_id
from records.model.slots import slots
from records.terms import Stage, Verdict
from tests.taking.job import slot
from tests.taking.locks import (
    CERTIFIER,
    FEED_R1_R2,
    LE,
    RUN,
    ZS2,
    Change,
    Entry,
    at_minute,
    formless,
    job,
    spoilt,
    took,
    without,
)

DEAD = Stage.DEAD
LN, NE = slot(Quantity.IR_LN, DEAD, "C2"), slot(Quantity.IR_NE, DEAD, "C2")
EARTHING = slot(Quantity.EARTHING, DEAD)
GOOD = (Verdict.WITHIN, Verdict.NEAR, Verdict.NOT_NEEDED)
Stood = dict[Slot, Verdict | None]


def verdicts(record: Record, stood: Stood | None = None) -> dict[str, Verdict]:
    found = {each.id: Verdict.WITHIN for each in record.readings}
    for where, verdict in (stood or {}).items():
        last = [r for r in record.taken(where) if isinstance(r.taken, Figure | Tick)][-1]
        if verdict is None:
            del found[last.id]
        else:
            found[last.id] = verdict
    return found


def open_on(record: Record, circuit: str | None, stood: Stood | None = None) -> list[str]:
    """Return in words what is open on a circuit, or on feed, board and earths."""
    found = dead_tests(record, verdicts(record, stood))
    return [each.words for each in (found.circuits[circuit] if circuit else found.board)]


def joined(minutes: float, method: str = "L and N joined") -> Change:
    def change(record: Record) -> Record:
        made = Reading(
            id=next_id("R", record.readings),
            slot=LE,
            taken=Figure(value=400.0),
            at=at_minute(minutes),
            by="A1",
            method=method,
        )
        return record.model_copy(update={"readings": (*record.readings, made)})

    return change


def test_on_a_sound_job_nothing_is_open_and_all_that_it_needs_is_counted() -> None:
    record = job()
    found = dead_tests(record, verdicts(record))

    assert found.board == ()
    assert dict(found.circuits) == {"C1": (), "C2": (), "C3": ()}
    assert found.may_go_live == ("C1", "C2", "C3")
    # That all is put back is no test: it is asked for by itself.
    assert found.right == len([each for each in slots(record, DEAD) if each != PUT_BACK])
    assert (found.set_aside, found.elsewhere) == (0, ())


@pytest.mark.parametrize("verdict", [*Verdict, None])
@pytest.mark.parametrize(("where", "circuit"), [(LE, "C2"), (FEED_R1_R2, None)])
def test_only_a_test_that_stood_right_opens(
    where: Slot, circuit: str | None, verdict: Verdict | None
) -> None:
    words = open_on(job(), circuit, {where: verdict})

    if verdict in GOOD:
        assert words == []
    elif verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY):
        assert words == [f"{where.quantity.value} {verdict.value}"]
    else:
        assert words == [f"{where.quantity.value} not shown satisfactory yet"]


def test_what_is_wrong_on_one_circuit_leaves_the_others() -> None:
    record = job()
    found = dead_tests(record, verdicts(record, {LE: Verdict.OUTSIDE}))

    assert found.may_go_live == ("C1", "C3")
    assert found.board == ()
    board = dead_tests(record, verdicts(record, {FEED_R1_R2: Verdict.OUTSIDE}))
    assert board.may_go_live == ("C1", "C2", "C3")
    assert board_words(record, board.board) == ("Feed: R1+R2 outside",)


def test_a_blank_and_a_test_set_aside_keep_it_off_and_are_counted() -> None:
    record = job()
    count = dead_tests(record, verdicts(record)).right
    blank = job(without(LE))
    assert open_on(blank, "C2") == ["insulation L-E not taken"]
    assert dead_tests(blank, verdicts(blank)).right == count - 1
    assert dead_tests(blank, verdicts(blank)).set_aside == 0
    aside = job(spoilt(LE, NotNeeded(reason="no time.")))
    assert open_on(aside, "C2") == ["insulation L-E set aside as not needed: no time"]
    assert dead_tests(aside, verdicts(aside)).set_aside == 1
    unable = job(spoilt(LE, NotTaken(reason="no access.")))
    assert open_on(unable, "C2") == ["insulation L-E could not be taken: no access"]
    assert dead_tests(unable, verdicts(unable)).set_aside == 0


@pytest.mark.parametrize(
    ("reason", "words"),
    [
        (NotNeeded(reason="no time"), "outside, then set aside as not needed: no time"),
        (NotTaken(reason="no time"), "outside, then could not be taken: no time"),
    ],
)
def test_what_was_read_wrong_is_said_before_the_reason_that_came_after_it(
    reason: Entry, words: str
) -> None:
    record = job(took(LE, reason, 30))

    assert open_on(record, "C2", {LE: Verdict.OUTSIDE}) == [f"insulation L-E {words}"]


def test_without_its_arrangement_a_circuit_stays_off_and_says_why() -> None:
    assert open_on(job(formless("C2")), "C2")[0] == (
        "its arrangement (ring, radial …) isn't entered, so its continuity isn't tested"
    )


@pytest.mark.parametrize(
    ("change", "verdict", "stand_in"),
    [
        (joined(30), Verdict.WITHIN, True),
        (joined(30), Verdict.NEAR, True),
        (joined(30), Verdict.UNLIKELY, False),
        (joined(30), Verdict.OUTSIDE, False),
        (joined(30), Verdict.NOT_TAKEN, False),
        (joined(30), None, False),
        (joined(30, "L and N not joined"), Verdict.WITHIN, False),
        (joined(30, ""), Verdict.WITHIN, False),
    ],
)
@pytest.mark.parametrize("pair", [LN, NE])
def test_both_joined_to_earth_stand_in_for_a_pair_that_was_not_taken(
    pair: Slot, change: Change, verdict: Verdict | None, stand_in: bool
) -> None:
    """IET Guidance Note 3 (from memory): with equipment in place L and N are joined."""
    blank = job(without(pair), change)
    aside = job(spoilt(pair, NotNeeded(reason="heater in place")), change)

    for record in (blank, aside):
        assert (open_on(record, "C2", {LE: verdict}) == []) is stand_in
    # No other test is stood in for.
    assert open_on(job(without(RUN), change), "C2", {LE: verdict})[0].startswith("R1+R2 not taken")


def test_a_pair_that_could_not_be_taken_is_stood_in_for_as_well() -> None:
    unable = spoilt(LN, NotTaken(reason="heater can't come off"))

    assert open_on(job(unable, joined(30)), "C2") == []
    assert open_on(job(unable), "C2") == [
        "insulation L-N could not be taken: heater can't come off"
    ]


def test_a_wrong_neutral_is_put_right_by_both_joined_after_it_and_a_wrong_pair_is_not() -> None:
    aside = NotNeeded(reason="joined")

    def words(pair: Slot, read: float, together: float) -> list[str]:
        record = job(took(pair, 0.0, read), joined(together), took(pair, aside, 50))
        return open_on(record, "C2", {pair: Verdict.OUTSIDE})

    assert words(NE, 30, 31) == []
    assert words(NE, 31, 30) != []
    assert words(LN, 30, 31) != []


@pytest.mark.parametrize(("verdict", "stays"), [(Verdict.WITHIN, False), (Verdict.OUTSIDE, True)])
def test_a_test_that_nobody_asked_for_keeps_its_circuit_off_if_it_was_wrong(
    verdict: Verdict, stays: bool
) -> None:
    optional = slot(Quantity.RN_R2, DEAD, "C2")
    record = job(took(optional, 0.5, 30))
    assert optional not in slots(record, DEAD)

    assert bool(open_on(record, "C2", {optional: verdict})) is stays
    assert open_on(record, "C1", {optional: verdict}) == []
    later = took(optional, NotNeeded(reason="not asked for"), 31)(record)
    assert bool(open_on(later, "C2", {optional: verdict})) is stays
    live = job(took(ZS2, 9.0, 30))
    assert open_on(live, "C2", {ZS2: Verdict.OUTSIDE}) == []  # no dead test


def elsewhere(by: str | None, wrong: bool = False) -> tuple[Record, dict[str, Verdict]]:
    paper = StandIn(by=by, where="schedule 12") if by else None
    before = took(EARTHING, 9.0, 29) if wrong else took(EARTHING, 0.02, 29)
    record = job(before, took(EARTHING, NotTaken(reason="done before", stands_in=paper), 30))
    return record, verdicts(record, {EARTHING: Verdict.OUTSIDE if wrong else Verdict.WITHIN})


def test_only_who_certifies_vouches_for_a_test_of_the_board_that_was_recorded_elsewhere() -> None:
    record, stood = elsewhere(CERTIFIER.id)
    found = dead_tests(record, stood)
    assert [where for where, _ in found.elsewhere] == [EARTHING]
    assert found.board == ()

    for by in ("A1", None):
        record, stood = elsewhere(by)
        found = dead_tests(record, stood)
        assert found.elsewhere == ()
        assert [each.slot for each in found.board] == [EARTHING]


def test_no_other_paper_mends_what_was_read_here_and_is_wrong() -> None:
    record, stood = elsewhere(CERTIFIER.id, wrong=True)
    found = dead_tests(record, stood)

    assert found.elsewhere == ()
    assert [each.slot for each in found.board] == [EARTHING]


def test_what_was_open_at_a_moment_knows_what_was_read_at_that_moment_and_not_later() -> None:
    record = job(without(LE), took(LE, 0.1, 30), took(LE, 900.0, 40))
    stood = verdicts(record)
    stood[record.taken(LE)[0].id] = Verdict.OUTSIDE
    tests = DeadTestsOf(record, stood)

    def words(minutes: float) -> list[str]:
        return [each.words for each in tests.on_circuit("C2", at_minute(minutes))]

    assert words(29.9) == ["insulation L-E not taken"]
    assert words(30) == ["insulation L-E outside"]
    assert words(39.9) == ["insulation L-E outside"]
    assert words(40) == []
    assert tests.on_circuit("C2") == ()
    assert [each.words for each in tests.on_board(at_minute(-1))][:1] == ["R1+R2 not taken"]


def test_an_open_test_is_said_with_the_point_it_is_at() -> None:
    crossed = slot(Quantity.CROSS_LN, DEAD, "C1", "P2")

    assert OpenTest(crossed, "outside", "S2").words == f"{crossed.quantity.value} at S2 outside"
    assert OpenTest(None, "no arrangement").words == "no arrangement"
    assert open_on(job(), "C1", {crossed: Verdict.OUTSIDE}) == [
        f"{crossed.quantity.value} at S2 outside"
    ]
