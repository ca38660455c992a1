"""Design checks of residual current protection."""

from __future__ import annotations

from collections.abc import Iterator

from records.evidence import Source
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.design.line import line
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.judgement.wording import listed
from records.model.circuit import Circuit
from records.model.reading import Place
from records.model.wiring import Rcd
from records.terms import LoadKind, RcdType, Use, Verdict

_ADDITIONAL = 30.0
"""mA that an RCD for additional protection has at most: BS 7671, Regulation 415.1.1."""
_SOCKETS_UP_TO = 32.0
_RATIO = 3.0
_ALL_LARGE = " (none is asked for only if each of them is rated above 32 A)"


def rcd_lines(facts: Facts) -> Iterator[Judged]:
    """Return the RCD checks of each circuit, and of RCDs one after the other."""
    for circuit, place in facts.circuits():
        none = _electrode(facts, circuit, place)
        yield from none
        told_by = none[0].key if none and none[0].verdict is Verdict.OUTSIDE else ""
        yield _additional(facts, circuit, place, told_by)
        yield from _type(facts, circuit, place)
    yield from _case_of_board(facts)
    yield from _series(facts)


def _upstream(facts: Facts, circuit: Circuit) -> list[tuple[str, Rcd]]:
    record = facts.record
    chain = (("feed", record.feed.rcd), ("sub-board", record.board.rcd), (circuit.id, circuit.rcd))
    return [(name, rcd) for name, rcd in chain if rcd.residual is not None]


def _electrode(facts: Facts, circuit: Circuit, place: Place) -> list[Judged]:
    """With an electrode every circuit needs an RCD: no breaker opens on so little current."""
    if not facts.tt:
        return []
    base = line(facts, place, "TT protection", "RCD for a circuit earthed by an electrode")
    if _upstream(facts, circuit):
        why = "There is an RCD upstream."
        return [base._replace(verdict=Verdict.WITHIN, why=why, source=cite.TT_RCD)]
    if _nameless(circuit):
        return [base._replace(why=_IDN.format(circuit.id))]
    return [
        base._replace(
            verdict=Verdict.OUTSIDE,
            why="There is no RCD upstream: through an electrode too little current flows for a "
            "breaker or fuse to open.",
            next_check=_OFF_WITHOUT.text(),
            source=cite.TT_RCD,
            weight=170,
        )
    ]


def _case_of_board(facts: Facts) -> Iterator[Judged]:
    """With an electrode at the outbuilding: a fault to its board, before the RCDs of its circuits.

    None of those sees it, and the fuse before the feed needs far more current than the electrode
    lets flow.
    """
    record = facts.record
    before = record.board.rcd.residual or record.feed.rcd.residual
    if not facts.tt_island or before is not None:
        return
    if not any(circuit.rcd.residual is not None for circuit in record.circuits):
        return  # what has no RCD at all is told at each circuit
    yield line(facts, BOARD, "TT protection", "RCD for the sub-board itself")._replace(
        verdict=Verdict.NEAR,
        why="There is no RCD before those of its circuits. A fault to the case of the sub-board, "
        "or to its tails, would not be disconnected. All of that has to be class II; the "
        "certifier decides.",
        next_check=plan(
            "An enclosure of class II up to the RCDs of the circuits. Else an RCD at the house, "
            "delayed."
        ),
        source=cite.TT_RCD,
        weight=60,
    )


_OFF_WITHOUT = do(
    Act.LEAVE_OFF, "Leave it off: an earth fault here would not be disconnected."
) + do(Act.PLAN, "An RCD at the sub-board, or an RCBO for this circuit.")


