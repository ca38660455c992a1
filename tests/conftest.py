"""What holds for all tests."""

from __future__ import annotations

import gc
import os
from inspect import iscoroutinefunction
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

import pytest


def pytest_configure(config: pytest.Config) -> None:
    """Let the programs that tests start keep what they compile, as a person's Python does.

    Without it each of some hundred compiles all of Farboard again. Workers inherit it.
    """
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    # Opened wizards are thrown away by the hundred: looking for garbage less often saves a tenth.
    gc.set_threshold(50_000, 20, 50)
    if "FARBOARD_TESTS" not in os.environ:  # workers use the folder of the process above them
        os.environ["FARBOARD_TESTS"] = away = mkdtemp(prefix="farboard-tests-")
        for kind in ("DATA", "STATE", "CONFIG"):  # not those of the person who runs the tests
            os.environ[f"XDG_{kind}_HOME"] = str(Path(away, kind.lower()))
        config.add_cleanup(lambda: rmtree(away, ignore_errors=True))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark as slow what drives the wizard or starts a program; `-m "not slow"` leaves it out.

    What is slow comes first in either half, which two workers begin with: else one of them has
    nothing to do at the end while the other types a whole job.
    """
    for item in items:
        drives = iscoroutinefunction(getattr(item, "function", None))
        if drives or "run_apart" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.slow)
    slow = [item for item in items if item.get_closest_marker("slow")]
    quick = [item for item in items if not item.get_closest_marker("slow")]
    at, to = len(slow) // 2, len(quick) // 2
    items[:] = [*slow[:at], *quick[:to], *slow[at:], *quick[to:]]


def pytest_collection_finish() -> None:
    """Keep what was collected out of the search for garbage: it stays, thousands of tests of it.

    A tenth of the processor's time (`-m "not slow"`: 115 s without, 101 s with it).
    """
    gc.collect()
    gc.freeze()
