"""Damaged files: what stands before the damage comes out, nothing else, and they stay as they are.

The form of pages and cells is from the SQLite documentation, "Database File Format".
"""

from __future__ import annotations

import json
import os
import random
import sqlite3
from pathlib import Path

import pytest
from click.testing import CliRunner

from records.errors import CannotOpen, CannotWrite
from records.model.record import Record
from records.store.edits import append, put
from records.store.file import RecordFile
from records.store.rescue import keep_unproved, rescue, rescued
from records.store.unproved import NothingProved
from tests.store.conftest import reading, small_record
from tests.store.test_crash import half_a_write
from tui.commands.program import program

LONG = "a remark that goes on over many pages of the file, and then on " * 30
"""So that some changes need pages of their own."""


class Whole:
    """A record file of some length, and all the states that it went through."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.states: list[tuple[Record, str]] = []
        with RecordFile.create(path, small_record()) as file:
            self.states.append((file.record, file.fingerprint))
            for number in range(1, 60):
                ops = append("/readings", reading(number))
                if number % 7 == 0:
                    places = ("place", "description", "reference")
                    ops = [op for name in places for op in put(f"/job/{name}", f"{number}{LONG}")]
                self.states.append((file.change(ops), file.fingerprint))
            rows = list(file._container.rows())
        self.data = path.read_bytes()
        self.bodies = [body.encode() for body, _ in rows]

    def starts(self) -> list[int]:
        """Return where the first bytes of each change stand in the file."""
        return [self.data.index(body[:300]) for body in self.bodies]

    def bring_out(self, out: Path, number: int) -> int:
        """Rescue, hold the result against the states that were, return how many came out."""
        before = self.path.read_bytes()
        found = rescue(self.path, out)
        assert self.path.read_bytes() == before
        count = len(found.rows)
        with RecordFile.open(out) as file:
            assert (file.record, file.fingerprint) == self.states[count - 1]
            assert file.fingerprints() == [mark for _, mark in self.states[:count]]
            file.change(put("/job/place", "work goes on"))
        out.unlink()
        assert count + found.later <= len(self.states)
        assert count >= number
        return count


@pytest.fixture
def whole(path: Path) -> Whole:
    return Whole(path)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "brought out.farboard"


def test_a_whole_file_comes_out_as_it_is(whole: Whole, out: Path) -> None:
    found = rescue(whole.path, out)
    assert (found.trouble, found.later) == ("", 0)
    with RecordFile.open(out) as file:
        assert (file.record, file.fingerprint) == whole.states[-1]


def test_cut_short_all_that_lies_before_the_cut_comes_out(whole: Whole, out: Path) -> None:
    """A file grows at its end: what was written first lies first, but for pages that were split."""
    chance = random.Random(31)
    counts = []
    for length in chance.sample(range(9000, len(whole.data)), 40):
        whole.path.write_bytes(whole.data[:length])
        ends = [
            start + len(body) + 32 <= length
            for start, body in zip(whole.starts(), whole.bodies, strict=True)
        ]
        clean = ends.index(False) if False in ends else len(ends)
        try:
            counts.append(whole.bring_out(out, 0))
        except CannotOpen:
            assert clean == 0
            counts.append(0)
        longs = [n for n, body in enumerate(whole.bodies) if len(body) > 3000]
        least = min([clean, *(n for n in longs if n < clean)])
        assert counts[-1] >= least
    assert max(counts) > 40


def test_a_change_that_was_spoilt_ends_what_comes_out_and_the_later_ones_are_counted(
    whole: Whole, out: Path
) -> None:
    for number in (2, 8, 30, 59):
        spoilt = bytearray(whole.data)
        spoilt[
            whole.data.index(whole.bodies[number]) + 60
            if len(whole.bodies[number]) < 3000
            else whole.starts()[number] + 60
        ] ^= 1
        whole.path.write_bytes(spoilt)
        found = rescued(whole.path)
        assert len(found.rows) == number
        assert found.later == len(whole.states) - number - 1
        assert f"change {number + 1} was altered" in found.trouble
        assert whole.bring_out(out, number) == number


def test_where_only_the_inner_order_is_spoilt_everything_comes_out(whole: Whole, out: Path) -> None:
    """The heading, and the page that only says where the other pages are."""
    size = int.from_bytes(whole.data[16:18])
    inner = [at for at in range(size, len(whole.data), size) if whole.data[at] == 0x05]
    assert inner
    for start, end in ((0, 100), (16, 18), (100, size), *((at, at + size) for at in inner)):
        spoilt = bytearray(whole.data)
        spoilt[start:end] = b"\xaa" * (end - start)
        whole.path.write_bytes(spoilt)
        assert whole.bring_out(out, len(whole.states)) == len(whole.states)


def test_with_the_heading_of_a_page_gone_its_short_changes_are_still_found(
    whole: Whole, out: Path
) -> None:
    size = int.from_bytes(whole.data[16:18])
    for at in range(size, len(whole.data), size):
        if whole.data[at] != 0x0D:
            continue
        spoilt = bytearray(whole.data)
        spoilt[at : at + 8] = bytes(8)
        whole.path.write_bytes(spoilt)
        page = spoilt[at : at + size]
        long_ones = [
            n for n, body in enumerate(whole.bodies) if len(body) > 3000 and body[:300] in page
        ]
        expected = min(long_ones, default=len(whole.states))
        if expected:
            assert whole.bring_out(out, expected) == expected


def test_a_write_that_was_cut_off_gives_what_was_there_before_it(path: Path, out: Path) -> None:
    with RecordFile.create(path, small_record()) as file:
        for number in range(1, 80):
            file.change(append("/readings", reading(number)))
        link = half_a_write(file)
        half, journal = path.read_bytes(), Path(f"{path}-journal").read_bytes()
        link.execute("ROLLBACK")
        before = file.record
    path.write_bytes(half[: len(half) // 2])
    Path(f"{path}-journal").write_bytes(journal)

    found = rescue(path, out)

    with RecordFile.open(out) as file:
        assert file.record.readings == before.readings[: len(found.rows) - 1]
    assert path.read_bytes() == half[: len(half) // 2]


def test_a_change_that_was_taken_back_on_disk_does_not_hide_the_one_that_was_accepted(
    path: Path, out: Path
) -> None:
    """A failed write may leave a change in unused space, with a right digest of its own."""
    with RecordFile.create(path, small_record()) as file:
        ghost = path.with_name("ghost")
        ghost.write_bytes(path.read_bytes())
        with RecordFile.open(ghost) as other:
            other.change(put("/job/place", "never accepted"))
            body, said = list(other._container.rows())[-1]
        ghost.unlink()
        file.change(put("/job/place", "accepted"))
        right = file.change(append("/readings", reading(1)))
    data = bytearray(path.read_bytes())
    left = body.encode() + said
    data[600 : 600 + len(left)] = left  # free space of the first page, found before the others
    data[0:16] = bytes(16)
    path.write_bytes(data)

    rescue(path, out)

    with RecordFile.open(out) as file:
        assert file.record == right


@pytest.mark.parametrize(
    "content", [b"", b"Dear customer", b'{"at":"', b'{"at":"' * 9000, bytes(9000), b"\xd9" * 9000]
)
def test_where_nothing_can_be_read_it_is_said_and_nothing_is_made(
    path: Path, out: Path, content: bytes
) -> None:
    path.write_bytes(content)
    with pytest.raises(CannotOpen, match="Nothing can be brought out"):
        rescue(path, out)
    assert not out.exists()
    assert path.read_bytes() == content


def test_a_newer_form_is_left_to_the_newer_program(whole: Whole, out: Path) -> None:
    whole.path.write_bytes(whole.data[:60] + (7).to_bytes(4) + whole.data[64:])
    with pytest.raises(CannotOpen, match="newer Farboard"):
        rescue(whole.path, out)


def test_nothing_is_written_over(whole: Whole, out: Path) -> None:
    out.write_text("mine")
    for there in (out, whole.path):
        with pytest.raises(CannotWrite, match="nothing is overwritten"):
            rescue(whole.path, there)
    assert out.read_text() == "mine"
    assert whole.path.read_bytes() == whole.data


def test_a_file_that_is_open_here_is_rescued_as_it_stands(path: Path, out: Path) -> None:
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "x"))
        rescue(path, out)
        with sqlite3.connect(path, timeout=0) as other, pytest.raises(sqlite3.OperationalError):
            other.execute("BEGIN IMMEDIATE")  # the lock was not let go of
    assert sorted(os.listdir(path.parent)) == sorted([path.name, out.name])


def test_a_file_cut_short_names_the_way_out_and_the_way_works(tmp_path: Path) -> None:
    path, out = tmp_path / "the job.farboard", tmp_path / "NEW.farboard"
    with RecordFile.create(path, small_record()) as file:
        for number in range(1, 60):
            file.change(append("/readings", reading(number)))
    path.write_bytes(path.read_bytes()[:-3000])
    with pytest.raises(CannotOpen) as refusal:
        RecordFile.open(path, read_only=True)
    assert f"farboard rescue '{path}' -o NEW.farboard" in str(refusal.value)
    assert "was cut short" in str(refusal.value)

    found = rescue(path, out)
    assert 0 < len(found.rows) <= 60
    assert "farboard rescue" not in found.trouble  # it is under way
    RecordFile.open(out).close()


@pytest.mark.parametrize("damaged", [1, 20])
def test_what_can_be_read_after_the_damage_is_brought_out_apart_and_never_as_proved(
    whole: Whole, out: Path, damaged: int
) -> None:
    at = whole.starts()[damaged - 1] + len(whole.bodies[damaged - 1]) - 3
    data = bytearray(whole.data)
    data[at] ^= 0xFF
    whole.path.write_bytes(data)
    whole.path.chmod(0o640)

    if damaged == 1:
        with pytest.raises(NothingProved, match="Nothing can be brought out") as caught:
            rescue(whole.path, out)
        found = caught.value.unproved
        assert not out.exists()
    else:
        brought = rescue(whole.path, out)
        found = brought.unproved
        assert len(brought.rows) == damaged - 1
        with RecordFile.open(out) as file:
            assert (file.record, file.fingerprint) == whole.states[damaged - 2]

    numbers = [each.change.number for each in found]
    assert numbers == list(range(damaged + 1, 61))
    assert not found[0].follows or found[0].change.number > damaged + 1
    assert all(each.follows for each in found[1:])
    words = [each for one in found for each in one.readings]
    assert "Zs, C1, live tests: 0.35 Ω" in words

    kept = keep_unproved(found, whole.path, out)
    said = json.loads(kept.read_text())
    assert said["about"].startswith("NOT PROVED")
    assert [each["number"] for each in said["changes"]] == numbers
    assert kept.stat().st_mode & 0o777 == 0o640
    assert bytes(data) == whole.path.read_bytes()


def test_the_command_lists_them_and_says_where_they_are(whole: Whole, out: Path) -> None:
    data = bytearray(whole.data)
    data[whole.starts()[0] + 5] ^= 0xFF
    whole.path.write_bytes(data)
    ran = CliRunner().invoke(program, ["rescue", str(whole.path), "-o", str(out)])
    assert ran.exit_code == 2
    printed = "".join(ran.stdout.split())  # a long path is broken where the line ends
    assert "NOTPROVEDchange2" in printed
    assert "broughtoutnotproved.jsonandinnorecord" in printed
    assert not out.exists()
    assert (out.parent / "brought out not proved.json").is_file()
