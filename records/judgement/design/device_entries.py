"""Pairs of entries about devices, RCDs and loads that can't be so beside each other."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.design.odd import WRONG, odd
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.model.circuit import Circuit
from records.model.reading import Place
from records.model.wiring import Device, Rcd
from records.tables import devices
from records.terms import DeviceKind, Form, RcdStandard, Use, Verdict

_OLD = (DeviceKind.BS_3036, DeviceKind.BS_1361, DeviceKind.BS_88_2_2)
_FUSES_MADE = (1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 13.0)
"""A in which BS 1362 fuses are sold; 3 and 13 are the usual ones: common practice."""
_RCDS_MADE = (6.0, 10.0, 30.0, 100.0, 200.0, 300.0, 500.0, 1000.0)
"""mA in which RCDs are made: preferred values of IΔn, IEC 61008-1, 5.3.2, and 1 A of
IEC 60947-2, Annex B; both from memory."""
_SAME = 0.05
"""Share by which Ib may lie under the current of the load entered beside it."""


def device_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each contradiction between devices, RCDs, loads and their places."""
    feed = facts.record.feed
    yield from _device(facts, FEED, feed.device, new=False)
    yield from _rcd(facts, FEED, feed.rcd, feed.device)
    yield from _made(facts, BOARD, facts.record.board.rcd)
    yield from _behind_cutout(facts)
    for circuit, place in facts.circuits():
        yield from _device(facts, place, circuit.device, new=True)
        yield from _rcd(facts, place, circuit.rcd, circuit.device)
        yield from _fuse(facts, place, circuit)
        yield from _load(facts, place, circuit)
        yield from _ring(facts, place, circuit)


def _device(facts: Facts, place: Place, device: Device, *, new: bool) -> Iterator[Judged]:
    kind = device.kind
    if kind is None:
        return
    if kind is DeviceKind.BS_1362:
        yield odd(
            facts,
            place,
            "place of the device",
            f"A {kind.value} belongs in a plug or a connection unit, not at the start of a "
            f"{'circuit' if new else 'feed'}.",
            "Read the device itself, and enter what it is.",
            title="protective device",
            weight=50,
            causes=("the fuse of the connection unit was entered here",),
            source=cite.bs7671("Section 533"),
        )
    elif new and kind in _OLD:
        yield odd(
            facts,
            place,
            "place of the device",
            f"{kind.value} is met in old boards; the sub-board is new.",
            "Read the device itself, and enter what it is. If it is so, ask the certifier.",
            title="protective device",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
        )
    most = devices.highest_breaking(kind)
    if device.breaking is not None and device.breaking * 1000 > most.value + SLACK:
        yield odd(
            facts,
            place,
            "breaking capacity on the label",
            f"A {kind.value} is marked with {most.value / 1000:g} kA at most; "
            f"{device.breaking:g} kA is entered.",
            "Read the label again: 6000 in a box is 6 kA. Correct the figure, or the device.",
            title="breaking capacity on the label",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
            source=most.source,
            weight=30,
        )


def _rcd(facts: Facts, place: Place, rcd: Rcd, device: Device) -> Iterator[Judged]:
    yield from _made(facts, place, rcd)
    older = rcd.standard in (RcdStandard.BS_4293, RcdStandard.BS_7288)
    if rcd.standard is not None and older and device.kind is not None and device.kind.is_rcbo:
        yield odd(
            facts,
            place,
            "standard of the RCD",
            f"An {device.kind.value} is made to BS EN 61009-1, not to {rcd.standard.value}.",
            "Read the label. Correct the standard, or the device.",
            title="standard of the RCD",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
        )
    if rcd.residual is None and (rcd.delayed or rcd.standard is not None or rcd.type is not None):
        yield odd(
            facts,
            place,
            "RCD without IΔn",
            "Something is said of an RCD here, but no IΔn: it counts as none.",
            "Enter IΔn from its label, or clear what is said of it.",
            title="RCD without IΔn",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
            weight=30,
        )
    if rcd.delayed and rcd.standard is RcdStandard.BS_4293 and rcd.delay is None:
        yield odd(
            facts,
            place,
            "delay of the RCD",
            "The delay of this RCD to BS 4293 isn't entered. It opens after the delay on its "
            "label, so its longest time is not known.",
            "Read the delay off its label, and enter it.",
            title="delay of the RCD",
            verdict=Verdict.NOT_TAKEN,
        )
    if rcd.delay is not None and not (rcd.delayed and rcd.standard is RcdStandard.BS_4293):
        yield odd(
            facts,
            place,
            "delay of the RCD",
            f"A delay of {rcd.delay:g} ms is entered: only a delayed RCD to BS 4293 has one on "
            "its label.",
            "Read the label. Correct the standard, say that it is delayed, or clear the delay.",
            title="delay of the RCD",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
        )


