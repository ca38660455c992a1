"""Keys that a job costs from blank, against the characters of its values plus one key each.

The design is entered on the form's pages, with a line where the wizard takes one; the readings at
the bench, in its order. What the job has as its history (re-tests, remedies) is left out.
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from records.demo import demo_record
from records.entering.field import Field, Kind, Several
from records.entering.typed_field import offered, read_field
from records.errors import FarboardError
from records.model.circuit import Circuit
from records.model.outbuilding import Feed
from records.model.reading import Figure, NotNeeded, NotTaken, Tick
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.store.exchange import from_json
from records.terms import CableKind, Form, Method, Step, Use
from tests.tui.driving import Driver, blank
from tui.dialogs.dialog import Dialog
from tui.dialogs.yes_no import YesNo
from tui.steps.bench_step import BenchStep
from tui.widgets.rows import Link, key_at
from tui.widgets.rows import stops as stops_of

AIM = 1.3
FIXTURES = ("bindery", "joinery")
_CABLES = {
    CableKind.FLAT: "t+e",
    CableKind.SWA_XLPE: "swa",
    CableKind.SWA_PVC: "swa pvc",
    CableKind.SINGLES: "singles",
    CableKind.FLEX: "flex",
}
_USES = {Use.SOCKETS: "sockets", Use.LIGHTING: "lights", Use.FIXED: "fixed"}


class Hands:
    """Types, and counts: keys pressed, and the least that the values themselves need."""

    def __init__(self, driver: Driver, wanted: Record) -> None:
        self.driver, self.wanted = driver, wanted
        self.keys = self.least = 0
        self.missed: list[str] = []

    async def press(self, *keys: str) -> None:
        """Press keys by their names."""
        self.keys += len(keys)
        await self.driver.keys(*keys)

    async def enter(self, text: str) -> None:
        """Type a text and Enter."""
        self.keys += len(text) + 1
        await self.driver.type(f"{text}\n")

    def value(self, text: str) -> None:
        """Count a value at its least: its characters and one key."""
        self.least += len(text) + 1

    @property
    def form(self) -> Any:
        """The form on the screen."""
        return self.driver.app.screen.query_one("#form")

    async def to(self, key: str) -> None:
        """Walk to a row by arrows, a page at a time where that is shorter."""
        stops = stops_of(self.form.rows)
        keys = [key_at(self.form.rows, at) for at in stops]
        by = keys.index(key) - stops.index(self.form._at)
        await self.press(*["down" if by > 0 else "up"] * abs(by))

    async def fill_page(self, skip: Sequence[str] = ()) -> None:
        """Give every field of the page the value that it has in the job wanted."""
        done: set[str] = set()
        while True:
            rows = [each for each in self.form.rows if isinstance(each, Field)]
            field = next(
                (
                    each
                    for each in rows
                    if each.kind is not Kind.LINE
                    and each.key not in done
                    and each.key.rpartition("/")[2] not in skip
                    and at_pointer(self.wanted, each.key) != each.value
                ),
                None,
            )
            if field is None:
                return
            done.add(field.key)
            text = typed_for(field, at_pointer(self.wanted, field.key))
            self.value(text)
            await self.to(field.key)
            await self.enter(text)

    async def leave_to(self, key: str) -> None:
        """Press Esc until the page with a row is there."""
        for _ in range(4):
            await self.press("escape")
            if any(getattr(each, "key", "") == key for each in self.form.rows):
                return

    def check(self, name: str, mine: object, wanted: object) -> None:
        """Note what did not come out as wanted."""
        if mine != wanted:
            self.missed.append(f"{name}: {mine!r} is not {wanted!r}")


def at_pointer(record: Record, pointer: str) -> Any:
    """Return what stands at a pointer of a record."""
    found: Any = record
    for part in pointer.split("/")[1:]:
        found = found[int(part)] if part.isdigit() else getattr(found, part)
    return found


def typed_for(field: Field, value: object) -> str:
    """Return the least that a person types to give a field a value."""
    if field.is_choice:
        label = next(each.label for each in field.options if each.value == value).casefold()
        for length in range(1, len(label) + 1):
            first = offered(field, label[:length])[:1]
            if first and first[0].value == value:
                return label[:length]
        return label
    if isinstance(value, float):
        return f"{value:.12g}"
    text = f"{value:%d/%m/%y}" if field.kind is Kind.DATE else str(value)
    assert not isinstance(read_field(field, text), Several)
    return text


def device_words(device: Device, rcd: Rcd) -> str:
    """Return a device and its RCD as on an offcut."""
    words = []
    if device.kind is not None and device.kind.curve:
        words.append(f"{device.kind.curve}{device.rating:g}")
        words += ["rcbo"] if device.kind.is_rcbo else ["rcd"] if rcd.residual else []
    elif device.kind is not None:
        words.append(f"{device.rating:g} {''.join(device.kind.value.split()[:2])}")
    words += [f"{rcd.residual:g}ma"] if rcd.residual is not None else []
    words += [f"type {rcd.type.value}"] if rcd.type is not None else []
    words += [f"{device.breaking:g}k"] if device.breaking is not None else []
    return " ".join(words)


def run_words(run: Run) -> str:
    """Return a run as on an offcut, with its place in quotes."""
    words = [f'"{run.where}"'] if run.where else []
    words += [f"{run.cores}c"] if run.cable is not None and run.cable.is_armoured else []
    if run.csa is not None:
        pair = run.cable is CableKind.FLAT and run.cpc_csa is not None
        words.append(f"{run.csa:g}/{run.cpc_csa:g}" if pair else f"{run.csa:g}")
    words += [_CABLES[run.cable]] if run.cable is not None else []
    words += [f"{run.length:g}m"] if run.length is not None else []
    if run.method is Method.D:
        words.append("buried" if run.depth is None else f"buried {run.depth * 1000:g}")
    elif run.method is not None:
        words.append("clipped" if run.method is Method.C else f"method {run.method.value}")
    return " ".join(words)


def circuit_words(circuit: Circuit) -> str:
    """Return what a line says of a circuit itself."""
    words = [_USES[circuit.use]] if circuit.use is not None else []
    words += [circuit.form.value] if circuit.form not in (None, Form.FCU) else []
    words += [f"fcu {circuit.fuse:g}a"] if circuit.form is Form.FCU and circuit.fuse else []
    words += [f"load {circuit.load:g}"] if circuit.load is not None else []
    words += [f"{circuit.power:g}kw"] if circuit.power is not None else []
    words += ["outside"] if circuit.outdoors else []
    return " ".join(words)


async def line(hands: Hands, key: str, text: str) -> None:
    """Type a line of shorthand; each of its words is a value, its quotes are not."""
    await hands.to(key)
    for part in text.replace('"', "").split():
        hands.least += len(part) + 1
    await hands.enter(text)
    while isinstance(hands.driver.app.screen, Dialog):
        await hands.press("enter")


async def entries(hands: Hands, add: str, count: int, skip: Sequence[str] = ()) -> None:
    """Add entries of a list, each on its page, and come back."""
    for _ in range(count):
        await hands.to(add)
        await hands.press("enter")
        await hands.fill_page(skip)
        await hands.press("escape")


async def runs(hands: Hands, owner: Feed | Circuit, pointer: str, from_: int) -> None:
    """Enter further runs on the page of their owner, and what their lines could not say."""
    for at, run in enumerate(owner.runs):
        if at >= from_:
            if pointer == "/feed":
                await line(hands, "/feed/=", run_words(run))
            else:
                await hands.to(f"{pointer}/runs/+")
                await hands.press("enter")
                await line(hands, f"{pointer}/runs/{at}/=", run_words(run))
                await hands.press("escape")
        here = f"{pointer}/runs/{at}"
        if at_pointer(hands.driver.record, here) != run:
            await hands.to(here)
            await hands.press("enter")
            await hands.fill_page()
            await hands.press("escape")
        hands.check(here, at_pointer(hands.driver.record, here), run)


async def points(hands: Hands, circuit: Circuit, at: int) -> None:
    """Enter the points of a circuit in one line, then what the line could not say."""
    pointer = f"/circuits/{at}"
    await hands.to("points")
    await hands.press("enter")
    words = []
    for each in circuit.points:
        name = each.name or each.id
        spur = each.spur is not None
        distance = each.spur if spur else each.at
        words.append(
            f"{'spur ' if spur else ''}{name.replace(',', '')}"
            + (f" {distance:g}m" if distance is not None else "")
        )
    await line(hands, f"{pointer}/points/=", ", ".join(words))
    await hands.fill_page()
    count = len(at_pointer(hands.driver.record, f"{pointer}/points"))
    hands.check(f"points of {circuit.id}", count, len(circuit.points))
    await hands.leave_to("points")


async def design(hands: Hands) -> None:
    """Enter the five steps of the design."""
    wanted = hands.wanted
    await hands.fill_page()
    await entries(hands, "+person", len(wanted.job.people))
    await entries(hands, "+instrument", len(wanted.job.instruments))
    await hands.press("f4")
    await hands.fill_page()
    await hands.press("f4")
    first = run_words(wanted.feed.runs[0]) if wanted.feed.runs else ""
    await line(hands, "/feed/=", f"{device_words(wanted.feed.device, wanted.feed.rcd)} {first}")
    await runs(hands, wanted.feed, "/feed", 1)
    await hands.fill_page()
    await hands.press("f4")
    await hands.fill_page()
    await entries(hands, "+bond", len(wanted.board.bonds))
    await hands.press("f4")
    for at, circuit in enumerate(wanted.circuits):
        pointer = f"/circuits/{at}"
        text = f"{circuit_words(circuit)} {device_words(circuit.device, circuit.rcd)}"
        cable = run_words(circuit.runs[0]).rpartition('"')[2] if circuit.runs else ""
        await line(hands, "/circuits/=", f'"{circuit.name}" {text} {cable}')
        if at >= len(hands.driver.record.circuits):
            hands.missed.append(f"{circuit.id}: its line was not taken")
            continue
        id = hands.driver.record.circuits[at].id
        if not any(isinstance(each, Link) and each.key == id for each in hands.form.rows):
            await hands.press("escape")  # a word was not understood: its page is open
        await hands.to(id)
        await hands.press("enter")
        await hands.fill_page()
        await runs(hands, circuit, pointer, 1)
        await points(hands, circuit, at)
        await hands.leave_to("/circuits/=")


async def readings(hands: Hands, step: Step) -> None:
    """Take the readings of a stage in the order of the bench, the first of each."""
    hands.driver.app.go(step)
    await hands.driver.settled()
    tried: set[object] = set()
    while True:
        screen = hands.driver.app.screen
        if isinstance(screen, Dialog):
            await hands.press("y" if isinstance(screen, YesNo) else "enter")
            continue
        assert isinstance(screen, BenchStep)
        entry = screen.bench.entry
        if entry is None or entry.slot in tried:
            return
        if screen.bench.must_read.caution is not None:
            await hands.press("enter")
            continue
        tried.add(entry.slot)
        taken = hands.wanted.taken(entry.slot)
        match taken[0].taken if taken and entry.is_open else None:
            case Figure() as figure:
                text = figure.typed or f"{figure.value:g}"
            case Tick(good=good):
                text = "y" if good else "n"
            case NotTaken(reason=reason) | NotNeeded(reason=reason):
                letter = "c" if isinstance(taken[0].taken, NotTaken) else "x"
                hands.value(reason)
                await hands.press(letter)
                await hands.driver.settled()
                await hands.enter(reason)
                continue
            case _:
                await hands.press("down")
                continue
        hands.value(text)
        await hands.enter(text)


async def enter(name: str, wanted: Record) -> tuple[int, int]:
    """Enter a job and print what it cost; return the keys and the least."""
    with tempfile.TemporaryDirectory() as folder:
        async with blank(Path(folder)) as driver:
            hands = Hands(driver, wanted)
            await design(hands)
            keys, least = hands.keys, hands.least
            print(f"{name:12} design   {keys:5} keys, {least:5} at least: {keys / least:.2f}")
            for step in (Step.BEFORE_COVERING, Step.DEAD_TESTS, Step.LIVE_TESTS):
                try:
                    await readings(hands, step)
                except FarboardError as error:
                    hands.missed.append(str(error))
            more, need = hands.keys - keys, hands.least - least
            if need:
                print(f"{name:12} readings {more:5} keys, {need:5} at least: {more / need:.2f}")
            count = len(driver.record.readings)
            print(f"{name:12} {count} readings taken; all {hands.keys / hands.least:.2f}")
            for each in hands.missed:
                print(f"  not as wanted: {each[:160]}")
            return hands.keys, hands.least


def main(*names: str) -> None:
    """Enter the demo and two fixtures, or the jobs named."""
    keys = least = 0
    for name in names or ("demo", *FIXTURES):
        path = Path(__file__).parents[2] / "fixtures" / name / "job.json"
        wanted = demo_record() if name == "demo" else from_json(path.read_text("utf-8"))
        one, other = asyncio.run(enter(name, wanted))
        keys, least = keys + one, least + other
    print(f"all: {keys / least:.2f} keys for each that the values need; the aim is {AIM}")


if __name__ == "__main__":
    main(*sys.argv[1:])
