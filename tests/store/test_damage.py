"""Files that are no whole record: each refused in one sentence, none of them touched.

The form of a database file, and so what each byte of its heading means, is from the SQLite
documentation, "Database File Format".
"""

from __future__ import annotations

import os
import random
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from records.errors import CannotOpen, LookOnly
from records.store import heading
from records.store.canonical import NOTHING_BEFORE, canonical, digest
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading, small_record


@pytest.fixture
def whole(path: Path) -> bytes:
    """Return the bytes of a record file with some changes in it."""
    with RecordFile.create(path, small_record()) as file:
        for number in range(1, 30):
            file.change(append("/readings", reading(number)))
    return path.read_bytes()


def refused(path: Path) -> str:
    """Return the sentence with which a file is refused, to read and to write alike."""
    before = path.read_bytes() if os.path.isfile(path) else None
    with pytest.raises(CannotOpen) as first:
        RecordFile.open(path)
    with pytest.raises(CannotOpen) as second:
        RecordFile.open(path, read_only=True)
    assert str(first.value) == str(second.value)
    if before is not None:
        assert path.read_bytes() == before
        assert os.listdir(path.parent) == [path.name]
    return str(first.value)


def test_a_file_that_is_not_there(path: Path) -> None:
    assert "There is no file" in refused(path)
    assert "There is no file" in refused(path / "deeper")
    assert not path.exists()


def test_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in refused(tmp_path)


def test_a_pipe(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(CannotOpen, match="no ordinary file"):
        RecordFile.open(tmp_path / "pipe")


def test_a_name_that_no_file_can_have(tmp_path: Path) -> None:
    assert "can't be opened" in refused(tmp_path / ("x" * 5000))
    assert "can't be opened" in refused(tmp_path / "a\0b")


def test_a_name_with_escape_codes_is_shown_without_them(tmp_path: Path) -> None:
    path = tmp_path / "\x1b[31mred\u202e.farboard"
    path.write_text("no record")
    said = refused(path)
    assert "\x1b" not in said
    assert "\u202e" not in said


def test_a_name_that_is_no_text_opens(tmp_path: Path) -> None:
    path = Path(os.fsdecode(os.fsencode(tmp_path) + b"/caf\xe9 \xff.farboard"))
    RecordFile.create(path).close()
    with RecordFile.open(path) as file, pytest.raises(LookOnly, match="caf�"):
        RecordFile.open(file.path)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "is empty"),
        (b"SQLite f", "was cut short"),
        (b"Dear customer, ", "is not a Farboard record"),
        (b'{"format": 1}', "farboard import"),
        (b"PK\x03\x04", "a document or a zip archive"),
        (bytes(5000), "is not a Farboard record"),
    ],
)
def test_what_another_program_wrote(path: Path, content: bytes, sentence: str) -> None:
    path.write_bytes(content)
    assert sentence in refused(path)


def test_a_database_of_another_program(path: Path) -> None:
    link = sqlite3.connect(path)
    link.execute("CREATE TABLE notes (words)")
    link.close()
    assert "database of another program" in refused(path)


def test_a_newer_form_says_what_to_do(path: Path, whole: bytes) -> None:
    path.write_bytes(whole[:60] + (heading.FORMAT + 1).to_bytes(4) + whole[64:])
    said = refused(path)
    assert f"form {heading.FORMAT + 1}" in said
    assert "newer Farboard" in said


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER t AFTER INSERT ON change BEGIN DELETE FROM change; END",
        "CREATE TABLE more (words)",
        "CREATE VIEW v AS SELECT * FROM change",
        "DROP TABLE change",
        "ALTER TABLE change ADD COLUMN more TEXT",
    ],
)
def test_a_file_with_anything_else_in_it(path: Path, whole: bytes, statement: str) -> None:
    link = sqlite3.connect(path)
    link.execute(statement)
    link.close()
    assert "is not a Farboard record" in refused(path)


