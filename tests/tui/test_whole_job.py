"""The main job as a person does it: from a blank record, or the demo, to the document."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from records.demo import demo_record
from records.model.reading import Quantity
from records.model.record import Record
from records.model.supply import Ground
from records.store.file import RecordFile
from records.taking import desk
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    Form,
    Method,
    OutbuildingEarth,
    Part,
    RcdType,
    Step,
    Use,
)
from tests.tui.at_bench import Clock, go, take_all
from tests.tui.designing import design
from tests.tui.driving import Driver, wizard
from tests.tui.test_hand_over import text_of, written

KNOWN = {
    # A supply better than declared, by more than a loop tester's uncertainty.
    (Part.ORIGIN, Quantity.ZE): ".15",
    (Part.ORIGIN, Quantity.FAULT_LE): "1.42",
    # Readings that no design gives, and those at points whose distance was not entered:
    # 46 m of 2.5/1.5 mm² at 9.5 °C is 0.33, 0.33 and 0.53 Ω round, a quarter of each sum.
    (Part.CIRCUIT, Quantity.CROSS_LN): "0.16",
    (Part.CIRCUIT, Quantity.CROSS_LE): "0.21",
    (Part.BOARD, Quantity.VOLTAGE): "236",
    (Part.BOARD, Quantity.EARTHING): ".01",
    (Part.CIRCUIT, Quantity.RCD_TIME): "24",
}


async def _measure(driver: Driver) -> None:
    for step in (Step.BEFORE_COVERING, Step.DEAD_TESTS):
        await go(driver, step)
        await take_all(driver, KNOWN)
    await go(driver, Step.LIVE_TESTS)
    await driver.keys("end", "y")
    await driver.settled()
    await take_all(driver, KNOWN)


async def _hand_over(driver: Driver) -> None:
    await go(driver, Step.HAND_OVER)
    assert "Is it off and locked off now?" in driver.screen
    while "Write the schedule" not in driver.screen:
        await driver.keys(*(("end", "y") if "Is it off" in driver.screen else ("enter",)))
        await driver.settled()
    await driver.keys("enter")
    await written(driver)


def _is_as_typed(accepted: Record) -> None:
    job, origin, feed, board = accepted.job, accepted.origin, accepted.feed, accepted.board
    assert (job.reference, job.ambient, job.started and job.started.isoformat()) == (
        "J-7",
        9.5,
        "2026-03-20",
    )
    assert job.people[0].name == "Wren Oakes"
    assert (origin.earthing, origin.u0, origin.ze) == (Earthing.TN_C_S, 230.0, 0.21)
    assert (origin.fault_current, origin.fault_current_ground) == (1.45, Ground.DECLARED)
    assert (feed.device.kind, feed.device.rating) == (DeviceKind.BS_88_3, 45.0)
    run = feed.runs[0]
    assert (run.cable, run.cores, run.csa, run.cpc) == (CableKind.SWA_XLPE, 3, 10.0, Cpc.CORE)
    assert (run.length, run.method) == (28.0, Method.D)
    assert (board.main_switch, board.surge_protection) == (63.0, False)
    assert (board.earth, board.metal_in_ground) == (OutbuildingEarth.CARRIED_OVER, False)
    circuit = accepted.circuits[0]
    assert (circuit.use, circuit.form) == (Use.SOCKETS, Form.RING)
    assert (circuit.device.kind, circuit.device.rating) == (DeviceKind.RCBO_B, 32.0)
    assert (circuit.rcd.residual, circuit.rcd.type) == (30.0, RcdType.A)
    assert circuit.runs[0].length == 46.0
    assert [point.name for point in circuit.points] == ["S1", "S2", "S3", "S4"]


async def test_a_blank_record_becomes_a_document_by_keys_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    monkeypatch.chdir(tmp_path)
    async with wizard(None, tmp_path) as driver:
        assert "not a certificate" in driver.screen
        await design(driver, "pear-shed")
        assert "Bench sockets" in driver.screen
        designed = driver.record
        await _measure(driver)
        await _hand_over(driver)
        fingerprint, record = driver.app.session.fingerprint, driver.record
        troubles = [
            (each.key, each.why) for each in driver.app.session.review.findings if each.is_trouble
        ]

    _is_as_typed(designed)
    with RecordFile.open(tmp_path / "pear-shed.farboard") as file:
        assert file.record == record
    text = text_of(tmp_path / "pear-shed.docx")
    assert fingerprint in text
    for built in ("Shed behind the pear tree", "Wren Oakes", "TN-C-S", "round the walls", "46 m"):
        assert built in text
    for reading in ("> 999 MΩ", "236 V", "24 ms", "0.01 Ω", "correct"):
        assert reading in text
    assert len(record.readings) > 30
    assert troubles == []
    with zipfile.ZipFile(tmp_path / "pear-shed.docx") as parts:
        feet = [parts.read(each).decode() for each in parts.namelist() if "footer" in each]
    assert feet
    assert all("not a certificate" in each for each in feet)


async def test_the_demo_becomes_a_document_that_names_its_faults(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    path = tmp_path / "loom-shed.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        await _measure(driver)
        await _hand_over(driver)
        before, after = demo_record(), driver.record

    assert len(after.readings) == len(before.readings) + 2
    text = text_of(tmp_path / "loom-shed.docx")
    for fault in ("342 ms", "7.33 V", "3.20 MΩ", "0.28 Ω", "1.03 Ω", "Calibration of meter"):
        assert fault in text
    assert "✗ outside" in text
    assert "? unlikely" in text
