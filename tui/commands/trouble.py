"""An error of the command line: one plain sentence, exit code 2, never a traceback."""

from __future__ import annotations

from typing import IO, Any

import click


class Trouble(click.ClickException):
    """Something the person can put right."""

    exit_code = 2

    def show(self, file: IO[Any] | None = None) -> None:
        """Print the sentence where errors go."""
        click.echo(f"farboard: {self.message}", file=file, err=file is None)
