"""Zs at the furthest point: what feeds the circuit, and the circuit's own conductors."""

from __future__ import annotations

import math
from collections.abc import Iterator

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import AT_TERMINALS
from records.judgement.cable_path import parallel_path_fits
from records.judgement.compare import away, outside
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.loop_facts import (
    RCD_ADDS,
    high_range,
    is_calculated,
    open_loop,
    read_r1_r2,
    too_good,
    unsteady,
)
from records.judgement.loop.zdb import board_sum
from records.judgement.loop.zs import most_loop, three_ways
from records.judgement.older import read_again
from records.judgement.rule import Rule
from records.judgement.wording import amount, rounded
from records.model.circuit import Circuit
from records.model.needs import behind_rcd
from records.model.reading import Figure, Quantity, Reading, Slot, place_of, slot_of
from records.model.supply import Ground
from records.terms import Form, Part, Sign, Stage, Verdict
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
        if _zdb_tells(facts, reading, figure, "zdb-high"):
            return
        yield read_again(facts, reading, *_parts(facts, circuit)) or Concern(
            "zs-below-zdb",
            Verdict.UNLIKELY,
            f"It is lower than the sub-board's own loop, {amount(zdb, Unit.OHM)}: "
            "a circuit can't have less than what feeds it.",
            (
                "written against the wrong circuit",
                "read at another board or another point",
                *_parallel(facts, reading, figure),
            ),
            do(Act.AGAIN, "Read both again, at the point that is named."),
            cite.LOOP_METHOD,
            30,
        )
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
            "zs-sum-wrong",
            Verdict.UNLIKELY,
            f"Zdb and R1+R2 as measured add up to {amount(total, Unit.OHM)}.",
            ("added up wrongly, or from other readings",),
            do(Act.ENTER, "Add it up again from the readings in this record."),
            cite.LOOP_METHOD,
            10,
        )


_ADDED_UP = 0.025
"""Ω: two roundings to the last digit."""


LEAST_SHARE = 0.1
"""Ω that one loop reading taken off another may be off: common practice."""
PART = 0.3
"""Of the circuit's own conductors that it may be off, if that is more: common practice."""
REPEATED = 0.05
"""Of a loop that is read twice, by which the two may differ: common practice."""
NO_TRIP = 0.2
"""Ω more on a no-trip reading behind an RCD, before that is worth a look: common practice."""
_AS_DESIGNED = 0.05
"""Ω within which a loop is as the design has it."""


def share_allowed(own: float, zdb: float, *, no_trip: bool = False) -> float:
    """Return by how much Zs less Zdb may be off R1+R2 [Ω].

    Of the circuit's own share, not of the whole loop: a third of that hides half a circuit.

    Args:
        own: R1+R2 [Ω].
        zdb: The loop at the board [Ω]: through an electrode it is much, and scatters.
        no_trip: Whether an RCD in the path may have added to it.
    """
    return max(NO_TRIP if no_trip else LEAST_SHARE, PART * own, REPEATED * zdb)


def own_share(facts: Facts, circuit: Circuit) -> float | None:
    """Return R1+R2 of a circuit at its furthest point as read, else by the design [Ω]."""
    read = read_r1_r2(facts, circuit)
    return read if read is not None else _by_design(facts, circuit)


def _by_design(facts: Facts, circuit: Circuit) -> float | None:
    """Return what the design gives a circuit's own conductors in a live test [Ω]."""
    place = place_of(Part.CIRCUIT, circuit.id)
    zs = facts.meter_value(slot_of(Quantity.ZS, place, Stage.LIVE))
    zdb = facts.meter_value(slot_of(Quantity.ZDB, BOARD, Stage.LIVE))
    return None if zs is None or zdb is None else zs - zdb


