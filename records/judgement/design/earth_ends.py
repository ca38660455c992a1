"""Where the armour of the feed is earthed, and an electrode beside an earth that is exported."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.design.odd import WRONG, odd
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.terms import ArmourEarthed, Cpc, Earthing, OutbuildingEarth, Verdict

_ARMOUR = "armour earthed"
_REACHES = (ArmourEarthed.OUTBUILDING, ArmourEarthed.BOTH)


def earth_end_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each thing said about the earth's ends that can't stay so."""
    yield from _armour(facts)
    yield from _mixture(facts)


def _armour(facts: Facts) -> Iterator[Judged]:
    end = facts.record.feed.armour_earthed
    if end is None:
        return
    runs = facts.record.feed.runs
    armoured = any(run.cable is not None and run.cable.is_armoured for run in runs)
    if runs and not armoured:
        yield odd(
            facts,
            FEED,
            _ARMOUR,
            f"The armour is entered as earthed {end.value}, and no run of the feed has one.",
            "Look at the cable. Correct the cable, or leave the armour empty.",
            title="armour and the cable of the feed",
            causes=WRONG,
        )
        return
    if end is ArmourEarthed.NEITHER:
        yield odd(
            facts,
            FEED,
            _ARMOUR,
            "The armour is earthed at neither end: a spade through the cable makes it live.",
            "Plan it earthed at the house, so that the feed's device opens.",
            title="armour earthed",
            source=cite.ARMOUR_EARTHED,
            weight=60,
        )
    elif facts.tt_island and end in _REACHES:
        yield odd(
            facts,
            FEED,
            _ARMOUR,
            f"The armour is earthed {end.value}. It joins the earth of the house to the electrode "
            "of the outbuilding.",
            "Plan it earthed at the house only: cut back, insulated and labelled at the "
            "outbuilding. The designer decides.",
            title="armour earthed",
            source=cite.bs7671("Regulations 411.5 and 542.1"),
            weight=70,
        )
    elif end is not ArmourEarthed.BOTH and any(
        run.cpc in (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR) for run in runs
    ):
        yield odd(
            facts,
            FEED,
            _ARMOUR,
            f"The armour serves as cpc of the feed, and is earthed {end.value} only.",
            "Look at both glands. Enter where it is earthed, or what serves as cpc.",
            title="armour as cpc of the feed",
            causes=WRONG,
            source=cite.bs7671("Section 543"),
            weight=60,
        )
    elif end is ArmourEarthed.OUTBUILDING:
        yield odd(
            facts,
            FEED,
            _ARMOUR,
            "The armour is earthed at the outbuilding only: a spade through the cable is then "
            "cleared through its outbuilding end.",
            "The designer says why; usual is the house end, or both.",
            title="armour earthed",
            verdict=Verdict.NEAR,
            source=cite.ARMOUR_EARTHED,
        )


def _mixture(facts: Facts) -> Iterator[Judged]:
    board = facts.record.board
    if board.earth is not OutbuildingEarth.CARRIED_OVER or not board.electrode.strip():
        return
    pme = facts.record.origin.earthing is Earthing.TN_C_S
    yield odd(
        facts,
        BOARD,
        "electrode beside exported earth",
        f"An electrode ({board.electrode.strip()}) stands beside an earth exported through the "
        "feed: a mixture of both."
        + (" With PME it carries current of the supply's neutral." if pme else ""),
        "The certifier decides: which of both it is meant to be, and the size of what joins them.",
        title="electrode beside an exported earth",
        verdict=Verdict.NEAR,
        source=cite.bs7671("Regulations 411.4.2 and 542.1"),
        weight=40,
    )
