"""Figures against limits and expectations. "Within" is what has to be proved."""

from __future__ import annotations

import math

from records.expected.results import Worked
from records.judgement.review_types import Limit, Sense
from records.judgement.uncertainty import Guard
from records.model.reading import Figure
from records.terms import Sign, Verdict

SLACK = 1e-9
"""1.4 × 0.8 falls just short of 1.12 in binary; a reading of 1.12 must still be at its limit."""


def meets(figure: Figure, limit: Limit, band: Guard) -> Verdict:
    """Return whether a figure is proved to keep its limit: within, near limit or outside.

    A reading over the meter's range (`>x`) proves only that it is more than x, one under it
    (`<x`) only that it is less; what is not proved is outside.
    """
    match limit.sense:
        case Sense.MOST:
            return _most(figure, limit.value, band)
        case Sense.LEAST:
            return _least(figure, limit.value, band)
        case Sense.BAND:
            upper = math.inf if limit.upper is None else limit.upper
            ends = (_least(figure, limit.value, band), _most(figure, upper, band))
            return next(
                (each for each in (Verdict.OUTSIDE, Verdict.NEAR) if each in ends), Verdict.WITHIN
            )
        case Sense.SHOULD:
            return Verdict.WITHIN if figure.value >= limit.value else Verdict.OUTSIDE


def says_nothing(figure: Figure, limit: Limit) -> bool:
    """Return whether a figure with a sign can lie on either side of a limit.

    `> 40` says nothing of at most 300, nor `< 200` of at least 1; `> 300` is over 300.
    """
    if figure.sign is Sign.EQUAL:
        return False
    upper = limit.value if limit.upper is None else limit.upper
    if figure.sign is Sign.OVER:
        return figure.value < (limit.value if limit.sense is Sense.LEAST else upper) - SLACK
    return figure.value > (upper if limit.sense is Sense.MOST else limit.value) + SLACK


def _most(figure: Figure, limit: float, band: Guard) -> Verdict:
    if math.isinf(limit):
        return Verdict.WITHIN
    if figure.sign is Sign.OVER or figure.value > limit + SLACK:
        return Verdict.OUTSIDE
    if figure.value + band.at(figure.value, limit) > limit + SLACK:
        return Verdict.NEAR
    return Verdict.WITHIN


def _least(figure: Figure, limit: float, band: Guard) -> Verdict:
    if figure.sign is Sign.UNDER or figure.value < limit - SLACK:
        return Verdict.OUTSIDE
    if figure.value - band.at(figure.value, limit) < limit - SLACK:
        return Verdict.NEAR
    return Verdict.WITHIN


def away(figure: Figure, expected: Worked, allowed: float) -> float:
    """Return by how much a figure is off its expectation, beyond doubt; 0 if it can agree.

    Args:
        figure: What the meter showed, in the unit of the expectation.
        expected: Its value, and where the true figure lies if that is a range.
        allowed: What it may be off without being doubted, in the same unit.
    Returns:
        Signed difference to the nearest end of the expectation: above it is positive.
    """
    low = expected.value if expected.low is None else min(expected.low, expected.value)
    high = expected.value if expected.high is None else max(expected.high, expected.value)
    return outside(figure, low, high, allowed)


def outside(figure: Figure, low: float, high: float, allowed: float) -> float:
    """Return by how much a figure is out of a range, beyond what is allowed; 0 if it can be in."""
    if figure.sign is not Sign.UNDER and figure.value > high + allowed + SLACK:
        return figure.value - high
    if figure.sign is not Sign.OVER and figure.value < low - allowed - SLACK:
        return figure.value - low
    return 0.0
