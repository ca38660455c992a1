"""Design figures in pairs: what has to keep what."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.evidence import COMMON_PRACTICE, Source
from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.facts import Facts
from records.judgement.review_types import Judged, Limit, Sense
from records.model.reading import Place
from records.terms import Verdict


@dataclass(frozen=True, slots=True)
class Check:
    """A design figure against another that it must not pass."""

    what: What
    against: What
    sense: Sense
    title: str
    bad: str
    """What it means if it doesn't hold."""
    causes: tuple[str, ...]
    next_check: Advice
    source: Source | None = None
    weight: int = 0


NOT_IN_TIME = "An earth fault would not be disconnected in time by this device."

CHECKS = (
    Check(
        What.IB,
        What.IN,
        Sense.MOST,
        "Ib ≤ In",
        "The device would open in normal use.",
        ("the load was counted too high", "the device is too small"),
        do(Act.PLAN, "Calculate the load again, with diversity. No device above Iz of the cable."),
        cite.bs7671("Regulation 433.1.1"),
        20,
    ),
    Check(
        What.IZ,
        What.IN,
        Sense.LEAST,
        "In ≤ Iz",
        "The device would let the cable overheat.",
        (
            "cable too thin for where it lies",
            "thermal insulation, grouping or warmth",
            "the device is too large",
        ),
        do(Act.PLAN, "A thicker cable, another way for it, or a smaller device."),
        cite.bs7671("Regulation 433.1.1"),
        40,
    ),
    Check(
        What.VOLT_DROP,
        What.VOLT_DROP_LIMIT,
        Sense.MOST,
        "voltage drop",
        "Lamps may flicker or appliances not work rightly; the feed counts in.",
        ("a long feed for its load", "a thin cable", "the load was counted too high"),
        do(Act.PLAN, "A thicker feed or circuit, or a closer look at the load."),
        None,
        10,
    ),
    Check(
        What.ZS,
        What.ZS_LIMIT,
        Sense.MOST,
        "Zs, hot",
        NOT_IN_TIME,
        ("a long or thin run", "a high Ze", "a device of type C or D where B would do"),
        do(
            Act.PLAN,
            "A thicker run, a device that needs less current, or an RCD that the certifier "
            "accepts.",
        ),
        None,
        50,
    ),
    Check(
        What.FAULT_HIGHEST,
        What.BREAKING,
        Sense.MOST,
        "breaking capacity",
        "The device may not survive a fault.",
        ("a strong supply close by", "a device of a low class"),
        do(Act.LEAVE_OFF, "Leave it off: the device may burst in a fault.")
        + do(Act.ASK, "The certifier decides: another device, or one that backs it up."),
        cite.BREAKING,
        45,
    ),
    Check(
        What.CPC_SIZE,
        What.CPC_LEAST,
        Sense.LEAST,
        "cpc size",
        "The protective conductor may overheat in a fault.",
        ("a thin cpc for its device", "a fault that takes long to disconnect"),
        do(Act.PLAN, "A larger cpc, or a faster disconnection."),
        cite.bs7671("Regulation 543.1"),
        30,
    ),
)


def checked(facts: Facts, place: Place, check: Check) -> Judged:
    """Return the line of one check at one place."""
    shown, bound = facts.design(place, check.what), facts.design(place, check.against)
    what = What.BREAKING if check.what is What.FAULT_HIGHEST else check.what
    base = line(facts, place, what, check.title)
    if isinstance(shown, NotWorkedOut):
        return base._replace(why=f"Not calculated: {shown.why}", expected=shown)
    if isinstance(bound, NotWorkedOut):
        return base._replace(why=f"Not calculated: {bound.why}", expected=bound)
    source = check.source or (bound.sources[0] if bound.sources else COMMON_PRACTICE)
    verdict = verdict_on(shown, bound.value, check.sense)
    digits = bound.digits
    if verdict is Verdict.OUTSIDE:
        digits = _telling(shown, bound)
    limit = Limit(check.sense, bound.value, bound.unit, source, digits=digits)
    finer = digits > bound.digits
    figure = f"{shown.value:.{digits}f} {shown.unit.value}".strip() if finer else str(shown)
    most = str(limit).removeprefix(f"{check.sense.value} ") if finer else str(bound)
    name = "" if bound.symbol == shown.symbol else f"{bound.symbol}, "
    words = f"{shown.symbol} {figure}; must be {check.sense.value} {name}{most}."
    notes = " ".join(dict.fromkeys(each.note for each in (shown, bound) if each.note))
    done = base._replace(verdict=verdict, expected=shown, limit=limit, weight=check.weight)
    if verdict is Verdict.WITHIN:
        why = f"{words} {notes} {shown.assumed}".strip()
        return done._replace(why=why, next_check=shown.assumed)
    if verdict is Verdict.NEAR:
        says = f"It holds, but the figure may lie as far as {_far(shown, check.sense)}."
        next_check = shown.assumed or check.next_check.text()
        return done._replace(why=f"{words} {says} {notes}".strip(), next_check=next_check)
    return done._replace(
        why=f"{words} {_NOT_SHOWN if shown.assumed else check.bad} {notes}".strip(),
        causes=() if shown.assumed else check.causes,
        next_check=shown.assumed or check.next_check.text(),
        source=source,
    )


_NOT_SHOWN = "That isn't enough for what is assumed."


def _telling(shown: Worked, bound: Worked) -> int:
    """Return with how many decimals a figure doesn't read like the limit that it doesn't keep."""
    for digits in range(bound.digits, _FINEST):
        if f"{shown.value:.{digits}f}" != f"{bound.value:.{digits}f}":
            return digits
    return bound.digits


_FINEST = 6
"""Decimals that are looked at, to tell two figures apart."""


def verdict_on(shown: Worked, bound: float, sense: Sense) -> Verdict:
    """Return the verdict on a design figure; where it is a range, its worse end decides."""
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
