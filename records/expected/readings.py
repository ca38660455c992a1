"""The last figure read of each quantity, for what is worked out from readings."""

from __future__ import annotations

from collections.abc import Sequence

from records.expected.runs import State, state
from records.expected.workings import Missing
from records.model.reading import Figure, Place, Quantity, Reading, Slot, when_taken
from records.model.record import Record
from records.reuse import Once
from records.terms import Part, Sign, Stage

Key = tuple[Quantity, Part, str | None, str | None]

_ORDER = {stage: at for at, stage in enumerate(Stage)}


_INSTEAD = {Quantity.ELECTRODE: Quantity.ELECTRODE_LOOP}
"""What was read in another way, where it couldn't be read in the usual one. The loop tester adds
the supply's own earth: RA comes out too high, never too low."""


class Readings:
    """The readings of a record by what and where; of several, the last of the latest stage."""

    def __init__(self, record: Record, readings: Sequence[Reading], reuse: Once) -> None:
        last, at = _sorted_out(readings)
        self._last = reuse.now("last", last)
        self._at = reuse.now("temperatures", at)
        ambient = record.job.ambient
        self.ambient = 20.0 if ambient is None else ambient
        """Temperature of the job [°C], 20 if none is entered."""
        self.ambient_entered = ambient is not None
        """Whether the temperature of the tests is known."""
        self.at_tests = state(self.ambient, ac=True)
        """Conductors as cold as at the tests, with mains current."""
        self._dead = state(self.ambient, ac=False)

    def dead(self, slot: Slot) -> State:
        """Return the state of the conductors at a dead test, with a meter's current."""
        at = self._at.get(slot)
        return self._dead if at is None else state(at, ac=False)

    def live(self, slot: Slot) -> State:
        """Return the state of the conductors at a live test."""
        at = self._at.get(slot)
        return self.at_tests if at is None else state(at, ac=True)

    def temperature(self, slot: Slot) -> float:
        """Return the temperature of a test [°C]: the reading's own, the job's, or 20."""
        return self._at.get(slot, self.ambient)

    def find(
        self, quantity: Quantity, part: Part, circuit: str | None = None, point: str | None = None
    ) -> float | None:
        """Return the last figure read, in the unit of its measurement; None if there is none.

        A figure over or under the meter's range is no figure to calculate with.
        """
        reading = self._last.get((quantity, part, circuit, point))
        if reading is None or not isinstance(reading.taken, Figure):
            reading = self._last.get((_INSTEAD.get(quantity, quantity), part, circuit, point))
        if reading is None or not isinstance(reading.taken, Figure):
            return None
        return reading.taken.value if reading.taken.sign is Sign.EQUAL else None

    def edge(self, quantity: Quantity, part: Part, sign: Sign) -> tuple[float, bool] | None:
        """Return the last figure read, or the edge of the range that it lies beyond; and which.

        Args:
            quantity: What was read.
            part: Where.
            sign: On which side of its range a meter may have been: `>` of a current, `<` of a loop.
        Returns:
            A figure above zero, and whether the meter showed it without a sign.
        """
        reading = self._last.get((quantity, part, None, None))
        taken = reading.taken if reading is not None else None
        if not isinstance(taken, Figure) or taken.sign not in (Sign.EQUAL, sign):
            return None
        return (taken.value, taken.sign is Sign.EQUAL) if taken.value > 0 else None

    def get(
        self, quantity: Quantity, part: Part, circuit: str | None = None, point: str | None = None
    ) -> float:
        """Return the last figure read; arguments as `find`.

        Raises:
            Missing: If there is none.
        """
        found = self.find(quantity, part, circuit, point)
        if found is None:
            raise self.lacks(quantity, part, circuit, point)
        return found

    def lacks(
        self, quantity: Quantity, part: Part, circuit: str | None = None, point: str | None = None
    ) -> Missing:
        """Return what to say where no such figure was read; arguments as `find`."""
        at = " ".join(filter(None, (part.value, circuit, point)))
        return Missing(f"there is no reading of {quantity.value} to work from yet ({at}).")


def _key(quantity: Quantity, place: Place) -> Key:
    return quantity, place.part, place.circuit, place.point


_latest: tuple[Sequence[Reading], dict[Key, Reading], dict[Slot, float]] = ((), {}, {})


def _sorted_out(readings: Sequence[Reading]) -> tuple[dict[Key, Reading], dict[Slot, float]]:
    """Return the last reading of each quantity and place, and the temperatures that were read."""
    # A document makes pictures of many circuits of one record: sorted out once for all of them.
    global _latest
    known, last, at = _latest
    if known is not readings:
        last, at = {}, {}
        for each in sorted(readings, key=when_taken):
            key = _key(each.slot.quantity, each.slot.place)
            if each.temperature is not None:
                at[each.slot] = each.temperature
            before = last.get(key)
            if before is None or _ORDER[each.slot.stage] >= _ORDER[before.slot.stage]:
                last[key] = each
        _latest = (readings, last, at)
    return last, at
