"""Cables that are made, to be tried as a run: nothing is offered that is in no table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from records.errors import NotTabulated
from records.model.wiring import Run
from records.tables import conductors, ratings
from records.tables.protective import least_separate
from records.terms import CableKind, Cpc, Method
from records.units import SquareMillimetre

_MOST_SEPARATE = 16.0
"""mm² up to which a separate cpc is offered beside a thinner line: a PME bond may ask for it."""


@dataclass(frozen=True, slots=True)
class Make:
    """A cable as it is bought, and what serves as cpc."""

    cable: CableKind
    cores: int
    csa: float
    """Of the line [mm²]."""
    cpc: Cpc
    cpc_csa: float | None = None
    """Of a separate cpc [mm²]."""

    @property
    def conductors(self) -> int:
        """How many conductors there are to buy and to land, a separate cpc counted in."""
        return self.cores + (self.cpc is Cpc.SEPARATE)

    def of(self, run: Run) -> Run:
        """Return a run with this cable in it; its length and surroundings stay."""
        return run.model_copy(
            update={
                "cable": self.cable,
                "cores": self.cores,
                "csa": self.csa,
                "cpc": self.cpc,
                "cpc_csa": self.cpc_csa,
            }
        )


def make_of(run: Run) -> Make | None:
    """Return the cable of a run as it is entered, made or not; None: it is not all entered.

    A cpc core that is as the cable is made needs no size: with and without it is one cable.
    """
    if run.cable is None or run.csa is None or run.cpc is None:
        return None
    if run.cpc is Cpc.SEPARATE and run.cpc_csa is None:
        return None
    own = run.cpc_csa
    if run.cpc in (Cpc.NONE, Cpc.ARMOUR) or own == _core_as_made(run.cable, run.csa):
        own = own if run.cpc is Cpc.SEPARATE else None
    return Make(run.cable, run.cores, run.csa, run.cpc, own)


def _core_as_made(cable: CableKind, csa: float) -> float:
    if cable is not CableKind.FLAT:
        return csa
    try:
        return conductors.flat_cpc(SquareMillimetre(csa)).value
    except NotTabulated:
        return 0.0


@cache
def makes(method: Method, *, carries_earth: bool, protected: bool = False) -> tuple[Make, ...]:
    """Return the cables that can be laid by a method, thin ones first.

    Args:
        method: How the run is laid; a cable without a rating for it is left out.
        carries_earth: Whether the run takes the house's earth to the outbuilding. If not, armour
            is still the feed's own protective conductor, earthed at the house only.
        protected: Whether a separate cpc beside a cable is protected from mechanical damage.
    """
    found = (
        make
        for cable in CableKind
        for csa in conductors.line_sizes(cable)
        if cable is not CableKind.FLEX and _is_rated(cable, method, csa)
        for make in _with_cpc(cable, csa, carries_earth=carries_earth, protected=protected)
    )
    return tuple(sorted(found, key=lambda make: (make.csa, make.conductors, make.cpc_csa or 0.0)))


def _is_rated(cable: CableKind, method: Method, csa: float) -> bool:
    try:
        # As 70 °C cable, so that armoured cable is offered in the sizes that both ratings have.
        ratings.tabulated_rating(cable, method, SquareMillimetre(csa), as_70_degrees=True)
    except NotTabulated:
        return False
    return True


def _with_cpc(
    cable: CableKind, csa: float, *, carries_earth: bool, protected: bool
) -> Iterator[Make]:
    if cable is CableKind.FLAT:
        yield Make(cable, 2, csa, Cpc.CORE)
        return
    if cable is CableKind.SINGLES:
        # Single cores lie in conduit or trunking, and their cpc with them.
        yield from _separate(cable, csa, protected=True)
        return
    if not carries_earth:
        yield Make(cable, 2, csa, Cpc.NONE)
        return
    yield Make(cable, 2, csa, Cpc.ARMOUR)
    yield from _separate(cable, csa, protected=protected)
    if _has_armour(cable, 3, csa):
        yield Make(cable, 3, csa, Cpc.CORE)
        yield Make(cable, 3, csa, Cpc.CORE_AND_ARMOUR)


def _has_armour(cable: CableKind, cores: int, csa: float) -> bool:
    try:
        conductors.armour_resistance(cable, cores, SquareMillimetre(csa))
    except NotTabulated:
        return False
    return True


def _separate(cable: CableKind, csa: float, *, protected: bool) -> Iterator[Make]:
    """Yield a line with the sizes of a separate cpc that are made, up to what bonding asks for."""
    least, most = least_separate(protected=protected).value, max(csa, _MOST_SEPARATE)
    for each in conductors.line_sizes(CableKind.SINGLES):
        if least <= each <= most:
            yield Make(cable, 2, csa, Cpc.SEPARATE, each)