@pytest.mark.parametrize(
    ("statement", "sentence"),
    [
        ("DELETE FROM change WHERE number = 7", "change 7"),
        ("DELETE FROM change", "holds no record"),
        ("UPDATE change SET body = replace(body, '0.35', '0.34') WHERE number = 5", "change 5 was"),
        ("UPDATE change SET digest = zeroblob(32) WHERE number = 9", "change 9 was altered"),
        ("UPDATE change SET number = number + 100 WHERE number > 20", None),
        ("UPDATE change SET body = CAST(x'ff' AS TEXT) WHERE number = 3", "damaged"),
    ],
)
def test_a_chain_that_somebody_mended(
    path: Path, whole: bytes, statement: str, sentence: str | None
) -> None:
    link = sqlite3.connect(path)
    link.execute(statement)
    link.commit()
    link.close()
    if sentence is None:  # the numbers are said in the bodies too, and those are what counts
        with RecordFile.open(path, read_only=True) as file:
            assert len(file.record.readings) == 29
    else:
        assert sentence in refused(path)


@pytest.mark.parametrize(
    "body",
    [
        "{}",
        "[]",
        "7",
        "[" * 100_000,
        canonical({"at": "yesterday", "by": "", "number": 2, "ops": [], "undoes": None}),
        canonical({"at": "2026-03-20T12:00:00", "by": "", "number": 2, "ops": [], "undoes": None}),
        canonical({"at": "2026-03-20T12:00:00Z", "by": 5, "number": 2, "ops": [], "undoes": None}),
        canonical({"at": "2026-03-20T12:00:00Z", "by": "", "number": 3, "ops": [], "undoes": None}),
        canonical({"at": "2026-03-20T12:00:00Z", "by": "", "number": 2, "ops": [], "undoes": 1}),
        canonical(
            {"at": "2026-03-20T12:00:00Z", "by": "", "number": 2, "ops": [5], "undoes": None}
        ),
        canonical(
            {
                "at": "2026-03-20T12:00:00Z",
                "by": "",
                "number": 2,
                "ops": [{"op": "replace", "path": "/job/place", "value": "\x1b[31m"}],
                "undoes": None,
            }
        ),
        canonical(
            {
                "at": "2026-03-20T12:00:00Z",
                "by": "",
                "number": 2,
                "ops": [{"op": "remove", "path": "/readings"}],
                "undoes": None,
            }
        ),
    ],
)
def test_a_change_with_a_right_digest_that_says_nonsense(path: Path, body: str) -> None:
    RecordFile.create(path).close()
    link = sqlite3.connect(path)
    before = link.execute("SELECT digest FROM change").fetchone()[0]
    link.execute("INSERT INTO change VALUES (2, ?, ?)", (body, digest(before, body)))
    link.commit()
    link.close()
    said = refused(path)
    assert "can't be read" in said or "damaged" in said
    assert "\x1b" not in said


def test_cut_short_at_any_byte(path: Path, whole: bytes) -> None:
    spread = random.Random(5).sample(range(100, len(whole)), 80)
    for length in [*range(0, 100, 3), 4096, 8192, len(whole) - 4096, len(whole) - 1, *spread]:
        path.write_bytes(whole[:length])
        said = refused(path)
        assert "cut short" in said or (length == 0 and "is empty" in said)


@pytest.mark.slow
def test_a_flipped_bit_is_noticed_or_changes_nothing(path: Path, whole: bytes) -> None:
    """Some bytes of a page are unused, and some counters only say that something changed."""
    with RecordFile.open(path) as file:
        right, mark = file.record, file.fingerprint
    chance = random.Random(7)
    noticed, sentences = 0, set()
    for at in [*range(100), *chance.sample(range(100, len(whole)), 300)]:
        flipped = bytearray(whole)
        flipped[at] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        try:
            with RecordFile.open(path, read_only=True) as file:
                assert file.record == right
                assert file.fingerprint == mark
        except CannotOpen as error:
            noticed += 1
            sentences.add(str(error)[-1])
        assert path.read_bytes() == flipped
    assert noticed > 200
    assert sentences == {"."}


