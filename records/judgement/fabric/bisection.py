"""Finding a bad length of cable: split at the middle of what is in doubt, and again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from records.judgement.fabric.behind import halving, look_along, surfaces_behind
from records.judgement.fabric.legs import surface_name
from records.model.circuit import Circuit
from records.model.reading import place_of
from records.model.record import Record
from records.terms import Form, Part

HOW_TO_SPLIT = (
    "Isolated, locked off, proved dead; loads out. Open it, part its cables, test each side: L-N, "
    "L-E, N-E. Nothing is put on record here: enter what you read in the tests."
)
NONE_TO_SPLIT = "Enter the lengths of the cable and the distances of the points first (Circuits)."


@dataclass(frozen=True, slots=True)
class Doubt:
    """The cable of a circuit in which the fault can still be."""

    circuit: Circuit
    low: float
    """Where it begins, along the cable from the board [m]."""
    high: float

    @property
    def split(self) -> tuple[str, float, float] | None:
        """The point to split at, and what lies to each side [m]; None: no point is within."""
        return halving(self.circuit, self.low, self.high)

    @property
    def ends(self) -> tuple[str, str]:
        """How its ends are called."""
        far = "the board by its other leg" if self.circuit.form is Form.RING else "its end"
        return self._name(self.low, "the board"), self._name(self.high, far)

    def after(self, *, near_is_bad: bool) -> Doubt:
        """Return what is in doubt once one side of the split read bad.

        Raises:
            ValueError: If there is no point to split at.
        """
        if self.split is None:
            raise ValueError("no point lies within the cable in doubt")
        at = self.low + self.split[1]
        return replace(self, high=at) if near_is_bad else replace(self, low=at)

    @property
    def answers(self) -> list[str]:
        """What can be answered once it is split there; none without a point to split at."""
        if self.split is None:
            return []
        _, before, after = self.split
        near, far = self.ends
        return [
            f"Bad towards {near}: {before:.3g} m",
            f"Bad towards {far}: {after:.3g} m",
            "Both sides read high: it was the joint or what hung on it",
        ]

    def answered(self, at: int | None) -> Doubt | None:
        """Return what is in doubt after an answer, by its number; None: nothing more is."""
        return self.after(near_is_bad=at == 0) if at in (0, 1) else None

    def _name(self, at: float, otherwise: str) -> str:
        known = (each for each in self.circuit.points if each.at == at and each.spur is None)
        return next((each.name or each.id for each in known), otherwise)


def whole(circuit: Circuit) -> Doubt | None:
    """Return all of a circuit's cable as in doubt; None where lengths or distances are missing."""
    lengths = [each.length for each in circuit.runs]
    if not lengths or None in lengths or halving(circuit) is None:
        return None
    return Doubt(circuit, 0.0, sum(each for each in lengths if each is not None))


def in_doubt(record: Record) -> list[Doubt]:
    """Return the circuits whose cable can be split, all of it in doubt."""
    return [each for each in map(whole, record.circuits) if each is not None]


def found_words(record: Record, doubt: Doubt) -> str:
    """Return where a fault is that no split brings nearer, and what to look at first.

    Args:
        record: The job.
        doubt: What is left in doubt.
    """
    near, far = doubt.ends
    words = f"It is between {near} and {far}: {doubt.high - doubt.low:.3g} m of cable."
    spots = {
        each.spot.surface
        for each in doubt.circuit.points
        if each.spot is not None and each.at in (doubt.low, doubt.high)
    }
    place = place_of(Part.CIRCUIT, doubt.circuit.id)
    behind = [each for each, _ in surfaces_behind(record, place) if each.id in spots]
    if behind:
        names = " and ".join(surface_name(each) for each in behind)
        words = f"{words} Those points are on {names}."
    return f"{words} {look_along(record, place).text()}"
