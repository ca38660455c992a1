"""How a person writes dates and decimals: set once by the program that they type into."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class DayOrder(Enum):
    """Which figure of a date stands first."""

    DAY_FIRST = "day-first"
    MONTH_FIRST = "month-first"


class Comma(Enum):
    """What a comma before three digits means, as in `1,250`; in `0,35` it is always decimal."""

    ASK = "ask"
    DECIMAL = "decimal"
    THOUSANDS = "thousands"


@dataclass
class Habits:
    """How what could be read in two ways is read."""

    dates: DayOrder = DayOrder.DAY_FIRST
    comma: Comma = Comma.ASK


HABITS = Habits()
"""Those of the person at this computer. What is stored doesn't depend on them: it is ISO 8601 and
points."""
