"""The context of the sheet of design figures: one line for each part, with marks where judged."""

from __future__ import annotations

from records.document.groups import group_places, row_name
from records.document.ledger import Ledger
from records.expected.results import Expected, Result, What, Worked
from records.judgement.review_types import Judged, Review
from records.model.reading import Place, place_of
from records.model.record import Record
from records.terms import Part

Key = tuple[Place, What]

_LOADS = {
    "ib": What.IB,
    "rating": What.IN,
    "iz": What.IZ,
    "drop": What.VOLT_DROP,
    "drop_limit": What.VOLT_DROP_LIMIT,
    "cpc": What.CPC_SIZE,
    "cpc_least": What.CPC_LEAST,
}
_LOOPS = {
    "zs": What.ZS,
    "zs_limit": What.ZS_LIMIT,
    "zs_cold": What.ZS_LIMIT_COLD,
    "zs_exact": What.ZS_LIMIT_EXACT,
    "ra_limit": What.RA_LIMIT,
}
_FAULTS = {
    "fault_highest": What.FAULT_HIGHEST,
    "breaking": What.BREAKING,
    "fault_lowest": What.FAULT_LOWEST,
    "time_required": What.TIME_REQUIRED,
    "time": What.TIME,
    "time_rcd": What.TIME_RCD,
}


class Design:
    """The design figures of a record, ready for the three tables that show them."""

    def __init__(self, record: Record, expected: Expected, review: Review, ledger: Ledger) -> None:
        """Look up which figures are judged; `ledger` numbers what could not be worked out."""
        self._record, self._expected, self._ledger = record, expected, ledger
        self._judged: dict[Key, Judged] = {}
        for line in review.lines:
            if line.what is not None:
                self._judged.setdefault((line.place, line.what), line)

    @property
    def loads(self) -> list[dict[str, str]]:
        """Load, cable and voltage drop."""
        return self._lines(_LOADS)

    @property
    def loops(self) -> list[dict[str, str]]:
        """Earth fault loops; what was read has a column of its own."""
        lines = self._lines(_LOOPS, read=False)
        places = self._places(_LOOPS) or [place_of(Part.BOARD)]
        for place, line in zip(places, lines, strict=True):
            line["zs_read"] = self._ledger.result(self._read((place, What.ZS)))
        return lines

    @property
    def faults(self) -> list[dict[str, str]]:
        """Fault currents and disconnection."""
        return self._lines(_FAULTS)

    def _places(self, columns: dict[str, What]) -> list[Place]:
        return [
            place
            for place in group_places(self._record)
            if any((place, what) in self._expected.design for what in columns.values())
        ]

    def _lines(self, columns: dict[str, What], *, read: bool = True) -> list[dict[str, str]]:
        lines = [
            {
                "where": row_name(self._record, place),
                **{name: self._cell((place, what), read) for name, what in columns.items()},
            }
            for place in self._places(columns)
        ]
        return lines or [{"where": "nothing entered yet", **dict.fromkeys(columns, "–")}]

    def _read(self, key: Key) -> Worked | None:
        """Return the figure from what was read; why there is none yet needs no note."""
        result = self._expected.measured.get(key)
        return result if isinstance(result, Worked) else None

    def _cell(self, key: Key, read: bool) -> str:
        designed = self._expected.design.get(key)
        measured = self._read(key) if read else None
        line = self._judged.get(key)
        text = self._ledger.result(designed)
        if measured is not None and not _same(measured, designed):
            text += f"; read: {measured}"
        if line is None:
            return text
        finding = self._ledger.finding(line)
        told = f" ({finding})" if finding else ""
        return f"{line.verdict.mark} {text}{told}{self._ledger.memory(line)}"


def _same(one: Worked, other: Result | None) -> bool:
    return other is not None and str(one) == str(other)
