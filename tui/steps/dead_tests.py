"""Dead tests: all that is measured before anything is made live."""

from __future__ import annotations

from records import terms
from records.taking.cautions import HELP
from tui.keys import LETTERS
from tui.steps.bench_step import BenchStep

_HELP = """Isolated, locked off and proved dead, in the safe order. Each test is only safe because \
the ones before it were satisfactory. Put right what fails, and repeat that test. Repeat each \
earlier test too that the fault or its repair could have influenced (BS 7671, 643.1).

What the meter should show is beside the field before you type. The verdict appears while you \
type; it counts when Enter has put it on disk. The first reading stays in the record for good."""


class DeadTests(BenchStep):
    """Readings while all is dead."""

    step = terms.Step.DEAD_TESTS
    stage = terms.Stage.DEAD
    STEP_TITLE = "Dead tests"
    HELP = f"{_HELP}\n\n{HELP}\n\n{LETTERS}"
