"""What follows from the design for a part: each figure beside what it is held against."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from records.entering.following import behind, following, needs_first
from records.expected.results import What, Worked
from records.model.reading import Place, place_of
from records.model.record import Record
from records.session import Session
from records.store.file import RecordFile
from records.terms import Part, Verdict
from tests.judgement.jobs import circuit, sound_job

C2, FEED = place_of(Part.CIRCUIT, "C2"), place_of(Part.FEED)


@contextmanager
def opened(folder: Path, record: Record) -> Iterator[Session]:
    session = Session(RecordFile.create(folder / "job.farboard", record))
    yield session
    session.close()


@pytest.fixture
def session(tmp_path: Path) -> Iterator[Session]:
    with opened(tmp_path, sound_job()) as found:
        yield found


@pytest.mark.parametrize(
    ("what", "word", "other"),
    [
        (What.ZS, "of", What.ZS_LIMIT),
        (What.TIME, "of", What.TIME_REQUIRED),
        (What.FAULT_HIGHEST, "of", What.BREAKING),
        (What.VOLT_DROP, "of", What.VOLT_DROP_LIMIT),
        (What.CPC_SIZE, "needs", What.CPC_LEAST),
    ],
)
@pytest.mark.parametrize("place", [C2, FEED], ids=["circuit", "feed"])
def test_a_figure_is_beside_its_own_limit(
    session: Session, place: Place, what: What, word: str, other: What
) -> None:
    design = session.expected.design
    if (place, what) not in design:
        pytest.fail(f"{place} has no {what}")
    found = [each for each in following(session, place) if each.result is design[place, what]]
    held = design.get((place, other))

    assert len(found) == 1
    if isinstance(held, Worked):
        assert found[0].beside == f"{word} {held}"
    assert found[0].worked is isinstance(design[place, what], Worked)


def test_figures_come_in_the_order_of_reading_under_their_trade_names(session: Session) -> None:
    names = [each.name for each in following(session, C2)]
    wanted = ["Zs, hot", "disconnection", "off by RCD", "voltage drop", "Ib", "In", "Iz"]
    wanted += ["highest fault", "lowest fault", "cpc"]

    assert [each for each in names if each in wanted] == wanted


def test_what_is_to_be_read_is_told_for_the_live_tests_and_not_twice(session: Session) -> None:
    names = [each.name for each in following(session, C2)]

    assert len(set(names)) == len(names)
    assert "meter: Zs" in names
    assert "meter: R1+R2" in names


def test_a_check_that_fails_says_so_with_its_ground(tmp_path: Path) -> None:
    run = sound_job().circuit("C2").runs[0]
    long = circuit(sound_job(), "C2", runs=(run.model_copy(update={"length": 400.0}),))
    with opened(tmp_path, long) as session:
        bad = [each for each in following(session, C2) if each.verdict is Verdict.OUTSIDE]

        assert bad
        assert all(each.why for each in bad)


def test_a_figure_that_is_not_calculated_says_so(tmp_path: Path) -> None:
    run = sound_job().circuit("C2").runs[0]
    open_one = circuit(sound_job(), "C2", runs=(run.model_copy(update={"length": None}),))
    with opened(tmp_path, open_one) as session:
        found = [each for each in following(session, C2) if not each.worked]

        assert found
        assert {each.brief for each in found} == {"not calculated"}


def test_all_else_of_the_part_is_behind_and_nothing_that_is_shown(session: Session) -> None:
    shown = [(each.name, each.result) for each in following(session, C2)]
    more = behind(session, C2, shown)
    there = {id(result) for _, result in shown}

    assert more
    assert not [name for name, result in more if id(result) in there]
    assert all(isinstance(result, Worked) for _, result in more)
    assert not {id(r) for _, r in more} & {id(r) for _, r in behind(session, FEED, ())}


def test_what_the_circuit_in_hand_lacks_comes_first() -> None:
    needs = ("C1 Ring: In?", "C2 Lights: In?", "C2: runs?", "C20 Heater: In?")

    assert needs_first(needs, C2) == ("C2 Lights: In?", "C2: runs?", "C1 Ring: In?", needs[3])
    assert needs_first(needs, FEED) == needs
    assert needs_first(needs, None) == needs
