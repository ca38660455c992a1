"""What a finding can do to people and to the building: findings are put in order by it."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

from records.expected.results import What
from records.model.reading import Quantity
from records.terms import Verdict


class Harm(IntEnum):
    """What a finding can lead to; the worst first. The order is common practice."""

    DANGER = 1
    PROTECTION = 2
    FABRIC = 3
    FUNCTION = 4
    RECORD = 5

    @property
    def words(self) -> str:
        """In words, for a heading."""
        return _WORDS[self]


_WORDS = {
    Harm.DANGER: "shock or fire now",
    Harm.PROTECTION: "protection that may not work",
    Harm.FABRIC: "damage hidden in the fabric",
    Harm.FUNCTION: "function",
    Harm.RECORD: "record-keeping",
}
_VERDICTS = (
    Verdict.OUTSIDE,
    Verdict.UNLIKELY,
    Verdict.NEAR,
    Verdict.NOT_TAKEN,
    Verdict.WITHIN,
    Verdict.NOT_NEEDED,
)

_BY_PATTERN: dict[Harm, tuple[str, ...]] = {
    Harm.DANGER: (
        "open",
        "loop-open",
        "loop-unsteady",
        "island joined",
        "tt-too-low",
        "earth not shown back",
        "ring-point-cpc",
        "ring-point-both",
        "neutral-cpc-crossed",
        "neutral-borrowed",
        "armour-open",
        "ze-changed",
        "pen-suspected",
        "supply-reversed",
        "neutral-lifted",
        "all loops open",
        "polarity-contradicted",
        "polarity-against-point",
        "drop-high",
        "symptom: tingle",
        "symptom: hot",
        "ring open",
        "taken with the earth off",
        "taken before the board was right",
        "taken while locked off",
        "taken after a live failure",
        "not shown put back",
        "no-fault-current",
        "earth-missing",
        "two-lines",
    ),
    Harm.FABRIC: ("insulation-fallen", "continuity-changed"),
    Harm.FUNCTION: ("rcd-too-quick", "rcd-quick-at-five"),
    Harm.RECORD: (
        "calibration",
        "wrong instrument",
        "covered before read",
        "before the start",
        "button before time",
        "too fast",
        "identical insulation",
        "worked out backwards",
        "made by arithmetic",
        "even steps",
        "only fives and noughts",
        "much not taken",
        "readings swapped",
        "equal loops",
        "equal times",
        "zs-sum-wrong",
        "taken without an answer",
    ),
}
_PATTERN_HARM = {name: harm for harm, names in _BY_PATTERN.items() for name in names}
_BY_QUANTITY: dict[Harm, tuple[Quantity, ...]] = {
    Harm.DANGER: (Quantity.POLARITY, Quantity.SWITCHED, Quantity.EARTH_BACK, Quantity.IR_FOIL),
    Harm.FABRIC: (
        Quantity.IR_LN,
        Quantity.IR_LE,
        Quantity.IR_NE,
        Quantity.IR_GROUP,
        Quantity.TIPS_JOINED,
        Quantity.TIPS_APART,
        Quantity.RING_CABLES,
    ),
    Harm.FUNCTION: (
        Quantity.VOLTAGE,
        Quantity.VOLTAGE_LE,
        Quantity.VOLTAGE_NE,
        Quantity.VOLTAGE_LOADED,
        Quantity.LOAD_CURRENT,
        Quantity.SURGE,
        Quantity.FUNCTION,
        Quantity.RCD_LOADED,
        Quantity.RCD_ALONE,
        Quantity.RCD_BEFORE,
        Quantity.RCD_IN_LOOP,
    ),
}
"""All other readings show whether protection can work."""
_QUANTITY_HARM = {each: harm for harm, those in _BY_QUANTITY.items() for each in those}
_BY_DESIGN: dict[str, Harm] = {
    What.VOLT_DROP.value: Harm.FUNCTION,
    "30 mA protection": Harm.DANGER,
    "TT protection": Harm.DANGER,
    "earth of the outbuilding": Harm.DANGER,
    "RCDs in series": Harm.FUNCTION,
    "RCDs before circuits": Harm.FUNCTION,
    "distance": Harm.RECORD,
    "edition": Harm.RECORD,
    "order": Harm.RECORD,
}
"""By the last part of a design check's key; all others show whether protection can work."""
_BY_DESIGN_KIND: dict[str, Harm] = {
    "zone": Harm.FABRIC,
    "timber": Harm.FABRIC,
    "screws": Harm.FABRIC,
    "ground": Harm.FABRIC,
    "bend": Harm.FABRIC,
    "clips": Harm.FABRIC,
    "lamp": Harm.FABRIC,
    "joint": Harm.FABRIC,
    "height": Harm.RECORD,
    "drawn": Harm.RECORD,
    "leg": Harm.RECORD,
    "spot": Harm.RECORD,
    "surface": Harm.RECORD,
    "memory": Harm.RECORD,
    "photo": Harm.RECORD,
}
"""By its first word, of checks of which there is one for each leg, hole or surface."""


def is_of_fabric(key: str) -> bool:
    """Whether a design check is about where something is: it belongs to the step before covering.

    Args:
        key: Of the line.
    """
    _, _, name = key.partition("/design/")
    return name.partition(" ")[0] in _BY_DESIGN_KIND and name not in _BY_DESIGN


def harm_of(
    verdict: Verdict, key: str, patterns: Iterable[str], quantities: Iterable[Quantity]
) -> Harm:
    """Return what a line of the review can lead to.

    Args:
        verdict: Its verdict: a blank is a gap in the record, and nothing worse is known of it.
        key: Its key: a design check is known by the end of it.
        patterns: What the rules found.
        quantities: What it is about; the worst counts.
    """
    if verdict is Verdict.NOT_TAKEN:
        return Harm.RECORD
    known = [_PATTERN_HARM[each] for each in patterns if each in _PATTERN_HARM]
    if known:
        return min(known)
    _, is_design, name = key.partition("/design/")
    if is_design:
        kind = _BY_DESIGN_KIND.get(name.partition(" ")[0], Harm.PROTECTION)
        return _BY_DESIGN.get(name, kind)
    return min(
        (_QUANTITY_HARM.get(each, Harm.PROTECTION) for each in quantities), default=Harm.PROTECTION
    )


def rank(harm: Harm, verdict: Verdict, weight: int) -> tuple[int, int, int]:
    """Return what findings are put in order by, everywhere: harm, then verdict, then urgency."""
    return harm, _VERDICTS.index(verdict), -weight
