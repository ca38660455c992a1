"""Points in one line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.shorthand.points_line import NewPoint, read_points


def test_points_and_a_spur():
    found = read_points("S1 door 6m, S2 bench 11m, spur S3 4m")

    assert found.points == (
        NewPoint("S1 door", 6.0),
        NewPoint("S2 bench", 11.0),
        NewPoint("S3", 11.0, 4.0, "S2 bench"),
    )
    assert found.echo == (
        "S1 door: 6 m from the board; S2 bench: 11 m from the board; S3: spur of 4 m off S2 bench."
    )


def test_a_row_at_a_spacing():
    found = read_points("L1-L10 from 3m every 1.2m")

    assert [each.name for each in found.points] == [f"L{at}" for at in range(1, 11)]
    assert [each.at for each in found.points][:3] == [3.0, 4.2, 5.4]
    assert found.points[-1].at == 13.8


@pytest.mark.parametrize(
    "text", ["L1 to L3 from 3 m every 1.2 m", "L1-3 every 1.2m from 3m", "l1–l3 from 3 every 1.2"]
)
def test_a_row_in_other_words(text: str):
    assert [each.at for each in read_points(text).points] == [3.0, 4.2, 5.4]


def test_a_distance_with_plus_is_from_the_point_before_on_the_cable():
    found = read_points("S1 +6m; S2 +5 m; spur S3 4m; S4 +2m")

    assert [each.at for each in found.points] == [6.0, 11.0, 11.0, 13.0]


def test_a_spur_may_name_the_point_it_leaves():
    found = read_points("S1 6m, S2 11m, spur S3 off S1 4m, S4 off S2 1.5m")

    assert [(each.at, each.spur) for each in found.points[2:]] == [(6.0, 4.0), (11.0, 1.5)]


def test_new_points_go_on_from_those_that_are_there():
    there = [NewPoint("S1 door", 6.0)]
    assert read_points("S2 +2m", there).points == (NewPoint("S2", 8.0),)
    assert "there already" in read_points("S1 door 7m", there).reasons[0]


def test_a_figure_in_a_name_is_no_distance_beside_one_with_its_unit():
    found = read_points("over loom 1 9m, over loom 2 13.5 m, bench 18")

    assert [(each.name, each.at) for each in found.points] == [
        ("over loom 1", 9.0),
        ("over loom 2", 13.5),
        ("bench", 18.0),
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("S1 450", "metres or millimetres? Type 450m or 450mm."),
        ("spur S3 4m", "a spur leaves a point"),
        ("S1 6m, spur S2", "say how long the spur is"),
        ("6m", "name the point"),
        ("S1 6m 7m", "two distances"),
        ("L1-L5", "where the row starts and its spacing"),
        ("L1-L5 from 3m every 1m wobble", "“wobble” is not understood"),
        ("L1-L90 from 3m every 1m", "2 to 40 points"),
        ("S1 6m, spur S2 off S9 4m", "“s9” is no one point"),
        ("S1, S2 +3m", "S1 has no distance"),
        ("S1 1,250m", "could be 1.250 or 1250"),
        ("S1 2001m", "2,000 m is the most"),
        ("S1 door 20 ft", "“20 ft” is no length in metres"),
        ("S1 20ft", "“20ft” is no length in metres"),
        ("S1 door 5'", "“5'” is no length in metres"),
        ("S1 6 yards", "“6 yards” is no length in metres"),
    ],
)
def test_what_is_not_clear_is_named_and_stays(text: str, says: str):
    found = read_points(text)

    assert says in found.reasons[0]
    assert found.left
    assert text.endswith(found.left)


@given(st.text(max_size=40))
def test_any_text_is_points_or_named(text: str):
    found = read_points(text)
    assert bool(found.unknown) == bool(found.reasons)
