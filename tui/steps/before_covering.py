"""Before covering: the dead readings that can only be put right while everything is open."""

from __future__ import annotations

from records import terms
from tui.steps.bench_acts import Bench

_HELP = """These readings are taken on bare ends, while walls and trench are open. They are the \
only ones with certainly nothing connected, and what is wrong now costs minutes, not a wall.

Nothing is covered while a reading here is outside or unlikely. The same readings are taken again \
in the dead tests: a fall since now is a finding of its own.

Enter accepts and goes on. ↑ ↓ pass readings by, PageUp and PageDown go to the tests before and \
after. In an empty field: c could not be taken, x not needed, a test again, t note or remedy, \
w why, v 250 V, o others that nobody has to take, m what is missing, in the order one walks. \
F5 order, F7 who and meter, F8 from notes, F9 grid. A pasted column fills the next \
fields, if you say so. What is typed and not accepted stays in the field until you come back."""


class BeforeCovering(Bench):
    """Readings before the boards go on."""

    step = terms.Step.BEFORE_COVERING
    stage = terms.Stage.BEFORE_COVERING
    STEP_TITLE = "Before covering"
    HELP = _HELP
