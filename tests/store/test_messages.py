"""Faults of a record in plain sentences: where, what is wrong, what would be right."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from records.model.record import Record
from records.store.messages import explained
from records.store.showing import file_name, shown
from tests.store.conftest import reading


def _said(doc: object) -> str:
    with pytest.raises(ValidationError) as caught:
        Record.model_validate(doc)
    return explained(caught.value, doc)


def _circuit(**fields: object) -> dict[str, object]:
    return {"circuits": [{"id": "C2", **fields}]}


def _reading(**fields: object) -> dict[str, object]:
    return {"circuits": [{"id": "C1"}], "readings": [{**reading(1).model_dump(), **fields}]}


@pytest.mark.parametrize(
    ("doc", "sentence"),
    [
        (
            _circuit(runs=[{}, {"length": -3.5}]),
            "Circuit C2, run 2, Length: -3.5 m is not possible; it must be more than 0 and at "
            "most 2,000 m.",
        ),
        (
            _circuit(runs=[{"ambient": 81.0}]),
            "Circuit C2, run 1, Ambient temperature: 81 °C is not possible; it must be at least "
            "-10 and at most 80 °C.",
        ),
        (
            _circuit(runs=[{"cores": 2.5}]),
            "Circuit C2, run 1, Cores: 2.5 is not possible; it must be a whole number.",
        ),
        (
            _circuit(use="sauna"),
            "Circuit C2, Use: “sauna” is not possible; it must be one of: sockets; lighting; "
            "fixed.",
        ),
        (
            _circuit(outdoors="perhaps"),
            "Circuit C2, Feeds anything outdoors: “perhaps” is not possible; it must be true or "
            "false.",
        ),
        (_circuit(name=7), "Circuit C2, Name: 7 is not possible; it must be text."),
        (_circuit(runs=7), "Circuit C2, run list: 7 is not possible; it must be a list."),
        (
            _circuit(points=[{"id": "S1", "at": 3000.0}]),
            "Circuit C2, point S1, Distance from the board: 3,000 m is not possible; it must be "
            "at least 0 and at most 2,000 m.",
        ),
        ({"circuits": [{}]}, "Circuit 1, id: this is missing."),
        ({"job": 5}, "Job: 5 is not possible; it must be a group of fields."),
        (
            {"board": {"earth": "a nail"}},
            "Board, Earth of the outbuilding: “a nail” is not possible; it must be one of: "
            "exported; electrode.",
        ),
        (
            _reading(at="2026-03-20T12:00:00"),
            "Reading M1, at: “2026-03-20T12:00:00” is not possible; it must be a day and time "
            "with its zone, like 2026-03-20T14:05:00Z.",
        ),
        (
            _reading(taken={"kind": "not taken", "reason": "no"}),
            "Reading M1, value, reason: “no” is too short; give at least 3 characters.",
        ),
        (
            _reading(taken={"kind": "guess"}),
            "Reading M1, value: kind must be one of 'figure', 'tick', 'not taken', 'not needed'.",
        ),
        (
            _reading(taken={"kind": "figure", "value": 1e12}),
            "Reading M1, value: 1e+12 is not possible; it must be at least -10 and at most "
            "1,000,000,000.",
        ),
    ],
)
def test_a_fault_in_a_sentence(doc: dict[str, object], sentence: str) -> None:
    assert _said(doc) == sentence


def test_more_faults_than_one_can_read_are_counted() -> None:
    said = _said({"job": {f"f{n}": 1 for n in range(10)}})
    assert said.endswith("(And 7 more.)")
    assert said.count("a record has no such field") == 3


def test_what_is_shown_cannot_steer_the_terminal() -> None:
    assert shown("a\x1b[31m\u202e\nb") == "a�[31m��b"
    assert shown("x" * 100, 10) == "x" * 9 + "…"
    assert file_name("caf\udce9.farboard") == "caf�.farboard"
