"""What an entry of the catalogue of measurements is made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Part, Stage, Word
from records.units import Unit

Needed = Callable[[Record, Circuit | None], bool]
"""Whether a job, or one of its circuits, needs the measurement."""
Waived = Callable[[Record, str | None, Stage], bool]
"""Whether what a record says already stands in for it, at a circuit (by id) and a stage."""


class Stand(Word):
    """Where a person stands to take a reading, with the meter in hand."""

    HOUSE = "at the house"
    BOARD = "at the sub-board"
    FAR = "at the furthest point of the circuit"
    """Also where every point is visited: the far one is the last."""
    POINT = "at the point"


@dataclass(frozen=True, slots=True)
class Measurement:
    """One thing to measure or check, with all that a person needs to do it."""

    quantity: Quantity
    title: str
    """In words, for a column or a line."""
    part: Part
    stages: tuple[Stage, ...]
    between: str
    """The conductors or terminals that the meter joins."""
    instrument: str
    """The instrument's function and its standard."""
    setting: str
    """Test voltage or current."""
    first: str
    """What to connect, disconnect or make sure of before."""
    unit: Unit = Unit.NUMBER
    digits: int = 2
    """Decimals that the trade writes."""
    is_check: bool = False
    """Answered with right or wrong, not with a figure."""
    per_point: bool = False
    """Taken at each point of the circuit, or at each bond of the board."""
    needed: Needed = lambda _record, _circuit: True
    """Whether it has a place in this job; what has none can't be taken."""
    optional: bool = False
    """Offered where it has a place, judged if taken, never missing if not."""
    stand: Stand = Stand.BOARD
    waived: Waived | None = None
    """Where it holds, the measurement is as if optional: offered, and not missing."""
    back: Quantity | None = None
    """The check that has to be answered next: what came off for this is back and tight."""
    after_circuits: bool = False
    """Comes after the tests of all circuits, in whichever order somebody works."""
    short: str = ""
    """What it is called where room is scarce, if it has no symbol."""
    leads: bool = False
    """Whether the leads count in what the meter shows, so that a meter which doesn't null them
    has to have them taken off."""

    @property
    def symbol(self) -> str:
        """The trade's symbol, or what stands for one."""
        return self.short or self.quantity.value
