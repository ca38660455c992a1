"""Opens the wizard on a record, or on the start screen."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tui.commands.terminal import need_terminal

if TYPE_CHECKING:
    from records.terms import Step
    from tui.session import Session

RECORD = click.Path(path_type=Path)
"""A file; whether it will do is said by what reads it, in better words than click's."""


at_option = click.option(
    "--at", type=click.IntRange(min=1), metavar="N",
    help="As it was after change N; “farboard history” has the numbers.",
)  # fmt: skip


@click.command("open", hidden=True)
@click.argument("file", type=RECORD)
@click.option("--look", is_flag=True, help="Only look: change nothing, even while others write.")
@at_option
def open_record(file: Path, look: bool, at: int | None) -> None:
    """Open a record in the wizard."""
    from records.store.heading import check_heading, check_is_file

    # Only what is quick to see: the wizard says the rest, and the first screen comes fast.
    check_is_file(file)
    check_heading(file, shown=file, unfinished=True, older=True)
    need_terminal()
    run(file, read_only=look, at=at)


def start() -> None:
    """Open the start screen."""
    need_terminal()
    run(None)


def run(
    file: Path | None,
    *,
    read_only: bool = False,
    at: int | None = None,
    begin: Callable[[Session], Step] | None = None,
) -> None:
    """Run the wizard until the person leaves it; `begin` says at which step of an opened record."""
    from tui.app import FarboardApp

    app = FarboardApp(file, read_only, at=at, begin=begin)
    app.run()
    if app.return_code:
        raise click.exceptions.Exit(app.return_code)
