"""The loop at a far point: what feeds the circuit, and the circuit's own conductors."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import AT_TERMINALS
from records.judgement.cable_path import parallel_path_fits
from records.judgement.compare import away, outside
from records.judgement.concern import Concern
from records.judgement.continuity.path import R1_R2
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.loop_facts import (
    RCD_ADDS,
    behind_rcd,
    below_expected,
    high_range,
    is_calculated,
    open_loop,
    read_r1_r2,
    too_good,
    unsteady,
)
from records.judgement.loop.zdb import board_sum
from records.judgement.loop.zs import most_loop, three_ways
from records.judgement.rule import Rule
from records.judgement.wording import amount, rounded
from records.model.circuit import Circuit
from records.model.reading import Figure, Quantity, Reading
from records.model.supply import Ground
from records.terms import Form, Sign, Verdict
from records.units import Unit


def _zs(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from unsteady(facts, reading)
    circuit = facts.circuit_of(reading.slot)
    if circuit is None:
        return
    if is_calculated(reading):
        yield from _wrong_sum(facts, figure, circuit)
        return
    nothing = open_loop(facts, reading, figure)
    if nothing is not None:
        yield nothing
        return
    yield from too_good(reading, figure)
    zdb = facts.plain_at(BOARD, Quantity.ZDB)
    if zdb is not None and outside(figure, zdb, zdb, max(0.05, 0.1 * zdb)) < 0:
        yield Concern(
            "zs-below-zdb", Verdict.UNLIKELY,
            f"It is lower than the sub-board's own loop, {amount(zdb, Unit.OHM)}: "
            "a circuit can't have less than what feeds it.",
            ("written against the wrong circuit", "read at another board or another point",
             *_parallel(facts, reading, figure)),
            do(Act.AGAIN, "Read both again, at the point that is named."), cite.LOOP_METHOD, 30,
        )  # fmt: skip
        return
    yield from _against_sum(facts, reading, figure, circuit, zdb)


def _parallel(facts: Facts, reading: Reading, figure: Figure) -> tuple[str, ...]:
    """Return the parallel path as a cause, if the line conductors alone don't have more."""
    if not parallel_path_fits(facts, reading, figure.value):
        return ()
    return ("a parallel path by bonding, structure or pipes",)


def _wrong_sum(facts: Facts, figure: Figure, circuit: Circuit) -> Iterator[Concern]:
    """A loop that was worked out, and isn't the sum of what it was worked out from."""
    zdb, r1_r2 = facts.plain_at(BOARD, Quantity.ZDB), read_r1_r2(facts, circuit)
    if zdb is None or r1_r2 is None:
        return
    total = zdb + r1_r2
    if outside(figure, total, total, _ADDED_UP):
        yield Concern(
            "zs-sum-wrong", Verdict.UNLIKELY,
            f"Zdb and R1+R2 as read add up to {amount(total, Unit.OHM)}.",
            ("added up wrongly, or from other readings",),
            do(Act.ENTER, "Add it up again from the readings in this record."),
            cite.LOOP_METHOD, 10,
        )  # fmt: skip


_ADDED_UP = 0.025
"""Ω: two roundings to the last digit."""


def _against_sum(
    facts: Facts, reading: Reading, figure: Figure, circuit: Circuit, zdb: float | None
) -> Iterator[Concern]:
    r1_r2 = read_r1_r2(facts, circuit)
    if zdb is not None and r1_r2 is not None:
        total = zdb + r1_r2
        text = f"Zdb and R1+R2 as read add up to {amount(total, Unit.OHM)}"
        gap = outside(figure, total, total, max(0.2 if figure.value > total else 0.1, 0.3 * total))
        low_counts = below_expected(facts, reading, figure)
        if gap > 0 and _part_too_low(facts, reading, figure, circuit):
            return  # that part tells it: this loop is as the design has it
    else:
        expected = facts.meter(reading.slot)
        if not isinstance(expected, Worked):
            return
        text = f"{expected} is expected"
        gap = away(figure, expected, max(0.2, 0.3 * expected.value))
        low_counts = zdb is not None or facts.record.origin.ze_ground is Ground.MEASURED
    if gap > 0 and figure.sign is Sign.EQUAL:
        yield _above(facts, reading, circuit, gap, text)
    elif gap < 0 and low_counts:
        yield Concern(
            "zs-below-sum", Verdict.UNLIKELY, f"{text}: this is {rounded(-gap, Unit.OHM)} less.",
            (*_parallel(facts, reading, figure), "R1+R2 was read too high",
             "read at a nearer point"),
            _BY_LOOKING, cite.LOOP_METHOD, 5,
        )  # fmt: skip


def _part_too_low(facts: Facts, reading: Reading, figure: Figure, circuit: Circuit) -> bool:
    """Whether a loop is as the design has it, while a part of its sum is doubted for being low."""
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked) or away(figure, expected, 0.05) > 0:
        return False
    place = reading.slot.place
    zdb = facts.slot_of(BOARD, Quantity.ZDB)
    run = facts.slot_of(place, Quantity.R1_R2) if circuit.form is not Form.RING else None
    low_run = ("r1r2-low", "below-nought")
    for slot, rule, low in ((zdb, board_sum, ("zdb-low",)), (run, R1_R2.concerns, low_run)):
        part = facts.last(slot) if slot is not None else None
        if part is None or not isinstance(part.taken, Figure):
            continue
        if any(each.pattern in low for each in rule(facts, part, part.taken)):
            return True
    return False


def _above(facts: Facts, reading: Reading, circuit: Circuit, gap: float, text: str) -> Concern:
    says = f"{text}: this is {rounded(gap, Unit.OHM)} more."
    no_trip = behind_rcd(facts, circuit) and not high_range(reading)
    if no_trip and gap <= RCD_ADDS:
        says += (
            " An RCD in the path can add 0.1 to 0.6 Ω to a no-trip reading, the same at every "
            "point of the circuit. Record both; nothing is taken off."
        )
        causes = (
            "the RCD in the path, on a no-trip reading",
            "a loose connection",
            "read at a worn socket contact",
        )
        check = AT_TERMINALS + do(
            Act.ASK,
            "If R1+R2 is right, Zdb + R1+R2 counts beside the no-trip reading; the certifier "
            "decides.",
        )
    else:
        says += " That is more than an RCD adds to a no-trip reading." if no_trip else ""
        causes = ("a loose connection", "a worn socket contact", "R1+R2 was read at a nearer point")
        check = AT_TERMINALS + do(Act.AGAIN, "Then read Zs again.")
    return Concern("zs-above-sum", Verdict.UNLIKELY, says, causes, check, cite.LOOP_METHOD, 20)


_BY_LOOKING = do(
    Act.LOOK, "Find the parallel path by looking; name it. Nothing comes off while live."
) + do(Act.AGAIN, "Else read it again at the far point.")


ZS = Rule(most_loop, _zs, three_ways)
