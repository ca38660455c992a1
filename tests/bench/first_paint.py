"""First paint and keys of the wizard against a bare Textual program with one input.

All in real terminals of one size, turn about in one run. A key is timed to the first change that
the screen shows; going to another field also to the last one, when the new field is all there.
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.bench.terminal import Terminal

_FLOOR = """
from textual.app import App
from textual.widgets import Input, Static
class Bare(App):
    def compose(self):
        yield Static("hello floor")
        yield Input()
Bare().run()
"""
_CIRCUITS = 24


@dataclass(frozen=True, slots=True)
class Scene:
    """A program, what shows that it is there, and the keys to time in it."""

    name: str
    command: Sequence[str]
    shows: str
    before: Sequence[bytes] = ()
    """Keys to the place where the timed ones are pressed."""
    typing: bytes = b"7"
    moving: bytes = b""
    """A key that goes to another field; empty: there is none."""


def scenes(folder: Path) -> list[Scene]:
    """Return the floor first, then what is held against it; makes two records in a folder."""
    import random

    from records.demo import demo_record
    from records.store.file import RecordFile
    from tests.bench.calculation import board

    farboard = shutil.which("farboard", path=str(Path(sys.executable).parent)) or "farboard"
    demo, large = folder / "demo.farboard", folder / "large.farboard"
    RecordFile.create(demo, demo_record()).close()
    RecordFile.create(large, board(random.Random(7), _CIRCUITS)).close()
    bench = [farboard, "bench", str(large), "--stage", "dead"]
    first = "Reading ▸"
    down, enter, f9 = b"\x1b[B", b"\r", b"\x1b[20~"
    return [
        Scene("floor", [sys.executable, "-c", _FLOOR], "hello floor"),
        Scene("start screen", [farboard], "not a certificate", typing=down),
        Scene("a step of the demo", [farboard, str(demo)], "Reference", moving=down),
        Scene("bench, 24 circuits", bench, first, (enter,) * 4, moving=down),
        Scene("grid, 24 circuits", bench, first, (*(enter,) * 4, f9), moving=down),
    ]


def played(scene: Scene, presses: int) -> tuple[float, list[float], list[float], list[float]]:
    """Return first paint, keys, moves to the first change, and moves to the last one [s]."""
    terminal = Terminal(scene.command)
    try:
        paint = None
        for _ in range(20):
            terminal.read_until_quiet(quiet=0.8, limit=4.0)
            paint = terminal.when_shown(scene.shows)
            if paint is not None:
                break
        else:
            raise SystemExit(f"“{scene.shows}” never appeared:\n{terminal.words}")
        for each in scene.before:
            terminal.key(each, quiet=0.5)
        keys, firsts, lasts = [], [], []
        for _ in range(presses):
            key = terminal.key(scene.typing)
            keys += [key.first] if key else []
            if scene.moving:
                terminal.key(b"\x7f")
                move = terminal.key(scene.moving)
                firsts += [move.first] if move else []
                lasts += [move.last] if move else []
        if not keys or (scene.moving and not firsts):
            raise SystemExit(f"No key did anything in: {scene.name}\n{terminal.words}")
        return paint, keys, firsts, lasts
    finally:
        terminal.close()


def main(rounds: int = 9, presses: int = 6) -> None:
    """Print the medians and their ratios to the floor."""
    taken: dict[tuple[str, str], list[float]] = defaultdict(list)
    with tempfile.TemporaryDirectory() as folder:
        shown = scenes(Path(folder))
        for _ in range(rounds):
            for scene in shown:
                paint, keys, firsts, lasts = played(scene, presses)
                taken[scene.name, "first paint"].append(paint)
                taken[scene.name, "key"] += keys
                taken[scene.name, "next field"] += firsts
                taken[scene.name, "next field, all of it"] += lasts
    paint, key = (statistics.median(taken["floor", what]) for what in ("first paint", "key"))
    for (name, what), found in taken.items():
        if found:
            floor = paint if what == "first paint" else key
            middle = statistics.median(found)
            print(f"{name:20} {what:22} {middle * 1000:7.1f} ms = {middle / floor:5.2f} × floor")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
