"""The wizard in a real terminal, killed at any moment: what the screen had accepted is on disk."""

from __future__ import annotations

import os
import random
import re
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import pyte
import pytest

from records.store.copies import Copies
from records.store.file import RecordFile
from tests.bench.terminal import Terminal

KILLS = int(os.environ.get("FARBOARD_KILLS", "8"))
"""How often; some hundreds are worth an hour's wait now and then."""
FIELDS = {"Reference": "reference", "Place": "place", "Description of the work": "description"}
UP = b"\x1b[A"
_KEPT = re.compile(rf"({'|'.join(FIELDS)})\s+([rpw]\d+)\s+✓ kept")
_SAID = re.compile(rf"({'|'.join(FIELDS)}): ([rpw]\d+) is on disk")


class Seen:
    """A wizard in a terminal, and the values that its screen called kept."""

    def __init__(self, path: Path, chance: random.Random) -> None:
        self.chance = chance
        self.terminal = Terminal([sys.executable, "-m", "tui", str(path)])
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        self.kept: set[tuple[str, str]] = set()

    def look(self, seconds: float) -> None:
        """Read the screen for some time, in small parts, so that nothing shown is missed."""
        end = time.monotonic() + seconds
        while True:
            self.terminal.read_until_quiet(quiet=0.005, limit=0.01)
            for _, data in self.terminal.chunks:
                self.stream.feed(data)
                for line in self.screen.display:
                    self.kept.update(_KEPT.findall(line))
                    self.kept.update(_SAID.findall(line))
            self.terminal.chunks.clear()
            if time.monotonic() >= end:
                return

    def until(self, text: str) -> None:
        """Read the screen until it shows a text."""
        for _ in range(3000):
            if text in "\n".join(self.screen.display):
                return
            self.look(0.02)
        raise AssertionError("\n".join(self.screen.display))

    def enter(self, number: int, waits: Sequence[float]) -> None:
        """Type three values into the first three rows, and go back to the first."""
        for key in entries(number):
            os.write(self.terminal.fd, key)
            self.look(self.chance.choice(waits))

    def kill(self) -> None:
        """End the program where it stands, then read what it had still shown."""
        os.kill(self.terminal.pid, 9)
        os.waitpid(self.terminal.pid, 0)
        self.look(0.05)
        os.close(self.terminal.fd)


def entries(number: int) -> list[bytes]:
    """Return the keys that put three values into the first three rows and go back to the first."""
    words = [f"{letter}{number}" for letter in "rpw"]
    typed = [each.encode() for word in words for each in (*word, "\r")]
    return [*typed, UP, UP, UP]


@pytest.mark.slow
def test_every_value_that_the_screen_called_kept_survives_a_kill(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    folder = tmp_path / "shed Ω"
    folder.mkdir()
    path = folder / "job.farboard"
    RecordFile.create(path).close()
    chance = random.Random(41)
    number = kept = 0
    for _ in range(KILLS):
        wizard = Seen(path, chance)
        moment = chance.choice(["loading", "typing", "typing", "typing", "typing"])
        if moment == "loading":
            wizard.look(chance.uniform(0, 1.5))
        else:
            wizard.until("▸ Reference")
            number += 2
            wizard.enter(number - 1, waits=[0])
            wizard.until(f"w{number - 1}  ✓ kept")
            wizard.enter(number, waits=[0, 0, 0.01, 0.05])
            wizard.look(chance.uniform(0, 0.3))
        wizard.kill()

        with RecordFile.open(path) as file:
            changes = list(file.history())
            written = {
                (label, op["value"])
                for change in changes
                for op in change.ops
                for label, name in FIELDS.items()
                if op["path"] == f"/job/{name}"
            }
        assert wizard.kept <= written
        assert os.listdir(folder) == [path.name]
        kept += len(wizard.kept)
    assert kept > KILLS  # and not for want of values that were kept
    for copy in Copies(tmp_path / "data" / "farboard" / "copies").of(path):
        RecordFile.open(copy).close()
