"""Puts a copy of the demo job where the person can write, and opens it."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import suppress
from itertools import count
from pathlib import Path

import click

from tui.commands.output import say
from tui.commands.terminal import need_terminal
from tui.commands.trouble import Trouble
from tui.commands.wizard import run

_NAME = "loom-shed"


@click.command()
@click.option(
    "--folder",
    type=click.Path(path_type=Path),
    help="Where to put the copy; without it: here, or where your own data is kept.",
)
@click.option("--no-wizard", is_flag=True, help="Only make the copy, don't open it.")
def demo(folder: Path | None, no_wizard: bool) -> int:
    """Open a copy of the demo job: a weaver's loom shed.

    It is made up and has some faults planted, for you to find. The copy is yours to change;
    nothing is overwritten.
    """
    from records.demo import demo_record
    from records.errors import CannotWrite
    from records.store.file import RecordFile
    from records.store.showing import file_name

    if not no_wizard:
        need_terminal()
    refused = None
    for path in _places(folder):
        try:
            RecordFile.create(path, demo_record(), by="Farboard").close()
        except CannotWrite as error:
            refused = refused or error
            continue
        say(f"The demo job is in {file_name(path)}")
        return 0 if no_wizard else run(path)
    raise Trouble(str(refused))


def _places(folder: Path | None) -> Iterator[Path]:
    """Yield where a copy could go: the first free name in each folder."""
    if folder is not None:
        yield _free(folder)
        return
    yield _free(Path.cwd())
    from records.disk import data_folder, private_folder

    with suppress(OSError):
        private_folder(data_folder())
        yield _free(data_folder())
    yield _free(Path(tempfile.mkdtemp(prefix="farboard-")))


def _free(folder: Path) -> Path:
    names = (folder / f"{_NAME}{'' if n == 1 else f'-{n}'}.farboard" for n in count(1))
    return next(path for path in names if not path.exists())