def _made(facts: Facts, place: Place, rcd: Rcd) -> Iterator[Judged]:
    """Yield what there is to say of an IΔn that no RCD has: its tests and limits follow from it."""
    given = rcd.residual
    if given is None or any(abs(given - made) < SLACK for made in _RCDS_MADE):
        return
    meant = next((made for made in _RCDS_MADE if abs(given * 1000 - made) < SLACK), None)
    slip = "" if meant is None else f"A label of {given:g} A is {meant:g} mA."
    made = ", ".join(f"{each:g}" for each in _RCDS_MADE)
    yield odd(
        facts,
        place,
        "IΔn of the RCD",
        f"{given:g} mA is entered; RCDs are made for {made} mA. {slip}".rstrip(),
        "Read IΔn off the label of the RCD, and enter it in mA.",
        title="IΔn of the RCD",
        verdict=Verdict.UNLIKELY,
        causes=("A was entered for mA",) if meant is not None else WRONG,
        source=cite.RCDS_MADE,
        weight=40,
    )


def _behind_cutout(facts: Facts) -> Iterator[Judged]:
    rating, cutout = facts.record.feed.device.rating, facts.record.origin.cutout
    if rating is None or cutout is None or rating <= cutout + SLACK:
        return
    yield odd(
        facts,
        FEED,
        "supplier's fuse",
        f"The feed's device is {rating:g} A, the main (cut-out) fuse before it {cutout:g} A. The "
        "fuse would open first, and the house would go dark.",
        "Read both again. If they are correct, the certifier decides on a smaller device.",
        title="device and main (cut-out) fuse",
        verdict=Verdict.NEAR,
        causes=WRONG,
        source=cite.bs7671("Regulation 536.4.1"),
    )


_ROUNDED = 1.005
"""By how much a rounded power may be over a fuse: 3 kW at 230 V are 13.04 A (common practice)."""


def _fuse(facts: Facts, place: Place, circuit: Circuit) -> Iterator[Judged]:
    fuse = circuit.fuse
    if fuse is None:
        return
    if circuit.form is not None and circuit.form is not Form.FCU:
        yield odd(
            facts,
            place,
            "fuse without connection unit",
            f"A fuse of {fuse:g} A is entered, but the circuit is a {circuit.form.value}.",
            "Enter the arrangement as a radial to a connection unit, or clear the fuse.",
            title="fuse of the connection unit",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
        )
    if fuse not in _FUSES_MADE:
        yield odd(
            facts,
            place,
            "fuse of the connection unit",
            f"A BS 1362 fuse of {fuse:g} A is not made: {_FUSES_MADE[-1]:g} A is the largest.",
            "Read the fuse, and enter its rating.",
            title="fuse of the connection unit",
            causes=WRONG,
            source=cite.FUSE_1362,
            weight=30,
        )
    load = _largest_load(facts, circuit)
    if load is not None and fuse + SLACK < load <= fuse * _ROUNDED + SLACK:
        yield odd(
            facts,
            place,
            "load and fuse",
            f"The load is {load:.2f} A, the fuse of its connection unit {fuse:g} A. It is fully "
            "loaded, and warm for as long as it runs.",
            "Read the power and its voltage on the plate: 3 kW at 240 V draw 12.5 A. The certifier "
            "decides if it may be on this fuse.",
            title="load and fuse of the connection unit",
            verdict=Verdict.NEAR,
            causes=("the power is rounded, or meant at another voltage",),
            source=cite.OVERLOAD,
        )
    elif load is not None and load > fuse + SLACK:
        yield odd(
            facts,
            place,
            "load and fuse",
            f"The load is {load:.1f} A, the fuse of its connection unit {fuse:g} A: it opens in "
            "normal use, or overheats.",
            "Plan a smaller load, or connect it without the unit, on its own device.",
            title="load and fuse of the connection unit",
            weight=30,
            causes=("the load was counted too high", "the load needs its own circuit"),
            source=cite.OVERLOAD,
        )


def _largest_load(facts: Facts, circuit: Circuit) -> float | None:
    """Return the larger of Ib as entered and the current of the load in kW [A]."""
    by_power = None if circuit.power is None else circuit.power * 1000 / facts.record.origin.u0
    known = [each for each in (circuit.load, by_power) if each is not None]
    return max(known, default=None)


def _load(facts: Facts, place: Place, circuit: Circuit) -> Iterator[Judged]:
    if circuit.load is None or circuit.power is None:
        return
    draws = circuit.power * 1000 / facts.record.origin.u0
    if draws <= circuit.load * (1 + _SAME) + SLACK:
        return
    yield odd(
        facts,
        place,
        "Ib and load",
        f"Ib is entered as {circuit.load:g} A; {circuit.power:g} kW draw {draws:.1f} A. Ib counts.",
        "Correct the one that is wrong, or note what keeps Ib lower.",
        title="Ib and load",
        verdict=Verdict.UNLIKELY,
        causes=(*WRONG, "not all of the load is on at once"),
        weight=25,
        source=cite.OVERLOAD,
    )


def _ring(facts: Facts, place: Place, circuit: Circuit) -> Iterator[Judged]:
    if circuit.form is not Form.RING or circuit.use in (None, Use.SOCKETS):
        return
    yield odd(
        facts,
        place,
        "ring for its use",
        f"A ring final circuit is for sockets; this one is entered for {circuit.use.value}.",
        "Correct the use or the arrangement; else ask the certifier.",
        title="ring and its use",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
        source=cite.bs7671("Regulation 433.1.204"),
    )
