"""The commands, installed as `farboard`. Nothing here loads a screen or a record by itself."""

from __future__ import annotations

import os
import sys


def main() -> None:
    """Run the command line."""
    # What others have installed beside Farboard has no say in how records are read, and to look
    # for it takes time.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

    from tui.commands.ending import ending
    from tui.commands.terminal import settle_streams

    settle_streams()
    ending(_run)


def _run() -> int:
    from tui.commands.wizard import begun

    code = begun(sys.argv[1:])
    if code is None:
        from tui.commands.program import program

        program(prog_name="farboard", max_content_width=80)
    return code or 0
