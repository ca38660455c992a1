"""The commands, installed as `farboard`. Nothing here loads a screen or a record by itself."""

from __future__ import annotations


def main() -> None:
    """Run the command line."""
    from tui.commands.program import program
    from tui.commands.terminal import settle_streams

    settle_streams()
    program(prog_name="farboard", max_content_width=80)
