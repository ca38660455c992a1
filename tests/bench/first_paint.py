"""First paint and keys of the wizard against a bare Textual program with one input."""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
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
_ROUNDS = 9


def _paint(command: list[str], text: str) -> tuple[float, list[float]]:
    terminal = Terminal(command)
    try:
        terminal.read_until_quiet(quiet=0.8, limit=8.0)
        shown = terminal.when_shown(text)
        if shown is None:
            raise SystemExit(f"“{text}” never appeared for {' '.join(command)}")
        keys = [taken for _ in range(6) if (taken := terminal.key(b"7")) is not None]
        return shown, keys
    finally:
        terminal.close()


def main() -> None:
    """Print the medians and their ratios to the floor."""
    farboard = shutil.which("farboard", path=str(Path(sys.executable).parent)) or "farboard"
    with tempfile.TemporaryDirectory() as folder:
        from records.demo import demo_record
        from records.store.file import RecordFile

        job = Path(folder) / "job.farboard"
        RecordFile.create(job, demo_record()).close()
        programs = {
            "floor": ([sys.executable, "-c", _FLOOR], "hello floor"),
            "start screen": ([farboard], "not a certificate"),
            "a step of the demo": ([farboard, str(job)], "Reference"),
        }
        paints: dict[str, list[float]] = {name: [] for name in programs}
        keys: dict[str, list[float]] = {name: [] for name in programs}
        for _ in range(_ROUNDS):
            for name, (command, text) in programs.items():
                shown, taken = _paint(command, text)
                paints[name].append(shown)
                keys[name] += taken
    for name in programs:
        paint, key = statistics.median(paints[name]), statistics.median(keys[name] or [0.0])
        floor_paint, floor_key = (
            statistics.median(paints["floor"]),
            statistics.median(keys["floor"]),
        )
        print(
            f"{name:20} first paint {paint * 1000:6.0f} ms = {paint / floor_paint:4.2f} × floor, "
            f"key {key * 1000:5.1f} ms = {key / floor_key:4.2f} × floor"
        )


if __name__ == "__main__":
    main()
