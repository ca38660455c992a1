"""Keys that a room of 5 × 3 m costs at the surfaces: 12 boxes with their cables, a board, a door.

The lines are typed as the trade says them, one thing each, on a job whose circuits are entered and
have no points yet. Time is keys by a stated rate: two a second, cold hands and looking at a tape
not counted.
"""

from __future__ import annotations

import asyncio
import tempfile
from pathlib import Path

from records.model.record import Record
from records.terms import Step
from tests.judgement.jobs import SOUND
from tests.tui.at_bench import at
from tests.tui.driving import Driver

KEYS_A_SECOND = 2.0
BUILDING = (
    "building 5000 x 3000 x 2400, fall 300 to south, thick 140, timber, studs 95, centres 600, "
    "board 12.5, screws 38"
)
WALLS = {
    "North wall": (
        BUILDING,
        "board 1500 up 400 along",
        "C1 S1-S3 450 up, every 1500, from 1000, 2g",
        "C1 cable from board up top to S1, deep 47",
        "up top to S2",
        "up top to S3",
        "up top along 5000",
        "from 0 2325 to board",
        "C3 cable from board up top along 0, deep 47",
        "C4 cable from board up top along 5000, deep 47",
    ),
    "East wall": (
        "C1 S4 450 up 1500 along 2g",
        "C4 F1 1000 up 2200 along 1g",
        "C1 cable from 0 2325 to S4, deep 47",
        "up top along top 3000",
        "C4 cable from 0 2325 to F1, deep 47",
    ),
    "South wall": (
        "C1 S5-S6 450 up, every 2000, from 1500, 2g",
        "C1 cable from 0 2025 to S5, deep 47",
        "up top to S6",
        "up top along 5000",
    ),
    "West wall": (
        "door 800 to 1600, 1950 high",
        "C3 W1 1200 up 2700 along 1g",
        "C1 cable from 0 2025 along top 3000, deep 47",
        "C3 cable from 3000 2325 to W1, deep 47",
        "up top",
    ),
    "Ceiling": (
        "C3 D1-D4 1500 in from south, every 1000, from 1000, lamp",
        "C3 cable from 0 300 along 1000 up 1500 along 4000, deep 60",
    ),
}


def job() -> Record:
    """Return the sound job's circuits with no point yet, and nothing read."""
    bare = tuple(each.model_copy(update={"points": ()}) for each in SOUND.circuits)
    return SOUND.model_copy(update={"circuits": bare, "readings": ()})


async def typed(driver: Driver) -> int:
    """Enter the room at the surfaces; return how many keys it took."""
    keys = 1
    await driver.keys("s")
    for number, lines in enumerate(WALLS.values()):
        if number:
            await driver.keys("tab")
        await driver.keys("n")
        for line in lines:
            await driver.fill(line)
            keys += len(line) + 1
        await driver.keys("escape")
        keys += 2 + bool(number)
    await driver.settled()
    return keys


async def _measured() -> tuple[int, Record]:
    with tempfile.TemporaryDirectory() as folder:
        async with at(Path(folder), Step.BEFORE_COVERING, job()) as driver:
            keys = await typed(driver)
            return keys, driver.record


def main() -> None:
    """Print the keys, and the minutes at the stated rate."""
    keys, record = asyncio.run(_measured())
    boxes = sum(each.spot is not None for c in record.circuits for each in c.points)
    print(
        f"{boxes} boxes, {len(record.fabric.legs)} legs of cable: {keys} keys, "
        f"{keys / KEYS_A_SECOND / 60:.1f} min at {KEYS_A_SECOND:g} keys a second"
    )


if __name__ == "__main__":
    main()
