"""Opens the wizard on a record."""

from __future__ import annotations

from pathlib import Path

import click

from tui.commands.terminal import need_terminal
from tui.commands.wizard import check_openable, run

RECORD = click.Path(path_type=Path)
"""A file; whether it will do is said by what reads it, in better words than click's."""


at_option = click.option(
    "--at",
    type=click.IntRange(min=1),
    metavar="N",
    help="As it was after change N; “farboard history” has the numbers.",
)


@click.command("open", hidden=True)
@click.argument("file", type=RECORD)
@click.option("--look", is_flag=True, help="Only look: change nothing, even while others write.")
@at_option
def open_record(file: Path, look: bool, at: int | None) -> int:
    """Open a record in the wizard."""
    check_openable(file)
    need_terminal()
    return run(file, read_only=look, at=at)
