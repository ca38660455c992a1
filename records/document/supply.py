"""The last standing readings of origin, feed and board, with their limits."""

from __future__ import annotations

from records.document.groups import STAGES, point_name
from records.document.ink import Value, ink
from records.document.reading_cells import Cells, short_limit
from records.document.words import joined
from records.model.reading import Slot
from records.model.slots import measured_by
from records.terms import Part


def readings(cells: Cells) -> list[dict[str, Value]]:
    """Return a line for each test that is not of a circuit, in the order of the work.

    None before the first reading: what is missing stands on page one.
    """
    if not cells.record.readings:
        return []
    lines: list[dict[str, Value]] = []
    for part in (each for each in Part if each is not Part.CIRCUIT):
        tests: dict[tuple[object, object], list[Slot]] = {}
        for slot in cells.by_part(part, None):
            tests.setdefault((slot.quantity, slot.place.point), []).append(slot)
        lines += [_line(cells, part, each) for each in tests.values()]
    return lines


def _line(cells: Cells, part: Part, slots: list[Slot]) -> dict[str, Value]:
    slot = cells.standing(slots) or slots[0]
    own = cells.own.get(slot)
    return {
        "where": part.value,
        "what": joined((measured_by(slot).title, point_name(cells.record, slot.place))),
        "stage": STAGES[slot.stage],
        "value": cells.cell(slots, unit=True),
        "limit": ink(short_limit(own, cells.ledger)),
        "verdict": own.verdict.mark if own else "",
    }
