"""The certifier's own readings beside those of who installed: where the two can't both be right.

Two readings agree if they differ by no more than the root of the sum of the squares of the two
meters' uncertainties. Source: JCGM 100:2008 (GUM), 5.1.2, for uncertainties that are independent
(from memory); the meters' own: their sheets, or the most that BS EN 61557 allows.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from records.evidence import Source
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged
from records.judgement.uncertainty import guard, nearest_edge
from records.judgement.wording import rounded, said
from records.model.certifier import all_counted
from records.model.reading import Figure, Reading, Slot, when_taken
from records.model.slots import measured_by
from records.terms import Basis, Sign, Verdict

_GUM = Source("JCGM 100:2008", "5.1.2", Basis.MEMORY)
_CAUSES = (
    "not read at the same point",
    "something was joined or came loose between the two",
    "one of the meters, or its leads, is off",
)
_TOGETHER = do(
    Act.AGAIN, "Read it again together, at one point, with one meter and then with the other."
)


def certifier_differs(facts: Facts) -> Iterator[Pattern]:
    """A reading of the certifier that disagrees with the installer's, or fails by itself."""
    latest: dict[Slot, Reading] = {}
    for each in sorted(facts.record.certifier_readings, key=when_taken):
        latest[each.slot] = each
    if not latest:
        return
    whole = Facts.of(all_counted(facts.record), facts.expected)
    for slot, theirs in latest.items():
        ours = facts.last(slot)
        if ours is None or not isinstance(ours.taken, Figure):
            continue
        own = own_line(whole, slot)
        fails = own.verdict is Verdict.OUTSIDE and own.attempts[-1] is theirs
        apart = _apart(facts, own, ours, theirs)
        if not apart and not fails:
            continue
        says = f"The certifier read {_words(theirs)}, the installer {_words(ours)}. {apart}"
        verdict = own.verdict if fails else Verdict.UNLIKELY
        concern = Concern(
            "certifier's reading",
            verdict,
            f"{says}The certifier's reading: {own.why}" if fails else says.strip(),
            (*own.causes, *_CAUSES)[:3] if fails else _CAUSES,
            _TOGETHER,
            _GUM,
            30,
        )
        title = f"{facts.title(slot.place)}: {slot.quantity.value}, the certifier's reading"
        yield Pattern(concern, slot.place, title, (slot,), mark=slot.quantity.code)


def _apart(facts: Facts, own: Judged, ours: Reading, theirs: Reading) -> str:
    """Return in a sentence that two readings can't both be right; empty if they can."""
    one, other = ours.taken, theirs.taken
    if not isinstance(one, Figure) or not isinstance(other, Figure):
        return ""
    gap = _gap(one, other)
    parts = [
        _uncertainty(facts, own, each, value) for each, value in ((ours, one), (theirs, other))
    ]
    both = math.hypot(*parts)
    if not both or gap <= both * (1 + 1e-9):
        return ""
    test = measured_by(ours.slot)
    digits = test.digits + 1
    spread, mine, yours = (rounded(each, test.unit, digits) for each in (both, *parts))
    return (
        f"That is {rounded(gap, test.unit, test.digits)} apart; both meters together allow "
        f"{spread} (root of the sum of the squares of {mine} and {yours}). "
    )


def _gap(one: Figure, other: Figure) -> float:
    """Return by how much two figures differ at the least: one over range can be anything above."""
    low, high = sorted((one, other), key=lambda each: each.value)
    if low.sign is Sign.OVER or high.sign is Sign.UNDER:
        return 0.0
    return high.value - low.value


def _uncertainty(facts: Facts, own: Judged, reading: Reading, figure: Figure) -> float:
    band = guard(facts, reading)
    edge = figure.value if own.limit is None else nearest_edge(figure.value, own.limit)
    return band.at(figure.value, edge)


def _words(reading: Reading) -> str:
    return said(reading.taken, measured_by(reading.slot))
