"""Dead tests: all that is measured before anything is made live."""

from __future__ import annotations

from records import terms
from records.taking.stage_help import stage_help
from tui.keys import LETTERS
from tui.steps.bench_step import BenchStep

_HOW = (
    "What the meter should show is beside the field before you type. The verdict appears while you "
    "type; it counts when Enter has put it on disk."
)


class DeadTests(BenchStep):
    """Readings while all is dead."""

    step = terms.Step.DEAD_TESTS
    stage = terms.Stage.DEAD
    STEP_TITLE = "Dead tests"
    HELP = f"{stage_help(terms.Stage.DEAD, _HOW)}\n\n{LETTERS}"
