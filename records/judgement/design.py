"""The design checks: every pair of figures that has to fit together."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from records.evidence import COMMON_PRACTICE, Source
from records.expected.results import NotWorkedOut, Result, What, Worked
from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.design_earth import earth_lines
from records.judgement.design_line import design_key, line
from records.judgement.design_rcd import rcd_lines
from records.judgement.facts import FEED, Facts
from records.judgement.review_types import Judged, Limit, Sense
from records.model.circuit import Circuit
from records.model.reading import Place
from records.tables.ratings import ring_least_rating, ring_least_size
from records.terms import Form, Verdict


@dataclass(frozen=True, slots=True)
class _Check:
    """A design figure against another that it must not pass."""

    what: What
    against: What
    sense: Sense
    title: str
    bad: str
    """What it means if it doesn't hold."""
    causes: tuple[str, ...]
    next_check: str
    source: Source | None = None
    weight: int = 0


_CHECKS = (
    _Check(
        What.IB, What.IN, Sense.MOST, "Ib ≤ In",
        "The device would open in normal use.",
        ("the load was counted too high", "the device is too small"),
        "Work out the load again, with diversity; then another device, if the cable allows it.",
        cite.bs7671("Regulation 433.1.1"), 20,
    ),
    _Check(
        What.IZ, What.IN, Sense.LEAST, "In ≤ Iz",
        "The device would let the cable overheat.",
        ("cable too thin for where it lies", "thermal insulation, grouping or warmth",
         "the device is too large"),
        "A thicker cable, another way for it, or a smaller device.",
        cite.bs7671("Regulation 433.1.1"), 40,
    ),
    _Check(
        What.VOLT_DROP, What.VOLT_DROP_LIMIT, Sense.MOST, "voltage drop",
        "Lamps may flicker or appliances not work rightly; the feed counts in.",
        ("a long feed for its load", "a thin cable", "the load was counted too high"),
        "A thicker feed or circuit, or a closer look at the load.", None, 10,
    ),
    _Check(
        What.ZS, What.ZS_LIMIT, Sense.MOST, "Zs, hot",
        "An earth fault would not be disconnected in time by this device.",
        ("a long or thin run", "a high Ze", "a device of type C or D where B would do"),
        "A thicker run, a device that needs less current, or an RCD that the certifier accepts.",
        None, 50,
    ),
    _Check(
        What.FAULT_HIGHEST, What.BREAKING, Sense.MOST, "breaking capacity",
        "The device may not survive a fault.",
        ("a strong supply close by", "a device of a low class"),
        "The certifier decides: another device, or one that backs it up.", cite.BREAKING, 45,
    ),
    _Check(
        What.CPC_SIZE, What.CPC_LEAST, Sense.LEAST, "cpc size",
        "The protective conductor may overheat in a fault.",
        ("a thin cpc for its device", "a fault that takes long to disconnect"),
        "A larger cpc, or a faster disconnection.", cite.bs7671("Regulation 543.1"), 30,
    ),
)  # fmt: skip


def design_lines(facts: Facts) -> list[Judged]:
    """Return a line for every design check of the feed, the board and each circuit."""
    lines = list(_branch(facts, FEED, None))
    for circuit, place in facts.circuits():
        lines += _branch(facts, place, circuit)
    lines += earth_lines(facts)
    lines += rcd_lines(facts)
    return _once(lines)


def _branch(facts: Facts, place: Place, circuit: Circuit | None) -> Iterator[Judged]:
    ring = circuit is not None and circuit.form is Form.RING
    loop: Judged | None = None
    for check in _CHECKS:
        if check.what is What.VOLT_DROP and circuit is None:
            continue  # the feed's drop counts in that of each circuit
        if check.what is What.IZ and ring:
            yield _ring_capacity(facts, place)
            continue
        found = _checked(facts, place, check)
        if check.what is What.ZS:
            loop = found
        yield found
    yield _time(facts, place, loop)
    if ring and circuit is not None:
        yield _ring_size(facts, place, circuit)


def _pair(facts: Facts, place: Place, check: _Check) -> tuple[Result, Result]:
    # Breaking capacity is what is entered; the fault current is what it is held against.
    return facts.design(place, check.what), facts.design(place, check.against)


def _checked(facts: Facts, place: Place, check: _Check) -> Judged:
    shown, bound = _pair(facts, place, check)
    what = What.BREAKING if check.what is What.FAULT_HIGHEST else check.what
    base = line(facts, place, what, check.title)
    if isinstance(shown, NotWorkedOut):
        return replace(base, why=f"Not worked out: {shown.why}", expected=shown)
    if isinstance(bound, NotWorkedOut):
        return replace(base, why=f"Not worked out: {bound.why}", expected=bound)
    source = check.source or (bound.sources[0] if bound.sources else COMMON_PRACTICE)
    limit = Limit(check.sense, bound.value, bound.unit, source, digits=bound.digits)
    verdict = _verdict(shown, bound.value, check.sense)
    words = f"{shown.symbol} {shown}; {bound.symbol} {limit}."
    notes = " ".join(dict.fromkeys(each.note for each in (shown, bound) if each.note))
    done = replace(base, verdict=verdict, expected=shown, limit=limit, weight=check.weight)
    if verdict is Verdict.WITHIN:
        return replace(done, why=f"{words} {notes}".strip())
    if verdict is Verdict.NEAR:
        says = f"It holds, but the figure may lie as far as {_far(shown, check.sense)}."
        return replace(done, why=f"{words} {says} {notes}".strip(), next_check=check.next_check)
    return replace(
        done,
        why=f"{words} {check.bad} {notes}".strip(),
        causes=check.causes,
        next_check=check.next_check,
        source=source,
    )


