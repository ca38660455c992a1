"""The live tests line by line: the question, the earth after Ze, what is locked off."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.model.reading import Quantity, Tick
from records.taking.cautions import GATE
from records.terms import Stage
from tests.commands.conftest import Run
from tests.commands.plainly import ZE, made, record_of, talk
from tests.taking.job import put_back, ready_job, slot, small_job, with_figure

pytestmark = pytest.mark.slow


def test_live_tests_stand_behind_the_question(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, ready_job())
    for answers in (("no",), ("quit",), (), ("perhaps", "0.35")):
        ran = talk(run, job, *answers, stage="live")
        assert set(GATE) <= set(ran.stdout.splitlines())
        assert "Reading 1" not in ran.stdout
        assert "ok: " not in ran.stdout
    assert record_of(job) == ready_job()

    ran = talk(run, job, "yes", "ok", stage="live")
    assert "May go live, one circuit at a time: C1 Bench sockets, C2" in ran.stdout
    gate = record_of(job).live_gate[0]
    assert gate.isolation_understood
    assert gate.may_go_live == ("C1", "C2", "C3")
    assert gate.locked_off == ()


def test_nothing_goes_live_before_feed_and_board_are_right(run: Run, job: Path) -> None:
    """Common practice: no “in spite of that” for what everything else hangs on."""
    ran = talk(run, job, "yes", "ok", "0.35", stage="live")

    assert ran.returncode == 2
    assert "Feed, board and earths must be satisfactory before anything goes live." in ran.stdout
    assert "Feed: R1+R2 not taken" in ran.stdout
    assert "yes or no" not in ran.stdout
    assert record_of(job) == small_job()


def test_a_circuit_with_a_wrong_dead_test_stays_locked_off(run: Run, tmp_path: Path) -> None:
    bad = slot(Quantity.IR_LE, Stage.DEAD, "C2")
    job = made(tmp_path, put_back(with_figure(ready_job(), bad, 0.2)))
    ran = talk(run, job, "yes", "go: C2 Zs", "0.9", stage="live", more=("--ask-again",))

    assert "These stay locked off until they are satisfactory:" in ran.stdout
    assert "C2 Light [loft]: insulation L-E outside." in ran.stdout
    assert "May go live, one circuit at a time: C1 Bench sockets and C3 Heater." in ran.stdout
    assert "Leave it locked off: its dead tests come first." in ran.stdout
    assert not [each for each in record_of(job).readings if each.slot.quantity is Quantity.ZS]


def test_after_ze_nothing_is_taken_before_the_earth_is_back(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, ready_job())
    ran = talk(
        run,
        job,
        "yes",
        "ok",
        "y",
        "ok",
        "0.35",
        "go: C2 Zs",
        "0.9",
        "n",
        "0.9",
        "cant: too tired",
        "not needed: no time",
        stage="live",
        more=("--ask-again",),
    )
    taken = record_of(job).readings[len(ready_job().readings) :]

    assert "Caution. Answer this first: is the earth back on its bar and tight?" in ran.stdout
    assert [each.slot.quantity for each in taken] == [
        Quantity.POLARITY,
        Quantity.ZE,
        Quantity.EARTH_BACK,
    ]
    assert taken[2].taken == Tick(good=False)

    later = talk(run, job, "again", "y", stage="live", more=("--ask-again",))
    assert later.stdout.index("is the earth back") < later.stdout.index("Kept. Origin, earth put")
    assert record_of(job).readings[-1].taken == Tick(good=True)


def test_a_piped_yes_to_the_question_never_says_that_the_earth_is_back(
    run: Run, tmp_path: Path
) -> None:
    job = made(tmp_path, with_figure(ready_job(), ZE, 0.35))
    ran = talk(run, job, "yes", "2.2", stage="live")

    assert ran.returncode == 2
    assert record_of(job).readings[-1].slot == ZE
