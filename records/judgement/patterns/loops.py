"""An earth of its own that is none: the island is joined to another earth by some metal."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.loop_facts import TT_LEAST
from records.judgement.loop.zdb import JOINED, LIFT
from records.model.reading import Quantity, slot_of
from records.terms import Part, Sign, Stage, Verdict


def joined_island(facts: Facts) -> Iterator[Pattern]:
    """A loop of next to nothing where only an electrode should be in it."""
    if not facts.tt_island:
        return
    zdb = slot_of(Quantity.ZDB, BOARD, Stage.LIVE)
    low = tuple(
        slot
        for slot in facts.all_slots
        if slot.quantity in (Quantity.ZDB, Quantity.ZS)
        and (figure := facts.figure(slot)) is not None
        and figure.sign is not Sign.OVER
        and 0 <= figure.value < TT_LEAST + (SLACK if figure.sign is Sign.UNDER else 0)
    )
    if not low:
        return
    fault = slot_of(Quantity.FAULT_LE, BOARD, Stage.LIVE)
    about = (*low, fault) if facts.plain(fault) is not None else low
    concern = Concern(
        "island joined",
        Verdict.UNLIKELY,
        f"Under {TT_LEAST:g} Ω cannot be the electrode alone: the outbuilding is joined to another "
        "earth. Low is not good here.",
        JOINED,
        LIFT,
        cite.bs7671("Regulations 411.5 and 542.1"),
        100,
    )
    title = f"{Part.BOARD.value.capitalize()}: its own earth"
    into = zdb if zdb in low else None
    yield Pattern(concern, BOARD, title, about, about, into=into)
