"""The sheet of what was built says in which room a point is."""

from __future__ import annotations

from records.document.as_built import circuits
from records.expected.results import Expected
from tests.judgement.jobs import SOUND
from tests.judgement.test_walking import with_rooms


def test_a_point_is_told_with_its_room_where_one_is_named() -> None:
    ring, radial, *_ = circuits(with_rooms(), Expected())

    assert ring["points"].startswith("S1 (store, 6 m); S2 (hall, 15 m)")
    assert "S4 (36 m)" in ring["points"]
    assert radial["points"] == "P1 (loft, 18 m)"
    assert circuits(SOUND, Expected())[1]["points"] == "P1 (18 m)"