def _verdict(shown: Worked, bound: float, sense: Sense) -> Verdict:
    """Return the verdict on a design figure; where it is a range, its far end decides."""
    ends = [each for each in (shown.value, shown.low, shown.high) if each is not None]
    keeps: Callable[[float], bool]
    if sense is Sense.MOST:
        keeps = lambda value: value <= bound + SLACK  # noqa: E731
    else:
        keeps = lambda value: value >= bound - SLACK  # noqa: E731
    if not keeps(shown.value):
        return Verdict.OUTSIDE
    return Verdict.WITHIN if all(map(keeps, ends)) else Verdict.NEAR


def _far(shown: Worked, sense: Sense) -> str:
    end = shown.high if sense is Sense.MOST else shown.low
    return f"{end:.{shown.digits}f} {shown.unit.value}".strip()


def _time(facts: Facts, place: Place, loop: Judged | None) -> Judged:
    required = facts.design(place, What.TIME_REQUIRED)
    over = facts.design(place, What.TIME)
    rcd = facts.design(place, What.TIME_RCD)
    base = line(facts, place, What.TIME, "disconnection time")
    if isinstance(required, NotWorkedOut):
        return replace(base, why=f"Not worked out: {required.why}", expected=required)
    source = required.sources[0] if required.sources else COMMON_PRACTICE
    limit = Limit(Sense.MOST, required.value, required.unit, source, digits=required.digits)
    base = replace(base, limit=limit, expected=over, weight=35)
    words = f"Overcurrent device: {over}; RCD: {_rcd_words(rcd)}; {limit}."
    if _keeps(over, required.value):
        return replace(base, verdict=Verdict.WITHIN, why=words)
    if _keeps(rcd, required.value):
        base = replace(base, expected=rcd)
        electrode = facts.tt if place != FEED else facts.feed_is_tt
        if electrode:
            why = f"{words} With an earth electrode the RCD disconnects, as it is meant to."
            return replace(base, verdict=Verdict.WITHIN, why=why)
        why = f"{words} Only the RCD disconnects in time: the certifier decides if it may."
        return _behind(replace(base, verdict=Verdict.NEAR, why=why, source=source), loop)
    missing = next((each for each in (over, rcd) if isinstance(each, NotWorkedOut)), None)
    if isinstance(over, NotWorkedOut) and missing is not None:
        return replace(base, why=f"Not worked out: {missing.why}", expected=missing)
    return _behind(
        replace(
            base,
            verdict=Verdict.OUTSIDE,
            why=f"{words} Nothing assures disconnection in time.",
            causes=("the loop is too high for the device",),
            next_check="Lower the loop, or another device, or an RCD.",
            source=source,
        ),
        loop,
    )


def _rcd_words(rcd: Result) -> str:
    return "none" if isinstance(rcd, NotWorkedOut) else str(rcd)


def _keeps(result: Result, most: float) -> bool:
    if isinstance(result, NotWorkedOut):
        return False
    latest = result.high if result.high is not None else result.value
    return not math.isinf(latest) and latest <= most + SLACK


def _behind(judged: Judged, loop: Judged | None) -> Judged:
    """Let a loop that is too high tell what it does to the time."""
    if loop is not None and loop.verdict is Verdict.OUTSIDE:
        return replace(judged, part_of=loop.key)
    return judged


def _ring_capacity(facts: Facts, place: Place) -> Judged:
    found = facts.design(place, What.IZ)
    base = line(facts, place, What.IZ, "Iz of a ring's cable")
    if isinstance(found, NotWorkedOut):
        return replace(base, why=f"Not worked out: {found.why}", expected=found)
    least = ring_least_rating()
    limit = Limit(Sense.LEAST, least.value, found.unit, least.source, digits=0)
    verdict = _verdict(found, least.value, Sense.LEAST)
    why = f"Iz {found}; {limit} in a leg of a ring. {found.note}".strip()
    done = replace(base, verdict=verdict, why=why, expected=found, limit=limit, weight=40)
    if verdict is Verdict.WITHIN:
        return done
    return replace(
        done,
        causes=("thermal insulation round the cable", "grouping or warmth"),
        next_check="Another way for the cable, thicker cable, or radials instead of a ring.",
        source=least.source,
    )


def _ring_size(facts: Facts, place: Place, circuit: Circuit) -> Judged:
    least = ring_least_size()
    base = line(facts, place, "ring conductors", "a ring's conductors and device")
    sizes = [run.csa for run in circuit.runs]
    rating = circuit.device.rating
    known = [each for each in sizes if each is not None]
    if not known or len(known) < len(sizes) or rating is None:
        why = f"Not worked out: the sizes and In are not all entered yet (Circuits, {circuit.id})."
        return replace(base, why=why)
    words = f"Line {min(known):g} mm², at least {least.value:g} mm²; In {rating:g} A, at most 32 A."
    good = min(known) >= least.value - SLACK and rating <= 32
    if good:
        return replace(base, verdict=Verdict.WITHIN, why=words, source=least.source)
    return replace(
        base, verdict=Verdict.OUTSIDE, why=f"{words} That is no ring as the regulation has it.",
        next_check="Another cable, another device, or radials.", source=least.source, weight=30,
    )  # fmt: skip


def _once(lines: list[Judged]) -> list[Judged]:
    """Let one line tell an input that is missing for several figures of the same place."""
    first: dict[tuple[Place, str], str] = {}
    done = []
    for each in lines:
        key = (each.place, each.why)
        if each.verdict is Verdict.NOT_TAKEN and first.setdefault(key, each.key) != each.key:
            each = replace(each, part_of=first[key])  # noqa: PLW2901
        done.append(each)
    return done


__all__ = ["design_key", "design_lines"]
