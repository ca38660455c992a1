"""The top of the command line: a first word that is no command is a file to open."""

from __future__ import annotations

from difflib import get_close_matches
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import click
from click.shell_completion import CompletionItem

from records.errors import FarboardError
from tui.commands.bench import bench
from tui.commands.check import check
from tui.commands.completion import completion
from tui.commands.demo import demo
from tui.commands.exchange import export_record, import_record, schema
from tui.commands.explain import explain
from tui.commands.history import history
from tui.commands.opening import open_record, start
from tui.commands.rescue import rescue
from tui.commands.schedule import schedule
from tui.commands.serve import serve
from tui.commands.sheet import readings
from tui.commands.sources import sources
from tui.commands.terminal import colour_wanted
from tui.commands.trouble import Trouble
from tui.commands.verify import verify

_CAUTION = (
    "Farboard records and checks what an installer reads. It certifies nothing: the certifying "
    "electrician does. Local rules come first."
)


class Program(click.Group):
    """Commands in the order of the work; any other first word is a file."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order in which they were added."""
        return [name for name, command in self.commands.items() if not command.hidden]

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the words ask for, and its own words."""
        word = args[0]
        if word in self.commands or word.startswith("-"):
            return super().resolve_command(ctx, args)
        if not Path(word).exists() and not Path(word).suffix:
            close = get_close_matches(word, self.list_commands(ctx), n=1)
            meant = f" Did you mean “{close[0]}”?" if close else " See farboard --help."
            raise click.UsageError(f"“{word}” is neither a command nor a file here.{meant}", ctx)
        return "open", self.commands["open"], args

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Offer files beside the commands."""
        return [CompletionItem(incomplete, type="file"), *super().shell_complete(ctx, incomplete)]

    def invoke(self, ctx: click.Context) -> object:
        """Run, and turn what a person can put right into one sentence."""
        try:
            return super().invoke(ctx)
        except FarboardError as error:
            raise Trouble(str(error)) from None


def _version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted:
        try:
            click.echo(f"farboard {version('farboard')}")
        except PackageNotFoundError:
            click.echo("farboard, run from its source without being installed")
        ctx.exit()


@click.group(
    cls=Program,
    invoke_without_command=True,
    subcommand_metavar="[FILE | COMMAND …]",
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="To have Tab complete commands and files: farboard completion --help. "
    "A file called like a command: ./check. " + _CAUTION,
)
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=_version,
    help="Say which Farboard this is.",
)  # fmt: skip
@click.pass_context
def program(ctx: click.Context) -> None:
    """Test records of an outbuilding's wiring: what the meter should show, and what it means.

    With no word, the start screen opens: recent records, a new one, the demo. With the name of a
    record file, that record opens.
    """
    ctx.color = colour_wanted()
    if ctx.invoked_subcommand is None:
        start()


for each in (
    demo, bench, check, explain, readings, schedule, verify, history, export_record, import_record,
    schema, rescue, serve, sources, completion, open_record,
):  # fmt: skip
    program.add_command(each)
