"""How long an RCD of the record may take, by its kind and the standard it is made to."""

from __future__ import annotations

from records.model.wiring import Rcd
from records.tables.disconnection import RcdTimes, rcd_times
from records.units import Second


def operating_times(rcd: Rcd) -> tuple[RcdTimes, ...]:
    """Return the break times of an RCD at multiples of IΔn, rising, from 1 × IΔn up.

    Raises:
        NotTabulated: For a delayed one to BS 4293 whose delay isn't entered.
    Source:
        BS EN 61008-1 and BS EN 61009-1, Table 1; BS 4293 and BS 7288.
    """
    delay = None if rcd.delay is None else Second(rcd.delay / 1000)
    return rcd_times(
        delayed=rcd.delayed, residual_ma=rcd.residual, standard=rcd.standard, delay=delay
    )
