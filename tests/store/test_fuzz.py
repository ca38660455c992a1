"""Real files cut, flipped, mixed and made up: refused in a sentence, or the very same record.

Whatever is brought out of them is what once was the record, up to some change.
"""

from __future__ import annotations

import os
import random
import signal
from pathlib import Path
from types import FrameType

import pytest

from records.errors import CannotOpen
from records.store.edits import append, put
from records.store.file import RecordFile
from records.store.rescue import rescued
from tests.store.conftest import reading, small_record
from tests.store.test_journal_files import MAGIC, naming

CASES = int(os.environ.get("FARBOARD_FUZZ", "400"))
"""How many; 10,000 take some minutes."""
PATIENCE = 60
"""Seconds until a case counts as hanging; each takes a few thousandths of one."""


def bases(folder: Path) -> list[tuple[bytes, list[str]]]:
    """Return the bytes of some files, and the fingerprints that their records went through."""
    made = []
    for size in (0, 3, 60):
        path = folder / f"base {size}.farboard"
        with RecordFile.create(path, small_record()) as file:
            for number in range(1, size + 1):
                file.change(append("/readings", reading(number)))
                if number % 20 == 0:
                    file.change(put("/job/description", "over several pages " * 100))
                    file.undo()
            made.append(file.fingerprints())
    paths = sorted(folder.iterdir(), key=lambda each: int(each.stem.split()[-1]))
    return [(path.read_bytes(), marks) for path, marks in zip(paths, made, strict=True)]


def spoilt(data: bytes, other: bytes, chance: random.Random) -> tuple[bytes, str]:
    """Return a file with something done to it, and what."""
    way = chance.choice(["cut", "flip", "flip", "flips", "heading", "swap", "mix", "noise", "grow"])
    at = chance.randrange(len(data))
    spoilt = bytearray(data)
    if way == "cut":
        del spoilt[at:]
    elif way in ("flip", "flips", "heading"):
        for _ in range(1 if way == "flip" else chance.randrange(1, 60)):
            place = chance.randrange(100 if way == "heading" else len(data))
            spoilt[place] ^= 1 << chance.randrange(8)
    elif way == "swap":
        pages = [data[start : start + 4096] for start in range(0, len(data), 4096)]
        chance.shuffle(pages)
        spoilt = bytearray(b"".join(pages))
    elif way == "mix":
        spoilt[at:] = other[at:]
    elif way == "noise":
        spoilt[at : at + chance.randrange(1, 3000)] = chance.randbytes(chance.randrange(3000))
    else:
        spoilt += chance.randbytes(chance.randrange(9000))
    return bytes(spoilt), way


def laid_beside(path: Path, chance: random.Random, whole: bytes) -> list[Path]:
    """Lay something beside a file that the engine might act on; return what must stay."""
    precious = path.with_name("precious")
    precious.write_bytes(b"precious")
    kind = chance.choice(["super", "noise", "link", "log", "empty"])
    journal, log = Path(f"{path}-journal"), Path(f"{path}-wal")
    if kind == "super":
        journal.write_bytes(MAGIC + chance.randbytes(504) + whole[:4104] + naming(precious))
    elif kind == "noise":
        journal.write_bytes(MAGIC + chance.randbytes(chance.randrange(9000)))
    elif kind == "link":
        journal.symlink_to(precious)
    elif kind == "log":
        log.write_bytes(bytes.fromhex("377f0682") + chance.randbytes(chance.randrange(9000)))
    else:
        journal.write_bytes(b"")
    return [journal, log]


def _brought_out(path: Path) -> tuple[tuple[str, ...], list[str]]:
    try:
        return rescued(path).fingerprints, []
    except CannotOpen as error:
        return (), [str(error)]


def _was(found: tuple[str, ...], files: list[tuple[bytes, list[str]]]) -> bool:
    """Say whether these are the states of one of the files, up to some change."""
    return any(found == tuple(marks[: len(found)]) for _, marks in files)


def _hung(_: int, __: FrameType | None) -> None:
    raise AssertionError("it hangs")


@pytest.mark.slow
def test_no_spoilt_file_gives_a_traceback_a_hang_or_a_wrong_record(tmp_path: Path) -> None:
    files = bases(tmp_path)
    chance = random.Random(1789)
    path = tmp_path / "spoilt.farboard"
    whole = [tuple(marks) for _, marks in files]
    opened = refused = brought = 0
    before = signal.signal(signal.SIGALRM, _hung)
    try:
        for _ in range(CASES):
            (data, _), (other, _) = chance.choice(files), chance.choice(files)
            content, way = spoilt(data, other, chance)
            path.write_bytes(content)
            signal.alarm(PATIENCE)
            try:
                with RecordFile.open(path, read_only=chance.random() < 0.7) as file:
                    found = tuple(file.fingerprints())
                # Pages of two files put together may make up an earlier state of one of them.
                assert _was(found, files) if way == "mix" else found in whole
                opened += 1
            except CannotOpen as error:
                said = [str(error)]
                refused += 1
                found, more = _brought_out(path)
                assert _was(found, files)
                assert [s for s in said + more if not (s.endswith(".") and s.isprintable())] == []
                brought += bool(found)
            signal.alarm(0)
            assert path.read_bytes() == content
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
    assert opened > CASES / 50
    assert refused > CASES / 3
    assert brought > CASES / 5


@pytest.mark.slow
def test_nothing_laid_beside_a_file_changes_it_or_anything_else(tmp_path: Path) -> None:
    files = bases(tmp_path)
    chance = random.Random(1815)
    path = tmp_path / "file"
    whole = [tuple(marks) for _, marks in files]
    opened = refused = 0
    before = signal.signal(signal.SIGALRM, _hung)
    try:
        for _ in range(max(40, CASES // 8)):
            data, _ = chance.choice(files)
            path.write_bytes(data)
            beside = laid_beside(path, chance, data)
            signal.alarm(PATIENCE)
            look, said = chance.random() < 0.5, ""
            try:
                with RecordFile.open(path, read_only=look) as file:
                    assert tuple(file.fingerprints()) in whole
                opened += 1
            except CannotOpen as error:
                refused += 1
                said = str(error)
            signal.alarm(0)
            assert said.isprintable()
            if look or said:  # opened to write, what a crash may have left is cleared
                assert path.read_bytes() == data
            assert path.with_name("precious").read_bytes() == b"precious"
            for each in beside:
                each.unlink(missing_ok=True)
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
    assert opened
    assert refused
