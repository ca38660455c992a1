"""What is entered after a surface was covered is kept, and marked as from memory at every place."""

from __future__ import annotations

from datetime import date

import pytest

from records.document.walls.cut_sheet import cut_text
from records.document.walls.drawing import drawing
from records.document.walls.figure import surface_words
from records.document.walls.svg import svg
from records.judgement.fabric.memory import from_memory, remembered
from records.places.line import understood
from records.terms import Verdict
from tests.judgement.fabric.walls import job, judged, leg, wall
from tests.places.test_line import NORTH, after
from tui.widgets.wall_picture import Seen, picture, words

SHUT = date(2026, 3, 9)
COVERED = NORTH.model_copy(update={"covered": SHUT})


def record(*legs, surface=COVERED):
    return job(*legs, surfaces=(surface,), fixtures=())


@pytest.mark.parametrize(
    ("entered", "memory", "late"),
    [
        (date(2026, 3, 8), False, False),
        (SHUT, False, False),
        (date(2026, 3, 10), False, True),
        (SHUT, True, True),
        (None, False, False),
        (None, True, True),
    ],
)
def test_the_day_after_covering_is_from_memory_and_so_is_the_hour_after(entered, memory, late):
    route = leg(entered=entered, memory=memory)

    assert from_memory(COVERED, route) is late
    assert not from_memory(NORTH, route)  # it is open: what is there can be seen


def test_each_line_typed_behind_a_board_says_so_and_is_kept_so():
    made = after("S1 450 up 620 along 2g", record(), COVERED)
    made = after("C1 cable from S1 up 2000, deep 40", made, COVERED)
    made = after("L1 hole 20 at 300, stud 95, face 37", made, COVERED)
    made = after("this board 15", made, COVERED)
    surface = made.fabric.surfaces[0]

    assert remembered(made, surface) == (
        "S1",
        "cable C1 487.5 to 2000 up, 620 along",
        "Board thickness",
    )
    assert made.fabric.legs[0].holes[0].memory
    for line in ("S2 450 up 900 along 2g", "C1 cable from 600 500 up 900"):
        assert "marked as from memory" in understood(made, surface, line).echo


def test_while_a_wall_is_open_nothing_is_marked():
    made = after("S1 450 up 620 along 2g", record(surface=NORTH))

    assert remembered(made, made.fabric.surfaces[0]) == ()
    assert "memory" not in understood(record(surface=NORTH), NORTH, "S1 450 up 620 along 2g").echo


def test_the_day_of_the_entry_is_kept():
    made = understood(record(), COVERED, "S1 450 up 620 along 2g", date(2026, 3, 12))

    assert any("2026-03-12" in str(op) for op in made.ops)


def test_it_is_a_finding_with_what_to_do_before_anybody_drills():
    found = judged(record(leg(memory=True)), "memory W1")

    assert found.verdict is Verdict.NEAR
    assert "9 Mar 2026" in found.why
    assert "500 to 2500 along" in found.why
    assert "locator" in found.next_check


def test_screen_drawing_sheet_and_document_carry_the_mark():
    made = after("S1 450 up 620 along 2g", record(leg(memory=True)), COVERED)
    surface = made.fabric.surfaces[0]
    rows = [
        "".join(text for text, _ in row)
        for row in picture(made, surface, Seen(), 70, 20, plain=False)
    ]

    assert any("S1?" in row for row in rows)
    assert any("1?" in row for row in rows)
    assert "from memory" in words(made, surface, Seen())
    assert svg([drawing(made, surface)]).count("from memory") == 2
    assert "S1 (from memory)" in cut_text(made, surface)
    said = " ".join(surface_words(made, surface))
    assert said.count("(from memory)") == 2


def test_what_was_there_before_carries_none():
    surface = wall(covered=SHUT)
    early = job(leg(entered=date(2026, 3, 1)), surfaces=(surface,))

    assert "from memory" not in svg([drawing(early, surface)])
    assert "from memory" not in cut_text(early, surface)
