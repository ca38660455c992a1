"""What must be read before what: the rules that every order of work keeps.

A test is only safe because the ones before it were right. IET Guidance Note 3 and BS 7671, Part 6
(from memory); where a rule is common practice it says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from records.model.measurements import MEASUREMENTS
from records.model.reading import Quantity, Slot
from records.terms import Part, Stage

Kind = tuple[Part, Quantity]
Scope = tuple[Part, str | None] | None
"""The feed, the board or one circuit; None: the whole job."""

_Q = Quantity


@dataclass(frozen=True, slots=True)
class Before:
    """One rule of order."""

    first: frozenset[Kind]
    then: frozenset[Kind]
    why: str
    same_place: bool = False
    """Whether it holds within the feed, the board or one circuit only; else over the whole job."""
    links_changed: bool = False
    """Whether one goes back to the board between the two, to join something else there."""

    def scope(self, slot: Slot) -> Scope:
        """Return within what the rule holds for a slot."""
        return (slot.place.part, slot.place.circuit) if self.same_place else None


def _at(part: Part, *quantities: Quantity) -> frozenset[Kind]:
    return frozenset((part, each) for each in quantities)


def _all(stage: Stage, *, but: frozenset[Kind] = frozenset()) -> frozenset[Kind]:
    kinds = ((each.part, each.quantity) for each in MEASUREMENTS if each.stages[-1] is stage)
    return frozenset(kinds) - but


def _of_circuits(stage: Stage) -> frozenset[Kind]:
    return frozenset(each for each in _all(stage) if each[0] is Part.CIRCUIT)


def _in_turn(why: str, *runs: frozenset[Kind], same_place: bool = False) -> Iterator[Before]:
    # Every pair, not only neighbours: what stands between may not be wanted.
    for first, then in combinations(runs, 2):
        yield Before(first, then, why, same_place)


_FEED_PATHS = _at(
    Part.FEED, _Q.R1_R2, _Q.R1_RN, _Q.R1_R2_CORE, _Q.R1_R2_ARMOUR, _Q.GLAND, _Q.ARMOUR_EARTHED
)
_EARTHS = _FEED_PATHS | _at(Part.BOARD, _Q.GLAND, _Q.EARTHING, _Q.BONDING)
_ENDS, _CROSSED = (_Q.R1, _Q.RN, _Q.R2), (_Q.CROSS_LN, _Q.CROSS_LE)
_PATHS = _at(
    Part.CIRCUIT, _Q.RING_CABLES, *_ENDS, *_CROSSED, _Q.R1_R2, _Q.R2_LONG, _Q.RN_R2, _Q.SWITCHED
)
_PAIRS = (_Q.IR_LN, _Q.IR_LE, _Q.IR_NE)
_INSULATION = _at(Part.FEED, *_PAIRS) | _at(Part.CIRCUIT, *_PAIRS, _Q.IR_FOIL)
_GROUP = _at(Part.BOARD, _Q.IR_GROUP)
_OFF_ITS_BAR = _at(Part.BOARD, _Q.ARMOUR_OPEN, _Q.ELECTRODE)
_SHOWN_BACK = frozenset(
    (each.part, each.quantity)
    for each in MEASUREMENTS
    if each.is_check and each.after_circuits and each.stages == (Stage.DEAD,)
)
"""What says at the end of the dead tests that all which came off is back."""
_ORIGIN_POLARITY, _ZE = _at(Part.ORIGIN, _Q.POLARITY), _at(Part.ORIGIN, _Q.ZE)
_EARTH_BACK = _at(Part.ORIGIN, _Q.EARTH_BACK)
_FAULTS = (_Q.FAULT_LN, _Q.FAULT_LE)
_VOLTAGES = _at(Part.BOARD, _Q.VOLTAGE, _Q.VOLTAGE_LE, _Q.VOLTAGE_NE)
_ZS = _at(Part.CIRCUIT, _Q.ZS)
_RCD = (_Q.RCD_HALF, _Q.RCD_TIME, _Q.RCD_FIVE, _Q.RCD_RAMP, _Q.RCD_BUTTON)
_RCD_PARTS = (Part.FEED, Part.BOARD, Part.CIRCUIT)
_UPSTREAM_RCD = _at(Part.FEED, *_RCD, _Q.RCD_ALONE) | _at(Part.BOARD, *_RCD, _Q.RCD_ALONE)
_OWN_RCD = _at(Part.CIRCUIT, *_RCD, _Q.RCD_IN_LOOP, _Q.RCD_BEFORE, _Q.RCD_LOADED)
_LOADED = _at(Part.ORIGIN, _Q.VOLTAGE_LOADED) | _at(Part.BOARD, _Q.VOLTAGE_LOADED, _Q.LOAD_CURRENT)
_FUNCTION = _at(Part.CIRCUIT, _Q.FUNCTION)

RULES: tuple[Before, ...] = (
    Before(_EARTHS, _PATHS | _INSULATION, "Protective conductors are shown to be there first."),
    *_in_turn(
        "A ring is shown closed before its legs are crossed.",
        *(_at(Part.CIRCUIT, each) for each in _ENDS),
        _at(Part.CIRCUIT, *_CROSSED),
        same_place=True,
    ),
    Before(
        _at(Part.CIRCUIT, _Q.CROSS_LN),
        _at(Part.CIRCUIT, _Q.CROSS_LE),
        "The links at the board are changed over in between.",
        True,
        True,
    ),
    Before(
        _PATHS | _FEED_PATHS, _INSULATION, "An open conductor looks like perfect insulation.", True
    ),
    Before(
        _at(Part.BOARD, _Q.TIPS_JOINED, _Q.TIPS_APART),
        _INSULATION | _GROUP | _at(Part.BOARD, _Q.ARMOUR_OPEN),
        "An open lead looks like perfect insulation.",
    ),
    Before(
        _at(Part.BOARD, _Q.LEADS_ZERO),
        _EARTHS | _PATHS,
        "A meter that isn't nulled adds its leads to everything.",
    ),
    Before(_INSULATION, _GROUP, "Circuits are known before they are joined (common practice)."),
    Before(
        _EARTHS | _PATHS | _INSULATION | _GROUP,
        _OFF_ITS_BAR,
        "The electrode's conductor comes off once, at the end, and goes back.",
    ),
    Before(
        _all(Stage.DEAD, but=_SHOWN_BACK),
        _SHOWN_BACK,
        "What came off is shown back after the last test that it came off for.",
    ),
    Before(
        _ORIGIN_POLARITY,
        _ZE | _at(Part.ORIGIN, *_FAULTS),
        "Nothing is read on a supply whose polarity nobody has shown.",
    ),
    Before(_ZE, _EARTH_BACK, "The earth is off after Ze."),
    Before(
        _EARTH_BACK,
        _all(Stage.LIVE, but=_ORIGIN_POLARITY | _ZE | _EARTH_BACK),
        "Nothing is made live without the earth.",
    ),
    *_in_turn(
        "Feed on, main switch off: polarity, voltages, then Zdb and fault currents.",
        _at(Part.BOARD, _Q.POLARITY),
        _VOLTAGES,
        _at(Part.BOARD, _Q.ELECTRODE_LOOP),
        _at(Part.BOARD, _Q.ELECTRODE_LOOP_BACK),
        _at(Part.BOARD, _Q.ZDB),
        _at(Part.BOARD, *_FAULTS),
    ),
    Before(
        _at(Part.BOARD, _Q.POLARITY, _Q.ELECTRODE_LOOP_BACK, _Q.ZDB, *_FAULTS) | _VOLTAGES,
        _of_circuits(Stage.LIVE),
        "Only then the main switch, and one circuit at a time.",
    ),
    Before(_ZS, _OWN_RCD | _FUNCTION, "An RCD test puts current into a loop that is known.", True),
    Before(_ZS, _UPSTREAM_RCD, "An RCD test puts current into a loop that is known."),
    *(
        rule
        for part in _RCD_PARTS
        for rule in _in_turn(
            "Half, once, five times, ramp: the button last, it frees a stiff mechanism.",
            *(_at(part, each) for each in _RCD),
            same_place=True,
        )
    ),
    Before(_at(Part.CIRCUIT, *_RCD), _FUNCTION, "What protects a person is shown first.", True),
    Before(
        _ZS | _OWN_RCD | _UPSTREAM_RCD,
        _LOADED,
        "Loads come on once everything before is satisfactory.",
    ),
)


class Waiting:
    """Slots that are still to test, and which of them may come next."""

    def __init__(self, slots: Iterable[Slot]) -> None:
        """Take the slots, all of one stage."""
        self._left: dict[tuple[int, Scope], int] = {}
        self._linked: set[tuple[int, Scope]] = set()
        for slot in slots:
            self._count(slot, 1)

    def may_come(self, slot: Slot) -> bool:
        """Return whether nothing that must come before a slot is waiting."""
        keys = [(at, RULES[at].scope(slot)) for at in _THEN.get(_kind(slot), ())]
        return not any(self._left.get(key) or key in self._linked for key in keys)

    def came(self, slot: Slot) -> None:
        """Take a slot off what is waiting."""
        self._count(slot, -1)
        for at in _FIRST.get(_kind(slot), ()):
            if RULES[at].links_changed:
                self._linked.add((at, RULES[at].scope(slot)))

    def round_begins(self) -> None:
        """Say that one is back at the board, where links can be changed."""
        self._linked.clear()

    def _count(self, slot: Slot, by: int) -> None:
        for at in _FIRST.get(_kind(slot), ()):
            key = (at, RULES[at].scope(slot))
            self._left[key] = self._left.get(key, 0) + by


def _kind(slot: Slot) -> Kind:
    return slot.place.part, slot.quantity


def _indexed(then: bool) -> dict[Kind, tuple[int, ...]]:
    found: dict[Kind, list[int]] = {}
    for at, rule in enumerate(RULES):
        for kind in rule.then if then else rule.first:
            found.setdefault(kind, []).append(at)
    return {kind: tuple(each) for kind, each in found.items()}


_FIRST, _THEN = _indexed(False), _indexed(True)
