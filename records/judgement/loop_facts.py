"""What the loop rules ask about a reading: how it was taken, and what was read beside it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.wording import rounded
from records.model.circuit import Circuit
from records.model.reading import Figure, Quantity, Reading
from records.terms import Form, Sign, Verdict
from records.units import Unit

_STEADY = 0.1
"""Ω that repeated loop readings may spread: common practice."""
_MINUTES = 10


def behind_rcd(facts: Facts, circuit: Circuit) -> bool:
    """Whether an RCD lies in the path of a circuit's loop reading."""
    record = facts.record
    return any(rcd.residual is not None for rcd in (circuit.rcd, record.board.rcd, record.feed.rcd))


def is_calculated(reading: Reading) -> bool:
    """Whether its method says that a loop was worked out, not measured."""
    return "calc" in reading.method.casefold() or "worked out" in reading.method.casefold()


def read_r1_r2(facts: Facts, circuit: Circuit) -> float | None:
    """Return R1+R2 of a circuit as it was read [Ω]; of a ring the highest L-cpc reading."""
    place = next(place for each, place in facts.circuits() if each.id == circuit.id)
    if circuit.form is not Form.RING:
        return facts.plain_at(place, Quantity.R1_R2)
    crossed = [facts.plain(le) for _, le in facts.points(circuit)]
    known = [each for each in crossed if each is not None]
    if known:
        return max(known)
    r1, r2 = facts.plain_at(place, Quantity.R1), facts.plain_at(place, Quantity.R2)
    return None if r1 is None or r2 is None else (r1 + r2) / 4


def unsteady(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """Several readings at one go that don't agree: something moves."""
    tries = [reading]
    for late, early in pairwise(reversed(facts.attempts(reading.slot))):
        near = (late.at - early.at).total_seconds() <= 60 * _MINUTES
        if not near or late.method != early.method or _remedied(facts, early, late):
            break
        tries.append(early)
    values = [
        each.taken.value
        for each in tries
        if isinstance(each.taken, Figure) and each.taken.sign is Sign.EQUAL
    ]
    if len(values) < 3:
        return
    spread = max(values) - min(values)
    if spread > max(_STEADY, 0.1 * max(values)):
        yield Concern(
            "loop-unsteady", Verdict.UNLIKELY,
            f"{len(values)} readings at one go spread over {rounded(spread, Unit.OHM)}.",
            ("a loose connection: it can start a fire", "a worn contact", "a noisy supply"),
            "Isolate, tighten to the maker's torque, and repeat.", cite.COMMON, 50,
        )  # fmt: skip


def _remedied(facts: Facts, early: Reading, late: Reading) -> bool:
    return any(early.at <= each.at <= late.at for each in facts.record.remedies)
