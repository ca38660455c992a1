"""One cause, one finding: the others point to it. Each case is common practice."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.loop.circuit_share import own_share
from records.judgement.patterns.equal import HALF
from records.judgement.patterns.odd_board import OFF, OFF_SHARE
from records.judgement.patterns.raised_loops import LEAST, MANY, SHARE
from records.judgement.patterns.same_pair import NEW
from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    SOUND,
    ZDB,
    ZE,
    at,
    circuit,
    findings,
    line,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    without,
    zs,
)
from tests.judgement.test_patterns import value_of

CIRCUITS = ("C1", "C2", "C3", "C4")
PAIRS = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)


def down(quantity: Quantity, *values: float, feed: float | None = None):
    changes = [(at(quantity, name), value) for name, value in zip(CIRCUITS, values, strict=True)]
    if feed is not None:
        changes.append((at(quantity, part=Part.FEED), feed))
    return spoilt(*changes)


@pytest.mark.parametrize("quantity", PAIRS)
@pytest.mark.parametrize("values", [(0.0, 0.01, 0.02, 0.099), (0.3, 0.4, 0.5, 0.6)])
def test_one_pair_down_alike_on_every_circuit_is_one_finding(quantity, values):
    record = down(quantity, *values)
    found = line(record, "/one pair down")

    assert findings(record) == {found.key: "outside"}
    for name in CIRCUITS:
        told = own(record, at(quantity, name))
        assert told.verdict is Verdict.OUTSIDE  # its own verdict stays
        assert told.part_of == found.key
        assert f"See “{found.title}”." in told.why
    if quantity is Quantity.IR_NE:
        assert "main switch is closed" in found.causes[0]


@pytest.mark.parametrize(
    "values",
    [
        (0.3, 0.4, 0.5, 0.61),  # more than twice
        (0.0, 0.0, 0.0, 0.1),  # one is not joined
        (0.0, 0.0, 0.0, NEW),  # one is sound
    ],
)
def test_readings_that_are_not_all_down_alike_are_each_for_themselves(values):
    record = down(Quantity.IR_NE, *values)

    assert not [key for key in findings(record) if key.endswith("one pair down")]
    assert own(record, at(Quantity.IR_NE, "C1")).part_of == ""


def test_two_circuits_are_too_few_and_the_feed_makes_the_third():
    two = circuit(circuit(SOUND, "C1"), "C2")
    two = two.model_copy(update={"circuits": two.circuits[1:3]})
    record = sound_job(two)
    slots = [at(Quantity.IR_NE, "C2"), at(Quantity.IR_NE, "C3")]
    low = spoilt(*((slot, 0.01) for slot in slots), record=record)
    assert "board/N-E/-/one pair down" not in findings(low)
    assert not [key for key in findings(low) if key.endswith("one pair down")]

    third = spoilt((at(Quantity.IR_NE, part=Part.FEED), 0.01), record=low)
    assert [key for key in findings(third) if key.endswith("one pair down")]


def test_the_feed_may_be_sound_while_every_circuit_is_down():
    found = line(down(Quantity.IR_NE, 0.01, 0.01, 0.01, 0.01), "/one pair down")

    assert at(Quantity.IR_NE, part=Part.FEED) not in found.about


def damp(*places: str, value: float = 20.0):
    scatter = zip(PAIRS, (0.0, 0.02, 0.04), strict=True)
    pairs = [(pair, 1 - more) for pair, more in scatter]
    return spoilt(
        *((at(pair, name), round(value * share, 4)) for name in places for pair, share in pairs)
    )


def test_cables_that_are_damp_together_are_one_finding():
    record = damp("C2", "C3", value=0.6)
    found = line(record, "/all pairs low")

    assert findings(record) == {found.key: "outside"}
    assert "C2 and C3" in found.causes[0]
    assert found.place.part is Part.BOARD
    assert len(found.about) == 6


@pytest.mark.parametrize(("value", "told"), [(2.0, True), (1.99, False)])
def test_a_pair_far_below_the_others_has_more_than_damp(value, told):
    """Ten times: on it, and just under."""
    record = spoilt(
        (at(Quantity.IR_LN, "C2"), 20.0),
        (at(Quantity.IR_LE, "C2"), value),
        (at(Quantity.IR_NE, "C2"), 20.0),
    )

    assert bool(own(record, at(Quantity.IR_LE, "C2")).part_of) is told


@pytest.mark.parametrize(
    ("value", "told"), [(49.9, True), (50.0, False), (0.0105, True), (0.01, False)]
)
def test_damp_is_between_joined_and_what_is_merely_not_new(value, told):
    assert any(key.endswith("all pairs low") for key in findings(damp("C2", value=value))) is told


def test_three_ring_ends_open_at_once_are_one_finding():
    ends = [at(each, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2)]
    record = spoilt(*((slot, over(99.9)) for slot in ends))
    found = line(record, "/ring open")

    assert list(findings(record)) == [found.key]
    assert "two different cables" in found.causes[0]
    assert all(own(record, slot).part_of == found.key for slot in ends)
    two = spoilt(*((slot, over(99.9)) for slot in ends[:2]))
    assert "ring open" not in str(findings(two))


def gland(excess: float, *names: str):
    """A gland of the feed that adds so much to the loop at the board, and to those behind it."""
    record = circuit(SOUND, "C2")
    job = sound_job(record)
    return spoilt(
        (ZDB, round(value_of(ZDB) + excess, 2)),
        (FEED_R1_R2, round(value_of(FEED_R1_R2) + excess, 2)),
        *((zs(name), round(value_of(zs(name)) + excess, 2)) for name in names),
        record=job,
    )


def test_a_feed_gland_that_raises_every_loop_is_one_finding():
    record = gland(1.6, *CIRCUITS)
    found = line(record, "/loops raised")
    others = [key for key in findings(record) if key != found.key and "fault current" not in key]

    assert found.verdict is Verdict.OUTSIDE
    assert own(record, zs("C2")).part_of == found.key
    assert own(record, zs("C2")).verdict is Verdict.OUTSIDE
    assert own(record, FEED_R1_R2).part_of == found.key
    assert not [key for key in others if key.endswith(("/Zs", "/Zdb", "dead tests/R1+R2"))]


def test_a_circuit_with_too_much_of_its_own_is_not_told_by_the_feed():
    record = spoilt((zs("C2"), round(value_of(zs("C2")) + 2.4, 2)), record=gland(1.6, *CIRCUITS))

    assert own(record, zs("C2")).part_of == ""
    assert own(record, zs("C3")).verdict.is_finding is False or own(record, zs("C3")).part_of


def by_excess(*extra: float):
    record = without(ZDB)
    meant = {name: own(record, zs(name)).expected.value for name in CIRCUITS}
    pairs = zip(CIRCUITS, extra, strict=True)
    return spoilt(
        *((zs(name), round(meant[name] + more, 2)) for name, more in pairs), record=record
    )


@pytest.mark.parametrize(
    ("extra", "told"),
    [
        ((0.5, 0.5, 0.5, 0.5), True),
        ((0.5, 0.5, 0.5, 0.59), True),
        ((0.5, 0.5, 0.5, 0.63), False),
        ((0.22, 0.22, 0.22, 0.22), True),
        ((0.17, 0.22, 0.22, 0.22), False),
    ],
)
def test_without_zdb_a_common_excess_is_looked_for_before_the_circuits(extra, told):
    found = [key for key in findings(by_excess(*extra)) if key.endswith("loops raised")]

    assert bool(found) is told


def test_no_loop_closed_anywhere_is_one_finding_and_the_gravest():
    record = spoilt(*((zs(name), over(1999.0)) for name in CIRCUITS), (ZDB, over(1999.0)))
    found = reviewed(record).findings[0]

    assert found.key.endswith("/all loops open")
    assert own(record, ZDB).part_of == own(record, zs("C3")).part_of == found.key
    assert "earth of the feed" in found.causes[0]
    behind = spoilt(*((zs(name), over(1999.0)) for name in CIRCUITS))
    assert "circuits' earth bar" in line(behind, "/all loops open").causes[0]
    assert own(behind, ZDB).verdict is not Verdict.OUTSIDE
    one = spoilt(*((zs(name), over(1999.0)) for name in CIRCUITS[:3]))
    assert not [key for key in findings(one) if key.endswith("all loops open")]


# Which of many is the odd one.


@pytest.mark.parametrize(("extra", "told"), [((0.3,) * 4, True), ((0.3, 0.3, 0.3, 0.43), False)])
def test_the_same_too_much_on_every_circuit_is_the_rcds_and_not_zdb(extra, told):
    changes = (
        (zs(name), round(value_of(zs(name)) + more, 2))
        for name, more in zip(CIRCUITS, extra, strict=True)
    )
    record = spoilt(*changes)
    found = [key for key in findings(record) if key.endswith("loops alike above")]

    assert bool(found) is told
    assert own(record, ZDB).verdict is Verdict.WITHIN
    if told:
        assert list(findings(record)) == found


@pytest.mark.parametrize("zdb", [1.1, 0.05])
def test_where_all_circuits_agree_against_zdb_only_zdb_is_doubted(zdb):
    record = spoilt((ZDB, zdb))
    found = findings(record)

    assert "board/-/-/live/Zdb" in found
    assert not [key for key in found if key.endswith("/Zs")]


def test_how_far_zdb_may_be_off_what_all_circuits_say():
    """0.15 Ω, or three tenths of it."""
    middle = value_of(ZDB)
    allowed = max(OFF, OFF_SHARE * middle)
    for by, told in ((allowed - 0.03, False), (allowed + 0.03, True)):
        patterns = own(spoilt((ZDB, round(middle + by, 2))), ZDB).patterns
        assert ("odd zdb" in patterns) is told


# The same figure on circuits that can't have it.


def test_equal_loops_on_different_lengths_are_asked_about():
    record = spoilt(*((zs(name), 0.62) for name in CIRCUITS))
    found = line(record, "/equal loops")

    assert found.is_finding
    assert set(found.about) == {zs(name) for name in CIRCUITS}
    assert not [key for key in findings(record) if key.endswith("/Zs")]


@pytest.mark.parametrize(("count", "told"), [(2, False), (3, True)])
def test_three_equal_readings_are_more_than_chance(count, told):
    loops = spoilt(*((zs(name), 0.62) for name in CIRCUITS[:count]))
    times = spoilt(*((at(Quantity.RCD_TIME, name, Stage.LIVE), 31.0) for name in CIRCUITS[:count]))

    assert bool([key for key in findings(loops) if key.endswith("equal loops")]) is told
    assert bool([key for key in findings(times) if key.endswith("equal times")]) is told


def test_loops_by_an_electrode_may_well_be_equal():
    """71.7 Ω each, of which the cables are 0.2 to 0.7 Ω: less than two readings scatter by."""
    island = sound_job(ISLAND)
    same = spoilt(*((zs(name), 41.0) for name in CIRCUITS), record=island)

    assert not [key for key in findings(same) if key.endswith("equal loops")]


def test_equal_loops_of_equal_lengths_are_what_they_should_be():
    alike = tuple(SOUND.circuits[1].model_copy(update={"id": name}) for name in CIRCUITS)
    record = sound_job(SOUND.model_copy(update={"circuits": alike}))
    same = spoilt(*((zs(name), value_of(zs("C2"))) for name in CIRCUITS), record=record)

    assert not [key for key in findings(same) if key.endswith("equal loops")]


def test_half_of_the_circuits_have_to_agree():
    many = tuple(SOUND.circuits[1 + n % 3].model_copy(update={"id": f"C{n + 1}"}) for n in range(7))
    record = sound_job(SOUND.model_copy(update={"circuits": many}))
    slots = [at(Quantity.RCD_TIME, each.id, Stage.LIVE) for each in many]
    for count, told in ((3, False), (4, True)):
        same = spoilt(*((slot, 41.0) for slot in slots[:count]), record=record)
        assert bool([key for key in findings(same) if key.endswith("equal times")]) is told
    assert HALF == 0.5
    assert MANY == 3
    assert (OFF, OFF_SHARE, LEAST, SHARE) == (0.15, 0.3, 0.1, 0.2)


# Each limit of judgement: on it, just over, just under.


@pytest.mark.parametrize(("over_it", "told"), [(-0.01, False), (0.0, False), (0.01, True)])
def test_how_far_the_way_to_the_board_may_be_over_what_leads_to_it(over_it, told):
    """0.1 Ω, or a fifth of it; the loops behind are over their limit by it."""
    base = sound_job()
    facts = Facts.of(base, expected(base))
    before = value_of(ZE) + facts.meter_value(FEED_R1_R2)
    zdb = before + max(LEAST, SHARE * before) + over_it
    limit = own(base, zs("C2")).limit.value
    run = limit - zdb + 0.02
    record = spoilt((ZDB, zdb), (zs("C2"), limit + 0.02), (at(Quantity.R1_R2, "C2"), run))

    assert any(key.endswith("loops raised") for key in findings(record)) is told


@pytest.mark.parametrize(("apart", "told"), [(0.05, False), (0.052, True)])
def test_how_far_apart_equal_loops_should_be(apart, told):
    """Two lengths of one cable, so that the loops differ by so much as expected."""
    first = SOUND.circuits[1]
    metre = _ohms_per_metre()
    more = (apart - 0.0005) / metre if not told else (apart + 0.001) / metre
    longer = first.runs[0].model_copy(update={"length": first.runs[0].length + more})
    names = ("C1", "C2", "C3")
    circuits = tuple(
        first.model_copy(
            update={"id": name, "points": (), "runs": (longer,) if name == "C3" else first.runs}
        )
        for name in names
    )
    record = sound_job(SOUND.model_copy(update={"circuits": circuits}))
    record = spoilt(*((zs(name), 0.71) for name in names), record=record)

    assert any(key.endswith("equal loops") for key in findings(record)) is told


def _ohms_per_metre() -> float:
    longer = circuit(
        SOUND,
        "C2",
        runs=(SOUND.circuits[1].runs[0].model_copy(update={"length": 28.0}),),
        points=(),
    )
    one, other = (expected(each).meter[zs("C2")].value for each in (SOUND, longer))
    return (other - one) / 10.0


@pytest.mark.parametrize(("scatter", "told"), [(0.099, True), (0.12, False)])
def test_how_alike_what_the_circuits_say_of_zdb_has_to_be(scatter, told):
    base = sound_job()
    facts = Facts.of(base, expected(base))
    says = {each.id: own_share(facts, each) for each in base.circuits}
    names = list(says)
    loops = (
        (zs(name), 0.5 + says[name] + (scatter if name == names[-1] else 0.0)) for name in names
    )
    record = spoilt((ZDB, 1.1), *loops)

    assert ("odd zdb" in own(record, ZDB).patterns) is told


@pytest.mark.parametrize(("volts", "told"), [(499.0, False), (500.0, True)])
def test_damp_is_looked_for_at_the_usual_test_voltage(volts, told):
    slots = [at(pair, "C2") for pair in PAIRS]
    again = (
        read(900 + n, slot, 20.0 - n, 900 + n, test_voltage=volts, method="drivers in")
        for n, slot in enumerate(slots)
    )

    assert any(key.endswith("all pairs low") for key in findings(spoilt(*again))) is told


@pytest.mark.parametrize(("count", "told"), [(2, False), (3, True)])
def test_three_loops_with_the_same_excess_have_one_cause(count, told):
    few = SOUND.model_copy(update={"circuits": SOUND.circuits[1 : 1 + count]})
    record = sound_job(few)
    loops = [zs(each.id) for each in few.circuits]
    value = {slot: record.taken(slot)[0].taken.value for slot in loops}
    high = spoilt(*((slot, round(value[slot] + 0.4, 2)) for slot in loops), record=record)

    assert any(key.endswith("loops alike above") for key in findings(high)) is told
    bare = without(ZDB, record=high)
    assert any(key.endswith("loops raised") for key in findings(bare)) is told
