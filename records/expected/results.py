"""What a calculation gives: a figure with its working, or the reason why there is none."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from records.evidence import Source
from records.model.reading import Place, Slot
from records.tables.rounding import Side, safely, with_unit
from records.terms import Word
from records.units import Unit


class What(Word):
    """A design figure of a part of the installation, beside what a meter shows."""

    IB = "Ib"
    IN = "In"
    IZ = "Iz"
    VOLT_DROP = "voltage drop"
    VOLT_DROP_LIMIT = "voltage drop limit"
    R1_R2 = "R1+R2"
    """Line and cpc of the feed or a circuit at its furthest point, hot, as a loop meets them."""
    ZDB = "Zdb"
    """Zdb: earth fault loop impedance at the sub-board, hot, as a fault behind it meets it."""
    ZS = "Zs"
    """Zs at the furthest point: in `design` hot, in `measured` as measured (or Zdb + R1+R2)."""
    ZS_LIMIT = "Zs limit"
    """Tabulated maximum for the device and the required time."""
    ZS_LIMIT_COLD = "Zs limit, cold"
    """0.8 of the tabulated maximum, cut down to 0.01 Ω: common practice, BS 7671 Appendix 3."""
    ZS_LIMIT_EXACT = "Zs limit, exact"
    """What a cold meter may show so that the loop, with this circuit hot, just meets the table."""
    FAULT_HIGHEST = "highest fault current"
    """Where the device stands: of the feed at the origin, of a circuit at the sub-board."""
    FAULT_LN = "highest fault current, L-N"
    """At the place itself: origin, sub-board, furthest point of a circuit; conductors cold."""
    FAULT_LE = "highest fault current, L-E"
    """The same between line and earth."""
    FAULT_LOWEST = "lowest fault current"
    BREAKING = "breaking capacity"
    TIME_REQUIRED = "required disconnection time"
    TIME = "disconnection time, overcurrent device"
    TIME_RCD = "disconnection time, RCD"
    CPC_SIZE = "cpc size"
    CPC_LEAST = "least cpc size"
    BOND_LEAST = "least bonding conductor"
    """Of a main bond at the sub-board, copper."""
    CPC_AS_COPPER = "cpc of the feed as copper"
    """The copper conductor that conducts as well as the worst run's: for its use as a bond."""
    RA_LIMIT = "RA limit"


Filled = tuple[str, *tuple[object, ...]]
"""A template as `str.format` takes it, and the values to be put in."""
Text = str | Filled | Callable[[], str]
"""A text, or what it is written from once somebody looks: writing costs more than working out."""


def written(text: Text) -> str:
    """Return a text, writing it if it isn't written yet."""
    if isinstance(text, str):
        return text
    if isinstance(text, tuple):
        template, *values = text
        return template.format(*values)
    return text()


class Citing(Protocol):
    """What figures are built on, which knows where it comes from."""

    def cited(self) -> Iterable[Source]:
        """Return its sources."""


Cited = tuple[Source | Citing, ...]
"""Sources, and what has sources: those stand in its place once somebody looks."""


def each_cited(sources: Cited) -> Iterator[Source]:
    """Return the sources one by one."""
    for each in sources:
        if isinstance(each, Source):
            yield each
        else:
            yield from each.cited()


