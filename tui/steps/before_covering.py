"""Before covering: the dead readings that can only be put right while everything is open."""

from __future__ import annotations

from records import terms
from records.taking.cautions import HELP
from tui.keys import LETTERS
from tui.steps.bench_acts import Bench

_HELP = """These readings are taken on bare ends, while walls and trench are open. They are the \
only ones with nothing connected: prove that, at both ends. What is wrong now costs minutes, not a \
wall.

Know what is in the wall and the ground before you drill, dig or drive: plans, locator. Old sheds \
can hold asbestos: leave it, have it looked at.

Nothing is covered while a reading here is outside or unlikely. The same readings are taken again \
in the dead tests: a fall since now is a finding of its own."""


class BeforeCovering(Bench):
    """Readings before the boards go on."""

    step = terms.Step.BEFORE_COVERING
    stage = terms.Stage.BEFORE_COVERING
    STEP_TITLE = "Before covering"
    HELP = f"{_HELP}\n\n{HELP}\n\n{LETTERS}"
