"""What holds for all tests."""

from __future__ import annotations

import os


def pytest_configure() -> None:
    """Let the programs that tests start keep what they compile, as a person's Python does.

    Without it each of some hundred compiles all of Farboard anew. Workers inherit it.
    """
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
