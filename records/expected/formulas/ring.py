"""What a meter shows on a ring final circuit: ends, cross-connected readings, spurs."""

from __future__ import annotations

from records.errors import OutOfRange
from records.units import Ohm


def cross_connected(first: Ohm, second: Ohm, x: float) -> Ohm:
    """Return what a point of a ring shows between two conductors with opposite legs joined.

    At the board the line of leg 1 is joined to the other conductor of leg 2, and the other way
    round. Between the point's terminals lie then two ways side by side:
    a = first·x + second·(1 - x) and b = first·(1 - x) + second·x, hence a·b/(a + b).
    With equal conductors it is a quarter of their sum at every point; with a smaller cpc it is
    first·second/(first + second) at the board and a quarter of the sum half way round.

    Args:
        first: Line, end to end [Ω].
        second: Neutral or cpc, end to end [Ω].
        x: How far round the ring the point is, 0 to 1.
    Raises:
        OutOfRange: If x is not on the ring, or an end-to-end resistance is not above zero.
    Source:
        (r1 + rn)/4, (r1 + r2)/4: IET Guidance Note 3 (from memory); the general form is worked
        out from the two ways side by side.
    """
    _check(first, second, x)
    return crossed_between(
        (Ohm(first * x), Ohm(second * x)), (Ohm(first * (1 - x)), Ohm(second * (1 - x)))
    )


def crossed_between(before: tuple[Ohm, Ohm], after: tuple[Ohm, Ohm]) -> Ohm:
    """Return what a point shows with opposite legs joined, whatever the ring is made of.

    As `cross_connected`, for a ring whose cable changes on its way round.

    Args:
        before: Both conductors from the board to the point along the first leg [Ω].
        after: Both conductors from the point on to the board [Ω].
    Raises:
        OutOfRange: If a part is negative, or there is no resistance at all.
    """
    if min(*before, *after) < 0 or not sum((*before, *after)) > 0:
        raise OutOfRange("A ring's conductors have resistance, and no part of it is negative.")
    one, other = before[0] + after[1], after[0] + before[1]
    return Ohm(one * other / (one + other))


def same_leg_joined(first: Ohm, second: Ohm, x: float) -> Ohm:
    """Return what a point shows if the wrong ends were joined: both conductors of the same leg.

    Both ways round go out and back: (first + second)·x side by side with (first + second)·(1 - x).
    It is near zero at the board and a quarter of the sum half way: readings that change round
    the ring by much more than unequal conductors explain.

    Args and Raises: as `cross_connected`.
    Source:
        Worked out; common practice knows the pattern.
    """
    _check(first, second, x)
    return Ohm((first + second) * x * (1 - x))


def in_service(first: Ohm, second: Ohm, x: float) -> Ohm:
    """Return R1+R2 (or R1+Rn) from the board to a point with the ring closed [Ω].

    (first + second)·x·(1 - x), a quarter of the sum half way round, its highest.

    Args and Raises: as `cross_connected`.
    """
    _check(first, second, x)
    return Ohm((first + second) * x * (1 - x))


def with_spur(at_ring: Ohm, spur: Ohm) -> Ohm:
    """Return a reading at the end of a spur: its own two conductors come on top [Ω].

    Args:
        at_ring: What the point where it leaves the ring shows [Ω].
        spur: Both conductors of the spur, one way each [Ω].
    Raises:
        OutOfRange: If either part is negative.
    """
    if at_ring < 0 or spur < 0:
        raise OutOfRange(f"Neither part can be negative ({at_ring:g} Ω and {spur:g} Ω).")
    return Ohm(at_ring + spur)


def fraction(at: float, around: float) -> float:
    """Return how far round a ring a point is, 0 to 1.

    Args:
        at: Distance from the board along the first leg [m].
        around: Length all the way round [m].
    Raises:
        OutOfRange: If the point would be off the ring.
    """
    if not around > 0:
        raise OutOfRange("The ring has no length yet.")
    if not 0 <= at <= around:
        raise OutOfRange(f"{at:g} m is not on a ring of {around:g} m all the way round.")
    return at / around


def _check(first: Ohm, second: Ohm, x: float) -> None:
    if not 0 <= x <= 1:
        raise OutOfRange(f"A point lies on the ring, from 0 to 1 of the way round, not at {x:g}.")
    if not (first > 0 and second > 0):
        raise OutOfRange(
            f"Ends of {first:g} Ω and {second:g} Ω: a ring's conductors have resistance."
        )