def _reasons(circuit: Circuit) -> list[tuple[str, Source]]:
    reasons = []
    rating = circuit.device.rating
    small = rating is None or rating <= _SOCKETS_UP_TO
    if circuit.use is Use.SOCKETS:
        # It is the outlets' own rating that counts: 13 A sockets on a 40 A device need it too.
        words = "it feeds socket-outlets" + (" up to 32 A" if small else _ALL_LARGE)
        reasons.append((words, cite.RCD_SOCKETS))
    if circuit.outdoors and small:
        reasons.append(("it feeds something outdoors", cite.RCD_SOCKETS))
    if circuit.use is Use.LIGHTING:
        reasons.append(("it feeds lamps of a household", cite.RCD_LIGHTING))
    armoured = bool(circuit.runs) and all(
        run.cable is not None and run.cable.is_armoured for run in circuit.runs
    )
    if circuit.kind is LoadKind.VEHICLE:
        reasons.append(("it charges a vehicle", cite.VEHICLE_RCD))
    if circuit.hidden and not armoured:
        reasons.append(("its cable is hidden less than 50 mm deep", cite.RCD_HIDDEN))
    return reasons


def _additional(facts: Facts, circuit: Circuit, place: Place, told_by: str) -> Judged:
    base = line(facts, place, "30 mA protection", "additional protection by a 30 mA RCD")
    reasons = _reasons(circuit)
    before = _upstream(facts, circuit)
    found = [(name, rcd) for name, rcd in before if _is_additional(rcd)]
    if found:
        name, rcd = found[-1]
        why = (
            f"{rcd.residual:g} mA at the {name}."
            if name != circuit.id
            else (f"{rcd.residual:g} mA on its own.")
        )
        source = reasons[0][1] if reasons else cite.RCD_SOCKETS
        return base._replace(verdict=Verdict.WITHIN, why=why, source=source)
    if _nameless(circuit):
        return base._replace(why=_IDN.format(circuit.id))
    if reasons:
        asked = listed([words for words, _ in reasons])
        return base._replace(
            verdict=Verdict.OUTSIDE,
            part_of=told_by,
            why=f"{_none(before)} protects it, though {asked}.",
            next_check=plan(
                "An RCBO of 30 mA for this circuit, or a 30 mA RCD upstream; neither delayed."
            ),
            source=cite.ADDITIONAL if before else reasons[0][1],
            weight=160,
        )
    unknown = [
        words
        for value, words in (
            (circuit.use, "its use"),
            (circuit.outdoors, "whether it feeds anything outdoors"),
            (circuit.hidden, "whether it is concealed less than 50 mm deep"),
        )
        if value is None
    ]
    if unknown:
        why = f"Not calculated: say {listed(unknown)} (Circuits, {circuit.id})."
        return base._replace(why=why)
    return base._replace(
        verdict=Verdict.NOT_NEEDED,
        why="Neither sockets nor lamps nor anything outdoors, and not hidden: none is asked for.",
    )


def _is_additional(rcd: Rcd) -> bool:
    """Whether an RCD opens soon enough for a person who touches a line conductor.

    30 mA at most, and without delay: at 5 × IΔn it opens within 40 ms (BS 7671, Regulation
    415.1.1, from memory); a delayed one waits longer than that on purpose.
    """
    return rcd.residual is not None and rcd.residual <= _ADDITIONAL and not rcd.delayed


def _none(before: list[tuple[str, Rcd]]) -> str:
    """Return that no RCD protects a person, and why those that are there don't."""
    if not before:
        return "No 30 mA RCD"
    lacks = [
        f"{name}: {rcd.residual:g} mA{', delayed' if rcd.delayed else ''}" for name, rcd in before
    ]
    return f"No 30 mA RCD without delay ({'; '.join(lacks)})"


_IDN = "Not calculated: IΔn of the RCBO is not entered yet (Circuits, {})."


def _nameless(circuit: Circuit) -> bool:
    """Whether it is an RCBO whose residual current isn't entered."""
    kind = circuit.device.kind
    return kind is not None and kind.is_rcbo and circuit.rcd.residual is None


