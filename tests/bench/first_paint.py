"""First paint and keys of the wizard against a bare Textual program with one input.

All in real terminals of one size, turn about in one run. Of a record that is opened also: when the
person is told so, and when what is in it stands there, as the frame of a step may come first.
A key is timed to the first change that the screen shows; going to another field also to the last
one, when the new field is all there. Arguments: rounds, and presses of keys (0: paints alone).
"""

from __future__ import annotations

import os
import shutil
import statistics
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

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
_TEXT = "LOOM-1  "
"""Stands in a field of the demo once its text does."""
PAINT = "first paint"
KEYS = "key", "next field", "next field, all of it"


@dataclass(frozen=True, slots=True)
class Scene:
    """A program, what shows that it is there, and the keys to time in it."""

    name: str
    command: Sequence[str]
    shows: str
    opens: str = ""
    """What shows that the text of a record stands too; empty: no record is opened."""
    before: Sequence[bytes] = ()
    """Keys to the place where the timed ones are pressed."""
    chosen: bytes = b""
    """A key that opens a record from here, which is timed in place of others; empty: none does."""
    typing: bytes = b"7"
    clearing: bytes = b"\x7f"
    """Takes back what was typed, so that going on accepts nothing: that is another figure."""
    moving: bytes = b""
    """A key that goes to another field; empty: there is none."""


def scenes(folder: Path) -> list[Scene]:
    """Return the floor first, then what is held against it; makes two records in a folder."""
    import random

    from records.demo import demo_record
    from records.store.file import RecordFile
    from tests.bench.calculation import board
    from tui.local_state import Kept

    farboard = shutil.which("farboard", path=str(Path(sys.executable).parent)) or "farboard"
    demo, large = folder / "demo.farboard", folder / "large.farboard"
    RecordFile.create(demo, demo_record()).close()
    RecordFile.create(large, board(random.Random(7), _CIRCUITS)).close()
    for each in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"):
        os.environ[each] = str(folder)  # what is remembered on this machine has no part in it
    apart = folder / "apart"
    shutil.copy(demo, folder / "chosen.farboard")
    with mock.patch.dict(os.environ, XDG_STATE_HOME=str(apart)):
        Kept().opened(folder / "chosen.farboard")
    at_start = ["env", f"XDG_STATE_HOME={apart}", farboard]
    bench = [farboard, "bench", str(large), "--stage", "dead"]
    first = "Reading ▸"
    down, enter, f9, escape = b"\x1b[B", b"\r", b"\x1b[20~", b"\x1b"
    step = [farboard, str(demo)]
    return [
        Scene("floor", [sys.executable, "-c", _FLOOR], "hello floor"),
        Scene("start screen", [farboard], "not a certificate", typing=down),
        Scene("a step of the demo", step, "Reference", _TEXT, clearing=escape, moving=down),
        Scene("a field emptied", step, "Reference", _TEXT, moving=down),
        Scene("chosen at the start", at_start, "not a certificate", chosen=enter),
        Scene("bench, 24 circuits", bench, first, " taken ", (enter,) * 4, moving=down),
        Scene("grid, 24 circuits", bench, first, "", (*(enter,) * 4, f9), moving=down),
    ]


def played(scene: Scene, presses: int) -> Iterator[tuple[str, list[float]]]:
    """Yield what was timed of a scene: its paints, then keys if any are pressed [s]."""
    terminal = Terminal(scene.command)
    try:
        yield from paints(terminal, scene)
        if scene.chosen:
            pressed = terminal.press(scene.chosen)
            times = until(terminal, (_TEXT, "complete"))
            yield "its text", [times[_TEXT] - pressed]
            yield "how its steps stand", [times["complete"] - pressed]
            return
        for each in scene.before if presses else ():
            terminal.key(each, quiet=0.5)
        keys, firsts, lasts = [], [], []
        for _ in range(presses):
            key = terminal.key(scene.typing)
            keys += [key.first] if key else []
            if scene.moving:
                terminal.key(scene.clearing)
                move = terminal.key(scene.moving)
                firsts += [move.first] if move else []
                lasts += [move.last] if move else []
        if presses and (not keys or (scene.moving and not firsts)):
            raise SystemExit(f"No key did anything in: {scene.name}\n{terminal.words}")
        yield from zip(KEYS, (keys, firsts, lasts), strict=True)
    finally:
        terminal.close()


def paints(terminal: Terminal, scene: Scene) -> Iterator[tuple[str, list[float]]]:
    """Yield the times of the paints of a scene [s]."""
    texts = {PAINT: scene.shows}
    if scene.opens:
        texts = {"told of the opening": "Opening ", PAINT: scene.shows, "its text": scene.opens}
    times = until(terminal, tuple(texts.values()))
    yield from ((name, [times[text]]) for name, text in texts.items())


def until(terminal: Terminal, texts: Sequence[str]) -> dict[str, float]:
    """Wait until some texts were shown; return when each was, from the start [s]."""
    times: dict[str, float] = {}
    for _ in range(20):
        terminal.read_until_quiet(quiet=0.8, limit=4.0)
        times = terminal.times_shown(texts) | times
        if len(times) == len(texts):
            return times
    raise SystemExit(f"{texts} did not all appear:\n{terminal.words}")


def main(rounds: int = 9, presses: int = 6) -> None:
    """Print the medians and their ratios to the floor; without presses of the paints alone."""
    taken: dict[tuple[str, str], list[float]] = defaultdict(list)
    for _ in range(rounds):
        with tempfile.TemporaryDirectory() as folder:  # keys change what a record says
            for scene in scenes(Path(folder)):
                for what, times in played(scene, presses):
                    taken[scene.name, what] += times
    for (name, what), found in taken.items():
        if found:
            floor = statistics.median(taken["floor", "key" if what in KEYS else PAINT])
            middle = statistics.median(found)
            print(f"{name:20} {what:22} {middle * 1000:7.1f} ms = {middle / floor:5.2f} × floor")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
