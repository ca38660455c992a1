"""Runs, circuits, points, people: added, copied, opened, taken out, and what may not go."""

from pathlib import Path

from records.demo import demo_record
from records.model.job import Duty
from records.store.file import RecordFile
from records.terms import Step as WalkStep
from records.terms import Symptom
from tests.tui.driving import Driver, blank, wizard


async def _to(driver: Driver, step: str) -> None:
    await driver.keys("f6", step)
    await driver.settled()


async def test_what_has_readings_stays_and_is_copied_without_them(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path, begin=WalkStep.CIRCUITS) as driver:
        before = driver.record
        await driver.keys("f8")
        assert "a reading never goes" in driver.words, "a circuit with readings stays"
        assert driver.record == before

        await driver.keys("down", "f7")
        await driver.settled()
        first, copy = before.circuits[1], driver.record.circuits[-1]
        assert copy.id not in {each.id for each in before.circuits}
        assert (copy.device, copy.rcd, copy.runs) == (first.device, first.rcd, first.runs)
        assert copy.points == first.points
        assert copy.name == ""
        assert driver.record.readings == before.readings
        assert f"Circuits › {copy.id}" in driver.screen

        count = len(driver.record.circuits)
        await driver.keys("f8")
        assert len(driver.record.circuits) == count - 1, "one without readings goes"
        assert "Circuits ›" not in driver.screen
        await driver.keys("ctrl+z")
        assert len(driver.record.circuits) == count, "and comes back by undo"

        await _to(driver, "1")
        job = driver.record.job
        by = next(each.by for each in driver.record.readings if each.by)
        person = next(each for each in job.people if each.id == by)
        await driver.row(person.name)
        await driver.keys("f8")
        assert "who did what, and with what, stays" in driver.words
        assert driver.record.job == job


async def test_what_is_taken_out_leaves_the_others_in_order_and_no_draft_moves(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path) as driver:
        await driver.row("+ add a person")
        await driver.fill("", "Wren")
        assert driver.record.job.people[0].duty is Duty.INSTALLS
        await driver.keys("f8")
        assert driver.record.job.people == ()
        assert "Person P1 is removed" in driver.words

        await _to(driver, "3")
        for where in ("loft", "trench"):
            await driver.row("+ add a run")
            await driver.fill("", where)
            await driver.keys("escape")
        await driver.row("1 loft")
        await driver.keys("f7")
        assert [each.where for each in driver.record.feed.runs] == ["loft", "trench", "loft"]
        await driver.keys("f8")
        assert [each.where for each in driver.record.feed.runs] == ["trench", "loft"]

        await driver.row("1 trench")
        await driver.fill("")
        await driver.row("Length")
        await driver.type("18 feet")
        await driver.keys("enter", "down", "escape")
        assert list(driver.app.session.drafts.values()) == ["18 feet"]
        await driver.row("1 trench")
        await driver.keys("f8")
        await driver.row("1 loft")
        await driver.fill("")
        assert "18 feet" not in driver.screen, "a draft never moves into another entry's field"


async def test_the_page_of_a_circuit_asks_for_what_its_device_and_form_need(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=5) as driver:
        await driver.fill("")
        assert "Circuits › C1" in driver.screen
        await driver.keys("ctrl+z")
        await driver.settled()
        assert driver.record.circuits == ()
        assert "Circuits ›" not in driver.screen, "undone while its page is open: one goes up"
        assert "+ add a circuit" in driver.screen

        await driver.fill("")
        assert "Residual current part" not in driver.screen
        await driver.row("Protective device")
        await driver.fill("rcbo type c")
        assert "RCD part of the RCBO" in driver.screen
        assert "enter its IΔn from the label" in driver.words
        await driver.row("RCD IΔn")
        await driver.fill("30")
        assert "enter its IΔn from the label" not in driver.words

        assert "Fuse in connection unit" not in driver.screen
        await driver.row("Arrangement")
        await driver.fill("fused")
        assert "Fuse in connection unit" in driver.screen

        await driver.row("+ note something noticed")
        await driver.fill("", "rain", "socket by the door")
        (found,) = driver.record.noticed
        assert (found.kind, found.circuit) == (Symptom.RAIN, "C1")
        assert found.note == "socket by the door"
        await driver.row("When and where")
        await driver.keys("f8")
        assert driver.record.noticed == ()


async def test_points_are_added_in_a_row_put_in_and_moved_with_what_is_typed_in_them(
    tmp_path: Path,
) -> None:
    """A point that was forgotten goes where it is on the cable; one out of order is moved."""
    async with blank(tmp_path, step=5) as driver:
        await driver.fill("")
        await driver.row("Points")
        await driver.keys("enter")
        await driver.row("+ add a row of points, named S1, S2 …")
        await driver.fill("")
        for wrong in ("0", "41", "many"):
            await driver.type(f"{wrong}\n")
            assert "type how many points, 1 to 40" in driver.words
            await driver.keys(*["backspace"] * len(wrong))
        await driver.fill("3")

        def names() -> list[str]:
            return [each.name for each in driver.record.circuits[0].points]

        assert names() == ["S1", "S2", "S3"]
        assert {each.at for each in driver.record.circuits[0].points} == {None}, "not placed yet"

        await driver.row("Distance from the board")
        await driver.keys("ctrl+n")
        assert names() == ["S4", "S1", "S2", "S3"]
        await driver.keys("ctrl+down")
        assert names() == ["S1", "S4", "S2", "S3"]
        await driver.keys("ctrl+down")
        assert names() == ["S1", "S2", "S4", "S3"]
        await driver.keys("ctrl+up")
        assert names() == ["S1", "S4", "S2", "S3"]
        assert "S4 is moved" in driver.words
        await driver.keys("ctrl+up", "ctrl+up")
        assert names() == ["S4", "S1", "S2", "S3"]
        assert "Nothing here can be moved up" in driver.words
        await driver.keys("f8")
        assert names() == ["S1", "S2", "S3"]


async def test_origin_and_board_caution_where_the_earthing_is_chosen(tmp_path: Path) -> None:
    pme, tt = "if the supply's neutral breaks", "Every circuit needs an RCD"
    competent = "Follow local rules and a competent person."
    async with blank(tmp_path, step=2) as driver:
        assert pme not in driver.words
        assert tt not in driver.words
        await driver.fill("tn-c-s")
        assert pme in driver.words
        assert competent in driver.words

        await driver.keys("f4", "f4")
        await driver.row("Extraneous metal parts")
        assert "PME with metal in the ground" not in driver.words
        await driver.fill("y")
        assert "PME with metal in the ground" in driver.words
        await driver.row("Earth of the outbuilding")
        await driver.fill("electrode")
        await driver.row("Extraneous metal parts")
        assert "Armour, pipes and screens must not join the two" in driver.words

        await driver.keys("f3", "f3")
        await driver.settled()
        await driver.row("Earthing of the supply")
        await driver.fill("tt")
        assert pme not in driver.words
        assert tt in driver.words
        assert competent in driver.words
