"""Any sequence of changes, undo, redo and reopening, against lists in memory."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from records.errors import BadRecord
from records.store.edits import append, put, take_out
from records.store.exchange import from_json, to_json
from records.store.file import RecordFile
from records.store.patch import apply
from tests.store.conftest import reading, small_record

pytestmark = pytest.mark.slow

_words = st.text("ab Ωé<&{}[]/~'\"\\=", max_size=8)
_lengths = st.one_of(st.floats(0.1, 2000), st.integers(1, 2000))


class Editing(RuleBasedStateMachine):
    """The states are kept beside as a plain list with a position in it."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(prefix="farboard-test-"))
        self.path = self.folder / "job.farboard"
        self.file = RecordFile.create(self.path, small_record())
        self.states = [small_record()]
        self.at = 0
        self.longest = 1

    def _change(self, ops: list[dict[str, Any]]) -> None:
        before, mark = self.file.record, self.file.fingerprint
        try:
            after = self.file.change(ops)
        except BadRecord:
            assert self.file.fingerprint == mark
            assert self.file.record == before
            return
        if self.file.fingerprint != mark:
            self.states = [*self.states[: self.at + 1], after]
            self.at += 1
            self.longest += 1

    @rule(words=_words, reference=_words)
    def name(self, words: str, reference: str) -> None:
        self._change([*put("/job/place", words), *put("/job/reference", reference)])

    @rule(length=_lengths, number=st.integers(0, 3))
    def measure_out(self, length: float, number: int) -> None:
        self._change(put(f"/circuits/{number}/runs/0/length", length))

    @rule(name=_words, length=_lengths)
    def add_circuit(self, name: str, length: float) -> None:
        last = len(self.file.record.circuits)
        circuit = {"id": f"C{last + 1}", "runs": [{"length": 1}]}
        self._change(
            [
                *append("/circuits", circuit),
                {"op": "add", "path": f"/circuits/{last}/name", "value": name},
                *put(f"/circuits/{last}/runs/0/length", length),
            ]
        )

    @rule(number=st.integers(0, 3))
    def take_circuit_out(self, number: int) -> None:
        self._change(take_out(f"/circuits/{number}"))

    @rule(start=st.integers(0, 3), end=st.integers(0, 3))
    def move_circuit(self, start: int, end: int) -> None:
        self._change([{"op": "move", "from": f"/circuits/{start}", "path": f"/circuits/{end}"}])

    @rule(words=st.lists(_words, min_size=1, max_size=3))
    def name_over_and_over(self, words: list[str]) -> None:
        ops = [{"op": "add", "path": "/job/place", "value": word} for word in words]
        self._change([*ops, ops[-1], *put("/job/description", words[0])])

    @rule(value=st.floats(0, 10), number=st.integers(1, 8))
    def take_reading(self, value: float, number: int) -> None:
        self._change(append("/readings", reading(number, value)))

    @rule(ops=st.lists(st.sampled_from(["remove", "replace"]), min_size=1, max_size=2))
    def tamper(self, ops: list[str]) -> None:
        before = self.file.record.readings
        self._change([{"op": op, "path": "/readings/0", "value": {}} for op in ops])
        assert self.file.record.readings == before

    @rule()
    def undo(self) -> None:
        after = self.file.undo()
        assert (after is None) == (self.at == 0)
        if after is not None:
            self.at -= 1
            self.longest += 1

    @rule()
    def redo(self) -> None:
        after = self.file.redo()
        assert (after is None) == (self.at == len(self.states) - 1)
        if after is not None:
            self.at += 1
            self.longest += 1

    @precondition(lambda self: self.longest > 1)
    @rule()
    def reopen(self) -> None:
        mark = self.file.fingerprint
        self.file.close()
        self.file = RecordFile.open(self.path)
        assert self.file.fingerprint == mark

    @invariant()
    def it_is_as_the_model_says(self) -> None:
        assert self.file.record == self.states[self.at]
        assert self.file._fold.doc == self.file.record.model_dump(mode="json")

    def teardown(self) -> None:
        assert from_json(to_json(self.file.record)) == self.file.record
        assert len(list(self.file.history())) == self.longest
        replayed: dict[str, Any] = {}
        for number, change in enumerate(self.file.history(), start=1):
            assert change.number == number
            if number == 1:
                replayed = change.ops[0]["value"]
            else:
                apply(replayed, change.ops, undoing=change.undoes is not None)
        assert replayed == self.file._fold.doc
        self.file.close()
        with RecordFile.open(self.path, read_only=True) as looked:
            assert looked.record == self.states[self.at]
        shutil.rmtree(self.folder)


TestEditing = Editing.TestCase
TestEditing.settings = settings(max_examples=40, stateful_step_count=25, deadline=None)
