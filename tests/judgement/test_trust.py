"""A verdict that a figure from memory decides is marked, so that the certifier looks it up."""

from __future__ import annotations

from typing import Any

import pytest

from records.evidence import Source
from records.expected.results import Worked
from records.judgement.review_types import Judged, Limit, Sense
from records.judgement.trust import MARK, deciding, from_memory, mark_of, memory_note
from records.model.reading import Quantity
from records.model.wiring import Device
from records.terms import Basis, DeviceKind, Use, Verdict
from records.units import Unit
from tests.judgement.jobs import (
    SOUND,
    ZDB,
    circuit,
    line,
    own,
    place,
    read,
    reviewed,
    sound_job,
    spoilt,
    zs,
)


def source(figure: str = "", basis: Basis = Basis.MEMORY, table: str = "") -> Source:
    return Source("A book", "a table", basis, figure=figure, table=table)


def judged(verdict: Verdict = Verdict.OUTSIDE, **more: Any) -> Judged:
    return Judged("k", verdict, place("C1"), "t", "w", **more)


def limit(of: Source) -> Limit:
    return Limit(Sense.MOST, 1.0, Unit.OHM, of)


@pytest.mark.parametrize("basis", Basis)
def test_only_a_figure_from_memory_is_marked(basis: Basis) -> None:
    made = judged(limit=limit(source("row 1: 0.5", basis)))

    assert [each.figure for each in deciding(made)] == ["row 1: 0.5"]
    assert mark_of(made) == (MARK if basis is Basis.MEMORY else "")
    assert from_memory(made) == (("row 1: 0.5",) if basis is Basis.MEMORY else ())


@pytest.mark.parametrize("verdict", Verdict)
def test_only_a_verdict_that_was_come_to_was_decided(verdict: Verdict) -> None:
    come_to = verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR, Verdict.WITHIN)

    assert bool(deciding(judged(verdict, limit=limit(source("row 1"))))) is come_to


def test_the_ground_of_a_verdict_decides_as_well_as_its_limit() -> None:
    both = judged(limit=limit(source("row 1")), source=source("row 2"))

    assert from_memory(both) == ("row 1", "row 2")
    assert from_memory(judged(source=source("row 2"))) == ("row 2",)
    assert from_memory(judged()) == ()
    assert from_memory(judged(source=source(""))) == ()  # a rule, no figure
    assert from_memory(judged(limit=limit(source("x")), source=source("x"))) == ("x",)


@pytest.mark.parametrize("table", ["alpha", "operating_temperature"])
def test_constants_of_the_metal_move_a_loop_too_little_to_be_marked(table: str) -> None:
    assert mark_of(judged(limit=limit(source("copper", table=table)))) == ""


def figures(*names: str) -> Judged:
    """Return a verdict that some figures from memory decide."""
    grounds = (Worked("x", 1.0, Unit.OHM, "x", "1", tuple(source(each) for each in names)),)
    return judged(grounds=grounds)


def test_a_note_names_three_and_counts_the_rest() -> None:
    start = f"{MARK} From memory, to be confirmed: "

    assert memory_note(judged()) == ""
    assert memory_note(figures("a")) == f"{start}a."
    assert memory_note(figures("a", "b", "c")) == f"{start}a; b; c."
    assert memory_note(figures("a", "b", "c", "d")) == f"{start}a; b; c; and 1 more."


def test_a_loop_reading_rests_on_the_limit_of_its_device_and_one_at_the_board_on_the_feeds() -> (
    None
):
    record = sound_job()
    for where in (zs("C2"), ZDB):
        found = own(record, where)
        assert found.grounds, where
        assert any("Zs" in each.symbol for each in found.grounds), where
    other = own(record, next(s.slot for s in record.readings if s.slot.quantity is Quantity.R1))
    assert other.grounds == ()


def test_an_unlikely_reading_rests_on_what_was_expected_as_well() -> None:
    within, unlikely = own(sound_job(), zs("C2")), own(spoilt((zs("C2"), 0.2)), zs("C2"))

    assert unlikely.verdict is Verdict.UNLIKELY
    assert unlikely.expected in unlikely.grounds
    assert within.expected not in within.grounds


def test_a_limit_of_type_d_at_5_s_is_marked_at_the_design_and_at_the_reading() -> None:
    """BS 7671, Table 41.3: type B was read in a text book; D at 5 s is from memory."""
    record = circuit(
        SOUND,
        "C2",
        use=Use.FIXED,
        load=20.0,
        device=Device(kind=DeviceKind.BREAKER_D, rating=40.0, breaking=6.0),
    )

    assert "D · 5 s · 40" in memory_note(line(record, "circuit/C2/-/design/Zs"))
    assert "D · 5 s · 40" in memory_note(own(sound_job(record), zs("C2")))
    assert mark_of(line(SOUND, "circuit/C2/-/design/Zs")) == ""


def test_every_reading_that_was_judged_says_what_it_rests_on_once() -> None:
    extra = read(900, zs("C2"), 0.2, 900)
    for each in reviewed(spoilt(extra)).lines:
        figures = [found.figure for found in deciding(each)]
        assert len(figures) == len(set(figures)), each.key
