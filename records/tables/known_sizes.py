"""Sizes and ratings that no table has: most often a slip of the pen, so the known ones are said."""

from __future__ import annotations

from functools import cache

from records.errors import NotTabulated
from records.tables import conductors, devices
from records.terms import CableKind, DeviceKind


@cache
def no_such_size(cable: CableKind, line: float) -> str:
    """Return what to say of a line conductor that a cable isn't tabulated with; empty if it is.

    Args:
        cable: How the cable is made.
        line: Cross-section of the line [mm²].
    """
    known = conductors.line_sizes(cable)
    if line in known:
        return ""
    return f"{line:g} mm² is no tabulated size of {cable.value}; there are {_listed(known)} mm²."


@cache
def no_such_conductor(area: float) -> str:
    """Return what to say of a copper conductor of no tabulated size [mm²]; empty if there is."""
    known = conductors.line_sizes(CableKind.SINGLES)
    if area in known:
        return ""
    return f"{area:g} mm² is no tabulated size of copper; there are {_listed(known)} mm²."


@cache
def no_such_rating(kind: DeviceKind, rating: float) -> str:
    """Return what to say of a rating [A] that a device isn't made in; empty if it is."""
    known = devices.ratings(kind)
    if rating in known:
        return ""
    return f"No {kind.value} of {rating:g} A is made; there are {_listed(known)} A."


def must_be(no_such: str) -> None:
    """Raise what there is to say of a size or a rating, if there is anything.

    Raises:
        NotTabulated: With that sentence.
    """
    if no_such:
        raise NotTabulated(no_such)


def _listed(known: tuple[float, ...]) -> str:
    return ", ".join(f"{each:g}" for each in known)
