"""One datum of the design as it is asked for: its kind, its unit, its answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass, field
from datetime import date
from enum import Enum, auto

from records.days import day_words
from records.units import Unit

NOT_SAID = "not said yet"


class Kind(Enum):
    """How a field is filled."""

    FIGURE = auto()
    COUNT = auto()
    TEXT = auto()
    DATE = auto()
    CHOICE = auto()
    YES_NO = auto()
    LINE = auto()
    """Shorthand for several fields; it holds no value of its own."""


@dataclass(frozen=True, slots=True)
class Option:
    """One of the answers that a choice takes."""

    label: str
    value: object
    note: str = ""
    """What the label means, for those who don't know it by heart."""


@dataclass(frozen=True, slots=True)
class Field:
    """One datum of the record."""

    pointer: str
    """Where it stands in the record (RFC 6901)."""
    label: str
    kind: Kind
    hint: str = ""
    value: object = None
    """As it is on disk."""
    default: object = None
    """What an emptied field goes back to."""
    unit: Unit = Unit.NUMBER
    options: tuple[Option, ...] = ()
    suggestions: tuple[str, ...] = ()
    """Texts that were given elsewhere and may be meant here too."""
    say: Callable[[str], str] | None = field(default=None, compare=False)
    """Of a line: what the text typed so far says, in full."""
    whole: Callable[[str], bool] | None = field(default=None, compare=False)
    """Of a line: whether a text typed in another field of the page is meant for it."""

    @property
    def key(self) -> str:
        """A name that stays the same while the form is redrawn."""
        return self.pointer

    @property
    def is_choice(self) -> bool:
        """Whether it is answered from a list."""
        return self.kind in (Kind.CHOICE, Kind.YES_NO)

    @property
    def bare(self) -> str:
        """The value as a person would type it, without its unit."""
        if self.value is None:
            return ""
        if self.is_choice:
            return next((each.label for each in self.options if each.value == self.value), "")
        if isinstance(self.value, float):
            return f"{self.value:.12g}"
        if isinstance(self.value, date):
            return day_words(self.value)
        return str(self.value)

    @property
    def shown(self) -> str:
        """The value as it is read, with its unit; empty if there is none."""
        bare = self.bare
        return f"{bare} {self.unit.value}".rstrip() if bare else ""


@dataclass(frozen=True, slots=True)
class Several:
    """What one entry gives its own field and others beside it."""

    values: Mapping[str, object]
    """By slot of `records.shorthand`."""
    implied: Set[str]
    """Slots that follow from the others: they fill what is empty, and no more."""
    words: str
    """All of it in full."""
