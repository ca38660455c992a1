"""What a changed value was and is: with its unit, a choice and a day by words, never by a code."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.demo import demo_record
from records.judgement.differences import differences
from records.store.difference_words import difference
from records.store.edits import put
from records.store.file import RecordFile
from records.store.history_text import history_lines

DEMO = demo_record()
KIND = "/circuits/0/device/kind"
ASKED = [
    (KIND, "rcbo-c", "Circuit C1, Protective device", "RCBO type B", "RCBO type C"),
    ("/feed/runs/0/length", 50.0, "Feed, run 1, Length", "6.5 m", "50 m"),
    ("/feed/runs/0/depth", 0.5, "Feed, run 1, Depth", "not said", "0.5 m"),
    ("/circuits/0/outdoors", True, "Circuit C1, Feeds anything outdoors", "no", "yes"),
    ("/job/started", "2026-03-02", "Job, Started on", None, "2 Mar 2026"),
    ("/board/earth", "electrode", "Board, Earth of the outbuilding", None, "earth electrode (TT)"),
]


@pytest.mark.parametrize(("pointer", "value", "where", "before", "after"), ASKED)
def test_a_change_its_history_and_its_undo_use_the_same_words(
    tmp_path: Path, pointer: str, value: object, where: str, before: str | None, after: str | None
) -> None:
    with RecordFile.create(tmp_path / "job.farboard", DEMO) as file:
        file.change(put(pointer, value))
        changed = file.record
        (line,) = list(history_lines(file.history()))[-1].words
        file.undo()
        back = difference(changed, file.record)

    assert line.startswith(f"{where}: ")
    was, _, now = line.removeprefix(f"{where}: ").partition(" → ")
    assert (before or was, after or now) == (was, now)
    assert back == f"{where}: now {was}"
    for each in differences(DEMO, changed):
        assert str(each).casefold().replace(", device,", ",") == line.casefold()
