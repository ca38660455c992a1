"""What the design steps need before the rest can be worked out, each said in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.model.circuit import Circuit
from records.model.job import Duty
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.terms import Cpc, FeedLoad, Form, LoadKind, OutbuildingEarth, Step, Use


@dataclass(frozen=True, slots=True)
class Input:
    """One thing that a design step wants."""

    there: bool
    need: str
    """What to do if it isn't there."""


def inputs(record: Record, step: Step) -> tuple[Input, ...]:
    """Return what a design step wants, in the order of its fields; empty for other steps."""
    match step:
        case Step.JOB:
            return tuple(_job(record))
        case Step.ORIGIN:
            return tuple(_origin(record))
        case Step.FEED:
            return tuple(_feed(record))
        case Step.BOARD:
            return tuple(_board(record))
        case Step.CIRCUITS:
            return tuple(_circuits(record))
        case _:
            return ()


def _job(record: Record) -> Iterator[Input]:
    job = record.job
    duties = {each.duty for each in job.people if each.name}
    yield Input(bool(job.reference), "Give the job a reference; it is on every page.")
    yield Input(bool(job.place), "Say which outbuilding it is, and where.")
    yield Input(bool(job.description), "Describe the work in one line.")
    yield Input(job.started is not None, "Enter the day the work started.")
    yield Input(Duty.INSTALLS in duties, "Name the person who wires, tests and records.")
    yield Input(
        Duty.CERTIFIES in duties,
        "Name the person who inspects, tests and certifies: agreed before the work starts.",
    )
    yield Input(bool(job.instruments), "Enter the instrument that the readings are taken with.")
    for each in job.instruments:
        yield Input(each.kind is not None, f"Instrument, {each.name}: say what kind it is.")
        yield Input(bool(each.serial), f"Instrument {each.id}: enter its serial number.")
        yield Input(
            each.calibrated is not None or each.due is not None,
            f"Instrument, {each.name}: enter the day it was calibrated, or the day it is due.",
        )


def _origin(record: Record) -> Iterator[Input]:
    origin = record.origin
    yield Input(origin.earthing is not None, "Say how the supply is earthed.")
    yield Input(origin.ze is not None, "Enter Ze.")
    yield Input(origin.ze_ground is not None, "Say whether Ze is measured, declared or typical.")
    yield Input(origin.fault_current is not None, "Enter the fault current at the origin.")
    yield Input(
        origin.fault_current_ground is not None,
        "Say whether the fault current is measured, declared or typical.",
    )


def _feed(record: Record) -> Iterator[Input]:
    yield from _device("Feed", record.feed.device, record.feed.rcd)
    yield from _runs("Feed", record.feed.runs, carried=_carried(record))


def _load(record: Record, circuit: Circuit, name: str) -> Iterator[Input]:
    """Yield what the load of a circuit still needs, as the feed is loaded."""
    feed = record.feed
    if feed.load is None and feed.loading is FeedLoad.TOGETHER:
        yield Input(
            circuit.together is not None, f"{name}: say whether it can be on with the others."
        )
    if feed.load is None and feed.loading is FeedLoad.DIVERSITY and circuit.use is Use.FIXED:
        yield Input(circuit.kind is not None, f"{name}: choose its kind of load.")
    if circuit.kind is LoadKind.MOTOR:
        yield Input(circuit.load is not None, f"{name}: enter Ib, as on the motor's plate.")
        yield Input(circuit.starting is not None, f"{name}: enter its starting current.")


def _carried(record: Record) -> bool:
    return record.board.earth is not OutbuildingEarth.OWN_ELECTRODE


