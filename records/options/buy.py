"""What to buy for a design: metres of cable, devices, glands by cable, boxes by kind."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from records.errors import NotTabulated
from records.model.fabric import Box
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.options.cables import Make
from records.options.feed import words
from records.tables import glands
from records.terms import CableKind, Cpc, Form, Method, OutbuildingEarth, Word
from records.units import SquareMillimetre

ALLOWANCE = 10.0
"""% of cable bought over what is entered, unless somebody says otherwise (common practice)."""


class Sort(Word):
    """What sort of thing it is, in the order of the list."""

    CABLE = "cable"
    DEVICE = "device"
    GLAND = "gland"
    BOX = "box"
    EARTH = "earth", "earth and bonds"


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the list."""

    sort: Sort
    what: str
    quantity: int
    unit: str
    """`m`, or empty for pieces."""
    uses: tuple[str, ...]
    """What it is for: `Feed, run 2`, `C1`."""
    note: str = ""
    """What to look at before it is bought; empty if nothing."""


@dataclass(frozen=True, slots=True)
class BuyList:
    """What a design asks for, as far as it is entered."""

    items: tuple[Item, ...]
    missing: tuple[str, ...]
    """What can't be listed before it is entered, a sentence each."""
    allowance: float
    """% of cable over what is entered."""


@dataclass(frozen=True, slots=True)
class _Wanted:
    sort: Sort
    what: str
    amount: float
    unit: str
    use: str
    note: str = ""


def wanted_allowance(record: Record) -> float:
    """Return the cable to buy over what is entered [%]: as the record has it, or 10."""
    given = record.buying.allowance
    return ALLOWANCE if given is None else given


def buy_list(record: Record, allowance: float | None = None) -> BuyList:
    """Return what to buy; equal things are one line, cable in whole metres.

    Args:
        record: The job.
        allowance: % of cable over what is entered; None: as the record has it, or 10 %.
    """
    allowance = wanted_allowance(record) if allowance is None else allowance
    found: list[_Wanted] = []
    missing: list[str] = []
    for use, runs in _runs(record):
        for number, run in enumerate(runs, start=1):
            here = f"{use}, run {number}" if len(runs) > 1 else use
            lacking = _lacking(run)
            if lacking:
                missing.append(f"{here}: {lacking} is not entered yet.")
            else:
                found += _cable(run, here)
        if not runs:
            missing.append(f"{use}: no run of cable is entered yet.")
    for use, device, rcd in _devices(record):
        if device.kind is None or device.rating is None:
            missing.append(f"{use}: its device is not all entered yet.")
        else:
            note = _AT_HOUSE if use == "Feed" else ""
            found.append(_Wanted(Sort.DEVICE, _device(device, rcd), 1, "", use, note))
    found += _at_board(record)
    found += _boxes(record)
    found += _earth(record, missing)
    return BuyList(tuple(_added_up(found, allowance)), tuple(missing), allowance)


def _added_up(found: list[_Wanted], allowance: float) -> Iterator[Item]:
    lines: dict[tuple[Sort, str, str], list[_Wanted]] = {}
    for each in found:
        lines.setdefault((each.sort, each.what, each.unit), []).append(each)
    order = list(Sort)
    for (sort, what, unit), same in sorted(lines.items(), key=lambda pair: order.index(pair[0][0])):
        amount = sum(each.amount for each in same)
        if unit:
            # Rounded before it is rounded up: 46 m and 10 % are 50.6, not 50.600000000000009.
            amount = math.ceil(round(amount * (1 + allowance / 100), 6))
        uses = tuple(dict.fromkeys(each.use for each in same))
        note = " ".join(dict.fromkeys(each.note for each in same if each.note))
        yield Item(sort, what, int(amount), unit, uses, note)


def _runs(record: Record) -> Iterator[tuple[str, tuple[Run, ...]]]:
    yield "Feed", record.feed.runs
    for circuit in record.circuits:
        yield circuit.id, circuit.runs


def _devices(record: Record) -> Iterator[tuple[str, Device, Rcd]]:
    yield "Feed", record.feed.device, record.feed.rcd
    for circuit in record.circuits:
        yield circuit.id, circuit.device, circuit.rcd


def _lacking(run: Run) -> str:
    for name, value in (
        ("the kind of cable", run.cable),
        ("the size of the line", run.csa),
        ("the length", run.length),
        ("what serves as cpc", run.cpc),
    ):
        if value is None:
            return name
    return "the size of the separate cpc" if run.cpc is Cpc.SEPARATE and not run.cpc_csa else ""


def _cable(run: Run, use: str) -> Iterator[_Wanted]:
    cable, csa, length, cpc = run.cable, run.csa, run.length or 0.0, run.cpc
    assert cable is not None
    assert csa is not None
    assert cpc is not None
    name = words(Make(cable, run.cores, csa, cpc))
    if cable is CableKind.FLAT and run.cpc_csa:
        name = f"{csa:g}/{run.cpc_csa:g} mm² twin-and-earth"
    if cable is CableKind.SINGLES:
        name, length = f"{csa:g} mm² single core, line and neutral colours", 2 * length
    if cable is CableKind.FLEX:
        name = f"{csa:g} mm² flexible cable"
    yield _Wanted(Sort.CABLE, name, length, "m", use)
    if cpc is Cpc.SEPARATE:
        what = f"{run.cpc_csa:g} mm² single core, green-and-yellow"
        yield _Wanted(Sort.CABLE, what, run.length or 0.0, "m", use)
    if cable.is_armoured:
        what, note = _gland(cable, run.cores, csa, name)
        yield _Wanted(Sort.GLAND, what, 2, "", use, note)
    if run.method is Method.D:
        if run.duct:
            yield _Wanted(Sort.CABLE, "cable duct", run.length or 0.0, "m", use, _DUCT)
        yield _Wanted(Sort.CABLE, "cable marker tape", run.length or 0.0, "m", use, _TAPE)


