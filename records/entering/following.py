"""What follows from a design so far, for one part of the installation, in the order of reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.expected.naming import explained
from records.expected.results import Result, What, Worked
from records.judgement.review_types import Judged, Review
from records.judgement.trust import mark_of
from records.model.reading import Place, Quantity
from records.session import Session
from records.terms import Stage, Verdict

_BESIDE = {
    What.ZS: ("of", What.ZS_LIMIT),
    What.TIME: ("of", What.TIME_REQUIRED),
    What.TIME_RCD: ("of", What.TIME_REQUIRED),
    What.VOLT_DROP: ("of", What.VOLT_DROP_LIMIT),
    What.FAULT_HIGHEST: ("of", What.BREAKING),
    What.CPC_SIZE: ("needs", What.CPC_LEAST),
}
"""What a figure is held against, and the word between the two."""
_NAMES = {
    # In full, and in short for the narrow window; the order is that of reading.
    What.ZS: ("Zs, hot", "Zs"),
    What.TIME: ("disconnection", "off"),
    What.TIME_RCD: ("off by RCD", ""),
    What.VOLT_DROP: ("voltage drop", "drop"),
    What.IB: ("Ib", "Ib"),
    What.IN: ("In", "In"),
    What.IZ: ("Iz", "Iz"),
    What.FAULT_HIGHEST: ("highest fault", "fault"),
    What.FAULT_LOWEST: ("lowest fault", ""),
    What.CPC_SIZE: ("cpc", "cpc"),
    What.RA_LIMIT: ("RA at most", "RA at most"),
}
_METER = (Quantity.ZE, Quantity.ZDB, Quantity.R1_R2, Quantity.R1, Quantity.R2, Quantity.ZS)


@dataclass(frozen=True, slots=True)
class Following:
    """One figure, what it is held against, and how it stands."""

    name: str
    result: Result
    short: str = ""
    """Its name where there is little room; empty if it is left out there."""
    beside: str = ""
    """The limit or the requirement, as it is printed: `of 1.37 Ω`; empty if there is none."""
    verdict: Verdict | None = None
    why: str = ""
    """What the verdict rests on."""
    unsure: str = ""
    """The mark of a verdict that a figure from memory decides."""

    @property
    def worked(self) -> bool:
        """Whether there is a figure."""
        return isinstance(self.result, Worked)

    @property
    def brief(self) -> str:
        """The figure, or in a few words that there is none."""
        return str(self.result) if self.worked else "not calculated"


def following(session: Session, place: Place) -> tuple[Following, ...]:
    """Return what follows for a part: design figures first, then what a meter should show."""
    expected, checks = session.expected, _checks(session.review, place)
    found = [
        _design(session, place, what, checks) for what in _NAMES if (place, what) in expected.design
    ]
    for slot, result in expected.meter.items():
        if slot.place == place and slot.quantity in _METER and slot.stage is not Stage.DEAD:
            name = slot.quantity.value
            found.append(Following(f"meter: {name}", result, name))
    told = {*_NAMES, *(other for _, other in _BESIDE.values())}
    for line in checks:
        if line.what not in told and line.expected is not None:
            found.append(_check(line))
    return tuple(found)


def behind(
    session: Session, place: Place, shown: Sequence[tuple[str, Result]]
) -> list[tuple[str, Result]]:
    """Return the other figures that were worked out for a part and its points, under their names.

    Args:
        session: The opened record, with what follows from it.
        place: The part; its points belong to it.
        shown: What is in the list already.
    """
    there = {id(result) for _, result in shown}
    found: list[tuple[str, Result]] = []
    for each in explained(session.expected):
        at = each.place.whole
        if at == place and isinstance(each.result, Worked) and id(each.result) not in there:
            point = f"{each.place.point}: " if each.place.point else ""
            found.append((f"{point}{each.figure}", each.result))
    return found


def needs_first(needs: Sequence[str], place: Place | None) -> tuple[str, ...]:
    """Return what a step lacks, that of the circuit in hand first."""
    if place is None or not place.circuit:
        return tuple(needs)
    own = (f"{place.circuit} ", f"{place.circuit}:")
    return tuple(sorted(needs, key=lambda each: not each.startswith(own)))


def _design(session: Session, place: Place, what: What, checks: list[Judged]) -> Following:
    design = session.expected.design
    word, other = _BESIDE.get(what, ("", None))
    held = design.get((place, other)) if other is not None else None
    line = next((each for each in checks if each.what in (what, other)), None)
    name, short = _NAMES[what]
    return Following(
        name,
        design[place, what],
        short,
        f"{word} {held}" if isinstance(held, Worked) else "",
        line.verdict if line is not None else None,
        line.why if line is not None else "",
        mark_of(line) if line is not None else "",
    )


def _check(line: Judged) -> Following:
    assert line.expected is not None
    name = line.what.value if line.what is not None else line.title
    return Following(name, line.expected, "", "", line.verdict, line.why, mark_of(line))


def _checks(review: Review, place: Place) -> list[Judged]:
    return [each for each in review.lines if each.place == place and each.slot is None]
