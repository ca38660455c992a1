"""The commands, installed as `farboard`. Nothing here loads a screen or a record by itself."""

from __future__ import annotations

import os
import sys
from importlib.util import find_spec
from pathlib import Path


def main() -> None:
    """Run the command line."""
    # What others have installed beside Farboard has no say in how records are read, and to look
    # for it takes time.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

    stranger = foreign_records()
    if stranger:
        raise SystemExit(_refused(stranger))

    from tui.commands.ending import ending
    from tui.commands.terminal import settle_streams

    settle_streams()
    ending(_run)


def _refused(why: str) -> int:
    # Written here: the one place that prints imports `records`.
    sys.stderr.write(f"farboard: {why}\n")
    return 2


def foreign_records() -> str:
    """Return what to do where another package owns the name `records`; empty if it is ours.

    Looked for without running it: what a stranger's package does on import is its own affair.
    """
    ours = Path(__file__).resolve().parents[2] / "records"
    found = find_spec("records")
    places = (
        [Path(each).resolve() for each in found.submodule_search_locations or ()] if found else []
    )
    if places == [ours]:
        return ""
    where = f"the one in {places[0]}" if places else "none"
    return (
        "Another package uses the name “records”, and Python found "
        f"{where}. Install Farboard apart from it: pipx install, or uv tool install."
    )


def _run() -> int:
    from tui.commands.wizard import begun

    code = begun(sys.argv[1:])
    if code is None:
        from tui.commands.program import program

        program(prog_name="farboard", max_content_width=80)
    return code or 0
