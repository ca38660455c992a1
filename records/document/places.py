"""The certifier's places: empty cells that are found again by their bookmarks."""

from __future__ import annotations

from records.document.ink import Value, anchor, ink, mark
from records.document.reading_cells import Cells, ring_slot
from records.judgement.wording import said
from records.model.reading import Quantity, Slot, when_taken
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.terms import Part, Stage

OWN = "own_"
"""Every certifier's place has a bookmark whose name begins so."""
_BLANK = "\N{NO-BREAK SPACE}"
_SAMPLED = (Quantity.R1_R2, Quantity.IR_LE, Quantity.ZS, Quantity.RCD_TIME)
_SUPPLY = (Quantity.ZE, Quantity.FAULT_LN, Quantity.ZDB, Quantity.ELECTRODE, Quantity.RCD_TIME)


def own_place(name: str, known: str = "") -> Value:
    """Return an empty place for the certifier.

    Args:
        name: Its bookmark, which begins with `OWN`.
        known: What the record has of them already; it stands before the place, as the record's.
    """
    return ink(f"{known} " if known else "", mark(_BLANK, name))


def own_slots(record: Record) -> dict[str, Slot]:
    """Return which reading each of the certifier's places is for, by the name of its bookmark."""
    found: dict[str, Slot] = {}
    crossed = [each for each in slots(record) if each.quantity is Quantity.CROSS_LE]
    for circuit in record.circuits:
        # Of a ring, its highest L-cpc reading stands for R1+R2.
        highest = ring_slot(record, circuit.id, crossed)
        if highest is not None:
            found[_name(highest.quantity, circuit.id, len(found))] = highest
    for slot in slots(record):
        if slot.stage is Stage.BEFORE_COVERING or slot.place.point is not None:
            continue
        wanted = _SAMPLED if slot.place.part is Part.CIRCUIT else _SUPPLY
        if slot.quantity in wanted:
            where = slot.place.circuit or slot.place.part.code
            found[_name(slot.quantity, where, len(found))] = slot
    return found


def samples(cells: Cells) -> list[dict[str, Value]]:
    """Return a line for each circuit with the installer's readings and room for the certifier's."""
    names = {slot: name for name, slot in own_slots(cells.record).items()}
    lines: list[dict[str, Value]] = []
    for circuit in cells.record.circuits:
        line: dict[str, Value] = {"number": circuit.id, "name": circuit.name or "name not given"}
        own = {each.quantity: each for each in names if each.place.circuit == circuit.id}
        for column, quantity in zip(("r1_r2", "ir", "zs", "rcd"), _SAMPLED, strict=True):
            slot = own.get(quantity)
            if slot is None and quantity is Quantity.R1_R2:
                slot = own.get(Quantity.CROSS_LE)
            line[column] = cells.cell([slot]) if slot else "–"
            line[f"own_{column}"] = (
                own_place(names[slot], _known(cells.record, slot)) if slot else "–"
            )
        lines.append(line)
    return lines


def supply_samples(cells: Cells) -> list[dict[str, Value]]:
    """Return the same for origin, feed and board; none before the first reading."""
    if not cells.record.readings:
        return []
    return [
        {
            "where": slot.place.part.value,
            "what": slot.quantity.value,
            "value": cells.cell([slot], unit=True),
            "own": own_place(name, _known(cells.record, slot)),
        }
        for name, slot in own_slots(cells.record).items()
        if slot.place.part is not Part.CIRCUIT
    ]


def _known(record: Record, slot: Slot) -> str:
    """Return what the certifier read, by the record: the last of several."""
    theirs = [each for each in record.certifier_readings if each.slot == slot]
    last = max(theirs, key=when_taken, default=None)
    return said(last.taken, measured_by(slot)) if last is not None else ""


def _name(quantity: Quantity, where: str, at: int) -> str:
    letters = "".join(each for each in quantity.code if each.isalnum())
    return anchor(f"{OWN}{where[:18]}_{letters}_{at}")
