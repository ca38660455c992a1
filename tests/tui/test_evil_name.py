"""A path that is made to do harm, in the wizard: nothing of it reaches the screen raw."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.store.file import RecordFile
from records.text import printable
from tests.commands.test_output import NAME
from tests.tui.driving import wizard
from tui.app import FarboardApp


def shown(app: FarboardApp) -> str:
    """Return the text of what is drawn, as it would be sent to a terminal."""
    strips = app.screen._compositor.render_strips()
    return "".join(segment.text for strip in strips for segment in strip)


@pytest.mark.parametrize("damaged", [False, True])
async def test_a_path_reaches_the_screen_without_its_escape_codes(
    tmp_path: Path, damaged: bool
) -> None:
    path = tmp_path / f"{NAME}.farboard"
    RecordFile.create(path).close()
    if damaged:
        path.write_bytes(path.read_bytes()[:-5])
    async with wizard(path, tmp_path, size=(200, 40)) as driver:
        for keys in ((), ("f6",), ("escape",), ("ctrl+p",)):
            await driver.keys(*keys)
            await driver.settled()
            said = shown(driver.app)
            assert {char for char in said if char != "\n" and printable(char) != char} == set()