class Worked:
    """A figure that was worked out, with all that a second person needs to follow it.

    Not to be changed once made. Its texts may be written only when they are first looked at, from
    the values that the figure was worked out with: looking late makes no difference to them.
    """

    __slots__ = (
        "_formula",
        "_note",
        "_put_in",
        "_sources",
        "_words",
        "assumed",
        "digits",
        "high",
        "low",
        "side",
        "symbol",
        "unit",
        "value",
    )

    def __init__(
        self,
        symbol: str,
        value: float,
        unit: Unit,
        formula: Text,
        put_in: Text,
        sources: Cited,
        *,
        digits: int = 2,
        low: float | None = None,
        high: float | None = None,
        words: Text = "",
        note: Text = "",
        assumed: str = "",
        side: Side = "",
    ) -> None:
        """Keep a figure and its working.

        Args:
            symbol: In trade symbols, such as `R1+R2`.
            value: In `unit`. For a result that is words alone, such as a breaker's band: what
                `words` says.
            unit: Of the value.
            formula: In trade symbols: `Zs = Zdb + (R1+R2)`.
            put_in: The formula with the values in it: `0.33 + 0.19`.
            sources: Each with its edition and basis; or what has sources.
            digits: Decimals worth printing.
            low: Where the true figure lies, if the published points leave a range.
            high: The other end of that range.
            words: The result in words where a figure would say too much: `within 0.1 s`.
            note: The side it errs on, and what was taken for granted.
            assumed: What to enter or read in the place of an assumption that it rests on.
            side: Whether it is a most or a least: it is never printed on the unsafe side then.
        """
        self.symbol = symbol
        self.value = value
        self.unit = unit
        self.digits = digits
        self.low = low
        self.high = high
        self.assumed = assumed
        self.side = side
        self._formula = formula
        self._put_in = put_in
        self._sources = sources
        self._words = words
        self._note = note

    @property
    def formula(self) -> str:
        """In trade symbols: `Zs = Zdb + (R1+R2)`."""
        self._formula = text = written(self._formula)
        return text

    @property
    def put_in(self) -> str:
        """The formula with the values in it: `0.33 + 0.19`."""
        self._put_in = text = written(self._put_in)
        return text

    @property
    def sources(self) -> tuple[Source, ...]:
        """Where the formula and the published figures come from, each once."""
        return tuple(dict.fromkeys(self.cited()))

    def cited(self) -> tuple[Source, ...]:
        """Return the sources, each figure of a table by itself, for what is built on this one."""
        # By identity: a table gives the same source for each of its figures.
        found = {id(source): source for source in each_cited(self._sources)}
        self._sources = sources = tuple(found.values())
        return sources

    @property
    def words(self) -> str:
        """The result in words where a figure would say too much; empty if the figure will do."""
        self._words = text = written(self._words)
        return text

    @property
    def note(self) -> str:
        """The side it errs on, and what was taken for granted."""
        self._note = text = written(self._note)
        return text

    def up_to(self, high: float, note: Text, assumed: str) -> Worked:
        """Return the same figure where the true one may lie as high as `high`, and why."""
        return Worked(
            self.symbol,
            self.value,
            self.unit,
            self._formula,
            self._put_in,
            self._sources,
            digits=self.digits,
            low=self.low,
            high=high,
            words=self._words,
            note=note,
            assumed=assumed,
            side=self.side,
        )

    @property
    def figure(self) -> str:
        """The result without its unit, on the safe side if it is a limit."""
        return safely(self.value, self.digits, self.side)

    def __str__(self) -> str:
        return self.words or with_unit(self.value, self.unit, self.digits, self.side)

    def __repr__(self) -> str:
        return f"Worked({self.symbol} = {self}: {self.formula} → {self.put_in})"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Worked):
            return NotImplemented
        return self is other or self._all() == other._all()

    def __hash__(self) -> int:
        return hash((self.symbol, self.value, self.unit))

    def _all(self) -> tuple[object, ...]:
        return (
            self.symbol,
            self.value,
            self.unit,
            self.digits,
            self.low,
            self.high,
            self.formula,
            self.put_in,
            self.words,
            self.note,
            self.sources,
            self.assumed,
        )


@dataclass(slots=True, unsafe_hash=True)
class NotWorkedOut:
    """No figure, and why; never a guess. Not to be changed once made (frozen, making one costs
    several times as much)."""

    symbol: str
    why: str
    """What is missing or not covered, and where to enter it."""

    def __str__(self) -> str:
        return f"not calculated: {self.why}"


Result = Worked | NotWorkedOut


@dataclass(frozen=True, slots=True)
class Expected:
    """All that follows from a record."""

    meter: Mapping[Slot, Result] = field(default_factory=dict)
    """What each reading should be, at the temperature of the test, leads taken off."""
    design: Mapping[tuple[Place, What], Result] = field(default_factory=dict)
    """From the design inputs, conductors at operating temperature."""
    measured: Mapping[tuple[Place, What], Result] = field(default_factory=dict)
    """The same from the readings taken so far: ZS, FAULT_*, TIME, TIME_RCD, where they exist."""
