"""Readings that look copied or worked out instead of taken."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.ring_readings import ring_value
from records.judgement.facts import BOARD, Facts
from records.judgement.insulation.likely_causes import PAIRS
from records.judgement.loop.loop_facts import is_calculated
from records.judgement.wording import amount
from records.model.reading import Quantity, slot_of
from records.terms import Form, Stage, Verdict
from records.units import Unit

_SAMPLE = do(Act.ASK, "Ask for single readings. The certifier takes a sample.")
_MANY = 6
_SHARE = 0.8
_COARSE = 10
_STEPPED = 5


def identical(facts: Facts) -> Iterator[Pattern]:
    """The same insulation figure nearly everywhere, and not over-range."""
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
        values = {
            slot: value
            for slot in facts.all_slots
            if slot.quantity in PAIRS
            and slot.stage is stage
            and (value := facts.plain(slot)) is not None
        }
        if not values:
            continue
        figure, count = Counter(values.values()).most_common(1)[0]
        same = tuple(slot for slot, value in values.items() if value == figure)
        places = {slot.place for slot in same}
        if count >= _MANY and count >= _SHARE * len(values) and len(places) >= 2:
            concern = Concern(
                "identical insulation",
                Verdict.UNLIKELY,
                f"{count} of {len(values)} insulation readings are exactly "
                f"{amount(figure, Unit.MEGOHM)}, in {len(places)} places.",
                ("copied from one another", "one reading of the group written for each"),
                _SAMPLE,
                cite.COMMON,
                20,
            )
            yield Pattern(concern, BOARD, f"All insulation readings, {stage.value}", same)


def backwards(facts: Facts) -> Iterator[Pattern]:
    """R1+R2 is Zs less Zdb to the digit on every circuit: calculated backwards."""
    zdb = facts.plain_at(BOARD, Quantity.ZDB)
    if zdb is None:
        return
    rows = []
    for _, place in facts.circuits():
        slots = [
            slot_of(quantity, place, stage)
            for quantity, stage in ((Quantity.R1_R2, Stage.DEAD), (Quantity.ZS, Stage.LIVE))
        ]
        r1_r2, zs = (facts.plain(slot) for slot in slots)
        last = facts.last(slots[1])
        if r1_r2 is not None and zs is not None and last is not None and not is_calculated(last):
            rows.append((slots, abs(zs - zdb - r1_r2) < 0.005))
    if len(rows) >= 4 and all(exact for _, exact in rows):
        about = tuple(slot for slots, _ in rows for slot in slots)
        concern = Concern(
            "worked out backwards",
            Verdict.UNLIKELY,
            f"On all {len(rows)} circuits R1+R2 is Zs less Zdb to the last digit; "
            "meters are not so exact.",
            ("R1+R2 was calculated from the loops", "Zs was calculated and not marked so"),
            _SAMPLE,
            cite.COMMON,
            15,
        )
        yield Pattern(concern, BOARD, "R1+R2 and Zs of all circuits", about)


def too_even(facts: Facts) -> Iterator[Pattern]:
    """Every L-cpc reading of a ring is (r1+r2)/4 to the digit, where the ends can't be."""
    for circuit, place in facts.circuits():
        span = ring_value(facts, circuit, Quantity.CROSS_LE)
        if circuit.form is not Form.RING or span is None:
            continue
        pairs = [
            (slot, value, facts.meter_value(slot))
            for _, slot in facts.points(circuit)
            if (value := facts.plain(slot)) is not None
        ]
        off = [expected is not None and span[1] - expected > 0.015 for _, _, expected in pairs]
        even = all(abs(value - span[1]) < 0.006 for _, value, _ in pairs)
        if len(pairs) >= 3 and even and sum(off) >= 2:
            concern = Concern(
                "made by arithmetic",
                Verdict.UNLIKELY,
                "Every point shows a quarter of r1 and r2 to the digit. Near the board a ring with "
                "a smaller cpc shows less.",
                ("calculated instead of read",),
                _SAMPLE,
                cite.GUIDANCE,
                10,
            )
            title = f"{facts.title(place)}: cross-connected L-cpc, all points"
            yield Pattern(concern, place, title, tuple(slot for slot, _, _ in pairs))


def even_steps(facts: Facts) -> Iterator[Pattern]:
    """Loops that rise, or fall, by the very same step from each circuit to the next."""
    taken = []
    for _, place in facts.circuits():
        slot = slot_of(Quantity.ZS, place, Stage.LIVE)
        value, last = facts.plain(slot), facts.last(slot)
        if value is not None and last is not None and not is_calculated(last):
            taken.append((slot, value))
    steps = {round(late - early, 2) for (_, early), (_, late) in pairwise(taken)}
    if len(taken) >= _STEPPED and len(steps) == 1 and steps != {0.0}:
        concern = Concern(
            "even steps",
            Verdict.UNLIKELY,
            f"From circuit to circuit Zs changes by {amount(abs(steps.pop()), Unit.OHM)}, "
            f"{len(taken) - 1} times running: true readings scatter.",
            ("invented, or filled in from the first and the last",),
            _SAMPLE,
            cite.COMMON,
            15,
        )
        yield Pattern(concern, BOARD, "Zs of all circuits", tuple(slot for slot, _ in taken))


def coarse(facts: Facts) -> Iterator[Pattern]:
    """Loop and continuity readings that all end in 0 or 5."""
    kinds = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.R2, Quantity.ZS, Quantity.ZDB)
    taken = {
        slot: value
        for slot in facts.all_slots
        if slot.quantity in kinds and (value := facts.plain(slot)) is not None
    }
    if len(taken) >= _COARSE and all(round(value * 100) % 5 == 0 for value in taken.values()):
        concern = Concern(
            "only fives and noughts",
            Verdict.UNLIKELY,
            f"All {len(taken)} readings in ohms end in 0 or 5.",
            ("rounded or estimated", "a meter that shows no more"),
            _SAMPLE,
            cite.COMMON,
            5,
        )
        yield Pattern(concern, BOARD, "Last digits of the readings", tuple(taken))
