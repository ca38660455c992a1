"""The history in words that say what was and what is."""

from __future__ import annotations

from records.model.reading import Figure, Quantity, Remedy
from records.store.edits import append, put, take_out
from records.store.file import RecordFile
from records.store.history_text import history_lines
from records.terms import Stage
from tests.store.conftest import NOON, reading


def test_each_change_is_told_from_what_to_what(file: RecordFile) -> None:
    file.change(put("/circuits/0/runs/0/length", 21.5))
    file.change([*put("/job/place", "Behind"), *put("/job/place", "")])
    file.change(put("/circuits/1/outdoors", True))
    file.change(append("/circuits", {"id": "C3", "name": "Heater"}))
    file.change(take_out("/circuits/2"))
    file.change(append("/readings", reading(1)))
    file.change(append("/remedies", Remedy(id="X1", finding="k", done="made good", at=NOON)))
    file.undo()
    file.redo()
    file.change([{"op": "move", "from": "/circuits/1", "path": "/circuits/0"}])
    file.change(put("/circuits/1/device", {"rating": 6.0}))

    assert [each.words for each in history_lines(file.history())] == [
        ("The record is made",),
        ("Circuit C1, run 1, Length: 18 m → 21.5 m",),
        ("Job, Place: not said → Behind", "Job, Place: Behind → not said"),
        ("Circuit C2, Feeds anything outdoors: not said → yes",),
        ("Circuit C3 is added",),
        ("Circuit C3 is removed",),
        ("Reading M1: Zs, C1, live tests: 0.35 Ω",),
        ("Remedy X1 is added",),
        ("Takes back change 8", "Remedy X1 is removed"),
        ("Puts on again what change 9 took back", "Remedy X1 is added"),
        ("Circuit C2 is removed", "Circuit C2 is added"),
        ("Circuit C1, protective device, In: not said → 6 A",),
    ]


def test_a_reading_is_told_with_what_was_taken_off_it(file: RecordFile) -> None:
    made = reading(1)
    slot = made.slot.model_copy(update={"quantity": Quantity.R1_R2, "stage": Stage.DEAD})
    less = made.model_copy(update={"slot": slot, "taken": Figure(value=0.37, leads=0.05)})
    file.change(append("/readings", less))

    assert [each.words for each in history_lines(file.history())][-1] == (
        "Reading M1: R1+R2, C1, dead tests: 0.37 Ω (0.42 Ω − 0.05 Ω leads)",
    )
