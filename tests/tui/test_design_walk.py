"""A design entered by the keyboard alone, from the start screen to a reopened file."""

from pathlib import Path

import pytest

from records.model.supply import Ground
from records.store.file import RecordFile
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    Form,
    Method,
    OutbuildingEarth,
    RcdType,
    Use,
)
from tests.tui.designing import design
from tests.tui.driving import WIDE, wizard


async def test_a_design_goes_in_by_keys_alone_and_is_there_when_reopened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with wizard(None, tmp_path, size=WIDE) as driver:  # narrow: test_whole_job.py
        assert "not a certificate" in driver.screen
        await design(driver, "pear-shed")
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
    assert (circuit.rcd.residual, circuit.rcd.type) == (30.0, RcdType.A)
    assert circuit.runs[0].length == 46.0
    assert [point.name for point in circuit.points] == ["S1", "S2", "S3", "S4"]
