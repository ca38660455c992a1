"""Is it the meter? Low readings that are all off by the same, or all by the same factor.

Leads add 0.05 to 0.30 Ω, the same to every reading; worn tips and a bad range add more; a meter
that tests with too little current shows a multiple (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.wording import rounded
from records.model.reading import Quantity, Slot, slot_of
from records.terms import Sign, Stage, Verdict
from records.units import Unit

_LOW = (
    Quantity.R1_R2,
    Quantity.R1_RN,
    Quantity.R1,
    Quantity.RN,
    Quantity.R2,
    Quantity.CROSS_LN,
    Quantity.CROSS_LE,
    Quantity.BONDING,
    Quantity.R1_R2_CORE,
    Quantity.R1_R2_ARMOUR,
    Quantity.RN_R2,
)
"""Read by an ohmmeter, with an expectation. Not by a long lead: it has a resistance of its own."""
_CROSSED = (Quantity.CROSS_LN, Quantity.CROSS_LE)
_NEXT_TO_NOTHING = (Quantity.EARTHING, Quantity.GLAND, Quantity.ARMOUR_EARTHED)
"""Without an expectation; with good contacts they show next to nothing."""
_CONTACTS = 0.05
"""Ω that good contacts and a short conductor show at most: common practice."""
_LEAST = 0.05
"""Ω: less than this is within what two readings differ by. Common practice."""
_ALIKE, _ALIKE_SHARE = 0.03, 0.1
"""Ω, and share of the expectation, by which readings may be off the common offset."""
_READINGS, _MOST_OF_THEM = 3, 0.8
"""How many readings, and which share of all, have to agree: one bad joint more is no excuse."""
_FACTOR, _FACTOR_READINGS, _FACTOR_PLACES = 1.25, 5, 3
"""From which a common factor is looked at, over how many readings and places: common practice."""
_LEAD = 0.3
"""Ω that leads add at most: more comes from the tips or the range."""


@dataclass(frozen=True, slots=True)
class _Off:
    """A low reading and what it should be [Ω]."""

    slot: Slot
    value: float
    expected: float
    leads: float | None

    @property
    def by(self) -> float:
        """By how much it is off [Ω]."""
        return self.value - self.expected

    def agrees(self, offset: float) -> bool:
        """Whether an offset explains it."""
        allowed = max(_ALIKE, _ALIKE_SHARE * abs(self.expected))
        return abs(self.by - offset) <= allowed + 1e-9


@dataclass(frozen=True, slots=True)
class _Series:
    """The low readings of one stage with one meter; leads taken off or not, which may change
    halfway through a series."""

    stage: Stage
    meter: str
    less: bool
    readings: tuple[_Off, ...]
    contacts: tuple[tuple[Slot, float], ...]

    @property
    def mark(self) -> str:
        """What tells it from other series, in a key."""
        return f"{self.meter}{' less leads' if self.less else ''}"

    def alike(self) -> tuple[float, tuple[_Off, ...]] | None:
        """Return the common offset [Ω] and the readings that it explains; None if there is none."""
        ends = tuple(each for each in self.readings if each.slot.quantity not in _CROSSED)
        return _alike(self.readings) or _alike(ends)  # crossed at another time, leads nulled then


def _alike(readings: Sequence[_Off]) -> tuple[float, tuple[_Off, ...]] | None:
    if len(readings) < _READINGS:
        return None
    offset = median(each.by for each in readings)
    same = tuple(each for each in readings if each.agrees(offset))
    enough = len(same) >= max(_READINGS, _MOST_OF_THEM * len(readings))
    if not enough or abs(offset) < _LEAST - 1e-9:
        return None
    # A ring that is longer than entered is off everywhere, but in proportion.
    one_place = len({each.slot.place.circuit for each in same}) < 2
    if one_place and _spread_of_factor(same) < max(abs(each.by - offset) for each in same):
        return None
    return offset, same


def _series(facts: Facts) -> Iterator[_Series]:
    groups: dict[tuple[Stage, str, bool], tuple[list[_Off], list[tuple[Slot, float]]]] = {}
    for slot in facts.all_slots:
        if slot.quantity not in _LOW and slot.quantity not in _NEXT_TO_NOTHING:
            continue
        last, figure, expected = facts.last(slot), facts.figure(slot), facts.meter_value(slot)
        if last is None or figure is None or figure.sign is not Sign.EQUAL:
            continue
        key = slot.stage, last.instrument or "", figure.leads is not None
        readings, contacts = groups.setdefault(key, ([], []))
        if expected is not None:
            readings.append(_Off(slot, figure.value, expected, figure.leads))
        elif slot.quantity in _NEXT_TO_NOTHING:
            contacts.append((slot, figure.value))
    for (stage, meter, less), (readings, contacts) in groups.items():
        yield _Series(stage, meter, less, tuple(readings), tuple(contacts))


def common_offset(facts: Facts) -> Iterator[Pattern]:
    """Most low readings of a stage and a meter are off by about the same, whatever it is."""
    for series in _series(facts):
        found = series.alike()
        if found is None:
            continue
        offset, same = found
        concern = _twice(series, offset, same) or (
            _below(offset, same) if offset < 0 else _above(facts, series, offset, same)
        )
        slots = tuple(each.slot for each in same)
        slots += tuple(
            slot
            for slot, value in series.contacts
            if -_ALIKE <= value - offset <= _CONTACTS + _ALIKE
        )
        yield _pattern(concern, series, slots)


def _twice(series: _Series, offset: float, same: Sequence[_Off]) -> Concern | None:
    """All are low by the resistance of the leads that was taken off: the meter nulls them too."""
    taken_off = [each.leads for each in same if each.leads is not None]
    if not series.less or abs(median(taken_off) + offset) > _ALIKE:
        return None
    return Concern(
        "leads taken off twice",
        Verdict.UNLIKELY,
        f"{len(same)} readings are about {rounded(-offset, Unit.OHM)} below what is "
        f"expected, and {rounded(median(taken_off), Unit.OHM)} of leads was taken off each.",
        ("the meter nulls its own leads", "other, shorter leads than entered"),
        do(
            Act.ENTER,
            "Join the tips: 0.00 means nulled. Then say so of the instrument (Job), and repeat.",
        ),
        cite.COMMON,
        60,
    )


def _below(offset: float, same: Sequence[_Off]) -> Concern:
    return Concern(
        "nulled with other leads",
        Verdict.UNLIKELY,
        f"{len(same)} readings are about {rounded(-offset, Unit.OHM)} below what is expected: "
        "look at the meter before the cables.",
        (
            "nulled with longer leads, or with a poor contact",
            "the leads were changed after they were nulled",
            "a range that shows too little",
        ),
        do(Act.AGAIN, "Join the tips, null, see 0.00, and repeat them all."),
        cite.COMMON,
        60,
    )


def _above(facts: Facts, series: _Series, offset: float, same: Sequence[_Off]) -> Concern:
    known = next((each for each in facts.record.job.instruments if each.id == series.meter), None)
    said = ""
    causes: tuple[str, ...] = (
        "the lead resistance was not taken off",
        "the leads were changed after nulling",
        "a fused lead",
    )
    check = do(Act.AGAIN, "Join the tips, null, see 0.00, and repeat them all.")
    if series.less:
        said = " That is after the leads were taken off."
        causes = ("the leads have more than was entered for them", "a fused lead", "worn tips")
        check = do(
            Act.ENTER, "Join the tips, enter what the meter shows (Job), and repeat them all."
        )
    elif known is not None and known.leads is not None:
        said = f" The leads of {known.name} have "
        said += rounded(known.leads, Unit.OHM)
        said += ", not nulled." if known.nulled is False else "."
    shown = facts.plain(slot_of(Quantity.LEADS_ZERO, BOARD, series.stage))
    if shown is not None and abs(shown - offset) <= _ALIKE + 1e-9:
        said += f" With its tips joined the meter showed {rounded(shown, Unit.OHM)}: that is it."
    elif offset > _LEAD:
        causes = (
            "worn or dirty tips, or a poor clip",
            "a range that is off, or a low battery",
            causes[0],
        )
    return Concern(
        "leads not nulled",
        Verdict.UNLIKELY,
        f"{len(same)} readings are about {rounded(offset, Unit.OHM)} above what is "
        f"expected: look at the meter before the cables.{said}",
        causes,
        check,
        cite.COMMON,
        60,
    )


def common_factor(facts: Facts) -> Iterator[Pattern]:
    """All low readings of a stage and a meter are the same multiple of what is expected."""
    for series in _series(facts):
        readings = [each for each in series.readings if each.expected > _CONTACTS]
        places = {(each.slot.place.part, each.slot.place.circuit) for each in readings}
        if len(readings) < _FACTOR_READINGS or len(places) < _FACTOR_PLACES or series.alike():
            continue
        factor = _factor(readings)
        if 1 / _FACTOR < factor < _FACTOR or _spread_of_factor(readings) > _ALIKE:
            continue
        slots = tuple(each.slot for each in readings)
        concern = Concern(
            "meter off by a factor",
            Verdict.UNLIKELY,
            f"All {len(readings)} readings are about {factor:.1f} times what is expected: look at "
            "the meter before the cables.",
            (
                "a meter that tests with less than 200 mA",
                "a range that is off, or a low battery",
                "all lengths or sizes were entered wrongly",
            ),
            _OTHER_METER,
            cite.METER,
            55,
        )
        yield _pattern(concern, series, slots)


_OTHER_METER: Advice = do(
    Act.AGAIN, "Repeat two of them with another low-resistance ohmmeter, nulled first."
)


def _factor(readings: Sequence[_Off]) -> float:
    return median(each.value / each.expected for each in readings)


def _spread_of_factor(readings: Sequence[_Off]) -> float:
    """Return by how much a common factor misses the readings at most [Ω], beyond a tenth."""
    known = [each for each in readings if each.expected > 0]
    if not known:
        return float("inf")
    factor = _factor(known)
    return max(
        abs(each.value - factor * each.expected) - _ALIKE_SHARE * each.expected for each in known
    )


def _pattern(concern: Concern, series: _Series, slots: tuple[Slot, ...]) -> Pattern:
    title = f"All continuity readings, {series.stage.value}"
    return Pattern(concern, BOARD, title, slots, slots, mark=series.mark, carries=True)