def test_a_flipped_bit_in_a_change_or_its_digest_is_always_noticed(
    path: Path, whole: bytes
) -> None:
    with RecordFile.open(path) as file:
        rows = list(file._container.rows())
    chance = random.Random(13)
    for body, said in rows:
        row = whole.index(body.encode() + said)
        at = row + chance.randrange(len(body.encode()) + len(said))
        flipped = bytearray(whole)
        flipped[at] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        assert "damaged" in refused(path)


def test_random_bytes_after_a_right_heading(path: Path, whole: bytes) -> None:
    chance = random.Random(11)
    for _ in range(50):
        path.write_bytes(whole[:100] + chance.randbytes(len(whole) - 100))
        refused(path)


def test_what_must_not_be_read_or_written(tmp_path: Path) -> None:
    """Run as somebody who is not the owner, for the owner of the machine may do anything."""
    open_folder = Path("/tmp") / f"farboard-test-{os.getpid()}"
    open_folder.mkdir()
    try:
        readable, secret = open_folder / "readable.farboard", open_folder / "secret.farboard"
        for path in (readable, secret):
            RecordFile.create(path).close()
        readable.chmod(0o444)
        secret.chmod(0o000)
        open_folder.chmod(0o555)
        code = f"""
import os, sys
sys.path[:0] = {sys.path!r}
from pathlib import Path
from records.errors import FarboardError
from records.model.record import Record
from records.store.file import RecordFile
Record()  # all is loaded before: that somebody may not be let at this Python
if os.geteuid() == 0:
    os.setgid(65534); os.setuid(65534)
for path in ({str(readable)!r}, {str(secret)!r}):
    for look in (False, True):
        try:
            with RecordFile.open(Path(path), read_only=look) as file:
                print("opened", file.read_only)
        except FarboardError as error:
            print(type(error).__name__, error)
try:
    RecordFile.create(Path({str(open_folder / "new.farboard")!r}))
except FarboardError as error:
    print(type(error).__name__, error)
"""
        env = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}
        out = subprocess.run(
            [sys.executable, "-c", code], check=False, capture_output=True, text=True, env=env
        )
        lines = out.stdout.splitlines()
        assert lines[0].startswith("LookOnly"), out
        assert "allows reading only" in lines[0]
        assert lines[1] == "opened True"
        assert lines[2].startswith("CannotOpen")
        assert "no permission" in lines[2]
        assert lines[3] == lines[2]
        assert lines[4].startswith("NotWritten")
        assert len(lines) == 5
    finally:
        open_folder.chmod(0o755)
        for path in open_folder.iterdir():
            path.unlink()
        open_folder.rmdir()


def test_every_byte_of_a_change_is_under_the_digest(path: Path) -> None:
    with RecordFile.create(path) as file:
        file.change(put("/job/place", "Ωx"), by="A")
        (first, _), (body, said) = file._container.rows()
    before = digest(NOTHING_BEFORE, first)
    assert digest(before, body) == said
    for at in range(len(body)):
        changed = body[:at] + chr(ord(body[at]) ^ 1) + body[at + 1 :]
        assert digest(before, changed) != said
    assert digest(before[:-1] + b"\0", body) != said or before[-1] == 0


@pytest.mark.parametrize(
    "value", ["1e999", "-1e999", "NaN", "Infinity", "9" * 5000, '"' + "x" * 1_000_000 + '"']
)
def test_a_value_with_a_right_digest_that_no_record_can_hold(path: Path, value: str) -> None:
    RecordFile.create(path).close()
    body = (
        '{"at":"2026-03-20T12:00:00.000000Z","by":"","number":2,'
        f'"ops":[{{"op":"replace","path":"/origin/ze","value":{value}}}],"undoes":null}}'
    )
    link = sqlite3.connect(path)
    before = link.execute("SELECT digest FROM change").fetchone()[0]
    link.execute("INSERT INTO change VALUES (2, ?, ?)", (body, digest(before, body)))
    link.commit()
    link.close()
    said = refused(path)
    assert len(said) < 800
    assert said.isprintable()


def test_a_heading_that_claims_billions_of_pages(path: Path, whole: bytes) -> None:
    path.write_bytes(whole[:28] + b"\xff\xff\xff\xff" + whole[32:])
    assert "was cut short" in refused(path)
