"""A whole board of twelve circuits, each reading entered from the bench, as testers type."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise, takewhile
from pathlib import Path

import pytest

from records.interlock.comes_off import EARTH_BACK, ZE
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.model.slots import slots
from records.taking import desk
from records.terms import Part, Stage, Step, Verdict
from tests.taking.job import slot
from tests.tui.at_bench import Clock, again, at, bench, go, in_hand, past_cautions, said, to_slot
from tests.tui.driving import NARROW, WIDE, Driver
from tests.tui.test_review import choose
from tests.tui.twelve import Typed, sound, twelve
from tui.widgets.reading_grid import ReadingGrid

WET = slot(Quantity.IR_LE, Stage.DEAD, "C7")
PUT_BACK = slot(Quantity.PUT_BACK, Stage.DEAD)
HANDFUL = 8
"""Readings that a quick hand types before it looks up: each has to land where it belongs."""
VOID = [slot(each, Stage.DEAD, "C7") for each in (Quantity.R1_R2, Quantity.IR_LN)]
"""What the work on the wet circuit asks for again."""
BAD = {WET: Typed("12k", 0.012)}

ORDER: tuple[tuple[Stage, Part | None, frozenset[Quantity]], ...] = tuple(
    (stage, part, frozenset(quantities))
    for stage, part, quantities in (
        # IET Guidance Note 3, order of tests, and common practice (from memory).
        (Stage.DEAD, Part.FEED, {Quantity.R1_R2}),
        (Stage.DEAD, Part.BOARD, {Quantity.EARTHING}),
        (
            Stage.DEAD,
            Part.CIRCUIT,
            {Quantity.R1, Quantity.RN, Quantity.R2, Quantity.CROSS_LN, Quantity.CROSS_LE},
        ),
        (Stage.DEAD, Part.CIRCUIT, {Quantity.R1_R2}),
        (Stage.DEAD, None, {Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE}),
        (Stage.DEAD, Part.CIRCUIT, {Quantity.POLARITY}),
        (Stage.LIVE, Part.ORIGIN, {Quantity.POLARITY}),
        (Stage.LIVE, Part.ORIGIN, {Quantity.ZE}),
        (Stage.LIVE, Part.ORIGIN, {Quantity.EARTH_BACK}),
        (Stage.LIVE, Part.ORIGIN, {Quantity.FAULT_LN, Quantity.FAULT_LE}),
        (Stage.LIVE, Part.BOARD, {Quantity.POLARITY, Quantity.VOLTAGE}),
        (Stage.LIVE, Part.BOARD, {Quantity.ZDB, Quantity.FAULT_LN, Quantity.FAULT_LE}),
        (Stage.LIVE, Part.CIRCUIT, {Quantity.ZS}),
        (Stage.LIVE, Part.CIRCUIT, {Quantity.RCD_TIME, Quantity.RCD_BUTTON}),
        (Stage.LIVE, Part.CIRCUIT, {Quantity.FUNCTION}),
    )
)


async def test_a_board_of_twelve_circuits_is_measured_from_the_bench_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.DEAD_TESTS, twelve(), size=WIDE) as driver:
        typed = await take_all(driver, BAD)
        dead = len(slots(driver.record, Stage.DEAD))
        assert f"{dead} of {dead} taken" in driver.words

        await go(driver, Step.REVIEW)
        await choose(driver, WET)
        await driver.keys("r", *["down"] * 5, "enter")  # other work: no other test is void by it
        await driver.type("Gland filled with water, dried out and made off anew\n\n")
        await driver.settled()
        assert "On record" in said(driver)
        await again(driver)
        await driver.type(">999\n")
        await driver.settled()
        assert driver.app.session.review.of(WET)[0].verdict is Verdict.WITHIN

        await go(driver, Step.DEAD_TESTS)
        for where in VOID:
            await to_slot(driver, where.quantity, where.place.circuit)
            await driver.type(f"a{typed[where].text}\n")
        await to_slot(driver, Quantity.PUT_BACK)
        await driver.type("ay\n")
        await go(driver, Step.LIVE_TESTS)
        assert "These stay locked off" not in driver.words
        await driver.keys("end", "y")
        await driver.settled()
        (gate,) = driver.record.live_gate
        assert not gate.locked_off
        typed |= await take_all(driver, BAD)
        live = len(slots(driver.record, Stage.LIVE))
        record, found = driver.record, driver.app.session.review.findings

    assert dead + live > 130
    _is_as_typed(record, typed)
    _is_in_the_safe_order(record)
    assert WET not in {each.slot for each in found}


def _is_as_typed(record: Record, typed: Mapping[Slot, Typed]) -> None:
    """Each slot has what was typed there, and nothing else; the one tested again has both."""
    assert set(typed) == {*slots(record, Stage.DEAD), *slots(record, Stage.LIVE)}
    for where, was in typed.items():
        taken = record.taken(where)
        if where == WET:
            assert [_typed(each) for each in taken] == ["12k", ">999"]
            continue
        assert len(taken) == (2 if where in (*VOID, PUT_BACK) else 1), where
        assert was.is_in(record, where), (where, was, taken[0])
    assert {each.by for each in record.readings} == {"A1"}
    (remedy,) = record.remedies
    assert remedy.done.startswith("Gland filled")


def _typed(reading: object) -> str:
    return str(getattr(getattr(reading, "taken", None), "typed", ""))


def _is_in_the_safe_order(record: Record) -> None:
    taken = [each.slot for each in record.readings]
    groups = [_group(each) for each in taken if each not in (WET, PUT_BACK, *VOID)]
    assert all(one <= other for one, other in pairwise(groups))
    assert set(groups) == set(range(len(ORDER)))
    assert taken[taken.index(ZE) + 1] == EARTH_BACK
    times = [each.at for each in record.readings]
    assert times == sorted(times)


def _group(where: Slot) -> int:
    for number, (stage, part, quantities) in enumerate(ORDER):
        fits = where.stage is stage and part in (None, where.place.part)
        if fits and where.quantity in quantities:
            return number
    raise AssertionError(f"{where} has no place in the order.")


async def test_a_stage_of_twelve_circuits_is_entered_in_the_grid_and_taken_back_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.BEFORE_COVERING, twelve(), size=NARROW) as driver:
        await driver.keys("f9")
        typed = await take_all(driver, {})
        wanted = len(slots(driver.record, Stage.BEFORE_COVERING))
        assert f"{wanted} of {wanted} taken · none open" in driver.words

        last = driver.record.readings[-1].slot
        await driver.keys("ctrl+z")
        await driver.settled()
        assert not driver.record.taken(last)
        assert f"{wanted - 1} of {wanted} taken" in driver.words
        typed |= await take_all(driver, {})

        assert wanted > 50
        for where, was in typed.items():
            assert was.is_in(driver.record, where)
            assert len(driver.record.taken(where)) == 1
        assert await _shown(driver) == wanted


async def _shown(driver: Driver) -> int:
    """Return how many cells have a figure, over all pages; none of them may be cut."""
    table = driver.app.screen.query_one(ReadingGrid)
    seen: set[tuple[str, str]] = set()
    await driver.keys(*["left"] * 12)
    for _ in range(12):
        assert table.virtual_size.width <= table.size.width
        for column, each in table.columns.items():
            for row in table.rows:
                text = str(table.get_cell(row, column))
                assert len(text) <= each.width
                if text.startswith("✓"):
                    seen.add((str(row.value), str(each.label)))
        await driver.keys("right")
    return len(seen)


async def take_all(driver: Driver, bad: Mapping[Slot, Typed]) -> dict[Slot, Typed]:
    """Enter what is left of a stage, cautions read; return what was typed where."""
    typed: dict[Slot, Typed] = {}
    while True:
        await past_cautions(driver)
        if driver.record.taken(in_hand(driver)):
            return typed
        expected = driver.app.session.expected
        lines = []
        for where in _ahead(driver):
            typed[where] = bad.get(where) or sound(where, expected, len(typed))
            lines.append(typed[where].text)
        await _enter(driver, lines)


def _ahead(driver: Driver) -> list[Slot]:
    """Return the readings to type in one go: the next ones of a family, a handful at most."""
    here = bench(driver)
    entries = here.queue.entries[here.position.at :]
    alike = takewhile(lambda each: each.is_open and each.family is entries[0].family, entries)
    slots = [each.slot for each in alike][:HANDFUL]
    return slots[:1] if ZE in slots else slots


async def _enter(driver: Driver, lines: list[str]) -> None:
    """Type lines in one go, and wait until they were taken."""
    before = len(driver.record.readings)
    with driver.app.batch_update():  # nobody looks up: painting is most of the time
        driver.send("".join(f"{line}\n" for line in lines))
        await driver.quiet()
        if len(driver.record.readings) - before == len(lines):
            return
    raise AssertionError(f"{lines} were not taken:\n{driver.screen}")
