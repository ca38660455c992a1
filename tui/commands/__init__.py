"""The commands, installed as `farboard`. Nothing here loads a screen or a record by itself."""

from __future__ import annotations

import os
import sys


def main() -> None:
    """Run the command line."""
    from tui.commands.terminal import lacking, settle_streams
    from tui.commands.wizard import run

    settle_streams()
    # What others have installed beside Farboard has no say in how records are read, and to look
    # for it takes time.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    if not sys.argv[1:] and "_FARBOARD_COMPLETE" not in os.environ and not lacking():
        run(None)  # as the command line does without a word, but not waiting for it to be loaded
        return

    from tui.commands.program import program

    program(prog_name="farboard", max_content_width=80)
