"""The top of the command line: a first word that is no command is a file to open."""

from __future__ import annotations

import os
from collections.abc import Sequence
from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tui.commands.ending import CODES, ending
from tui.commands.output import say
from tui.commands.terminal import colour_wanted, need_terminal
from tui.commands.wizard import run

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

_OPEN = "open"
"""What opens a file that is named without a command; it is not for typing."""
_COMMANDS = {
    "demo": "demo:demo",
    "bench": "bench:bench",
    "check": "check:check",
    "explain": "explain:explain",
    "options": "options:options",
    "readings": "sheet:readings",
    "schedule": "schedule:schedule",
    "draw": "draw:draw",
    "template": "template:template",
    "verify": "verify:verify",
    "history": "history:history",
    "export": "exchange:export_record",
    "import": "exchange:import_record",
    "schema": "exchange:schema",
    "rescue": "rescue:rescue",
    "serve": "serve:serve",
    "sources": "sources:sources",
    "completion": "completion:completion",
    _OPEN: "opening:open_record",
}
"""Module and name of each command, in the order of the work. Only the one that is asked for is
loaded: the first screen needs none of them."""

_READS_TYPED = ("bench", "readings", "schedule")
"""Commands that read dates and figures as a person writes them."""
_CAUTION = (
    "Farboard records and checks what an installer reads. It does not certify: the certifying "
    "electrician does. Local rules come first."
)


class _Context(click.Context):
    """Prints help as everything else is printed, so that a full disk is noticed."""

    def get_help(self) -> str:
        """Print the help and end."""
        say(super().get_help())
        self.exit()


class Program(click.Group):
    """Commands in the order of the work; any other first word is a file."""

    context_class = _Context

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of the work."""
        return [name for name in _COMMANDS if name != _OPEN]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command, loaded now if it was not yet; None if there is none of that name."""
        if cmd_name not in self.commands and cmd_name in _COMMANDS:
            module, _, name = _COMMANDS[cmd_name].partition(":")
            command = getattr(import_module(f"tui.commands.{module}"), name)
            command.context_class = _Context
            self.add_command(command, cmd_name)
        return self.commands.get(cmd_name)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the words ask for, and its own words."""
        word = args[0]
        if word in _COMMANDS or word.startswith("-"):
            return super().resolve_command(ctx, args)
        if not os.path.exists(word) and not Path(word).suffix:
            from difflib import get_close_matches

            close = get_close_matches(word, self.list_commands(ctx), n=1)
            meant = f" Did you mean “{close[0]}”?" if close else " See farboard --help."
            raise click.UsageError(f"“{word}” is neither a command nor a file here.{meant}", ctx)
        return _OPEN, self.get_command(ctx, _OPEN), args

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Offer files beside the commands."""
        from click.shell_completion import CompletionItem

        return [CompletionItem(incomplete, type="file"), *super().shell_complete(ctx, incomplete)]

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        **extra: Any,
    ) -> Any:
        """Run, and end with a code and a sentence that say how it went."""
        if not standalone_mode:
            return super().main(args, prog_name, complete_var, standalone_mode=False, **extra)

        def act() -> int:
            try:
                code = self.main(args, prog_name, complete_var, standalone_mode=False, **extra)
            except click.ClickException as error:
                said = StringIO()
                error.show(said)
                say(said.getvalue(), err=True, nl=False)
                return error.exit_code
            except click.Abort:
                raise KeyboardInterrupt from None
            return code if isinstance(code, int) else 0

        return ending(act)


def _version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted:
        from importlib.metadata import PackageNotFoundError, version

        try:
            say(f"farboard {version('farboard')}")
        except PackageNotFoundError:
            say("farboard, run from its source without being installed")
        ctx.exit()


@click.group(
    cls=Program,
    invoke_without_command=True,
    subcommand_metavar="[FILE | COMMAND …]",
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Settings (look, dates, commas, keys): Ctrl+P in the wizard. "
    "To have Tab complete commands and files: farboard completion --help. "
    f"A file called like a command: ./check. {CODES} {_CAUTION}",
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_version,
    help="Say which Farboard this is.",
)
@click.pass_context
def program(ctx: click.Context) -> int | None:
    """Test records of an outbuilding's wiring: what the meter should show, and what it means.

    With no word, the start screen opens: recent records, a new one, the demo. With the name of a
    record file, that record opens.
    """
    ctx.color = colour_wanted()
    if ctx.invoked_subcommand in _READS_TYPED:
        from tui.settings import load_habits

        for each in load_habits().trouble:
            say(each, err=True)
    if ctx.invoked_subcommand is None:
        need_terminal()
        return run(None)
    return None
