"""Runs the wizard. Loads nothing of the command line: the start screen needs none of it."""

from __future__ import annotations

import gc
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from records.terms import Step
    from tui.session import Session


def run(
    file: Path | None,
    *,
    read_only: bool = False,
    at: int | None = None,
    begin: Callable[[Session], Step] | None = None,
) -> None:
    """Run the wizard until the person leaves it.

    Args:
        file: The record; None: the start screen.
        read_only: Whether to open it for looking only.
        at: The number of the change after which to look at it; None: as it stands.
        begin: Says at which step of the opened record.

    Raises:
        SystemExit: If the wizard ended by a fault.
    """
    # Next to nothing of what loading makes is ever let go of: to look through it again and again
    # for what could be is a tenth of the time to the first screen. The app collects from then on.
    gc.disable()
    from tui.app import FarboardApp

    app = FarboardApp(file, read_only, at=at, begin=begin)
    app.run()
    if app.return_code:
        raise SystemExit(app.return_code)
