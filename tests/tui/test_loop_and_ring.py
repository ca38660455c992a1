"""The bars of a loop and the curve of a ring in the terminal: shares, marks, names."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from records.demo import demo_record
from records.expected.pictures.loop import LoopBar, LoopPart, loop_bars
from records.expected.plan import expected
from records.model.reading import place_of
from records.terms import Part
from records.units import Ohm
from tests.expected.test_picture import job
from tests.tui.test_pictures import SMALL, ring_of
from tui.widgets.loop_bar import draw_loop
from tui.widgets.ring_curve import draw_ring, ring_words


def _bar(*ohms: float, limit: float = 1.0) -> LoopBar:
    names = ("source", "feed", "circuit")
    parts = tuple(
        LoopPart(name, Ohm(each), "as measured") for name, each in zip(names, ohms, strict=False)
    )
    return LoopBar("readings", "cold", parts, Ohm(limit), "by the table", None)


def test_each_part_of_a_bar_takes_its_share_of_the_limit() -> None:
    bar = draw_loop([_bar(0.25, 0.25, 0.125)], 112, 4).plain.splitlines()[1]

    assert bar.index("┃") == 100
    assert (bar.count("█"), bar.count("▒")) == (25, 25)
    assert bar.count("░") in (12, 13)


def test_a_loop_over_its_limit_passes_the_mark_and_says_so() -> None:
    drawn = draw_loop([_bar(0.5, 0.5, 0.5)], 60, 4).plain
    bar = next(each for each in drawn.splitlines() if "░" in each)

    assert "1.50 Ω, 150% of" in drawn
    assert "✗ over the limit" in drawn.replace("\n", " ")
    assert bar.rstrip().endswith("░")
    assert bar.index("┃") < bar.rindex("░")


def test_both_bars_have_their_limit_in_one_column() -> None:
    record = demo_record()
    bars = loop_bars(record, expected(record), place_of(Part.CIRCUIT, "C2"))
    assert isinstance(bars, tuple)
    drawn = draw_loop(bars, *SMALL).plain.splitlines()
    columns = {each.rindex("┃") for each in drawn if "█" in each and "┃" in each}
    assert len(bars) == 2
    assert len(columns) == 1
    assert all(cell_len(each) <= SMALL[0] for each in drawn)


# The ring.


@pytest.mark.parametrize("size", [SMALL, (76, 20), (130, 40)])
def test_the_odd_reading_of_a_ring_is_marked_by_name(size: tuple[int, int]) -> None:
    ring = ring_of(demo_record())
    drawn = draw_ring(ring, *size).text

    assert drawn.count("✗") == 1
    assert "S5 dye shelf 0.36 Ω L-cpc" in drawn
    assert drawn.count("○") + drawn.count("□") + drawn.count("▵") >= 12
    words = "\n".join(each.plain for each in ring_words(ring))
    assert "✗ S5 dye shelf, L-cpc: 0.36 Ω" in words
    assert "by the ends as measured" in words


def test_ends_joined_on_the_same_leg_show_as_readings_that_grow() -> None:
    drawn = draw_ring(ring_of(job("schoolroom-rings")), *SMALL).text.splitlines()
    rows = {
        name: next(at for at, each in enumerate(drawn) if name in each)
        for name in ("S1 0.07 Ω L-N", "S6 0.07 Ω L-N")
    }
    assert len(set(rows.values())) == 1
    assert "✗" in drawn[rows["S1 0.07 Ω L-N"]]
    assert min(at for at, each in enumerate(drawn) if "○" in each) < rows["S1 0.07 Ω L-N"]
