"""The numbers by which sheets refer to one another: [n] sources, Nn notes, Fn findings."""

from __future__ import annotations

from collections.abc import Iterable

from records.evidence import Source
from records.expected.results import NotWorkedOut, Result
from records.judgement.review_types import Judged, Limit
from records.judgement.trust import MARK, memory_note


class Ledger:
    """Gives out numbers in the order of first use, while a schedule is put together."""

    def __init__(self, findings: Iterable[Judged]) -> None:
        """Number the findings, which all sheets refer to.

        Args:
            findings: In the order in which the schedule prints them.
        """
        self._findings = {each.key: f"F{at}" for at, each in enumerate(findings, start=1)}
        self._sources: dict[Source, int] = {}
        self._notes: dict[str, int] = {}

    def finding(self, line: Judged) -> str:
        """Return the number of the finding that a line is, or is told by; "" if it is none."""
        return self._findings.get(line.part_of or line.key, "")

    def source(self, source: Source) -> str:
        """Return the reference to a source, such as `[3]`."""
        return f"[{self._sources.setdefault(source, len(self._sources) + 1)}]"

    def sources(self, sources: Iterable[Source]) -> str:
        """Return the references to some sources."""
        return " ".join(self.source(each) for each in sources)

    def result(self, result: Result | None) -> str:
        """Return a figure, or a reference to the note that says why there is none."""
        if result is None:
            return "–"
        if not isinstance(result, NotWorkedOut):
            return str(result)
        return f"– ({self.note(result.why)})"

    def note(self, text: str) -> str:
        """Return the reference to a note, such as `N3`."""
        return f"N{self._notes.setdefault(text, len(self._notes) + 1)}"

    def memory(self, line: Judged | None) -> str:
        """Return the mark of a verdict that a figure from memory decides, with its note."""
        note = memory_note(line) if line is not None else ""
        return f" {MARK} ({self.note(note)})" if note else ""

    def limit(self, limit: Limit | None) -> str:
        """Return a limit with the reference to its source."""
        return f"{limit} {self.source(limit.source)}" if limit else "–"

    @property
    def source_list(self) -> list[str]:
        """All sources referred to, as they are printed."""
        return [f"[{number}]  {source}" for source, number in self._sources.items()]

    @property
    def note_list(self) -> list[str]:
        """All notes referred to, as they are printed."""
        return [f"N{number}  {why}" for why, number in self._notes.items()]
