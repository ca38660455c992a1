"""The builders of changes give JSON Patch with nothing but JSON in it."""

from __future__ import annotations

import json
from datetime import date

from records.model.circuit import Circuit
from records.store.edits import append, insert, put, swap, take_out
from records.terms import Use


def test_pieces_terms_and_days_become_json() -> None:
    """RFC 6902, sections 4.1 to 4.3: add at "-" appends; replace and remove name what is there."""
    ops = [
        *append("/circuits", Circuit(id="C1", use=Use.SOCKETS)),
        *put("/job/started", date(2026, 3, 20)),
        *put("/circuits", (Circuit(id="C1"),)),
        *take_out("/circuits/0"),
    ]
    assert json.loads(json.dumps(ops)) == ops
    assert [(op["op"], op["path"]) for op in ops] == [
        ("add", "/circuits/-"),
        ("replace", "/job/started"),
        ("replace", "/circuits"),
        ("remove", "/circuits/0"),
    ]
    assert ops[0]["value"]["use"] == "sockets"
    assert ops[1]["value"] == "2026-03-20"


def test_an_entry_is_put_in_before_another_and_two_change_places():
    points = [{"id": "P1"}, {"id": "P2"}]

    assert insert("/circuits/0/points/1", {"id": "P3"}) == [
        {"op": "add", "path": "/circuits/0/points/1", "value": {"id": "P3"}}
    ]
    assert swap("/circuits/0/points", points, 0, 1) == put(
        "/circuits/0/points", [{"id": "P2"}, {"id": "P1"}]
    )
    assert points[0] == {"id": "P1"}
