"""What a calculation gives: a figure with its working, or the reason why there is none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from records.evidence import Source
from records.model.reading import Place, Slot
from records.units import Unit


class What(StrEnum):
    """A design figure of a part of the installation, beside what a meter shows."""

    IB = "Ib"
    IN = "In"
    IZ = "Iz"
    VOLT_DROP = "voltage drop"
    VOLT_DROP_LIMIT = "voltage drop limit"
    ZS = "Zs"
    """Loop at the far end: in `design` hot, in `measured` as measured (or Zdb + R1+R2)."""
    ZS_LIMIT = "Zs limit"
    """Tabulated maximum for the device and the required time."""
    ZS_LIMIT_COLD = "Zs limit, cold"
    """0.8 of the tabulated maximum, cut down to 0.01 Ω: common practice, BS 7671 Appendix 3."""
    ZS_LIMIT_EXACT = "Zs limit, exact"
    """What a cold meter may show so that the loop, with this circuit hot, just meets the table."""
    FAULT_HIGHEST = "highest fault current"
    FAULT_LOWEST = "lowest fault current"
    BREAKING = "breaking capacity"
    TIME_REQUIRED = "required disconnection time"
    TIME = "disconnection time, overcurrent device"
    TIME_RCD = "disconnection time, RCD"
    CPC_SIZE = "cpc size"
    CPC_LEAST = "least cpc size"
    RA_LIMIT = "RA limit"


@dataclass(frozen=True, slots=True)
class Worked:
    """A figure that was worked out, with all that a second person needs to follow it."""

    symbol: str
    """In trade symbols, such as `R1+R2`."""
    value: float
    """In `unit`. For a result that is words alone, such as a breaker's band: what `words` says."""
    unit: Unit
    formula: str
    """In trade symbols: `Zs = Zdb + (R1+R2)`."""
    put_in: str
    """The formula with the values in it: `0.33 + 0.19`."""
    sources: tuple[Source, ...]
    digits: int = 2
    """Decimals worth printing."""
    low: float | None = None
    high: float | None = None
    """Where the true figure lies, if the published points leave a range."""
    words: str = ""
    """The result in words where a figure would say too much: `within 0.1 s`, `not assured`."""
    note: str = ""
    """The side it errs on, and what was taken for granted."""

    def __str__(self) -> str:
        return self.words or f"{self.value:.{self.digits}f} {self.unit.value}".strip()


@dataclass(frozen=True, slots=True)
class NotWorkedOut:
    """No figure, and why; never a guess."""

    symbol: str
    why: str
    """What is missing or not covered, and where to enter it."""

    def __str__(self) -> str:
        return f"not worked out: {self.why}"


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