_AT_HOUSE = "It has to fit the board at the house; the certifier puts it in."
_DUCT = "Wide enough for the cable's bends: the maker's table."
_TAPE = "Or cable covers: a buried cable is marked (BS 7671, Regulation 522.8.10)."


def _gland(cable: CableKind, cores: int, csa: float, name: str) -> tuple[str, str]:
    """Return the gland kit for a cable by size, and what to look at; by its maker if not known."""
    by_maker = "Measure over the sheath; the size follows from the maker's table."
    if cable is not CableKind.SWA_XLPE:
        return f"gland kit for {name}", by_maker
    try:
        thick = glands.overall_diameter(cores, SquareMillimetre(csa)).value
    except NotTabulated:
        return f"gland kit for {name}", by_maker
    size = glands.usual_gland(thick)
    if size is None:
        return f"gland kit for {name}", by_maker
    return (
        f"gland kit, usually size {size}, for {name}",
        f"The cable is about {thick:g} mm thick (sizes of glands from memory): the maker's table "
        "decides.",
    )


def _device(device: Device, rcd: Rcd) -> str:
    kind, rating = device.kind, device.rating
    text = f"{kind}, {rating:g} A"
    if rcd.residual is not None:
        of = f" type {rcd.type}" if rcd.type is not None else ""
        text += f", {rcd.residual:g} mA{of}{' delayed' if rcd.delayed else ''}"
        text += "" if kind is not None and kind.is_rcbo else " RCD beside it"
    return text if device.breaking is None else f"{text}, {device.breaking:g} kA"


_WAYS_OF_SWITCH = _WAYS_OF_RCD = 2
_WAYS_OF_SURGE = 2
"""Modules in a board (common practice; makers differ)."""


def _at_board(record: Record) -> Iterator[_Wanted]:
    board = record.board
    if record.circuits:
        ways = len(record.circuits) + _WAYS_OF_SWITCH
        ways += _WAYS_OF_RCD if board.rcd.residual is not None else 0
        ways += _WAYS_OF_SURGE if board.surge_protection else 0
        note = "Main switch, circuits and what else is in it; spare ways come on top."
        yield _Wanted(Sort.DEVICE, f"board for at least {ways} modules", 1, "", "Board", note)
    if board.main_switch is not None:
        yield _Wanted(Sort.DEVICE, f"main switch, {board.main_switch:g} A", 1, "", "Board")
    if board.rcd.residual is not None:
        delayed = ", delayed" if board.rcd.delayed else ""
        of = f", type {board.rcd.type}" if board.rcd.type is not None else ""
        what = f"RCD, {board.rcd.residual:g} mA{of}{delayed}"
        yield _Wanted(Sort.DEVICE, what, 1, "", "Board")
    if board.surge_protection:
        yield _Wanted(Sort.DEVICE, "surge protective device", 1, "", "Board")
    for circuit in record.circuits:
        if circuit.form is Form.FCU:
            fuse = f", {circuit.fuse:g} A fuse" if circuit.fuse is not None else ""
            yield _Wanted(Sort.DEVICE, f"fused connection unit{fuse}", 1, "", circuit.id)


def _boxes(record: Record) -> Iterator[_Wanted]:
    for circuit in record.circuits:
        for point in circuit.points:
            box = point.spot.box if point.spot is not None else None
            if box not in (None, Box.BOARD):
                yield _Wanted(Sort.BOX, f"{box} box".replace("box box", "box"), 1, "", circuit.id)
    for fixture in record.fabric.fixtures:
        box = fixture.spot.box
        if box not in (None, Box.BOARD) and not fixture.is_opening:
            name = fixture.name or fixture.id
            yield _Wanted(Sort.BOX, f"{box} box".replace("box box", "box"), 1, "", name)


def _earth(record: Record, missing: list[str]) -> Iterator[_Wanted]:
    board = record.board
    for bond in board.bonds:
        if bond.csa is None or bond.length is None:
            missing.append(f"Bond to {bond.name}: its size and length are not all entered yet.")
        else:
            what = f"{bond.csa:g} mm² single core, green-and-yellow"
            yield _Wanted(Sort.CABLE, what, bond.length, "m", f"bond to {bond.name}")
            yield _Wanted(Sort.EARTH, "bonding clamp with its label", 1, "", f"bond to {bond.name}")
    if board.earth is OutbuildingEarth.OWN_ELECTRODE:
        if not board.electrode.strip():
            missing.append("Electrode: its kind and number are not entered yet (Board).")
        else:
            yield _Wanted(Sort.EARTH, f"electrode: {board.electrode.strip()}", 1, "", "Board")
