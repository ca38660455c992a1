"""What was noticed in use joins the findings that it belongs to, or is a finding of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.expected.results import What
from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.noticed import Noticed
from records.model.reading import Quantity, place_of
from records.terms import Part, Symptom, Verdict

_PAIRS = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE, Quantity.IR_GROUP)
_LOOPS = (Quantity.ZE, Quantity.ZDB, Quantity.ZS)
_PATHS = (Quantity.R1_R2, Quantity.R1, Quantity.RN, Quantity.CROSS_LN, Quantity.RN_R2)
_VOLTS = (Quantity.VOLTAGE, Quantity.VOLTAGE_LOADED, Quantity.VOLTAGE_LE, Quantity.VOLTAGE_NE)
_RCD = (Quantity.RCD_HALF, Quantity.RCD_RAMP, Quantity.RCD_ALONE, Quantity.RCD_LOADED)


@dataclass(frozen=True, slots=True)
class _Kind:
    """Which findings a symptom belongs to, and what to do where none shows it (common practice)."""

    quantities: tuple[Quantity, ...]
    whats: tuple[What, ...]
    causes: tuple[str, ...]
    check: Advice


_KINDS: dict[Symptom, _Kind] = {
    Symptom.RAIN: _Kind(
        (*_PAIRS, *_RCD),
        (),
        ("water in a box, a gland or an outdoor fitting", "a damp heating element"),
        do(Act.READ_DEAD, "Read insulation again on a wet day, each outdoor part alone."),
    ),
    Symptom.SWITCHED_ON: _Kind(
        (Quantity.RN_R2, Quantity.IR_NE, Quantity.IR_LE, *_RCD),
        (),
        (
            "a neutral on another RCD's side, or borrowed",
            "the load itself leaks",
            "neutral and earth joined on this circuit",
        ),
        do(Act.READ_DEAD, "Read Rn+R2 and insulation N-E of this circuit; then each load alone."),
    ),
    Symptom.HOT: _Kind(
        (*_PATHS, *_LOOPS, *_VOLTS),
        (What.IZ, What.IB),
        ("a loose terminal: it can start a fire", "worn contacts, or more load than it is for"),
        do(Act.LEAVE_OFF, "Switch it off and lock it off.")
        + do(Act.OPEN, "Open this point: tighten to the maker's torque, or change what is burnt."),
    ),
    Symptom.FLICKER: _Kind(
        (*_PATHS, *_LOOPS, *_VOLTS),
        (What.VOLT_DROP,),
        (
            "a loose line or neutral in the feed or this circuit",
            "the supply's neutral",
            "a large load that starts",
        ),
        do(Act.READ_DEAD, "Read R1+R2 of the feed and of this circuit again, and its neutral."),
    ),
    Symptom.TINGLE: _Kind(
        (
            *_LOOPS,
            Quantity.EARTHING,
            Quantity.BONDING,
            Quantity.R1_R2,
            Quantity.R2,
            Quantity.CROSS_LE,
            Quantity.IR_LE,
            Quantity.VOLTAGE_LE,
            Quantity.VOLTAGE_NE,
            Quantity.POLARITY,
            Quantity.ELECTRODE,
        ),
        (),
        (
            "an earth that is broken or not landed",
            "a lost neutral of the supply",
            "a load that leaks, with no earth",
        ),
        do(Act.LEAVE_OFF, "Touch none of it, keep others off. Switch it off and lock it off.")
        + do(Act.ASK, "If it stays live, ring the network operator's emergency number."),
    ),
}
"""By symptom; a fault shows in one of these readings or design checks."""


def with_symptoms(facts: Facts, lines: Sequence[Judged]) -> list[Judged]:
    """Return the lines with each symptom said at the findings that it belongs to.

    A symptom that no finding explains is a line of its own: something is wrong that no reading
    shows yet.
    """
    told = list(lines)
    for each in facts.record.noticed:
        if each.kind is None:
            continue
        kind = _KINDS[each.kind]
        found = [at for at, line in enumerate(told) if _belongs(line, each, kind)]
        for at in found:
            told[at] = told[at]._replace(why=f"{told[at].why} Noticed in use: {_words(each)}.")
        if not found:
            told.append(_own(facts, each, each.kind, kind))
    return told


def _belongs(line: Judged, noticed: Noticed, kind: _Kind) -> bool:
    if not line.is_trouble:
        return False
    # What feeds a circuit can show in it; another circuit can't.
    same = noticed.circuit is None or line.place.circuit in (None, noticed.circuit)
    about = line.about if line.slot is None else (line.slot, *line.about)
    return same and (
        line.what in kind.whats or any(slot.quantity in kind.quantities for slot in about)
    )


def _words(noticed: Noticed) -> str:
    name = noticed.kind.value if noticed.kind is not None else ""
    note = noticed.note.strip().rstrip(".")
    return f"{name} ({note})" if note else name


def _own(facts: Facts, noticed: Noticed, symptom: Symptom, kind: _Kind) -> Judged:
    known = any(each.id == noticed.circuit for each in facts.record.circuits)
    place = place_of(Part.CIRCUIT, noticed.circuit) if known else BOARD
    key = f"{place.part.code}/{place.circuit or '-'}/{noticed.id}/in use/{symptom.code}"
    return Judged(
        key,
        Verdict.UNLIKELY,
        place,
        f"{facts.title(place)}: {symptom.value}",
        f"Noticed in use: {_words(noticed)}. No reading shows why yet.",
        causes=kind.causes,
        next_check=kind.check.text(None, place.part),
        source=cite.COMMON,
        patterns=(f"symptom: {symptom.code}",),
        weight=_WEIGHT.get(symptom, 20),
    )


_WEIGHT = {Symptom.TINGLE: 90, Symptom.HOT: 80}
