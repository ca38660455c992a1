"""Draw the README's pictures again: real screens of the demo job, and a real page of its schedule.

Run by hand after the look has changed: `.venv/bin/python .ci/pictures.py`. The page needs
LibreOffice and pdftoppm; without them only the screens are drawn.
"""

from __future__ import annotations

import asyncio
import re
import shutil
import subprocess
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from records.demo import demo_record
from records.document.schedule import write_schedule
from records.document.walls.drawing import drawing
from records.document.walls.svg import svg as svg_of
from records.store.file import RecordFile
from records.terms import Step
from tui.app import FarboardApp
from tui.local_state import Kept

PICTURES = Path(__file__).resolve().parents[1] / ".pictures"
SCREENS: tuple[tuple[str, Step, tuple[str, ...], tuple[int, int]], ...] = (
    ("circuit", Step.CIRCUITS, ("enter",), (110, 30)),
    ("live-tests", Step.LIVE_TESTS, (*["pagedown"] * 3, "y"), (80, 24)),
    ("review", Step.REVIEW, (), (110, 30)),
    ("curve", Step.CIRCUITS, ("enter", "ctrl+g"), (80, 24)),
    # From the protective device down to “? what cable would do”.
    ("options", Step.FEED, (*["down"] * 9, "enter"), (80, 24)),
)
_WALL = "W4"
_FONT = re.compile(r"@font-face\s*\{.*?\}", re.DOTALL)


async def screen(
    record: Path, folder: Path, step: Step, keys: tuple[str, ...], size: tuple[int, int]
) -> str:
    """Return a screen of the wizard as SVG, without the addresses of web fonts."""
    app = FarboardApp(record, kept=Kept(folder))
    async with app.run_test(size=size) as pilot:
        await pilot.pause(0.5)
        app.go(step)
        await pilot.pause(0.5)
        for key in keys:
            await pilot.press(key)
            await pilot.pause(0.4)
        return _FONT.sub("", app.export_screenshot(title="farboard"))


def page(record: Path, folder: Path, number: int, out: Path) -> None:
    """Write one page of the schedule as PNG."""
    document = folder / "schedule.docx"
    with RecordFile.open(record, read_only=True) as file:
        write_schedule(
            file.record,
            document,
            fingerprint=file.fingerprint,
            made=datetime(2026, 3, 26, tzinfo=UTC),
        )
    subprocess.run(
        ["soffice", "--headless", "--convert-to", "pdf", "--outdir", folder, document],
        check=True,
        capture_output=True,
    )
    pages = f"-r 70 -f {number} -l {number}".split()
    subprocess.run(
        ["pdftoppm", *pages, "-singlefile", "-png", folder / "schedule.pdf", out.with_suffix("")],
        check=True,
    )


def main() -> None:
    """Draw all of them."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        record = folder / "loom-shed.farboard"
        RecordFile.create(record, demo_record()).close()
        for title, step, keys, size in SCREENS:
            svg = asyncio.run(screen(record, folder / "kept", step, keys, size))
            (PICTURES / f"{title}.svg").write_text(svg, encoding="utf-8")
        demo = demo_record()
        wall = drawing(demo, next(each for each in demo.fabric.surfaces if each.id == _WALL))
        (PICTURES / "wall.svg").write_text(svg_of([wall]), encoding="utf-8")
        if shutil.which("soffice") and shutil.which("pdftoppm"):
            page(record, folder, 1, PICTURES / "schedule-page.png")
            page(record, folder, 3, PICTURES / "schedule-line.png")
        else:
            print(
                "The page of the schedule was not drawn: soffice or pdftoppm is missing.",
                file=sys.stderr,
            )


if __name__ == "__main__":
    main()
