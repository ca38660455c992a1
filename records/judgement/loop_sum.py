"""Loop readings against each other: a loop is the one before it and its own conductors."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.compare import away, outside
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.loop import most_loop, most_ze, three_ways
from records.judgement.loop_facts import behind_rcd, is_calculated, read_r1_r2, unsteady
from records.judgement.rule import Rule
from records.judgement.wording import amount, rounded
from records.model.circuit import Circuit
from records.model.reading import Figure, Quantity, Reading
from records.model.supply import Ground
from records.terms import Verdict
from records.units import Unit

_SURVEY = 0.15
"""Ω that Ze may differ from what it was said to be: common practice."""


def _ze(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    origin = facts.record.origin
    if origin.ze is None or origin.ze_ground is not Ground.MEASURED:
        return
    gap = outside(figure, origin.ze, origin.ze, max(_SURVEY, 0.3 * origin.ze))
    if gap > 0:
        yield Concern(
            "ze-changed", Verdict.UNLIKELY,
            f"At the survey Ze was {amount(origin.ze, Unit.OHM)}: {rounded(gap, Unit.OHM)} less.",
            ("trouble in the supply's earth or neutral", "a loose earthing conductor",
             "another tester or method"),
            "Don't energise until it is explained; the network operator has an emergency number.",
            cite.COMMON, 60,
        )  # fmt: skip
    elif gap < 0:
        yield Concern(
            "ze-changed", Verdict.UNLIKELY,
            f"At the survey Ze was {amount(origin.ze, Unit.OHM)}: {rounded(-gap, Unit.OHM)} more.",
            ("the earthing conductor was still on its bar: parallel paths",
             "a mistake at the survey"),
            "Earthing conductor off, installation isolated, and repeat; then put it back.",
            cite.COMMON, 10,
        )  # fmt: skip


def _zdb(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    if is_calculated(reading):
        return
    ze, r1_r2 = facts.plain_at(ORIGIN, Quantity.ZE), facts.plain_at(FEED, Quantity.R1_R2)
    if ze is not None and r1_r2 is not None and not facts.tt_island:
        total = ze + r1_r2
        text = f"Ze and R1+R2 as read add up to {amount(total, Unit.OHM)}"
        gap = outside(figure, total, total, max(0.1, 0.2 * total))
        low_counts = _below_expected(facts, reading, figure)
    else:
        expected = facts.meter(reading.slot)
        if not isinstance(expected, Worked):
            return
        text = f"{expected} is expected from the feed"
        gap = away(figure, expected, max(0.1, 0.2 * expected.value))
        # A declared or typical Ze is a highest value: less than that is no surprise.
        low_counts = facts.tt_island or facts.record.origin.ze_ground is Ground.MEASURED
    if gap > 0:
        yield Concern(
            "zdb-high", Verdict.UNLIKELY, f"{text}: this is {rounded(gap, Unit.OHM)} more.",
            ("an armour gland: paint, loose locknut, missing tag",
             "a joint or terminal of the feed",
             "a thinner or longer feed than entered", "a noisy supply"),
            "Isolate; read R1+R2 of the feed again, each gland by itself.", cite.LOOP_METHOD, 25,
        )  # fmt: skip
    elif gap < 0 and low_counts:
        yield Concern(
            "zdb-low", Verdict.UNLIKELY, f"{text}: this is {rounded(-gap, Unit.OHM)} less.",
            ("a parallel path: bonded pipes, structure, a cable screen",
             "read at another board", "Ze or R1+R2 was read too high"),
            "Find the parallel path and name it, or repeat both readings.", cite.LOOP_METHOD, 15,
        )  # fmt: skip


def _zs(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    circuit = facts.circuit_of(reading.slot)
    if is_calculated(reading) or circuit is None:
        return
    zdb = facts.plain_at(BOARD, Quantity.ZDB)
    if zdb is not None and outside(figure, zdb, zdb, max(0.05, 0.1 * zdb)) < 0:
        yield Concern(
            "zs-below-zdb", Verdict.UNLIKELY,
            f"It is lower than the sub-board's own loop, {amount(zdb, Unit.OHM)}: "
            "a circuit can't have less than what feeds it.",
            ("written against the wrong circuit", "read at another board or another point",
             "a parallel path by bonded metalwork"),
            "Read both again, at the point that is named.", cite.LOOP_METHOD, 30,
        )  # fmt: skip
        return
    r1_r2 = read_r1_r2(facts, circuit)
    if zdb is not None and r1_r2 is not None:
        total = zdb + r1_r2
        text = f"Zdb and R1+R2 as read add up to {amount(total, Unit.OHM)}"
        gap = outside(figure, total, total, max(0.2 if figure.value > total else 0.1, 0.3 * total))
        low_counts = _below_expected(facts, reading, figure)
    else:
        expected = facts.meter(reading.slot)
        if not isinstance(expected, Worked):
            return
        text = f"{expected} is expected"
        gap = away(figure, expected, max(0.2, 0.3 * expected.value))
        low_counts = zdb is not None or facts.record.origin.ze_ground is Ground.MEASURED
    if gap > 0:
        yield _above(facts, reading, circuit, f"{text}: this is {rounded(gap, Unit.OHM)} more.")
    elif gap < 0 and low_counts:
        yield Concern(
            "zs-below-sum", Verdict.UNLIKELY, f"{text}: this is {rounded(-gap, Unit.OHM)} less.",
            ("a parallel path by bonding, structure or pipes", "R1+R2 was read too high",
             "read at a nearer point"),
            "Name the parallel path, or repeat at the far point.", cite.LOOP_METHOD, 5,
        )  # fmt: skip


def _below_expected(facts: Facts, reading: Reading, figure: Figure) -> bool:
    """Whether a loop is low by the design as well: if not, a reading before it is too high."""
    expected = facts.meter(reading.slot)
    return not isinstance(expected, Worked) or away(figure, expected, 0.05) < 0


def _above(facts: Facts, reading: Reading, circuit: Circuit, says: str) -> Concern:
    if behind_rcd(facts, circuit) and "high" not in reading.method.casefold():
        says += (
            " An RCD in the path can add 0.1 to 0.6 Ω to a no-trip reading, the same at every "
            "point of the circuit. Record both; nothing is taken off."
        )
        causes = (
            "the RCD in the path, on a no-trip reading",
            "a loose connection",
            "read at a worn socket contact",
        )
        check = "Read L and earth just before and just after the RCD: the step is what it adds."
    else:
        causes = ("a loose connection", "a worn socket contact", "R1+R2 was read at a nearer point")
        check = "Repeat at the terminals of the point; then read R1+R2 there again."
    return Concern("zs-above-sum", Verdict.UNLIKELY, says, causes, check, cite.LOOP_METHOD, 20)


ZE = Rule(most_ze, _ze)
ZDB = Rule(most_loop, _zdb, three_ways)
ZS = Rule(most_loop, _zs, three_ways)
