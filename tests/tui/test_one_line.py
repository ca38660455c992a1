"""A circuit, a feed, a run and points typed in one line, on a real screen."""

from __future__ import annotations

from pathlib import Path

from records.model.record import Record
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, Use
from tests.tui.driving import Driver, blank

RING = "sockets ring B32 rcbo 30ma 2.5/1.5 68m clipped"


async def at_line(driver: Driver, label: str = "In one line") -> None:
    await driver.row(label)


async def test_a_line_adds_a_circuit_and_one_undo_takes_it_back(tmp_path: Path) -> None:
    async with blank(tmp_path, step=5) as driver:
        await at_line(driver, "Next in one line")
        await driver.type(RING)
        assert "RCBO type B 32 A, 30 mA" in driver.words  # echoed before it counts
        assert not driver.record.circuits
        await driver.keys("enter")

        (circuit,) = driver.record.circuits
        assert (circuit.use, circuit.form) == (Use.SOCKETS, Form.RING)
        assert (circuit.device.kind, circuit.device.rating) == (DeviceKind.RCBO_B, 32)
        assert circuit.rcd.residual == 30
        (run,) = circuit.runs
        assert (run.cable, run.csa, run.cpc_csa, run.cpc) == (CableKind.FLAT, 2.5, 1.5, Cpc.CORE)
        assert (run.length, run.method) == (68, Method.C)
        await driver.fill("lights B6 rcbo 30 mA t+e 1.5 24m method 100")
        assert [each.device.rating for each in driver.record.circuits] == [32, 6]

        await driver.keys("ctrl+z", "ctrl+z")
        assert not driver.record.circuits

        await at_line(driver, "Next in one line")
        await driver.fill("lights B6 30ma")
        assert "An RCBO" in driver.screen, "what could be two things is asked"
        assert not driver.record.circuits
        await driver.keys("enter")
        assert driver.record.circuits[0].device.kind is DeviceKind.RCBO_B

        await at_line(driver, "Next in one line")
        await driver.fill("lights B6 wobble")
        assert "“wobble” is not understood. The rest is taken." in driver.words
        await driver.keys(*["backspace"] * 6)
        await driver.fill("1.5 12m clipped")
        *_, circuit = driver.record.circuits
        assert len(driver.record.circuits) == 2, "it stays where it goes on"
        assert [(run.csa, run.length) for run in circuit.runs] == [(1.5, 12)]


async def test_the_feed_in_one_line(tmp_path: Path) -> None:
    async with blank(tmp_path, step=3) as driver:
        await at_line(driver)
        await driver.fill("63 bs88-3 3c 16 swa 46m buried 600", "16 t+e 3m clipped")

        feed = driver.record.feed
        assert (feed.device.kind, feed.device.rating) == (DeviceKind.BS_88_3, 63)
        first, second = feed.runs
        assert (first.cores, first.csa, first.length, first.depth) == (3, 16, 46, 0.6)
        assert (first.method, first.ambient, first.cpc) == (Method.D, 20, None)
        assert (second.cable, second.cpc, second.ambient) == (CableKind.FLAT, Cpc.CORE, 30)

        # A whole line typed in one field goes to the line.
        await driver.keys("ctrl+z", "ctrl+z")
        assert not driver.record.feed.runs
        line = "63 bs88-3 3c 16 swa 46m buried 600"
        for label in ("Protective device", "Ib of the feed"):
            await driver.row(label)
            await driver.type(f"{line}\n")
            assert f"“{label}” takes one answer. What you type is in “In one line” now." in (
                driver.words
            )
            assert not driver.record.feed.runs
            await driver.keys("enter")
            assert [run.length for run in driver.record.feed.runs] == [46]
            await driver.keys("ctrl+z")

        await driver.row("Ib of the feed")
        await driver.type("63 kiln\n")  # too little to be a line: refused where it stands
        assert "“kiln” is not a unit for this field" in driver.words
        assert "takes one answer" not in driver.words


