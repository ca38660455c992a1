"""The design checks: every pair of figures that has to fit together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from records.expected.results import What
from records.judgement.advice import Act, do
from records.judgement.design.contradictions import odd_lines
from records.judgement.design.cpc_size import let_through, needs_current
from records.judgement.design.disconnection_time import time_line, with_its_rcd
from records.judgement.design.earth_ends import earth_end_lines
from records.judgement.design.earthing import earth_lines
from records.judgement.design.edition import edition_lines
from records.judgement.design.load_and_cable import cable_advice, load_advice
from records.judgement.design.load_checks import load_lines, where_lamps_are
from records.judgement.design.pairs import CHECKS, checked
from records.judgement.design.point_entries import point_lines
from records.judgement.design.rcd_checks import rcd_lines
from records.judgement.design.ring_checks import ring_capacity, ring_size
from records.judgement.design.vehicle import vehicle_lines
from records.judgement.design.worse_readings import told_by_readings, without_readings
from records.judgement.fabric.all_checks import fabric_lines
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged
from records.judgement.wording import amount
from records.model.circuit import Circuit
from records.model.reading import Place, Quantity, slot_of
from records.model.wiring import Device
from records.terms import Form, Stage, Verdict
from records.units import Unit


def design_lines(facts: Facts) -> list[Judged]:
    """Return a line for every design check of the feed, the board and each circuit.

    What was read and is worse than the design counts in them.
    """
    lines = _checks(facts)
    without = (each for one in (facts,) for each in _checks(without_readings(one)))
    return _once([*told_by_readings(facts, lines, without), *fabric_lines(facts)])


def _checks(facts: Facts) -> list[Judged]:
    lines: list[Judged] = []
    for circuit, place in ((None, FEED), *facts.circuits()):
        work = partial(_of_branch, facts, place, circuit)
        lines += facts.reuse.once(("design", place), work)
    for rule in _OF_ALL:
        lines += facts.found_by(rule)
    return lines


_OF_ALL: tuple[Callable[[Facts], Iterable[Judged]], ...] = (
    earth_lines,
    rcd_lines,
    odd_lines,
    edition_lines,
    load_lines,
    earth_end_lines,
    point_lines,
    vehicle_lines,
)


def _of_branch(facts: Facts, place: Place, circuit: Circuit | None) -> tuple[Judged, ...]:
    return tuple(_branch(facts, place, circuit))


def _branch(facts: Facts, place: Place, circuit: Circuit | None) -> Iterator[Judged]:
    ring = circuit is not None and circuit.form is Form.RING
    loop: Judged | None = None
    for check in CHECKS:
        if check.what is What.VOLT_DROP and circuit is None:
            continue  # the feed's drop counts in that of each circuit
        if check.what is What.IZ and ring:
            yield ring_capacity(facts, place)
            continue
        found = checked(facts, place, check)
        if check.what is What.ZS:
            loop = found = with_its_rcd(facts, place, found)
        device = facts.record.feed.device if circuit is None else circuit.device
        if check.what is What.IB:
            found = load_advice(facts, device, found)
        if check.what is What.IZ:
            found = cable_advice(facts, found)
        if check.what is What.FAULT_HIGHEST:
            found = _by_label(_as_read(facts, place, found), device, facts.title(place))
        if check.what is What.VOLT_DROP:
            found = where_lamps_are(facts, found)
        if check.what is What.CPC_SIZE:
            found = let_through(facts, place, needs_current(facts, place, found))
        yield found
    yield time_line(facts, place, loop)
    if ring and circuit is not None:
        yield ring_size(facts, place, circuit)


def _by_label(found: Judged, device: Device, title: str) -> Judged:
    """Let no breaking capacity stand as shown that was only assumed by the kind of device."""
    if found.verdict is not Verdict.WITHIN or device.breaking is not None:
        return found
    look = do(Act.LOOK, f"Read the breaking capacity off the label, covers on; enter it ({title}).")
    check = look.text()
    return found._replace(verdict=Verdict.NOT_TAKEN, next_check=check)


def _as_read(facts: Facts, place: Place, found: Judged) -> Judged:
    """Let a fault current that was read and is inside soften one worked out on the worst side."""
    if found.verdict is not Verdict.OUTSIDE or found.limit is None:
        return found
    where = ORIGIN if place == FEED else BOARD
    slots = [
        slot_of(quantity, where, Stage.LIVE) for quantity in (Quantity.FAULT_LN, Quantity.FAULT_LE)
    ]
    values = [facts.plain(slot) for slot in slots]
    inside = all(own_line(facts, slot).verdict is Verdict.WITHIN for slot in slots)
    if not inside or any(value is None for value in values):
        return found
    read = amount(max(value for value in values if value is not None), Unit.KILOAMPERE)
    why = f"{found.why} Read there: {read}, inside; the certifier decides which counts."
    return found._replace(verdict=Verdict.NEAR, why=why)


def _once(lines: list[Judged]) -> list[Judged]:
    """Let one line tell what several would say in the same words.

    An input that is missing for several figures of a place; a fault current at the sub-board that
    is too high for the devices of several circuits.
    """
    first: dict[tuple[object, str], str] = {}
    done = []
    for each in lines:
        told = ""
        if each.verdict is Verdict.NOT_TAKEN:
            told = first.setdefault((each.place, each.why), each.key)
        elif each.what is What.BREAKING and each.verdict.is_finding and each.place != FEED:
            told = first.setdefault((each.verdict, each.why), each.key)
        done.append(each._replace(part_of=told) if told not in ("", each.key) else each)
    return done
