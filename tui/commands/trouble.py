"""An error of the command line: one plain sentence, exit code 2, never a traceback."""

from __future__ import annotations

import sys
from typing import IO, Any

import click


class Trouble(click.ClickException):
    """Something the person can put right."""

    exit_code = 2

    def show(self, file: IO[Any] | None = None) -> None:
        """Print the sentence where errors go."""
        from tui.commands.lines import fitted

        where = sys.stderr if file is None else file
        click.echo(fitted(f"farboard: {self.message}", where), file=where)
