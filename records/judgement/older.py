"""A reading that is older than what it is held against: it is read again before it is explained."""

from __future__ import annotations

from records.days import moment_words
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.model.measurements import MEASUREMENTS
from records.model.reading import Reading, Slot
from records.terms import Stage, Verdict

_ORDER = {(entry.part, entry.quantity): at for at, entry in enumerate(MEASUREMENTS)}
_STAGES = list(Stage)


def read_again(facts: Facts, reading: Reading, *against: Slot | None) -> Concern | None:
    """Return that a reading is to be repeated: what comes before it was read again since.

    In the order of the tests what a reading is held against comes first. Where it is younger all
    the same, it was read again, and the two show different states: no fault follows from that.

    Args:
        facts: The record.
        reading: What is judged.
        against: The readings that it is held against; None for one that there isn't.
    Returns:
        None if the reading is the younger one.
    """
    own = _place(reading.slot)
    for slot in against:
        last = facts.last(slot) if slot is not None else None
        if last is None or last.at <= reading.at or _place(last.slot) >= own:
            continue
        return Concern(
            "read again",
            Verdict.UNLIKELY,
            f"It is older than {last.slot.quantity.value} beside it ({moment_words(reading.at)}; "
            f"{moment_words(last.at)}), and they don't agree.",
            ("something was done between the two readings",),
            do(Act.AGAIN, "Read it again; then compare."),
            cite.RETEST,
            12,
        )
    return None


def _place(slot: Slot) -> tuple[int, int]:
    return _STAGES.index(slot.stage), _ORDER[slot.place.part, slot.quantity]
