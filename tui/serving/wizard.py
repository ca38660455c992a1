"""Runs the wizard for a page; the server starts it as `python -m tui.serving.wizard [FILE]`."""

from __future__ import annotations

import sys
from pathlib import Path


def main() -> int:
    """Run the wizard until the page or the person leaves it."""
    from tui.stop_signals import note_signals

    note_signals()
    from tui.app import FarboardApp

    file = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    app = FarboardApp(file)
    app.run()
    return app.return_code or 0


if __name__ == "__main__":
    sys.exit(main())
