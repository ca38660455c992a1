"""What can drive the highest fault currents: entered, measured, read at the bench, or assumed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.errors import FarboardError
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, once
from records.expected.formulas import fault
from records.expected.workings import Missing
from records.model.reading import Quantity
from records.model.supply import Ground
from records.tables.demand import typical_fault_current
from records.tables.devices import c_max
from records.tables.testing import worst_uncertainty
from records.terms import Earthing, Part, Sign
from records.units import Ampere, Ohm, Volt

NEEDS_CURRENT = (
    "Enter the fault current that the operator declares (Origin), or read it in the live tests."
)
NEEDS_ZE = "Read Ze in the live tests, or enter it as measured (Origin)."
_UP_TO = 100.0
"""A of the main fuse, up to which the table's typical highest fault current holds."""


@dataclass(frozen=True, slots=True)
class Supply:
    """U0 with the factor on it, behind an impedance."""

    impedance: Ohm
    factor: float
    source: Source
    u0: Volt
    known: bool = True
    """Whether it may be taken for the highest; a declared or typical Ze is a largest one, so the
    true current may be higher."""
    at_board: bool = False
    """Whether the impedance is that at the sub-board: the feed is in it already."""
    least: Ohm | None = None
    """The least that the impedance may be, where the meter's uncertainty leaves that open."""
    assumed: str = ""
    """What to enter or read in the place of an assumption."""
    bound: bool = False
    """Whether it says only what the current can't be over."""

    def __str__(self) -> str:
        return f"{self.factor:g} × {self.u0:g}" if self.factor != 1 else f"{self.u0:g}"


Supplies = tuple[Supply, ...]


@once
def line_neutral(context: Context) -> Supplies:
    """Return all that is known between line and neutral at the origin; the highest counts.

    With TN-C-S neutral and earth are one conductor up to the cut-out: what is known of one loop
    is known of the other.

    Raises:
        Missing: If nothing is known, and nothing may be assumed.
    """
    found = [*_entered(context), *_current(context, Quantity.FAULT_LN, Part.ORIGIN)]
    if _one_conductor(context):
        found += [*_loops(context), *_current(context, Quantity.FAULT_LE, Part.ORIGIN)]
    if not any(each.known for each in found):
        found.append(_typical(context))
    return tuple(found)


@once
def line_earth(context: Context) -> Supplies:
    """Return all that is known between line and earth at the origin.

    Raises:
        Missing: If nothing is known.
    """
    if _one_conductor(context):
        return line_neutral(context)
    found = [*_loops(context), *_current(context, Quantity.FAULT_LE, Part.ORIGIN)]
    if not found:
        raise Missing("Ze is not entered yet (Origin).")
    sheath = context.record.origin.earthing is Earthing.TN_S
    if sheath and not any(each.known for each in found):
        found += _no_better_than_neutral(context)
    return tuple(found)


@once
def line_neutral_to_board(context: Context) -> Supplies:
    """Return what drives a fault between line and neutral behind the sub-board."""
    read = _current(context, Quantity.FAULT_LN, Part.BOARD)
    return _settled(lambda: line_neutral(context), read)


@once
def line_earth_to_board(context: Context) -> Supplies:
    """Return what drives a fault between line and earth behind the sub-board, by the feed."""
    read = [*_zdb(context), *_current(context, Quantity.FAULT_LE, Part.BOARD)]
    return _settled(lambda: line_earth(context), read)


def _settled(origin: Callable[[], Supplies], read: list[Supply]) -> Supplies:
    """Return both; what was read behind the feed leaves nothing of the origin to be assumed."""
    if not any(each.known for each in read):
        return (*origin(), *read)
    try:
        before = origin()
    except FarboardError:
        before = ()
    return (*(each for each in before if not each.assumed), *read)


@once
def electrode(context: Context) -> Supply:
    """Return the least that an earth fault by the outbuilding's electrode meets."""
    read = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
    factor = c_max()
    return Supply(Ohm(read), factor.value, factor.source, context.u0)


def _one_conductor(context: Context) -> bool:
    return context.record.origin.earthing is Earthing.TN_C_S


def _entered(context: Context) -> Supplies:
    current = context.record.origin.fault_current
    return () if current is None else (_behind(context, current, cited.DECLARED),)


def _current(context: Context, quantity: Quantity, part: Part) -> list[Supply]:
    """Return the fault current as read; one over the meter's range is known only as a least one."""
    read = context.readings.edge(quantity, part, Sign.OVER)
    if read is None:
        return []
    current, exact = read
    board = part is Part.BOARD
    return [_behind(context, current, cited.READ_OFF, known=exact, at_board=board)]


def _behind(
    context: Context, current: float, source: Source, *, known: bool = True, at_board: bool = False
) -> Supply:
    impedance = fault.source_impedance(context.u0, Ampere(current * 1000))
    return Supply(impedance, 1.0, source, context.u0, known, at_board)


def _loops(context: Context) -> list[Supply]:
    """Return Ze as entered and as read."""
    origin, factor = context.record.origin, c_max()
    found = []
    if origin.ze:
        measured = origin.ze_ground is Ground.MEASURED
        least = _least(context, origin.ze) if measured else None
        found.append(
            Supply(Ohm(origin.ze), factor.value, factor.source, context.u0, measured, least=least)
        )
    read = context.readings.edge(Quantity.ZE, Part.ORIGIN, Sign.UNDER)
    if read is not None:
        ze, exact = read
        least = _least(context, ze)
        found.append(Supply(Ohm(ze), factor.value, cited.READ_OFF, context.u0, exact, least=least))
    return found


def _least(context: Context, loop: float) -> Ohm | None:
    """Return the least that a measured loop may be; with TN-C-S a current beside it tells."""
    if _one_conductor(context) and _current_known(context):
        return None
    return Ohm(loop * (1 - worst_uncertainty("loop impedance").value))


def _current_known(context: Context) -> bool:
    """Return whether a fault current at the origin was entered, or read."""
    read = (Quantity.FAULT_LN, Quantity.FAULT_LE)
    return context.record.origin.fault_current is not None or any(
        _current(context, each, Part.ORIGIN) for each in read
    )


def _zdb(context: Context) -> list[Supply]:
    read = context.readings.edge(Quantity.ZDB, Part.BOARD, Sign.UNDER)
    if read is None:
        return []
    value, exact = read
    return [Supply(Ohm(value), c_max().value, cited.READ_OFF, context.u0, exact, at_board=True)]


def _typical(context: Context) -> Supply:
    """Return the typical highest fault current of a supply, for want of a known one."""
    origin = context.record.origin
    if origin.earthing is None and not origin.ze:
        raise Missing("neither Ze nor the fault current at the origin is entered yet (Origin).")
    found = typical_fault_current()
    if origin.cutout is not None and origin.cutout > _UP_TO:
        raise Missing(
            f"the fault current at the origin is not entered yet (Origin). The typical highest one "
            f"holds up to a main fuse of {_UP_TO:g} A."
        )
    impedance = fault.source_impedance(context.u0, found.value)
    return Supply(impedance, 1.0, found.source, context.u0, False, assumed=NEEDS_CURRENT)


def _no_better_than_neutral(context: Context) -> list[Supply]:
    try:
        neutral = line_neutral(context)
    except Missing:
        return []
    return [
        Supply(
            each.impedance,
            each.factor,
            each.source,
            each.u0,
            False,
            assumed=NEEDS_ZE,
            bound=True,
        )
        for each in neutral
    ]
