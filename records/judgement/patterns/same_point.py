"""One point read twice: with another meter, or at its front and behind it."""

from __future__ import annotations

import math
import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import pairwise

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import Facts
from records.judgement.uncertainty import guard
from records.judgement.wording import amount
from records.model.reading import Figure, Reading, Slot
from records.model.slots import measured_by
from records.terms import Sign, Verdict
from records.units import Unit

_BEHIND = re.compile(r"\b(?:behind|rear|front off|at (?:the|its) terminals)\b", re.IGNORECASE)
"""Said of a reading that was taken behind the front of an accessory."""
_DIGITS = 2
"""Last digits that two readings may differ by besides: common practice."""
_CONTACTS = 0.05
"""Ω that the contacts of a front add at most while they are sound: common practice."""


def same_point(facts: Facts) -> Iterator[Pattern]:
    """Two readings of one slot, nothing done between, that differ by more than their meters are
    off, or by more than the contacts of a front have."""
    work = sorted(each.at for each in facts.record.remedies)
    for slot, attempts in facts.readings.items():
        for early, late in pairwise(attempts):
            found = _front(slot, early, late) or _meters(facts, slot, early, late)
            if found is not None and not _worked_on(work, early, late):
                yield Pattern(found, slot.place, facts.title(slot.place), (slot,), into=slot)
                break


def _plain(reading: Reading) -> float | None:
    taken = reading.taken
    return taken.value if isinstance(taken, Figure) and taken.sign is Sign.EQUAL else None


def _worked_on(work: Sequence[datetime], early: Reading, late: Reading) -> bool:
    """Whether something was done between two readings, by the sorted times of all work."""
    return bisect_left(work, early.at) < bisect_right(work, late.at)


def _is_behind(reading: Reading) -> bool:
    return _BEHIND.search(f"{reading.method} {reading.note}") is not None


def _front(slot: Slot, early: Reading, late: Reading) -> Concern | None:
    if measured_by(slot).unit is not Unit.OHM or _is_behind(early) is _is_behind(late):
        return None
    behind, front = (early, late) if _is_behind(early) else (late, early)
    inside, outside = _plain(behind), _plain(front)
    if inside is None or outside is None or outside - inside <= _CONTACTS + SLACK:
        return None
    return Concern(
        "worn front",
        Verdict.UNLIKELY,
        f"At its front it is {amount(outside, Unit.OHM)}, behind it {amount(inside, Unit.OHM)}: "
        "the contacts of the front add the rest.",
        ("worn or dirty contacts of this outlet", "an adaptor with a poor contact"),
        do(Act.OPEN, "Change the outlet, or plug it in and out a few times and read again."),
        cite.COMMON,
        30,
    )


def _meters(facts: Facts, slot: Slot, early: Reading, late: Reading) -> Concern | None:
    one, other = _plain(early), _plain(late)
    if early.instrument == late.instrument or not early.instrument or not late.instrument:
        return None
    if one is None or other is None:
        return None
    entry = measured_by(slot)
    allowed = (
        math.hypot(guard(facts, early).at(one, one), guard(facts, late).at(other, other))
        + _DIGITS * 10.0**-entry.digits
    )
    if abs(one - other) <= allowed + SLACK:
        return None
    first, second = facts.instrument(early), facts.instrument(late)
    return Concern(
        "meters disagree",
        Verdict.UNLIKELY,
        f"By {first.name if first else early.instrument} it is "
        f"{amount(one, entry.unit, entry.digits)}, "
        f"by {second.name if second else late.instrument} "
        f"{amount(other, entry.unit, entry.digits)}: more than both may be off.",
        ("one of the two meters is off, or its leads", "not the same point, or another range"),
        do(
            Act.AGAIN,
            "Read it with both, one after the other; a known resistance tells which is "
            "off. Then repeat all that was read with that one.",
        ),
        cite.METER,
        25,
    )