def _against_sum(
    facts: Facts, reading: Reading, figure: Figure, circuit: Circuit, zdb: float | None
) -> Iterator[Concern]:
    no_trip = behind_rcd(facts.record, circuit) and not high_range(reading)
    if zdb is None:
        yield from _against_design(facts, reading, figure, circuit)
        return
    shares = {
        "as measured": read_r1_r2(facts, circuit),
        "by the design": _by_design(facts, circuit),
    }
    known = {name: each for name, each in shares.items() if each is not None}
    if not known:
        return
    how, low = min(known.items(), key=lambda item: item[1])
    if outside(figure, zdb + low, math.inf, share_allowed(low, zdb)) < 0:
        share = rounded(figure.value - zdb, Unit.OHM)
        if not _zdb_tells(facts, reading, figure, "zdb-high"):
            yield read_again(facts, reading, *_parts(facts, circuit)) or Concern(
                "zs-below-sum",
                Verdict.UNLIKELY,
                f"Less Zdb it leaves {share} for this circuit, whose R1+R2 {how} is "
                f"{rounded(low, Unit.OHM)}.",
                (
                    *_parallel(facts, reading, figure),
                    "read at a nearer point, such as the first socket",
                    "R1+R2 was read too high",
                ),
                _BY_LOOKING,
                cite.LOOP_METHOD,
                25,
            )
        return
    how, high = max(known.items(), key=lambda item: item[1])
    gap = outside(figure, 0.0, zdb + high, share_allowed(high, zdb, no_trip=no_trip))
    if gap > 0 and figure.sign is Sign.EQUAL and not _zdb_tells(facts, reading, figure, "zdb-low"):
        text = (
            f"Less Zdb it leaves {rounded(figure.value - zdb, Unit.OHM)} for this circuit, whose "
            f"R1+R2 {how} is {rounded(high, Unit.OHM)}"
        )
        found = _above(facts, reading, circuit, gap, text)
        yield read_again(facts, reading, *_parts(facts, circuit)) or found


def _against_design(
    facts: Facts, reading: Reading, figure: Figure, circuit: Circuit
) -> Iterator[Concern]:
    """Without Zdb only the whole loop can be held against what is expected of it."""
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked):
        return
    text = f"{expected} is expected"
    gap = away(figure, expected, max(NO_TRIP, PART * expected.value))
    if gap > 0 and figure.sign is Sign.EQUAL:
        yield _above(facts, reading, circuit, gap, text)
    elif gap < 0 and facts.record.origin.ze_ground is Ground.MEASURED:
        yield Concern(
            "zs-below-sum",
            Verdict.UNLIKELY,
            f"{text}: this is {rounded(-gap, Unit.OHM)} less.",
            (
                *_parallel(facts, reading, figure),
                "Ze was entered too high",
                "read at a nearer point",
            ),
            _BY_LOOKING,
            cite.LOOP_METHOD,
            5,
        )


def _parts(facts: Facts, circuit: Circuit) -> tuple[Slot | None, ...]:
    """Return the readings that a loop is made of."""
    place = place_of(Part.CIRCUIT, circuit.id)
    kinds = (Quantity.R1_R2,) if circuit.form is not Form.RING else (Quantity.R1, Quantity.R2)
    return (facts.slot_of(BOARD, Quantity.ZDB), *(facts.slot_of(place, each) for each in kinds))


def _zdb_tells(facts: Facts, reading: Reading, figure: Figure, pattern: str) -> bool:
    """Whether a loop is as the design has it, while Zdb beside it is doubted."""
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked) or away(figure, expected, _AS_DESIGNED):
        return False
    slot = facts.slot_of(BOARD, Quantity.ZDB)
    zdb = facts.last(slot) if slot is not None else None
    if zdb is None or not isinstance(zdb.taken, Figure):
        return False
    return any(each.pattern == pattern for each in board_sum(facts, zdb, zdb.taken))


def _above(facts: Facts, reading: Reading, circuit: Circuit, gap: float, text: str) -> Concern:
    says = f"{text}: this is {rounded(gap, Unit.OHM)} more."
    no_trip = behind_rcd(facts.record, circuit) and not high_range(reading)
    if no_trip and gap <= RCD_ADDS:
        says += (
            " An RCD in the path can add 0.1 to 0.6 Ω to a no-trip reading. It adds the same at "
            "every point of the circuit. Record both; nothing is taken off."
        )
        causes = (
            "the RCD in the path, on a no-trip reading",
            "a loose connection",
            "read at a worn socket contact",
        )
        check = AT_TERMINALS + do(
            Act.ASK,
            "If R1+R2 is correct, Zdb + R1+R2 counts beside the no-trip reading; the certifier "
            "decides.",
        )
    else:
        says += " That is more than an RCD adds to a no-trip reading." if no_trip else ""
        causes = ("a loose connection", "a worn socket contact", "R1+R2 was read at a nearer point")
        check = AT_TERMINALS + do(Act.AGAIN, "Then read Zs again.")
    return Concern("zs-above-sum", Verdict.UNLIKELY, says, causes, check, cite.LOOP_METHOD, 20)


_BY_LOOKING = do(
    Act.LOOK, "Find the parallel path by looking; name it. Nothing comes off while live."
) + do(Act.AGAIN, "Else read it again at the furthest point.")


ZS = Rule(most_loop, _zs, three_ways)
