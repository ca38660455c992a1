"""The voltage under load: what the feed loses against what its conductors must lose."""

from __future__ import annotations

import math
from collections.abc import Iterator

from records.expected.results import NotWorkedOut
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, ORIGIN, Facts
from records.judgement.live.voltage import NO_VOLTAGE, VOLTAGE
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit, beyond
from records.judgement.wording import rounded
from records.model.reading import Figure, Quantity, Reading, Slot, slot_of
from records.terms import Sign, Stage, Verdict
from records.units import Unit

_SCATTER = 2.0
"""V that the supply may move between two readings: common practice."""
_SHARE = 0.3
"""Of the drop worked out: more than this above it is looked into: common practice."""


def feed_line_neutral(facts: Facts) -> float | None:
    """Return the resistance of the feed, line and neutral, as cold as at the tests [Ω].

    It is what the fault currents expected at both its ends differ by.
    """
    u0 = facts.record.origin.u0
    ends = [
        facts.meter_value(slot_of(Quantity.FAULT_LN, place, Stage.LIVE))
        for place in (ORIGIN, BOARD)
    ]
    if not ends[0] or not ends[1]:
        return None
    return max(u0 / ends[1] - u0 / ends[0], 0.0) / 1000


def _band(facts: Facts, slot: Slot) -> Bound:
    if slot.place == ORIGIN:
        return VOLTAGE.bound(facts, slot)
    name = "voltage under load"
    volts = facts.plain_at(ORIGIN, Quantity.VOLTAGE_LOADED)
    current = facts.plain_at(BOARD, Quantity.LOAD_CURRENT)
    if volts is None:
        return NotWorkedOut(name, "the voltage at the origin with the load on is not read yet")
    if current is None:
        return NotWorkedOut(name, "the current of the load is not read yet")
    loop = feed_line_neutral(facts)
    if loop is None:
        return NotWorkedOut(name, "the feed or the fault current at the origin is not entered yet")
    drop = current * loop
    least = volts - drop - max(_SCATTER, _SHARE * drop)
    return Limit(
        Sense.BAND,
        least,
        Unit.VOLT,
        cite.VOLT_DROP,
        upper=volts - drop + _SCATTER,
        digits=1,
        note=f"{rounded(drop, Unit.VOLT, 1)} lost at {rounded(current, Unit.AMPERE, 1)}, and "
        "scatter",
    )


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    if reading.slot.place == ORIGIN:
        yield from VOLTAGE.beside(facts, reading, figure, limit)
        return
    supply = VOLTAGE.bound(facts, reading.slot)
    none = figure.value < NO_VOLTAGE * facts.record.origin.u0
    if isinstance(supply, Limit) and (none or figure.value > (supply.upper or math.inf)):
        # None at all, or more than a supply may give: that is no question of the feed's drop.
        yield from VOLTAGE.beside(facts, reading, figure, supply)
        return
    for each in beside_limit(facts, reading, figure, limit):
        if figure.value < limit.value:
            yield each._replace(
                pattern="drop-high",
                verdict=Verdict.UNLIKELY,
                weight=35,
                says=beyond(figure, limit, "the load and the feed let expect"),
                causes=(
                    "a bad joint or terminal in the feed",
                    "a longer or thinner feed than entered",
                    "more load than was read",
                ),
                next_check=do(
                    Act.OPEN,
                    "Tighten what carries it to its torque; read R1+R2 of the feed and each gland.",
                ),
            )
        else:
            yield each._replace(
                pattern="drop-low",
                verdict=Verdict.UNLIKELY,
                weight=5,
                source=cite.COMMON,
                says=beyond(figure, limit, "the load and the feed let expect"),
                causes=(
                    "the load was off during one of the readings",
                    "the supply moved between them",
                ),
                next_check=do(Act.AGAIN, "Read both again, with the same load on."),
            )


def _most_current(facts: Facts, _slot: Slot) -> Bound:
    rating = facts.record.feed.device.rating
    if rating is None:
        return NotWorkedOut("load current", "In of the feed's device is not entered yet (Feed)")
    note = "In of the feed's device"
    return Limit(Sense.MOST, rating, Unit.AMPERE, cite.OVERLOAD, digits=0, note=note)


def _too_much(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        yield each._replace(
            causes=("more is switched on than the feed is for",),
            next_check=do(Act.AGAIN, "Switch some of the load off, and repeat."),
        )


def _under_way(_facts: Facts, _reading: Reading, figure: Figure) -> Iterator[Concern]:
    if figure.sign is Sign.EQUAL and figure.value < _LEAST_LOAD:
        yield Concern(
            "load-too-small",
            Verdict.UNLIKELY,
            f"Under {_LEAST_LOAD:g} A a feed loses too little to be told.",
            ("the load is off, or too small", "the clamp is round line and neutral together"),
            _CLAMP,
            cite.COMMON,
        )


_CLAMP = do(Act.LOOK, "Nobody has to take this.") + do(
    Act.FIT,
    "Clamp round the line alone, cover back. Feed on, a kettle or heater on: read. Off again and "
    "proved dead, clamp out.",
)
_LEAST_LOAD = 5.0
"""A that show a drop: about half of a kettle: common practice."""


LOADED = Rule(_band, beside=_beside)
LOAD = Rule(_most_current, _under_way, _too_much)
