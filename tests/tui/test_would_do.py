"""F5: what a value would do, before Enter, in every field of the design; nothing is kept."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from records.entering.field import Field, Kind
from records.model.buying import Buying
from records.model.circuit import Point
from records.model.outbuilding import Bond
from records.model.wiring import Run
from records.options.check_changes import changed_checks
from records.terms import CableKind, Cpc, Method, OutbuildingEarth, Step
from tests.judgement.jobs import circuit
from tests.tui.choosing import DESIGN, ask, opened
from tests.tui.driving import Driver

FULL = circuit(DESIGN, "C1", points=(Point(id="S1", name="S1", at=5.0, spur=1.0),))
FULL = FULL.model_copy(
    update={
        "board": FULL.board.model_copy(
            update={
                "bonds": (Bond(id="B1", what="pipe", csa=10.0, length=3.0),),
                "earth": OutbuildingEarth.OWN_ELECTRODE,
                "electrode": "rod",
                "metal_in_ground": True,
            }
        ),
        "buying": Buying(why="in stock"),
    }
)
PAGES = (
    (Step.ORIGIN, ()),
    (Step.FEED, ()),
    (Step.FEED, ("run", "0")),
    (Step.FEED, ("before", "buying")),
    (Step.BOARD, ()),
    (Step.BOARD, ("bond", "0")),
    (Step.CIRCUITS, ("C1",)),
    (Step.CIRCUITS, ("C4",)),
    (Step.CIRCUITS, ("C1", "run", "0")),
    (Step.CIRCUITS, ("C1", "points")),
)


def other_values(field: Field) -> Iterator[object]:
    """Yield values that the field doesn't have now."""
    if field.options:
        yield from (each.value for each in field.options if each.value != field.value)
    elif field.kind is Kind.COUNT:
        yield 3
    elif field.kind is Kind.FIGURE:
        yield 2.0
        if field.default is None:
            yield None
    elif field.kind is Kind.TEXT:
        yield "other words"


async def test_each_field_of_the_design_can_be_tried_and_none_is_changed_by_it(
    tmp_path: Path,
) -> None:
    tried = set()
    async with opened(tmp_path, FULL) as driver:
        for step, trail in PAGES:
            driver.app.go(step)
            await driver.settled()
            screen = driver.app.screen
            screen.open(trail)
            await driver.settled()
            fields = [each for each in screen.form.rows if isinstance(each, Field)]
            assert fields, (step, trail)
            for field in fields:
                for value in other_values(field):
                    ops = screen._would_make(field, value)
                    found = changed_checks(driver.record, driver.app.session.tried(ops))
                    assert all(str(each) for each in found)
                    tried.add(field.key)
        assert driver.record == FULL
    assert len(tried) > 60


async def tried(driver: Driver, label: str, text: str) -> str:
    await driver.row(label)
    await driver.type(text)
    await driver.keys("f5")
    await driver.settled()
    return driver.words


async def test_f5_says_what_a_value_would_do_before_enter_and_keeps_nothing(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, DESIGN) as driver:
        await driver.row("Ib of the feed")
        await driver.keys("f5")
        assert "Type another value" in driver.words, "what to do where nothing is typed"
        assert "x" in await tried(driver, "Ib of the feed", "x"), "why a text is no value"
        await driver.keys("escape", "escape")

        said = await tried(driver, "Protective device", "rcbo d")
        assert "what it would do" in said, "the answer that the list is on"
        assert "→" in said
        await driver.keys("escape", "escape")

        # What one entry gives its own field and others beside it, as Enter would take it.
        for label, text, words in (
            ("Protective device", "63 bs88-3", "Feed: In ≤ Iz"),
            ("In one line", "3c 2.5 swa 46m buried 500", "Feed: In ≤ Iz"),
            ("In one line", "gibberish", "gibberish"),
        ):
            assert words in await tried(driver, label, text), text
            await driver.keys("escape", "escape")

        driver.app.go(Step.CIRCUITS)
        await driver.settled()
        line = "sockets ring B32 rcbo 30ma 2.5/1.5 68m clipped"
        said = await tried(driver, "Next in one line", line)
        assert "what it would do" in said, "a line that adds a circuit is tried too"
        assert "none →" in said
        await driver.keys("escape", "escape")
        assert driver.record == DESIGN

        driver.app.go(Step.FEED)
        await driver.settled()
        await ask(driver, "1")
        said = await tried(driver, "Line conductor", "2.5")
        assert "worse: Feed: In ≤ Iz" in said
        assert "Not kept yet" in said
        await driver.keys("escape")
        assert driver.record == DESIGN
        await driver.keys("enter")
        await driver.settled()
        assert driver.record.feed.runs[0].csa == 2.5, "Enter keeps it"


async def test_what_a_method_brings_with_it_counts_in_what_it_would_do(tmp_path: Path) -> None:
    """In the ground 20 °C is entered with the method: at the air's 30 °C Iz would be too low."""
    clipped = Run(
        cable=CableKind.SWA_XLPE, cores=3, csa=10.0, cpc=Cpc.CORE, length=30.0, method=Method.C
    )
    record = DESIGN.model_copy(update={"feed": DESIGN.feed.model_copy(update={"runs": (clipped,)})})
    async with opened(tmp_path, record) as driver:
        driver.app.screen.open(("run", "0"))
        await driver.settled()
        said = await tried(driver, "Installation method", "buried")

        # 60 A × 0.9 in the ground at 20 °C; with 0.89 for 30 °C it would be 48.1 A.
        assert "54.0 A" in said
        await driver.keys("escape", "enter")
        await driver.settled()
        assert driver.record.feed.runs[0].ambient == 20.0
