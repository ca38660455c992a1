"""The polarity of the supply, ticked right against the voltages beside it."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.wording import amount
from records.model.reading import Quantity, Tick, slot_of
from records.terms import Stage, Verdict
from records.units import Unit


def contradicted(facts: Facts) -> Iterator[Pattern]:
    """Polarity correct, while N-E or L-E shows that it can't be."""
    polarity = slot_of(Quantity.POLARITY, BOARD, Stage.LIVE)
    last = facts.last(polarity)
    if last is None or not isinstance(last.taken, Tick) or not last.taken.good:
        return
    half = facts.record.origin.u0 / 2
    for quantity in (Quantity.VOLTAGE_NE, Quantity.VOLTAGE_LE):
        slot = slot_of(quantity, BOARD, Stage.LIVE)
        volts = facts.plain(slot)
        if volts is None or (volts > half) is not (quantity is Quantity.VOLTAGE_NE):
            continue
        concern = Concern(
            "polarity-contradicted",
            Verdict.UNLIKELY,
            f"{quantity.value[:1].upper()}{quantity.value[1:]} of {amount(volts, Unit.VOLT, 0)} "
            "says otherwise.",
            ("ticked before the voltages were read", "a voltage read at the wrong terminals"),
            do(Act.LEAVE_OFF, "Main switch off.")
            + do(Act.READ_LIVE, "Read L-N, L-E and N-E again at its incoming terminals.")
            + do(Act.LEAVE_OFF, "Then lock the feed off at the house."),
            cite.POLARITY,
            55,
        )
        title = "Board: polarity and voltages"
        yield Pattern(concern, BOARD, title, (polarity, slot), into=polarity)
        return
