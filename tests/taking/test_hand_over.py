"""What the certifier has to know at hand-over that no verdict says."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.errors import BadText, CannotWrite
from records.judgement.todo.progress import Standing, State
from records.model.reading import LiveException, LiveGate, NotNeeded, NotTaken
from records.model.record import Record
from records.taking.hand_over import StepState, limitations, states, suggested, target
from records.terms import Step
from tests.interlock.test_answers import from_notes
from tests.taking.locks import CERTIFIER, LE, RUN, Change, at_minute, job, took


def gate(**more: object) -> Change:
    made = LiveGate(at=at_minute(60), by="A1", isolation_understood=True, **more)
    return lambda record: record.model_copy(update={"live_gate": (*record.live_gate, made)})


def said(record: Record) -> list[str]:
    return [each for each in limitations(record) if "250 V" not in each]


def test_a_step_says_how_far_it_is() -> None:
    def words(taken: int, wanted: int, open: int, state: State = State.BEGUN) -> str:
        return StepState(Step.DEAD_TESTS, Standing(state, taken, wanted, open)).words

    assert words(3, 12, 1) == "begun · 3 of 12 · 1 open"
    assert words(3, 12, 0) == "begun · 3 of 12"
    assert words(0, 0, 2) == "begun · 2 open"
    assert not StepState(Step.DEAD_TESTS, Standing(State.BEGUN, 3, 12, 1)).is_complete
    assert StepState(Step.DEAD_TESTS, Standing(State.COMPLETE, 12, 12, 0)).is_complete


def test_the_steps_before_the_hand_over_come_in_the_order_of_the_work() -> None:
    begun = Standing(State.BEGUN, 1, 2, 0)
    progress = dict.fromkeys(reversed(Step), begun)

    assert [each.step for each in states(progress)] == [
        each for each in Step if each is not Step.HAND_OVER
    ]


def test_a_sound_job_has_nothing_to_be_told() -> None:
    assert said(job()) == []


@pytest.mark.parametrize(
    ("reason", "words"),
    [
        (NotTaken(reason="locked room"), "locked room"),
        (NotNeeded(reason="heater in place"), "heater in place"),
    ],
)
def test_what_was_set_aside_is_told_with_its_reason(
    reason: NotTaken | NotNeeded, words: str
) -> None:
    (found,) = said(job(took(RUN, reason, 30)))

    assert found.startswith("C2 ")
    assert words in found
    assert said(job(took(RUN, reason, 30), took(RUN, 0.29, 31))) == []


def test_what_came_later_or_without_a_name_is_counted() -> None:
    late = from_notes(LE, took(LE, 900.0, 0)(job()).readings[-1].taken, 30, 90)
    unnamed = took(LE, 900.0, 31, by="A1")

    assert said(job(late)) == [
        "One reading was entered later, from notes; both times are in the schedule."
    ]
    assert said(job(late, late))[0].startswith("2 readings were entered later")
    record = job(unnamed)
    last = record.readings[-1].model_copy(update={"by": None})
    record = record.model_copy(update={"readings": (*record.readings[:-1], last)})
    assert said(record) == ["One reading was entered without the name of a person."]


def test_what_was_tested_live_in_spite_of_its_dead_tests_is_told_with_who_decided() -> None:
    decided = LiveException(
        circuit="C2", by=CERTIFIER.id, reason="heater can't come off.", despite=("r1 outside",)
    )

    assert said(job(gate(exceptions=(decided,)), gate(exceptions=(decided,)))) == [
        "C2 was tested live in spite of r1 outside: decided by Ash Reed, because heater can't "
        "come off."
    ]
    other = decided.model_copy(update={"circuit": "C1"})
    both = said(job(gate(exceptions=(decided, other))))
    assert [each[:2] for each in both] == ["C1", "C2"]
    stranger = decided.model_copy(update={"by": "A9"})
    assert "decided by A9" in said(job(gate(exceptions=(stranger,))))[0]


def test_live_tests_begun_with_open_findings_are_told_with_what_was_open() -> None:
    (found,) = said(job(gate(despite=("C2: r1 outside",))))

    assert "although the dead tests had open findings: C2: r1 outside." in found
    assert said(job(gate())) == []


def test_the_document_lies_beside_the_record_unless_it_is_said_where(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"

    assert suggested(path) == tmp_path / "job.docx"
    assert target("schedule", path) == tmp_path / "schedule.docx"
    assert target("schedule.docx", path) == tmp_path / "schedule.docx"
    assert target("job 7.2", path) == tmp_path / "job 7.2.docx"
    assert target(str(tmp_path / "a.docx"), path) == tmp_path / "a.docx"


@pytest.mark.parametrize("kind", [".pdf", ".odt", ".txt", ".json", ".farboard", ".PDF"])
def test_another_kind_of_file_is_refused_and_not_given_a_second_ending(
    kind: str, tmp_path: Path
) -> None:
    with pytest.raises(CannotWrite):
        target(f"schedule{kind}", tmp_path / "job.farboard")


def test_nothing_typed_a_folder_and_a_stranger_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    for text, says in ((" ", "Type a file name"), (str(tmp_path), "is a folder")):
        with pytest.raises(BadText, match=says):
            target(text, path)
    with pytest.raises(BadText, match="no such person"):
        target("~nobody-here/schedule", path)
