"""A small job's design, typed field by field from the start screen."""

from __future__ import annotations

from tests.tui.driving import Driver


async def design(driver: Driver, name: str) -> None:
    """Make a new record on the start screen and enter the five design steps by keys alone."""
    await driver.fill("", name)
    await driver.settled()
    await _job(driver)
    await _origin(driver)
    await _feed(driver)
    await _board(driver)
    await _circuits(driver)
    await driver.settled()


async def _job(driver: Driver) -> None:
    await driver.fill("J-7", "Shed behind the pear tree", "Workshop, one bench", "", "2026-03-20")
    await driver.fill("9,5")
    await driver.row("+ add a person")
    await driver.fill("", "Wren Oakes")
    await driver.keys("escape", "f4")


async def _origin(driver: Driver) -> None:
    await driver.fill("tn-c", "", "0.21", "declared")
    await driver.keys("enter")
    assert driver.record.origin.ze == 0.21
    await driver.row("Fault current at origin")
    await driver.fill("1450A", "declared")
    await driver.keys("f4")


async def _feed(driver: Driver) -> None:
    await driver.fill("88-3", "45", "33")
    await driver.row("+ add a run")
    await driver.fill("", "in the trench", "armoured xlpe", "3", "10", "core of", "", "28", "D")
    await driver.keys("escape", "f4")


async def _board(driver: Driver) -> None:
    await driver.fill("right of the door", "63", "n")
    await driver.row("Earth of the outbuilding")
    await driver.fill("exported", "10", "n")
    await driver.keys("f4")


async def _circuits(driver: Driver) -> None:
    await driver.fill("", "Bench sockets", "sock", "ring", "rcbo b", "32", "6", "30", "A", "n")
    await driver.row("+ add a run")
    await driver.fill("", "round the walls", "flat", "2.5", "1.5", "46", "C")
    await driver.keys("escape")
    await driver.row("Points")
    await driver.keys("enter")
    await driver.row("+ add a row of points, named S1, S2 …")
    await driver.fill("", "4")
    await driver.keys("escape")