def _board(record: Record) -> Iterator[Input]:
    board = record.board
    yield Input(bool(board.place), "Say where the sub-board is.")
    yield Input(board.main_switch is not None, "Enter the rating of the main switch.")
    yield Input(
        board.surge_protection is not None, "Say whether surge protection is fitted, yes or no."
    )
    yield Input(board.earth is not None, "Say where the earth of the outbuilding comes from.")
    yield Input(board.earthing_csa is not None, "Enter the size of the earthing conductor.")
    if board.earth is OutbuildingEarth.OWN_ELECTRODE:
        yield Input(
            board.earthing_laid is not None, "Say how the earthing conductor to the electrode lies."
        )
        yield Input(bool(board.electrode), "Describe the earth electrode: kind and number.")
    yield Input(
        board.metal_in_ground is not None,
        "Say whether metal in the outbuilding is in contact with the ground, yes or no.",
    )
    if board.metal_in_ground:
        yield Input(bool(board.bonds), "Enter the main bonding of the extraneous-conductive-parts.")
    for bond in board.bonds:
        yield Input(bool(bond.what), f"Bond {bond.id}: say what is bonded.")
        yield Input(bond.csa is not None, f"Bond, {bond.name}: enter its size.")
        yield Input(bond.length is not None, f"Bond, {bond.name}: enter its length.")


def _circuits(record: Record) -> Iterator[Input]:
    yield Input(bool(record.circuits), "Enter the circuits of the sub-board.")
    for circuit in record.circuits:
        yield from _circuit(record, circuit)


def _circuit(record: Record, circuit: Circuit) -> Iterator[Input]:
    name = f"{circuit.id} {circuit.name}".strip()
    yield Input(bool(circuit.name), f"{name}: say what it feeds.")
    yield Input(circuit.use is not None, f"{name}: choose its use.")
    yield Input(circuit.form is not None, f"{name}: choose its arrangement.")
    yield from _device(name, circuit.device, circuit.rcd)
    if circuit.use is not None and circuit.use is not Use.SOCKETS:
        at_points = any(each.load or each.power for each in circuit.points)
        known = circuit.load is not None or circuit.power is not None or at_points
        yield Input(known, f"{name}: enter its load in kW, or Ib.")
    yield from _load(record, circuit, name)
    if circuit.form is Form.FCU:
        yield Input(circuit.fuse is not None, f"{name}: enter the fuse in the connection unit.")
    yield Input(circuit.outdoors is not None, f"{name}: say whether it feeds anything outdoors.")
    yield Input(
        circuit.hidden is not None, f"{name}: say whether it is concealed less than 50 mm deep."
    )
    yield from _runs(name, circuit.runs, carried=True)
    yield Input(bool(circuit.points), f"{name}: enter its points, in the order of the cable.")


def _device(name: str, device: Device, rcd: Rcd) -> Iterator[Input]:
    yield Input(device.kind is not None, f"{name}: choose the protective device.")
    yield Input(device.rating is not None, f"{name}: enter In of the device.")
    yield Input(device.breaking is not None, f"{name}: enter the breaking capacity on the label.")
    if device.kind is not None and device.kind.is_rcbo:
        yield Input(rcd.residual is not None, f"{name}: enter IΔn of the RCBO.")
    if rcd.residual is not None:
        yield Input(rcd.type is not None, f"{name}: enter the RCD type (AC, A, F or B).")


def _runs(name: str, runs: tuple[Run, ...], *, carried: bool) -> Iterator[Input]:
    yield Input(bool(runs), f"{name}: enter the cable runs.")
    for count, run in enumerate(runs, start=1):
        where = f"{name}, run {count}"
        yield Input(run.cable is not None, f"{where}: choose the cable.")
        yield Input(run.csa is not None, f"{where}: enter the size of the line conductor.")
        yield Input(run.cpc is not None, f"{where}: say what serves as cpc.")
        if carried and run.cpc is Cpc.SEPARATE:
            yield Input(run.cpc_csa is not None, f"{where}: enter the size of the separate cpc.")
        yield Input(run.length is not None, f"{where}: enter its length.")
        yield Input(run.method is not None, f"{where}: choose the installation method.")
