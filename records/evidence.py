"""Where a published figure or rule comes from, and how far that can be trusted."""

from __future__ import annotations

from dataclasses import dataclass, field

from records.terms import Basis


@dataclass(frozen=True, slots=True)
class Source:
    """A published work (with its edition), the place in it, and on what basis Farboard has it."""

    work: str
    place: str
    basis: Basis
    seen: str = ""
    """The copy that the figure was read in, and what was done to it; empty where it isn't noted."""
    figure: str = field(default="", compare=False)
    """The printed figure that is cited, with its table and row; empty for a rule or a formula."""
    table: str = field(default="", compare=False)
    """Name of the data file that has it."""

    def __str__(self) -> str:
        named = f"{self.work}, {self.place}" if self.place else self.work
        if self.basis is Basis.COMMON_PRACTICE and not self.place:
            return named
        if self.basis is Basis.READ and self.seen:
            return f"{named} (read in {self.seen}; not in the standard itself)"
        return f"{named} ({self.basis.value})"


COMMON_PRACTICE = Source("Common practice of the trade", "", Basis.COMMON_PRACTICE)
