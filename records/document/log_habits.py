"""What readings of the log have in common: said once over them; a row says what departs from it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import TypeVar

from records.document.groups import STAGES, group_of
from records.document.people import initials
from records.document.reading_cells import other_voltage
from records.document.words import Clock, figure, joined
from records.model.reading import Figure, Place, Quantity, Reading
from records.model.record import Record
from records.terms import Stage
from records.units import Unit

T = TypeVar("T")


class Habits:
    """When, by whom and with what most readings were taken: of a stage in a part, and of all."""

    def __init__(self, record: Record, clock: Clock) -> None:
        """Count what the readings have in common."""
        self._record, self._clock = record, clock
        self._people = initials(record)
        self._volts = _most(each.test_voltage for each in record.readings if each.test_voltage)
        self._warm = _most(
            each.temperature for each in record.readings if each.slot.stage is Stage.BEFORE_COVERING
        )
        self._methods = _methods(record)
        self._inside: dict[tuple[Place, Stage], list[Reading]] = {}
        for each in record.readings:
            self._inside.setdefault(_key(each), []).append(each)
        self._usual = {key: self._common(each) for key, each in self._inside.items()}

    def legend(self) -> str:
        """Return who and what the initials and numbers stand for, and what holds unless noted."""
        job = self._record.job
        people = joined((f"{self._people[it.id]} {it.name}" for it in job.people), ", ")
        meters = (
            f"{it.id} {it.kind.value if it.kind else 'meter'} {it.serial}".strip()
            for it in job.instruments
        )
        alike: dict[str, list[str]] = {}
        for quantity, method in self._methods.items():
            alike.setdefault(method, []).append(quantity.value)
        methods = (f"{', '.join(found)}: {method}" for method, found in alike.items())
        usual = joined(
            (
                f"insulation tested at {self._volts:g} V d.c." if self._volts else "",
                f"before covering {figure(self._warm, Unit.CELSIUS)}"
                if self._warm is not None
                else "",
                *methods,
            ),
            "; ",
        )
        said = [
            f"By: {people or 'no names given'}. With: {joined(meters) or 'no meter given'}.",
            f"Unless noted: {usual.rstrip('.')}." if usual else "",
            f"All in {self._clock.year}." if self._clock.year and self._record.readings else "",
            self._clock.zone,
        ]
        return joined(said, " ")

    def taken(self, group: Place) -> str:
        """Return when, by whom and with what a part was read, stage by stage; "" if it wasn't."""
        alike: dict[str, list[str]] = {}
        for stage, name in STAGES.items():
            readings = self._inside.get((group, stage))
            if readings:
                day, *how = self._usual[group, stage]
                times = [each.at for each in readings if self._clock.day(each.at) == day]
                when = f"{name} {self._clock.between(min(times), max(times))}"
                alike.setdefault(joined(how), []).append(when)
        said = "; ".join(joined((*whens, how)) for how, whens in alike.items())
        return f"{said[:1].upper()}{said[1:]}." if said else ""

    def how(self, it: Reading) -> str:
        """Return when, by whom and with what one reading was taken."""
        return joined((self._clock.short(it.at), self._by(it), self._meter(it)))

    def departs(self, it: Reading, *, again: bool) -> str:
        """Return in which ways a reading was taken otherwise than what stands over it says.

        Args:
            it: The reading.
            again: It is one of several of the same: each has its time.
        """
        day, by, meter, notes = self._usual.get(_key(it), ("", "", "", ""))
        usual = self._methods.get(it.slot.quantity, "") if isinstance(it.taken, Figure) else ""
        other_meter = self._meter(it) != meter and _has_meter(it)
        other_day = self._clock.day(it.at) != day
        return joined(
            (
                self._clock.short(it.at) if other_day else self._clock.time(it.at) if again else "",
                self._by(it) if self._by(it) != by else "",
                (self._meter(it) if it.instrument else "no meter named") if other_meter else "",
                (self._notes(it) or "not from notes") if self._notes(it) != notes else "",
                self._temperature(it),
                other_voltage(it, self._volts),
                (it.method or "method not given") if it.method != usual else "",
            )
        )

    def _temperature(self, it: Reading) -> str:
        usual = self._warm if it.slot.stage is Stage.BEFORE_COVERING else None
        if it.temperature == usual or not isinstance(it.taken, Figure):
            return ""
        return f"temperature {figure(it.temperature, Unit.CELSIUS)}"

    def _common(self, readings: list[Reading]) -> tuple[str, str, str, str]:
        return (
            _most(self._clock.day(each.at) for each in readings) or "",
            _most(map(self._by, readings)) or "",
            _most(self._meter(each) for each in readings if _has_meter(each)) or "",
            _most(map(self._notes, readings)) or "",
        )

    def _by(self, it: Reading) -> str:
        return f"by {self._people.get(it.by, it.by)}" if it.by else "by: not given"

    def _meter(self, it: Reading) -> str:
        return f"with {it.instrument}" if it.instrument else "no meter named"

    def _notes(self, it: Reading) -> str:
        return f"from notes, entered {self._clock.when(it.from_notes)}" if it.from_notes else ""


def _key(it: Reading) -> tuple[Place, Stage]:
    return group_of(it.slot.place), it.slot.stage


def _has_meter(it: Reading) -> bool:
    return bool(it.instrument) or isinstance(it.taken, Figure)


def _most(values: Iterable[T]) -> T | None:
    """Return the value that there is most of, the first of several; None if there is none."""
    return next((value for value, _ in Counter(values).most_common(1)), None)


def _methods(record: Record) -> dict[Quantity, str]:
    """Return the method that most readings of a quantity were taken by, where they say it."""
    found: dict[Quantity, list[str]] = {}
    for each in record.readings:
        if isinstance(each.taken, Figure):
            found.setdefault(each.slot.quantity, []).append(each.method)
    usual = {quantity: _most(methods) or "" for quantity, methods in found.items()}
    return {quantity: it for quantity, it in usual.items() if it}
