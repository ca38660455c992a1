"""The verdict on one reading by itself: its limit, its expectation, what else speaks about it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from records.days import moment_words
from records.expected.results import NotWorkedOut, Result, Worked
from records.judgement import ticks
from records.judgement.advice import NONE
from records.judgement.advice.not_taken import stands_in
from records.judgement.compare import says_nothing
from records.judgement.concern import RANK, Concern, worst
from records.judgement.continuity.joints import GLAND, JOINT, ONE_WAY
from records.judgement.continuity.leads_zero import LEADS_ZERO
from records.judgement.continuity.path import R1_R2
from records.judgement.continuity.ring_readings import CROSS, END
from records.judgement.facts import Facts
from records.judgement.insulation.armour import ARMOUR_OPEN
from records.judgement.insulation.resistance import FOIL, GROUP, INSULATION
from records.judgement.live.rcd import RCD_FIVE, RCD_RAMP, RCD_TIME
from records.judgement.live.under_load import LOAD, LOADED
from records.judgement.live.voltage import NEUTRAL, TO_EARTH, VOLTAGE
from records.judgement.loop.circuit_share import ZS
from records.judgement.loop.electrode import ELECTRODE
from records.judgement.loop.fault_current import FAULT
from records.judgement.loop.loop_facts import is_calculated
from records.judgement.loop.zdb import ZDB
from records.judgement.loop.ze import ZE
from records.judgement.review_types import Judged, Limit, Sense, key_of
from records.judgement.rule import Bound, Rule, no_proof
from records.judgement.slips import below_nothing, typed_below_nothing, unit_slip
from records.judgement.uncertainty import distance, guard
from records.judgement.unit_slips import thousandfold
from records.judgement.wording import less_leads, said
from records.model.measurements import Measurement
from records.model.reading import (
    Figure,
    NotNeeded,
    NotTaken,
    Quantity,
    Reading,
    Slot,
    Tick,
)
from records.model.slots import measured_by
from records.terms import Sign, Stage, Verdict
from records.units import Unit

RULES: dict[Quantity, Rule] = {
    Quantity.R1_R2: R1_R2,
    Quantity.R1: END,
    Quantity.RN: END,
    Quantity.R2: END,
    Quantity.CROSS_LN: CROSS,
    Quantity.CROSS_LE: CROSS,
    Quantity.EARTHING: JOINT,
    Quantity.BONDING: JOINT,
    Quantity.IR_LN: INSULATION,
    Quantity.IR_LE: INSULATION,
    Quantity.IR_NE: INSULATION,
    Quantity.ELECTRODE: ELECTRODE,
    Quantity.ZE: ZE,
    Quantity.ZDB: ZDB,
    Quantity.ZS: ZS,
    Quantity.FAULT_LN: FAULT,
    Quantity.FAULT_LE: FAULT,
    Quantity.VOLTAGE: VOLTAGE,
    Quantity.RCD_TIME: RCD_TIME,
    Quantity.R1_R2_CORE: ONE_WAY,
    Quantity.R1_R2_ARMOUR: ONE_WAY,
    Quantity.GLAND: GLAND,
    Quantity.R2_LONG: ONE_WAY,
    Quantity.RN_R2: ONE_WAY,
    Quantity.IR_GROUP: GROUP,
    Quantity.VOLTAGE_LE: TO_EARTH,
    Quantity.VOLTAGE_NE: NEUTRAL,
    Quantity.RCD_FIVE: RCD_FIVE,
    Quantity.RCD_RAMP: RCD_RAMP,
    Quantity.IR_FOIL: FOIL,
    Quantity.LOAD_CURRENT: LOAD,
    Quantity.VOLTAGE_LOADED: LOADED,
    Quantity.R1_RN: ONE_WAY,
    Quantity.ARMOUR_EARTHED: GLAND,
    Quantity.ARMOUR_OPEN: ARMOUR_OPEN,
    Quantity.LEADS_ZERO: LEADS_ZERO,
    Quantity.ELECTRODE_LOOP: ELECTRODE,
}


def own_line(facts: Facts, slot: Slot, more: Iterable[Concern] = ()) -> Judged:
    """Return the verdict on a reading that a job needs, taken or not.

    Args:
        facts: The record.
        slot: The reading.
        more: What other rules have to say about it.
    """
    entry = _entry(slot)
    attempts = facts.attempts(slot)
    bound = _bound(facts, slot, entry)
    base = Judged(
        key_of(slot),
        Verdict.NOT_NEEDED,
        slot.place,
        _title(facts, slot, entry),
        "A reading of this kind isn't asked for here; it is kept as it is.",
        slot=slot,
        expected=facts.meter(slot),
        limit=bound if isinstance(bound, Limit) else None,
        attempts=attempts,
    )
    if entry is None:
        return base
    if not attempts:
        why = f"Not taken yet{_stands(base)}."
        return _unless(base, Verdict.NOT_TAKEN, why, more)
    return _judged(facts, base, attempts[-1], entry, bound, more)


def _unless(base: Judged, verdict: Verdict, why: str, more: Iterable[Concern]) -> Judged:
    """Return a line without a reading; what other rules found in that is graver than its lack."""
    found = list(more)
    return _with(base, why, found, "") if found else base._replace(verdict=verdict, why=why)


def _title(facts: Facts, slot: Slot, entry: Measurement | None) -> str:
    name = slot.quantity.value if entry is None else entry.title
    if slot.place.point:
        name = name.removesuffix(", at each point")
    early = ", before covering" if slot.stage is Stage.BEFORE_COVERING else ""
    return f"{facts.title(slot.place)}: {name}{early}"


def _entry(slot: Slot) -> Measurement | None:
    try:
        entry = measured_by(slot)
    except KeyError:
        return None
    return entry if slot.stage in entry.stages else None


def _bound(facts: Facts, slot: Slot, entry: Measurement | None) -> Bound:
    if entry is None:
        return None
    return ticks.should(slot) if entry.is_check else RULES[slot.quantity].bound(facts, slot)


def _judged(
    facts: Facts,
    base: Judged,
    reading: Reading,
    entry: Measurement,
    bound: Bound,
    more: Iterable[Concern],
) -> Judged:
    taken = reading.taken
    words = said(taken, entry)
    match taken:
        case NotNeeded():
            return _unless(base, Verdict.NOT_NEEDED, f"{_capital(words)}.", more)
        case NotTaken():
            why = f"{_capital(words)}. {stands_in(reading.slot, taken)}"
            return _unless(base, Verdict.NOT_TAKEN, why, more)
        case Tick() if entry.is_check:
            found = [] if taken.good else [ticks.found_wrong(facts, reading.slot)]
            return _with(base, f"{_capital(words)}.", [*found, *more], "")
        case Figure() if not entry.is_check:
            return _figure(facts, base, reading, taken, bound, more)
    wanted = "found correct or not" if entry.is_check else "a figure"
    why = f"“{words}” is no answer here: what is wanted is {wanted}."
    return base._replace(verdict=Verdict.NOT_TAKEN, why=why)


def _figure(
    facts: Facts,
    base: Judged,
    reading: Reading,
    figure: Figure,
    bound: Bound,
    more: Iterable[Concern],
) -> Judged:
    rule = RULES[reading.slot.quantity]
    head = _opening(base, reading, figure)
    if reading.from_notes is not None:
        head += f" Taken {_when(reading.at)}, entered later from notes {_when(reading.from_notes)}."
    if is_calculated(reading):
        head += " Calculated, not measured."
    if below_nothing(figure, reading.slot):
        return _with(base, head, [typed_below_nothing(bound), *more], "")
    slip = thousandfold(reading.slot, figure, base.expected, bound)
    if slip is not None:  # how far it is off then says nothing
        return _with(base, head, [unit_slip(reading.slot, slip, bound), *more], "")
    found = [*rule.concerns(facts, reading, figure), *more]
    if isinstance(bound, Limit):
        found = [*_beside(facts, rule, reading, figure, bound), *found]
    unproved = _unproved(base.expected, bound)
    if not unproved and bound is None and not found:
        unproved = _no_figure(figure)
    if unproved:
        found.append(Concern("unproved", Verdict.NOT_TAKEN, unproved))
    return _with(base, head, found, _margin(facts, reading, figure, bound))


def _beside(
    facts: Facts, rule: Rule, reading: Reading, figure: Figure, limit: Limit
) -> Iterable[Concern]:
    if says_nothing(figure, limit):
        return [no_proof(figure, limit, measured_by(reading.slot).unit)]
    return rule.beside(facts, reading, figure, limit)


def _no_figure(figure: Figure) -> str:
    """Return that a figure with a sign can't agree with anything, where there is no limit."""
    if figure.sign is Sign.EQUAL:
        return ""
    return f"“{figure.sign.value}” says on one side only: read it on a range that shows the figure."


