"""What a review is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from records.evidence import Source
from records.expected.results import Result, What, Worked
from records.judgement.harm import Harm, harm_of, rank
from records.model.reading import Place, Reading, Remedy, Slot
from records.tables.rounding import Side, safely, with_unit
from records.terms import Verdict
from records.units import Unit


class Sense(StrEnum):
    """Which side of a limit is right."""

    MOST = "at most"
    LEAST = "at least"
    BAND = "between"
    SHOULD = "right"


class Life(StrEnum):
    """How far a finding has come. None of these closes it but a reading, or the design, again."""

    OPEN = "open"
    DECIDE = "to decide by the certifier"
    REMEDIED = "put right, not shown correct yet"
    STILL = "remedied, and found again since"
    RETESTED = "put right, and found correct since"


class Limit(NamedTuple):
    """What a reading or a design figure must not pass."""

    sense: Sense
    value: float
    """In `unit`; for a band its lower end, for a check 1."""
    unit: Unit
    source: Source
    upper: float | None = None
    """The upper end of a band."""
    digits: int = 2
    note: str = ""
    usual: bool = False
    """Whether it is only what is usually declared: no limit of a device."""

    def __str__(self) -> str:
        if self.sense is Sense.SHOULD:
            return "must be correct"
        if self.sense is Sense.BAND and self.upper is not None:
            upper = with_unit(self.upper, self.unit, self.digits, "most")
            return f"{safely(self.value, self.digits, 'least')} to {upper}"
        side: Side = "most" if self.sense is Sense.MOST else "least"
        return f"{self.sense.value} {with_unit(self.value, self.unit, self.digits, side)}"

    @property
    def figure(self) -> str:
        """The limit without its unit, never on the unsafe side of what it is."""
        side: Side = "most" if self.sense is Sense.MOST else "least"
        return safely(self.value, self.digits, side)


class Stood(NamedTuple):
    """How one of several readings in a slot stood by itself when it was taken."""

    verdict: Verdict
    why: str
    causes: tuple[str, ...] = ()
    """Likely ones, as they were told then."""

    @property
    def is_bad(self) -> bool:
        """Whether it can't stand: something has to be done, or the reading was wrong."""
        return self.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY)

    @property
    def words(self) -> str:
        """Mark and word."""
        return f"{self.verdict.mark} {self.verdict.value}"


class Judged(NamedTuple):
    """How one reading, one design figure or one pattern of readings stands, and on what ground."""

    key: str
    """Stable name: a remedy refers to it."""
    verdict: Verdict
    place: Place
    title: str
    """What is judged, in words."""
    why: str
    """A plain sentence."""
    slot: Slot | None = None
    """The reading it is about; None for a design figure."""
    what: What | None = None
    """The design figure it is about; None for a reading."""
    expected: Result | None = None
    limit: Limit | None = None
    attempts: tuple[Reading, ...] = ()
    """All readings of the slot, oldest first; the last one was judged."""
    stood: tuple[Stood, ...] = ()
    """How each of the attempts stood, where there are several; empty where there is one or none."""
    causes: tuple[str, ...] = ()
    """Likely ones, the likeliest first."""
    next_check: str = ""
    source: Source | None = None
    """The ground for the verdict where it is not the limit's source."""
    remedies: tuple[Remedy, ...] = ()
    patterns: tuple[str, ...] = ()
    """Names of the rules that found something, the gravest first."""
    weight: int = 0
    """Within one verdict, more urgent ones first."""
    about: tuple[Slot, ...] = ()
    """The readings that a pattern is made of."""
    life: Life | None = None
    """How far it has come; None if it never was a finding that something was recorded about."""
    judged_again: str = ""
    """What changed in the design since, and how it stood before; empty if nothing did."""
    once: bool = False
    """Said of a meter as a whole: not said again at each of the readings that it is about."""
    meter_mark: str = ""
    """Stands beside the last reading where its meter was out of calibration; else empty."""
    grounds: tuple[Worked, ...] = ()
    """The figures that the verdict was worked out from."""
    part_of: str = ""
    """Key of the line that tells this trouble as a whole; it is not a finding of its own then."""

    @property
    def found(self) -> tuple[tuple[Reading, Stood], ...]:
        """The readings before the last one that could not stand, each as it stood: they stay."""
        before = zip(self.attempts[:-1], self.stood, strict=False)
        return tuple((reading, how) for reading, how in before if how.is_bad)

    @property
    def harm(self) -> Harm:
        """What it can lead to if it is left as it is."""
        about = (self.slot, *self.about) if self.slot is not None else self.about
        return harm_of(self.verdict, self.key, self.patterns, [each.quantity for each in about])

    @property
    def rank(self) -> tuple[int, int, int]:
        """What lines are put in order by, the worst first: harm, verdict, urgency."""
        return rank(self.harm, self.verdict, self.weight)

    @property
    def is_finding(self) -> bool:
        """Whether somebody must deal with this line itself."""
        return self.verdict.is_finding and not self.part_of

    @property
    def is_trouble(self) -> bool:
        """Whether it is a finding with a real problem in it, not only something missing."""
        return self.is_finding and self.verdict is not Verdict.NOT_TAKEN


def key_of(slot: Slot) -> str:
    """Return the key of the line of a slot."""
    place = slot.place
    return "/".join(
        (
            place.part.code,
            place.circuit or "-",
            place.point or "-",
            slot.stage.code,
            slot.quantity.code,
        )
    )


def slots_of(judged: Judged) -> tuple[Slot, ...]:
    """Return the readings that a verdict is about; none for one on the design."""
    return (judged.slot,) if judged.slot is not None else judged.about


@dataclass(frozen=True)
class Review:
    """All verdicts on a record."""

    lines: tuple[Judged, ...]
    """Every reading that the job needs, every design check, every pattern that was found."""
    settled: tuple[Remedy, ...] = ()
    """Remedies of findings that no longer stand and have no line of their own any more."""
    verdicts: Mapping[str, Verdict] = field(default_factory=dict)
    """How each reading stood by what it shows, by its id: for what may be taken next."""

    @cached_property
    def findings(self) -> tuple[Judged, ...]:
        """What somebody must deal with, by the harm it can do: the worst first."""
        found = (each for each in self.lines if each.is_finding)
        return tuple(sorted(found, key=lambda each: each.rank))

    @property
    def put_right(self) -> tuple[Judged, ...]:
        """What was found and is no finding any more: as it was, with what was done, and since."""
        return tuple(
            each for each in self.lines if (each.found or each.remedies) and not each.is_trouble
        )

    def of(self, slot: Slot) -> tuple[Judged, ...]:
        """Return the verdicts on one reading: its own first, then patterns it is part of."""
        own = (each for each in self.lines if each.slot == slot)
        others = (each for each in self.lines if each.slot != slot and not each.once)
        wider = (each for each in others if slot in each.about)
        return (*own, *wider)
