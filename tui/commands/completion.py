"""Tells the shell how to complete commands and files."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

from tui.commands.output import say

_TURN_ON = {
    "bash": 'eval "$(farboard completion bash)"   in ~/.bashrc',
    "zsh": 'eval "$(farboard completion zsh)"   in ~/.zshrc',
    "fish": "farboard completion fish | source   in ~/.config/fish/config.fish",
}


@click.command()
@click.argument("shell", required=False, type=click.Choice(list(_TURN_ON)))
@click.pass_context
def completion(ctx: click.Context, shell: str | None) -> None:
    """Have the Tab key complete commands and files.

    Put the line for your shell where it says, and open a new terminal:

    \b
        bash   eval "$(farboard completion bash)"    in ~/.bashrc
        zsh    eval "$(farboard completion zsh)"     in ~/.zshrc
        fish   farboard completion fish | source     in ~/.config/fish/config.fish
    """
    if shell is None:
        for line in _TURN_ON.values():
            say(line)
        return
    made = get_completion_class(shell)
    if made is not None:
        program = ctx.find_root().command
        say(made(program, {}, "farboard", "_FARBOARD_COMPLETE").source())
