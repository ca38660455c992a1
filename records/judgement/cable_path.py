"""The path of a feed or a circuit as it was entered: its joints and glands by name, and what its
line conductor has, so that no cause is named that the figures rule out."""

from __future__ import annotations

from itertools import pairwise

from records.errors import FarboardError
from records.expected.results import Worked
from records.expected.runs import along, state
from records.judgement.compare import SLACK
from records.judgement.facts import FEED, Facts
from records.model.circuit import Circuit
from records.model.reading import Place, Quantity, Reading, Slot, place_of, slot_of
from records.model.wiring import Run
from records.terms import Form, Stage

_COLD = 20.0
"""°C that is taken where no temperature is entered."""
_MARGIN, _MARGIN_SHARE = 0.02, 0.1
"""Ω, and share of the line conductor, that a reading may be under it: lengths on paper, two
digits. Common practice."""
MOST_SPUR = 20.0
"""m: a spur is short. A longer one would have been entered. Common practice."""
_NAMED = 2
"""Joints that are named at most in one cause."""


def runs_of(facts: Facts, place: Place) -> tuple[Run, ...]:
    """Return the runs of the feed or of a circuit, in order from the supply."""
    if place.circuit is None:
        return facts.record.feed.runs if place.part is FEED.part else ()
    return next(each.runs for each in facts.record.circuits if each.id == place.circuit)


def run_name(run: Run, number: int) -> str:
    """Return how a run is called: by where it goes, or else by its number."""
    return run.where.strip() or f"run {number}"


def joints(facts: Facts, place: Place) -> tuple[str, ...]:
    """Return the joints between the runs as entered, such as `the joint of loft and trench`."""
    runs = runs_of(facts, place)
    names = [run_name(run, number) for number, run in enumerate(runs, start=1)]
    return tuple(f"the joint of {one} and {other}" for one, other in pairwise(names))


def glands(facts: Facts, place: Place) -> tuple[str, ...]:
    """Return the glands of the armoured runs as entered, such as `a gland of the trench`."""
    return tuple(
        f"a gland of {run_name(run, number)}"
        for number, run in enumerate(runs_of(facts, place), start=1)
        if run.cable is not None and run.cable.is_armoured
    )


def weak_places(facts: Facts, place: Place, otherwise: str) -> str:
    """Return where a path that was entered can be bad: its joints and glands, by name.

    Args:
        facts: The record.
        place: The feed or a circuit.
        otherwise: What to say of a path of one piece.
    """
    found = (*joints(facts, place), *glands(facts, place))[:_NAMED]
    text = " or ".join(found)
    return text if text and len(text) <= _WIDE else otherwise if not found else found[0][:_WIDE]


def wet_place(facts: Facts, place: Place) -> str:
    """Return where water gets into a path: its joints and glands as entered, else in general."""
    where = weak_places(facts, place, "")
    return f"water in {where}" if where else "water in a box or at a cable end"


_WIDE = 60
"""Characters that fit in a line beside `water in`."""


def line_ohms(facts: Facts, place: Place, reading: Reading | None = None) -> float | None:
    """Return what the line conductor of a feed or a circuit has by itself, cold [Ω].

    Of a ring half way round, both ways side by side.

    Returns:
        None if its runs are not entered in full.
    """
    theta = reading.temperature if reading is not None else None
    if theta is None:
        theta = facts.record.job.ambient
    cold = state(_COLD if theta is None else theta, ac=False)
    try:
        found = along(runs_of(facts, place), _circuit(facts, place), cold, earth=False)
    except FarboardError:
        return None
    circuit = _circuit(facts, place)
    ring = circuit is not None and circuit.form is Form.RING
    return found.line / 4 if ring else found.line


def parallel_path_fits(facts: Facts, reading: Reading, value: float) -> bool:
    """Whether a parallel path can explain a low reading: it shortens the way back, never the line.

    Args:
        facts: The record.
        reading: Zdb or Zs of a circuit, or R1+R2 of the feed or a circuit.
        value: What it shows [Ω].
    """
    place = reading.slot.place
    lines = [line_ohms(facts, place, reading)] if place.circuit or place == FEED else []
    if reading.slot.stage is Stage.LIVE:
        lines.append(line_ohms(facts, FEED, reading))
    least = sum(each for each in lines if each is not None)
    return value >= least - max(_MARGIN, _MARGIN_SHARE * least) - SLACK


def spur_metres(facts: Facts, slot: Slot, excess: float) -> float | None:
    """Return how long a spur would have to be to explain what a ring's point shows too much [m].

    A spur is taken to be of the ring's own cable.

    Args:
        facts: The record.
        slot: A cross-connected reading.
        excess: By how much it is above the ring's own figure [Ω].
    Returns:
        None if the ring isn't entered in full.
    """
    circuit = facts.circuit_of(slot)
    around = sum(run.length or 0.0 for run in circuit.runs) if circuit is not None else 0.0
    other = Quantity.RN if slot.quantity is Quantity.CROSS_LN else Quantity.R2
    ends = [
        facts.meter(slot_of(each, place_of(slot.place.part, slot.place.circuit), Stage.DEAD))
        for each in (Quantity.R1, other)
    ]
    whole = sum(each.value for each in ends if isinstance(each, Worked))
    if not around or not all(isinstance(each, Worked) for each in ends) or whole <= 0:
        return None
    return excess * around / whole


def _circuit(facts: Facts, place: Place) -> Circuit | None:
    return next((each for each in facts.record.circuits if each.id == place.circuit), None)
