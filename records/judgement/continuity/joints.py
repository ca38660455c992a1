"""Earthing and bonding conductors, armour glands, and paths read by one of their parts alone."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import SPLIT, STAYS_OFF, TIPS
from records.judgement.cable_path import glands, weak_places
from records.judgement.concern import Concern
from records.judgement.continuity.path import (
    LEAST,
    LOW,
    OPEN_LEAD,
    SHARE,
    below_nought,
    if_high,
    if_low,
    is_open,
    low_range,
    open_circuit,
)
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit, beyond, off_expectation, said_off
from records.model.reading import Figure, Quantity, Reading, Slot
from records.terms import Sign, Verdict
from records.units import Unit

_GOOD_JOINT = 0.05
"""Ω that a short conductor with good contacts shows at most: common practice."""


_CONTACTS = do(Act.READ_DEAD, "Read across each contact: armour, nut, box, bar.")
_APART = ("one end is off", "paint, or a missing tag or fly lead", "an open test lead")


def _most_joint(facts: Facts, slot: Slot) -> Bound:
    expected = facts.meter(slot)
    if isinstance(expected, Worked):
        # A rule of thumb is no finer than the meter's last digit: as printed, so it is meant.
        most = round(expected.value + _GOOD_JOINT, 2)
        note = f"its length, and {_GOOD_JOINT} Ω for the contacts"
        return Limit(Sense.MOST, most, Unit.OHM, cite.COMMON, note=note)
    note = "a rule of thumb: what a short conductor with good contacts shows"
    return Limit(Sense.MOST, _GOOD_JOINT, Unit.OHM, cite.COMMON, note=note)


def _joint(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    known = isinstance(facts.meter(reading.slot), Worked)
    for each in beside_limit(facts, reading, figure, limit):
        if is_open(figure):
            continue  # that says it all
        verdict = each.verdict
        says = each.says
        if verdict is Verdict.OUTSIDE and not known and figure.sign is Sign.EQUAL:
            # Without its length a longer conductor can't be told from a bad contact.
            verdict = Verdict.UNLIKELY
            says = beyond(figure, limit, "a short conductor shows; its length isn't known here")
        yield each._replace(
            verdict=verdict,
            says=says,
            causes=(
                "paint, a loose locknut or clamp",
                "a missing tag or fly lead",
                "corrosion, or the wrong piece of metal",
            ),
            next_check=_CONTACTS,
            weight=15,
        )


def _joint_below(_facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from below_nought(figure)
    if is_open(figure):
        found = open_circuit("Not joined through", ())
        yield found._replace(
            causes=_APART,
            weight=35,
            next_check=STAYS_OFF + TIPS + _CONTACTS,
        )


def one_way_back(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return the concerns about a path that was read by one of its parts alone."""
    quantity = reading.slot.quantity
    yield from below_nought(figure)
    if figure.sign is Sign.OVER:
        yield (
            low_range(figure)
            or _ONE_WAY_OPEN.get(quantity)
            or open_circuit(f"No path: {quantity.value}", _open_causes(facts, reading.slot))
        )
        return
    off = off_expectation(facts, reading, figure, LEAST, SHARE)
    if off is None:
        return
    high = off[0] > 0
    armour = quantity is Quantity.R1_R2_ARMOUR
    causes = _at_glands(facts, reading.slot) if armour else if_high(facts, reading, figure)
    check = _ACROSS if armour else SPLIT
    if not high:
        more, check = _SHORTER.get(quantity, _OTHER_WAY)
        low = LOW if quantity is Quantity.R2_LONG else if_low(facts, reading, figure)
        causes = (*low, more) if quantity in _SHORTER else (more, *low)
    yield Concern(
        "one-way-high" if high else "one-way-low",
        Verdict.UNLIKELY,
        f"{said_off(*off)}.",
        causes,
        check,
        cite.CONTINUITY,
        15 if high else 10,
    )


_AT_FAR = do(Act.AGAIN, "Name the furthest point and read again there.")
_OTHER_WAY = (
    "the other way back was not lifted",
    do(Act.EARTH_OFF, "Lift the other way back and read it again.")
    + do(Act.READ_DEAD, "Then read R1+R2 of both together."),
)
_SHORTER = {
    Quantity.R2_LONG: ("more was taken off for the long lead than it has", _AT_FAR),
    Quantity.RN_R2: ("neutral and cpc touch before this point", _AT_FAR),
    Quantity.R1_RN: (
        "read at the house board itself",
        do(Act.READ_DEAD, "Read R1+Rn again at the sub-board's own terminals."),
    ),
}
"""What else a low reading may mean where there is no other way back to lift, and the next check."""
_GLAND = (
    "paint, a loose or corroded locknut at a gland",
    "a missing tag or fly lead",
    "a box of plastic",
)


def _at_glands(facts: Facts, slot: Slot) -> tuple[str, ...]:
    """Return what may be wrong with the armour, at the glands that were entered."""
    named = glands(facts, slot.place)
    if not named:
        return _GLAND
    return (f"paint, a loose or corroded locknut at {named[0]}"[:_CAUSE], *_GLAND[1:])


def _open_causes(facts: Facts, slot: Slot) -> tuple[str, ...]:
    """Return why a path by one of its parts is open: there is no switch in a cpc."""
    where = weak_places(facts, slot.place, "a box")
    missed = f"a terminal missed or a conductor snapped at {where}"
    if slot.quantity is Quantity.R2_LONG:
        return (missed, "the cpc ends at a box before this point", "the long lead is open")
    return (missed, "a switch or an isolator left open", OPEN_LEAD)


_CAUSE = 72
"""Characters of a cause at most."""
_ACROSS = do(Act.READ_DEAD, "Read across each gland: armour, nut, box, bar.")
_ONE_WAY_OPEN = {
    Quantity.R1_R2_ARMOUR: Concern(
        "armour-open",
        Verdict.OUTSIDE,
        "The armour isn't joined through: the meter showed over range.",
        _GLAND,
        STAYS_OFF + _ACROSS,
        cite.CONTINUITY,
        30,
    ),
    Quantity.RN_R2: Concern(
        "neutral-borrowed",
        Verdict.OUTSIDE,
        "No path through this circuit's neutral and cpc: the meter showed over range.",
        (
            "the neutral comes from another circuit, or is landed in its place",
            "a neutral that is broken or not landed",
        ),
        do(
            Act.LIFT,
            "Main switch off, both poles: a borrowed neutral is live from the other circuit. Mark "
            "the neutrals; one out at a time; find which closes the path.",
        ),
        cite.COMMON,
        30,
    ),
}


def _most_gland(_facts: Facts, _slot: Slot) -> Bound:
    note = "a gland with good contacts"
    return Limit(Sense.MOST, _GOOD_JOINT, Unit.OHM, cite.COMMON, note=note)


def _gland(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        yield each._replace(causes=_GLAND, next_check=_ACROSS, weight=20)


ONE_WAY = Rule(concerns=one_way_back)
GLAND = Rule(_most_gland, _joint_below, _gland)
JOINT = Rule(_most_joint, _joint_below, _joint)
