"""What all loops have in common is told once, with Zdb read, calculated, or not read at all."""

from __future__ import annotations

from records.model.reading import Quantity, Reading
from records.model.record import Record
from records.terms import Stage, Verdict
from tests.judgement.jobs import ZDB, line, over, reviewed, sound_job, spoilt, without, zs
from tests.judgement.pattern_jobs import EVERY, on_all, raised_by, value_of

OPEN = over(1999.0)


def patterns(record: Record) -> set[str]:
    return {name for each in reviewed(record).findings for name in each.patterns}


def calculated(record: Record) -> Record:
    """Return the record with its Zdb calculated instead of read."""

    def changed(each: Reading) -> Reading:
        return each.model_copy(update={"method": "calculated"}) if each.slot == ZDB else each

    return record.model_copy(update={"readings": tuple(map(changed, record.readings))})


def test_no_earth_on_any_circuit_is_told_with_and_without_the_loop_at_the_board() -> None:
    """The worst that live tests can show: all metalwork behind the board could become live."""
    all_open = on_all(Quantity.ZS, OPEN, Stage.LIVE)
    unread = without(ZDB, record=all_open)
    there = spoilt((ZDB, OPEN), record=all_open)

    for record in (all_open, unread, there):
        found = line(record, "all loops open")
        assert found.verdict is Verdict.OUTSIDE
        assert "None of 4 circuits has an earth" in found.why
        assert "Switch the board off and lock it off" in found.next_check
    assert "not joined to the board's earth" in line(all_open, "all loops open").causes[0]
    for record in (unread, there):
        assert "the earth of the feed is off" in line(record, "all loops open").causes[0]
    assert ZDB in line(there, "all loops open").about
    assert ZDB not in line(all_open, "all loops open").about


def test_one_closed_loop_shows_that_there_is_an_earth_before_them() -> None:
    assert "all loops open" not in patterns(spoilt(*((zs(name), OPEN) for name in EVERY[1:])))
    alone = without(*(zs(name) for name in EVERY[1:]), record=spoilt((zs("C1"), OPEN)))
    assert "all loops open" not in patterns(alone)


def test_a_calculated_zdb_is_no_reading_that_could_be_raised() -> None:
    high = raised_by(1.6, (ZDB, round(value_of(ZDB) + 1.6, 2)))

    assert "loops raised" in patterns(high)
    assert "loops raised" not in patterns(calculated(high))
    assert "loops raised" not in patterns(sound_job())


def test_without_zdb_loops_that_are_a_fifth_of_an_ohm_over_are_one_finding() -> None:
    """0.2 Ω and three loops: common practice."""
    for more, told in ((0.19, False), (0.3, True)):
        record = without(ZDB, record=raised_by(more))
        assert ("loops raised" in patterns(record)) is told, more
