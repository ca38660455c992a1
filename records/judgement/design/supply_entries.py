"""Entries of the supply that can't be so: its voltage, and a fault current beside Ze."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.design.odd import WRONG, odd
from records.judgement.facts import FEED, ORIGIN, Facts
from records.judgement.review_types import Judged
from records.judgement.wording import amount, rounded
from records.model.reading import place_of
from records.model.supply import NOMINAL
from records.tables.demand import supply_tolerance
from records.terms import Earthing, Verdict
from records.units import Unit

_LOOP_AND_CURRENT = 0.1
"""Share by which a fault current may lie under U0 / Ze: both are rounded."""


def supply_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each entry of the supply that can't stay so."""
    yield from _voltage(facts)
    yield from _loop_and_current(facts)


def _voltage(facts: Facts) -> Iterator[Judged]:
    """A nominal voltage other than the public one: every limit of Zs is in proportion to it."""
    u0 = facts.record.origin.u0
    if abs(u0 - NOMINAL) <= SLACK:
        return
    above, below = supply_tolerance("above"), supply_tolerance("below")
    may_be = (1 - below.value) * NOMINAL <= u0 <= (1 + above.value) * NOMINAL
    limits = "higher" if u0 > NOMINAL else "lower"
    yield odd(
        facts,
        ORIGIN,
        "U0",
        f"U0 is entered as {u0:g} V. A public supply has {NOMINAL:g} V from line to earth, "
        f"whatever the meter shows. With {u0:g} V every limit of Zs here comes out {limits}, and "
        "so does that of the voltage drop.",
        f"Enter {NOMINAL:g} V (Origin). If the supply is another one, ask the certifier.",
        title="U0, nominal voltage to earth",
        verdict=Verdict.UNLIKELY if may_be else Verdict.OUTSIDE,
        causes=(
            "a reading was entered, not the nominal voltage",
            "the voltage between two lines was entered",
            "a figure of another field was entered here",
        )[0 if may_be else 1 :],
        weight=60,
        source=above.source,
    )


def _loop_and_current(facts: Facts) -> Iterator[Judged]:
    """A fault current at the origin below what the loop entered beside it lets flow."""
    origin = facts.record.origin
    current, loop = origin.fault_current, origin.ze
    if current is None or not loop or origin.earthing in (None, Earthing.TT):
        return
    flows = origin.u0 / loop / 1000
    if current * (1 + _LOOP_AND_CURRENT) >= flows - SLACK:
        return
    yield odd(
        facts,
        place_of(FEED.part),
        "Ze and fault current",
        f"With Ze {loop:g} Ω at least {rounded(flows, Unit.KILOAMPERE)} flow in an earth fault; "
        f"the highest fault current is entered as {amount(current, Unit.KILOAMPERE)}.",
        "Read both again, and correct the one that is wrong (Origin).",
        title="Ze and fault current at the origin",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
        weight=30,
        source=cite.FAULT_AND_LOOP,
    )