def beyond_opening(line: Judged) -> str:
    """Return why a line stands as it does without the sentence that repeats reading and limit."""
    taken = line.attempts[-1].taken if line.attempts else None
    if line.slot is None or not isinstance(taken, Figure):
        return line.why
    return line.why.removeprefix(_opening(line, line.attempts[-1], taken)).strip()


def _opening(line: Judged, reading: Reading, figure: Figure) -> str:
    """Return a sentence of what was read, how, what was expected, and the limit."""
    return f"Read {said(figure, measured_by(reading.slot))}{how_read(reading)}{_stands(line)}."


def how_read(reading: Reading) -> str:
    """Return in brackets what is a part of a reading: its method, and leads taken off."""
    figure = reading.taken
    if not isinstance(figure, Figure):
        return ""
    volts = f"{reading.test_voltage:g} V d.c." if reading.test_voltage is not None else ""
    # A reason for a lower voltage names it already.
    parts = [reading.method] if volts and volts in reading.method else [volts, reading.method]
    parts.insert(0, less_leads(figure, measured_by(reading.slot)))
    words = ", ".join(filter(None, parts))
    return f" ({words})" if words else ""


def _when(moment: datetime) -> str:
    return moment_words(moment)


def _unproved(expected: Result | None, bound: Bound) -> str:
    """Return why a figure can't be said to be within, or nothing if it can."""
    if isinstance(bound, Limit) or (bound is None and isinstance(expected, Worked)):
        return ""
    reason = bound if isinstance(bound, NotWorkedOut) else expected
    why = reason.why if isinstance(reason, NotWorkedOut) else "the design inputs are missing"
    return f"It can't be judged yet: {why.rstrip('.')}."


