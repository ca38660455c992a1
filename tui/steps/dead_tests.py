"""Dead tests: all that is measured before anything is made live."""

from __future__ import annotations

from records import terms
from tui.steps.bench_acts import Bench

_HELP = """Isolated, locked off and proved dead, in the safe order: each test is only safe because \
the ones before it were right. A test that fails is put right, and then repeated with each earlier \
test that the fault or its repair could have influenced (BS 7671, 643.1).

What the meter should show stands beside the field before you type. The verdict appears while you \
type; it counts when Enter has put it on disk. The first reading stays in the record for good.

Enter accepts and goes on. ↑ ↓ pass readings by, PageUp and PageDown go to the tests before and \
after. In an empty field: c could not be taken, x not needed, a test again, t note or remedy, \
w why, v 250 V, o others that nobody has to take, m what is missing, in the order one walks. \
F5 order, F7 who and meter, F8 from notes, F9 grid. A pasted column fills the next \
fields, if you say so. What is typed and not accepted stays in the field until you come back."""


class DeadTests(Bench):
    """Readings while all is dead."""

    step = terms.Step.DEAD_TESTS
    stage = terms.Stage.DEAD
    STEP_TITLE = "Dead tests"
    HELP = _HELP