async def test_points_in_one_line(tmp_path: Path) -> None:
    async with blank(tmp_path, step=5) as driver:
        await at_line(driver, "Next in one line")
        await driver.fill("sockets ring")
        await driver.row("C1")
        await driver.keys("enter")
        await driver.row("Points")
        await driver.keys("enter")
        await at_line(driver)
        await driver.fill("S1 door 6m, S2 bench 11m, spur S3 4m")

        assert points(driver.record) == [
            ("S1 door", 6, None),
            ("S2 bench", 11, None),
            ("S3", 11, 4),
        ]
        await driver.keys("ctrl+z")
        assert points(driver.record) == []
        await driver.fill("L1-L3 from 3m every 1.2m, L4 450")
        assert points(driver.record) == [("L1", 3, None), ("L2", 4.2, None), ("L3", 5.4, None)]
        assert "Type 450m or 450mm. The rest is taken." in driver.words


def points(record: Record) -> list[tuple[str, float | None, float | None]]:
    return [(each.name, each.at, each.spur) for each in record.circuits[0].points]


async def test_shorthand_in_a_list_and_in_a_figure(tmp_path: Path) -> None:
    async with blank(tmp_path, step=5) as driver:
        await driver.row("+ add a circuit")
        await driver.keys("enter")
        await driver.row("Protective device")
        await driver.type("C16 rcbo")
        assert "RCBO type C 16 A." in driver.screen
        await driver.keys("enter")
        await driver.row("Breaking capacity")
        await driver.type("6000")
        assert "= 6 kA" in driver.screen
        await driver.keys("enter")

        device = driver.record.circuits[0].device
        assert (device.kind, device.rating, device.breaking) == (DeviceKind.RCBO_C, 16, 6)
        await driver.row("+ add a run")
        await driver.keys("enter")
        await driver.row("Cable")
        await driver.fill("10/4")
        run = driver.record.circuits[0].runs[0]
        assert (run.cable, run.csa, run.cpc_csa, run.cpc) == (CableKind.FLAT, 10, 4, Cpc.CORE)
        assert "What serves as cpc" not in driver.screen
        await driver.row("Installation method")
        await driver.fill("buried")
        run = driver.record.circuits[0].runs[0]
        assert (run.method, run.ambient) == (Method.D, 20)


async def test_a_device_of_the_feed_is_asked_for_and_what_one_entry_filled_is_passed_over(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=3) as driver:
        await driver.row("Protective device")
        await driver.type("63a bs88\n")
        assert driver.record.feed.device.kind is None, "Enter alone does not choose of two"
        assert "It could be BS 88-2 fuse 63 A or BS 88-3 fuse 63 A" in driver.words
        await driver.keys("down", "enter")
        assert driver.record.feed.device.kind is DeviceKind.BS_88_3
        assert driver.record.feed.device.rating == 63
        await driver.fill("33")
        assert driver.record.feed.device.rating == 63, "the rating is passed over"
        assert driver.record.feed.device.breaking == 33

        await at_line(driver)
        await driver.fill("3c 16 swa 46m")
        await driver.row("1")
        await driver.keys("enter")
        await driver.row("What serves as cpc")
        await driver.keys("enter")
        assert "the armour alone" in driver.screen
        assert "a separate conductor" not in driver.screen, "armoured cable offers its own only"


async def test_a_line_typed_where_none_is_taken_or_as_a_name_is_the_line_it_is(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=5) as driver:
        await driver.row("+ add a circuit")
        await driver.type(RING)
        assert "“+ add a circuit” takes no text. What you type is in “Next in one line”" in (
            driver.words
        )
        assert not driver.record.circuits
        await driver.keys("enter")
        assert driver.record.circuits[0].form is Form.RING
        await driver.keys("ctrl+z")
        assert not driver.record.circuits

        await driver.row("+ add a circuit")
        await driver.type("\n")
        await driver.fill("sockets ring B32 rcbo 30ma 2.5/1.5 38m clipped")
        circuit = driver.record.circuits[0]
        assert circuit.form is Form.RING
        assert circuit.runs[0].length == 38
        assert "sockets ring B32" not in circuit.name

        await driver.row("Name")
        await driver.fill("Ring B32 by the door")
        assert driver.record.circuits[0].name == "Ring B32 by the door"

        await driver.keys("f3")  # the board has no line
        await driver.row("+ note something noticed")
        await driver.type("x")
        assert "takes no text: Enter does it, then type" in driver.words
