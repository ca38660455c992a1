"""A room of 5 × 3 m with 12 boxes and their cables, entered by keyboard in under ten minutes."""

from __future__ import annotations

from pathlib import Path

from records.expected.boxes import placed
from records.expected.plan import expected
from records.judgement.fabric.hidden import is_met
from records.judgement.review import review
from records.terms import Step, Verdict
from tests.bench.room import KEYS_A_SECOND, job, typed
from tests.tui.at_bench import at

MINUTES = 10


async def test_a_room_of_12_boxes_takes_less_than_ten_minutes_of_keys(tmp_path: Path) -> None:
    async with at(tmp_path, Step.BEFORE_COVERING, job()) as driver:
        keys = await typed(driver)
        record = driver.record

    points = [each for circuit in record.circuits for each in circuit.points]
    surfaces = {each.id: each for each in record.fabric.surfaces}
    boxes = [each for each in placed(record) if each.circuit is not None]
    assert len(points) == len(boxes) == 12
    assert all(is_met(record, surfaces[each.spot.surface], each) for each in boxes)
    assert keys / KEYS_A_SECOND / 60 < MINUTES, keys
    bad = [
        each
        for each in review(record, expected(record)).lines
        if each.slot is None
        and each.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY)
        and each.key.partition("/design/")[2].startswith(
            ("zone", "leg", "spot", "surface", "screws")
        )
    ]
    assert bad == [], [each.why for each in bad]
