"""`farboard bench FILE` opens the wizard where readings are taken."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from records.model.job import Duty, Person
from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Step
from tests.taking.job import small_job
from tests.tui.rest import at_rest
from tui.app import FarboardApp
from tui.commands import bench as command
from tui.commands.program import program
from tui.local_state import Kept


def _app(monkeypatch: pytest.MonkeyPatch, folder: Path, *words: str) -> FarboardApp:
    """Return the wizard that the command would have run, on the small job."""
    path = folder / "job.farboard"
    RecordFile.create(path, _with_people()).close()
    made: list[FarboardApp] = []
    monkeypatch.setattr(command, "need_terminal", lambda: None)
    monkeypatch.setattr(
        command,
        "run",
        lambda file, *, begin: made.append(FarboardApp(file, kept=Kept(folder), begin=begin)),
    )
    answer = CliRunner().invoke(program, ["bench", str(path), *words])
    assert answer.exit_code == 0, answer.output
    return made[0]


def _with_people() -> Record:
    people = (
        Person(id="P1", name="Warp", duty=Duty.DESIGNS),
        Person(id="P2", name="Weft", duty=Duty.INSTALLS),
    )
    job = small_job()
    return job.model_copy(update={"job": job.job.model_copy(update={"people": people})})


@pytest.mark.parametrize(
    ("words", "step"),
    [
        ((), Step.BEFORE_COVERING),
        (("--stage", "dead"), Step.DEAD_TESTS),
        (("--stage", "live", "--by", "warp"), Step.LIVE_TESTS),
    ],
)
async def test_the_step_is_the_one_of_the_stage(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, words: tuple[str, ...], step: Step
) -> None:
    app = _app(monkeypatch, tmp_path, *words)
    async with app.run_test(size=(80, 24)) as pilot:
        await at_rest(pilot).pause()
        shown = [each for each in app.screen_stack if getattr(each, "step", None) is step]
        assert shown
        if "--by" in words:
            assert shown[0].bench.desk.settings.person == "P1"


async def test_somebody_who_is_not_in_the_job_is_said_and_the_record_is_let_go(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    app = _app(monkeypatch, tmp_path, "--by", "Nobody")
    async with app.run_test(size=(80, 24)) as pilot:
        await at_rest(pilot).pause()
        words = "\n".join(
            "".join(part.text for part in strip) for strip in app.screen._compositor.render_strips()
        )
        assert "“Nobody” is nobody in this job. It has: P1 Warp; P2 Weft." in " ".join(
            words.replace("│", " ").split()
        )
    RecordFile.open(tmp_path / "job.farboard").close()  # nothing holds it any more


def test_asking_again_is_for_lines_only(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    RecordFile.create(path).close()
    answer = CliRunner().invoke(program, ["bench", str(path), "--ask-again"])
    assert answer.exit_code == 2
    assert "say --plain as well" in answer.output
