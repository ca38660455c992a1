"""A design entered by the keyboard alone, from the start screen to a reopened file."""

from pathlib import Path

import pytest

from records.model.supply import Ground
from records.store.file import RecordFile
from records.terms import CableKind, Cpc, DeviceKind, Earthing, Form, Method, OutbuildingEarth, Use
from tests.tui.driving import NARROW, WIDE, Driver, wizard


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
    await driver.fill("88-3", "40", "33")
    await driver.row("+ add a run")
    await driver.fill("", "in the trench", "armoured xlpe", "3", "10", "core of", "", "28", "D")
    await driver.keys("escape", "f4")


async def _board(driver: Driver) -> None:
    await driver.fill("right of the door", "63", "n")
    await driver.row("Earth of the outbuilding")
    await driver.fill("carried", "10", "n")
    await driver.keys("f4")


async def _circuits(driver: Driver) -> None:
    await driver.fill("", "Bench sockets", "sock", "ring", "rcbo b", "32", "6", "30", "A", "n")
    await driver.row("+ add a run")
    await driver.fill("", "round the walls", "flat", "", "2.5", "core of", "1.5", "46", "C")
    await driver.keys("escape")
    await driver.row("Points")
    await driver.keys("enter")
    await driver.row("+ add a row of points, named S1, S2 …")
    await driver.fill("", "4")
    await driver.keys("escape")


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_a_design_goes_in_by_keys_alone_and_is_there_when_reopened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    monkeypatch.chdir(tmp_path)
    async with wizard(None, tmp_path, size=size) as driver:
        assert "not a certificate" in driver.screen
        await driver.fill("", "pear-shed")
        await driver.settled()
        await _job(driver)
        await _origin(driver)
        await _feed(driver)
        await _board(driver)
        await _circuits(driver)
        await driver.settled()
        accepted = driver.record
        assert "Bench sockets" in driver.screen

    with RecordFile.open(tmp_path / "pear-shed.farboard") as file:
        assert file.record == accepted
    job, origin, feed, board = accepted.job, accepted.origin, accepted.feed, accepted.board
    assert (job.reference, job.ambient, job.started and job.started.isoformat()) == (
        "J-7",
        9.5,
        "2026-03-20",
    )
    assert job.people[0].name == "Wren Oakes"
    assert (origin.earthing, origin.u0, origin.ze) == (Earthing.TN_C_S, 230.0, 0.21)
    assert (origin.fault_current, origin.fault_current_ground) == (1.45, Ground.DECLARED)
    assert (feed.device.kind, feed.device.rating) == (DeviceKind.BS_88_3, 40.0)
    run = feed.runs[0]
    assert (run.cable, run.cores, run.csa, run.cpc) == (CableKind.SWA_XLPE, 3, 10.0, Cpc.CORE)
    assert (run.length, run.method) == (28.0, Method.D)
    assert (board.main_switch, board.surge_protection) == (63.0, False)
    assert (board.earth, board.metal_in_ground) == (OutbuildingEarth.CARRIED_OVER, False)
    circuit = accepted.circuits[0]
    assert (circuit.use, circuit.form) == (Use.SOCKETS, Form.RING)
    assert (circuit.device.kind, circuit.device.rating) == (DeviceKind.RCBO_B, 32.0)
    assert (circuit.rcd.residual, circuit.runs[0].length) == (30.0, 46.0)
    assert [point.name for point in circuit.points] == ["S1", "S2", "S3", "S4"]
