"""Which tests a kind of work makes void: those of what it touched, in whatever part they stand.

Ground: BS 7671:2018, Regulation 643.1 (from memory): after a fault is put right, the test and those
before it that the fault may have influenced are repeated. Which ones a kind of work can touch is
common practice, row by row.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.model.reading import Place, Quantity, Remedy, Slot, place_of, slot_of
from records.terms import Part, Stage, WorkKind

_CONTINUITY = (
    Quantity.R1_R2,
    Quantity.R2_LONG,
    Quantity.RN_R2,
    Quantity.R1,
    Quantity.RN,
    Quantity.R2,
)
_INSULATION = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
_CROSSED = (Quantity.CROSS_LN, Quantity.CROSS_LE)
_RCD = (
    Quantity.RCD_HALF,
    Quantity.RCD_TIME,
    Quantity.RCD_FIVE,
    Quantity.RCD_RAMP,
    Quantity.RCD_BUTTON,
    Quantity.RCD_BEFORE,
)
_FEED = (Quantity.R1_R2, Quantity.R1_R2_CORE, Quantity.R1_R2_ARMOUR)
_AT_POINT = (*_CROSSED, Quantity.BONDING)

Row = dict[Part, tuple[Quantity, ...]]
"""What to repeat by the part that it is read at; for a circuit, its own."""

_OF_CIRCUIT: dict[WorkKind, Row] = {
    WorkKind.DEVICE: {
        Part.CIRCUIT: (Quantity.POLARITY, Quantity.ZS, *_RCD, Quantity.AFDD_BUTTON),
    },
    WorkKind.JOINT: {
        Part.CIRCUIT: (*_CONTINUITY, *_CROSSED, *_INSULATION, Quantity.POLARITY, Quantity.ZS),
    },
    WorkKind.CABLE: {
        Part.CIRCUIT: (
            *_CONTINUITY,
            *_CROSSED,
            Quantity.SWITCHED,
            *_INSULATION,
            Quantity.IR_FOIL,
            Quantity.POLARITY,
            Quantity.ZS,
        ),
    },
    WorkKind.POINT: {
        Part.CIRCUIT: (
            *_CONTINUITY,
            *_CROSSED,
            Quantity.SWITCHED,
            *_INSULATION,
            Quantity.POLARITY,
            Quantity.ZS,
            Quantity.FUNCTION,
        ),
    },
    WorkKind.EARTH: {
        Part.CIRCUIT: (
            Quantity.R1_R2,
            Quantity.R2_LONG,
            Quantity.RN_R2,
            Quantity.R2,
            Quantity.CROSS_LE,
            Quantity.ZS,
        ),
    },
}
_JOINT_OF_FEED: Row = {
    Part.FEED: (*_FEED, Quantity.GLAND, *_INSULATION),
    Part.BOARD: (Quantity.GLAND, Quantity.EARTHING, Quantity.POLARITY, Quantity.ZDB),
}
_CABLE_OF_FEED: Row = {
    Part.FEED: _JOINT_OF_FEED[Part.FEED],
    Part.BOARD: (*_JOINT_OF_FEED[Part.BOARD], Quantity.FAULT_LN, Quantity.FAULT_LE),
}
_OF_FEED: dict[WorkKind, Row] = {
    WorkKind.DEVICE: {Part.FEED: _RCD, Part.BOARD: (Quantity.POLARITY, Quantity.ZDB)},
    WorkKind.JOINT: _JOINT_OF_FEED,
    WorkKind.CABLE: _CABLE_OF_FEED,
    WorkKind.POINT: _CABLE_OF_FEED,
    WorkKind.EARTH: {
        Part.FEED: (*_FEED, Quantity.GLAND),
        Part.BOARD: (Quantity.GLAND, Quantity.EARTHING, Quantity.ZDB),
    },
}
_TABLE: dict[Part, dict[WorkKind, Row]] = {
    Part.CIRCUIT: _OF_CIRCUIT,
    Part.FEED: _OF_FEED,
    Part.ORIGIN: {
        **_OF_FEED,
        WorkKind.EARTH: {
            Part.ORIGIN: (Quantity.EARTH_BACK,),
            Part.BOARD: (Quantity.EARTHING, Quantity.ZDB),
        },
    },
    Part.BOARD: {
        **_OF_FEED,
        # What every circuit is fed through: its terminals are in each of their loops.
        WorkKind.DEVICE: {
            Part.BOARD: (Quantity.POLARITY, Quantity.ZDB, *_RCD),
            Part.CIRCUIT: (Quantity.ZS,),
        },
        WorkKind.EARTH: {
            Part.FEED: (*_FEED, Quantity.GLAND),
            Part.BOARD: (
                Quantity.GLAND,
                Quantity.EARTHING,
                Quantity.BONDING,
                Quantity.ELECTRODE,
                Quantity.ZDB,
            ),
        },
    },
}


Index = Mapping[tuple[Part, Quantity], Mapping[str | None, tuple[Slot, ...]]]
"""The readings of a job by part and quantity, then by circuit."""


def index(facts: Facts) -> Index:
    """Return the readings that a job has or needs, to look up what work has touched."""
    found: dict[tuple[Part, Quantity], dict[str | None, tuple[Slot, ...]]] = {}
    for slot in facts.all_slots:
        by_circuit = found.setdefault((slot.place.part, slot.quantity), {})
        by_circuit[slot.place.circuit] = (*by_circuit.get(slot.place.circuit, ()), slot)
    return found


def touched(facts: Facts, known: Index, remedy: Remedy) -> Iterator[Slot]:
    """Yield the readings that the work of a remedy can have touched, taken or not.

    Nothing for work of another kind, for which no row can say it, and for a first reading that was
    wrong, for which no work was done.
    """
    if remedy.kind is None:
        return
    for place in places(facts, remedy):
        if place.part is Part.BOARD and place.point and remedy.kind is WorkKind.EARTH:
            continue  # a bond that ends on its own: its own reading asks for itself
        for part, quantities in _TABLE[place.part].get(remedy.kind, {}).items():
            for quantity in quantities:
                by_circuit = known.get((part, quantity), {})
                ids = (place.circuit,) if place.part is Part.CIRCUIT else tuple(by_circuit)
                for slot in (slot for id in ids for slot in by_circuit.get(id, ())):
                    if _is_there(slot, place):
                        yield slot


def _is_there(slot: Slot, place: Place) -> bool:
    """Whether a reading is at the point that was worked at, if it is one of those at points."""
    if slot.quantity in _AT_POINT and place.point is not None and place.part is slot.place.part:
        return slot.place.point == place.point
    return True


def places(facts: Facts, remedy: Remedy) -> tuple[Place, ...]:
    """Return where the work of a remedy was done, by what its finding was about.

    A finding about several circuits together stands at the board: work on cables, joints and points
    was then done on those circuits.
    """
    at = named_place(facts, remedy.finding)
    if at is None:
        return ()
    inside = (WorkKind.JOINT, WorkKind.CABLE, WorkKind.POINT, WorkKind.OTHER)
    if at == BOARD and remedy.kind in inside:
        on = (slot.place for slot in remedy.about if slot.place.part is Part.CIRCUIT)
        about = dict.fromkeys(each.whole for each in on)
        return tuple(about) or (at,)
    return (at,)


def named_place(facts: Facts, finding: str) -> Place | None:
    """Return the place that the key of a finding names; None if the job has no such place."""
    part, circuit, point, *_ = (*finding.split("/"), "", "", "")
    if part != Part.CIRCUIT.code:
        found = {place.part.code: place for place in (ORIGIN, FEED, BOARD)}.get(part)
        bonds = {each.id for each in facts.record.board.bonds}
        return found.at_point(point) if found and point in bonds else found
    known = next((each for each in facts.record.circuits if each.id == circuit), None)
    if known is None:
        return None
    is_point = point in {each.id for each in known.points}
    return place_of(Part.CIRCUIT, circuit, point if is_point else None)


def counts_now(facts: Facts, slot: Slot) -> bool:
    """Whether a reading is of the stage that counts now: before covering only until it is over."""
    if slot.stage is not Stage.BEFORE_COVERING:
        return True
    late = slot_of(slot.quantity, slot.place, Stage.DEAD)
    return not facts.attempts(late)
