"""Points of a circuit, added in a row or by a line, and the same load at each."""

from __future__ import annotations

import pytest

from records.entering.points import (
    how_many,
    named_points,
    new_point,
    read_points_line,
    row_of_points,
    same_load,
)
from records.errors import BadQuantity, BadText
from records.model.circuit import Circuit, Point
from records.model.record import Record
from records.store.patch import Op, apply
from records.store.state import plain, read

CIRCUIT = Circuit(id="C1", points=(Point(id="S1", name="door", at=3.0), Point(id="S4", name="S4")))


def after(ops: list[Op], circuit: Circuit = CIRCUIT) -> tuple[Point, ...]:
    doc = plain(Record(circuits=(circuit,)))
    apply(doc, ops)
    return read(doc).circuits[0].points


def test_a_row_goes_on_after_the_last_id_and_leaves_distances_open() -> None:
    found = after(row_of_points(CIRCUIT, "/circuits/0", 3))

    assert found[:2] == CIRCUIT.points
    assert [(each.id, each.name, each.at) for each in found[2:]] == [
        ("S5", "S5", None),
        ("S6", "S6", None),
        ("S7", "S7", None),
    ]
    assert new_point(CIRCUIT) == Point(id="S5", name="S5")


def test_a_line_of_points_is_added_as_it_is_said() -> None:
    line = read_points_line(CIRCUIT, "bench 6m, window +2m")
    found = after(named_points(CIRCUIT, "/circuits/0", line.points))

    assert [(each.id, each.name, each.at) for each in found[2:]] == [
        ("S5", "bench", 6.0),
        ("S6", "window", 8.0),
    ]


def test_a_distance_is_from_the_point_before_by_its_name_or_its_id() -> None:
    unnamed = Circuit(id="C1", points=(Point(id="S1", name="", at=3.0),))
    named = Circuit(id="C1", points=(Point(id="S1", name="door", at=3.0),))

    assert read_points_line(unnamed, "S1 5m").reasons  # it is there already
    assert read_points_line(named, "door 5m").reasons
    assert not read_points_line(named, "S1 5m").reasons


@pytest.mark.parametrize(("text", "count"), [("1", 1), ("40", 40)])
def test_so_many_at_once(text: str, count: int) -> None:
    assert how_many(text) == count


@pytest.mark.parametrize("text", ["", "0", "41", "-3", "2.5", "ten", "٣", "4 0"])
def test_what_is_no_such_number_says_which_is(text: str) -> None:
    with pytest.raises(BadText, match="type how many points, 1 to 40"):
        how_many(text)


@pytest.mark.parametrize(
    ("text", "load", "power"),
    [
        ("2 A", 2.0, None),
        ("2", 2.0, None),
        ("10 W", None, 0.01),
        ("10w", None, 0.01),
        ("0.05 kW", None, 0.05),
    ],
)
def test_one_load_takes_the_place_of_what_stands_there(
    text: str, load: float | None, power: float | None
) -> None:
    there = CIRCUIT.model_copy(
        update={
            "points": tuple(
                p.model_copy(update={"load": 9.0, "power": 9.0}) for p in CIRCUIT.points
            )
        }
    )
    found = after(same_load(there, "/circuits/0", text), there)

    assert [(each.load, each.power) for each in found] == [(load, power)] * 2


@pytest.mark.parametrize("text", ["", "much", "2 m", "W"])
def test_what_is_no_load_is_refused(text: str) -> None:
    with pytest.raises(BadQuantity):
        same_load(CIRCUIT, "/circuits/0", text)