def _type(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """Type AC sees only sinusoidal currents: electronics on a socket can blind it."""
    chain = _upstream(facts, circuit)
    if all(rcd.type is None for _, rcd in chain):
        return
    base = line(facts, place, "RCD type", "type of its RCD")
    kind = chain[-1][1].type
    if kind is not RcdType.AC:
        yield _not_blind(base, circuit, chain)
        return
    sockets = circuit.use is Use.SOCKETS or circuit.kind is LoadKind.VEHICLE
    yield base._replace(
        verdict=Verdict.OUTSIDE if sockets else Verdict.NEAR,
        why="Type AC is only for a fixed load known to have no direct current in it"
        + (
            "; anything can be plugged in here."
            if sockets
            else ": drivers and motors may have. The certifier decides if it may stay."
        ),
        next_check=plan("A type A device, or what the maker of the load asks for."),
        source=cite.RCD_TYPE,
        weight=20,
    )


def _not_blind(base: Judged, circuit: Circuit, chain: list[tuple[str, Rcd]]) -> Judged:
    """Return the check where the RCD nearest to the load isn't of type AC, or isn't known."""
    (own, nearest), before = chain[-1], [name for name, rcd in chain if rcd.type is RcdType.AC]
    if nearest.type is None:
        at = f"Circuits, {circuit.id}" if own == circuit.id else own.capitalize()
        return base._replace(why=f"Not calculated: its type is not entered yet ({at}).")
    words = f"Type {nearest.type.value}"
    if not before:
        return base._replace(verdict=Verdict.WITHIN, why=f"{words}.", source=cite.RCD_TYPE)
    return base._replace(
        verdict=Verdict.NEAR,
        why=f"{words}; the RCD before it ({listed(before)}) is type AC. Direct current from here "
        "flows through that too, and can blind it. The certifier decides if it may stay.",
        next_check=plan("A type A device there."),
        source=cite.RCD_TYPE,
        weight=10,
    )


def _series(facts: Facts) -> Iterator[Judged]:
    record = facts.record
    if record.feed.rcd.residual is not None and record.board.rcd.residual is not None:
        yield _pair(facts, BOARD, ("feed", record.feed.rcd), ("sub-board", record.board.rcd))
    before = [
        (name, rcd)
        for name, rcd in (("feed", record.feed.rcd), ("sub-board", record.board.rcd))
        if rcd.residual is not None
    ]
    behind = [
        (circuit.id, circuit.rcd) for circuit in record.circuits if circuit.rcd.residual is not None
    ]
    if before and behind:
        place = BOARD if before[-1][0] == "sub-board" else FEED
        largest = max(behind, key=lambda each: each[1].residual or 0.0)
        found = _pair(facts, place, before[-1], largest)
        yield found._replace(key=found.key.replace("RCDs in series", "RCDs before circuits"))


def _pair(facts: Facts, place: Place, up: tuple[str, Rcd], down: tuple[str, Rcd]) -> Judged:
    base = line(facts, place, "RCDs in series", "RCDs one after the other")
    (before, first), (after, second) = up, down
    ratio = (first.residual or 0.0) / (second.residual or 1.0)
    words = (
        f"{before}: {first.residual:g} mA{', delayed' if first.delayed else ''}; "
        f"{after}: {second.residual:g} mA{', delayed' if second.delayed else ''}."
    )
    if first.delayed and not second.delayed and ratio >= _RATIO:
        why = f"{words} A fault behind the second trips only that."
        return base._replace(verdict=Verdict.WITHIN, why=why, source=cite.RCD_IN_SERIES)
    lacks = (
        "the first isn't delayed"
        if not first.delayed
        else "both are delayed"
        if second.delayed
        else f"the first is less than {_RATIO:g} times the second"
    )
    return base._replace(
        verdict=Verdict.NEAR,
        why=f"{words} Both can trip together: {lacks}. The certifier decides if they may.",
        causes=("a larger IΔn alone does not make one wait for the other",),
        next_check=plan("A delayed RCD upstream of three times the IΔn, or the designer's reason."),
        source=cite.RCD_IN_SERIES,
        weight=5,
    )