def _margin(facts: Facts, reading: Reading, figure: Figure, bound: Bound) -> str:
    if not isinstance(bound, Limit) or figure.sign is not Sign.EQUAL:
        return ""
    entry = measured_by(reading.slot)
    if entry.unit in _WIDE and _FAR * min(figure.value, bound.value) < max(
        figure.value, bound.value
    ):
        return ""
    gap = distance(figure.value, bound, guard(facts, reading), entry.unit, entry.digits)
    return f" Inside, {gap}."


_WIDE, _FAR = (Unit.KILOAMPERE, Unit.MEGOHM), 10.0
"""Where a reading is often many times its limit: how far that is says nothing to anybody."""


def _with(base: Judged, head: str, found: list[Concern], margin: str) -> Judged:
    """Return the line with all that was found, the gravest first."""
    chief = worst(found)
    if chief is None:
        return base._replace(verdict=Verdict.WITHIN, why=f"{head}{margin}")
    ordered = sorted(found, key=lambda each: (RANK.index(each.verdict), -each.weight))
    advice = next((each.next_check for each in ordered if each.next_check), NONE)
    # A wide miss shows in several ways; the gravest kind tells it, the others only add to it.
    return base._replace(
        verdict=chief.verdict,
        why=" ".join((head, *dict.fromkeys(each.says for each in ordered))),
        causes=tuple(dict.fromkeys(cause for each in ordered for cause in each.causes)),
        next_check=advice.text(base.slot.stage if base.slot else None, base.place.part),
        source=chief.source,
        patterns=tuple(dict.fromkeys(each.pattern for each in ordered)),
        weight=chief.weight,
    )


def _stands(base: Judged) -> str:
    """Return expectation and limit as the end of a sentence."""
    parts = []
    if base.limit is not None and base.limit.sense is Sense.SHOULD:
        return ""
    if isinstance(base.expected, Worked):
        parts.append(f"expected {base.expected}")
    if base.limit is not None:
        note = f" ({base.limit.note})" if base.limit.note else ""
        parts.append(f"{'declared' if base.limit.usual else 'limit'} {base.limit}{note}")
    return "".join(f"; {part}" for part in parts)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
