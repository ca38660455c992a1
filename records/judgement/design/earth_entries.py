"""Pairs of entries about the earthing conductor and bonding that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator

from records.errors import NotTabulated
from records.expected.formulas.adiabatic import LONGEST, SHORTEST, least_size
from records.expected.results import What, Worked
from records.expected.runs import cpc_as_made
from records.judgement.compare import SLACK
from records.judgement.design.odd import WRONG, odd
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.model.outbuilding import Board
from records.tables import protective
from records.terms import Cpc, EarthingLaid, OutbuildingEarth, Verdict
from records.units import Ampere, Second, SquareMillimetre

_SIZE = "earthing conductor"


def earth_entry_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each contradiction about the earth of the outbuilding."""
    board = facts.record.board
    if board.earthing_csa is not None and board.earth is not None:
        yield from _by_line(facts, board, board.earthing_csa)
        yield from _in_the_ground(facts, board, board.earthing_csa)
    if board.bonds and board.metal_in_ground is False:
        yield odd(
            facts,
            BOARD,
            "bonding without metal",
            f"Bonding is entered ({board.bonds[0].what or board.bonds[0].id}), and that no metal "
            "is in contact with the ground.",
            "Look at what is bonded. Correct whether it is in contact with the ground.",
            title="bonding and metal in the ground",
            verdict=Verdict.UNLIKELY,
            causes=WRONG,
        )


def _line_of_feed(facts: Facts) -> float | None:
    """Return the line conductor that the earthing conductor goes with: of the last run [mm²]."""
    runs = facts.record.feed.runs
    return runs[-1].csa if runs else None


def _by_line(facts: Facts, board: Board, size: float) -> Iterator[Judged]:
    """Thinner than Table 54.7 asks for beside the feed's line."""
    line = _line_of_feed(facts)
    if line is None:
        return
    least = protective.least_by_line(SquareMillimetre(line))
    if size >= least.value - SLACK:
        return
    words = (
        f"The earthing conductor is {size:g} mm²; beside a line of {line:g} mm² Table 54.7 asks "
        f"for {least.value:g} mm²."
    )
    if board.earth is OutbuildingEarth.OWN_ELECTRODE:
        yield odd(
            facts,
            BOARD,
            _SIZE,
            f"{words} An electrode limits the current: by calculation (543.1.3) it may do; the "
            "certifier decides.",
            f"Plan {least.value:g} mm², or ask the certifier for the calculation.",
            title="size of the earthing conductor",
            verdict=Verdict.NEAR,
            source=least.source,
            weight=20,
        )
        return
    if _as_the_cpc(facts, size):
        return
    if _by_calculation(facts, size):
        yield odd(
            facts,
            BOARD,
            _SIZE,
            f"{words} By calculation (543.1.3) it does for the feed's device; the certifier "
            "decides.",
            f"Plan {least.value:g} mm², or show the calculation to the certifier.",
            title="size of the earthing conductor",
            verdict=Verdict.NEAR,
            source=least.source,
        )
        return
    yield odd(
        facts,
        BOARD,
        _SIZE,
        f"{words} It carries the same earth fault as the feed's cpc.",
        f"Plan {least.value:g} mm², or enter the size of the conductor that is there.",
        title="size of the earthing conductor",
        source=least.source,
        weight=40,
        causes=("the size was entered wrongly", "the conductor is too thin"),
    )


def _as_the_cpc(facts: Facts, size: float) -> bool:
    """Whether it is the cpc core of the feed, or as thick: the check of the cpc decides on it."""
    run = facts.record.feed.runs[-1]
    if run.cpc not in (Cpc.CORE, Cpc.SEPARATE) or run.csa is None or run.cable is None:
        return False
    try:
        own = run.cpc_csa or cpc_as_made(run.cable, SquareMillimetre(run.csa))
    except NotTabulated:
        return False
    return size >= own - SLACK


def _by_calculation(facts: Facts, size: float) -> bool:
    """Whether a fault at the sub-board leaves it whole: the calculation may stand for the table.

    A fuse lets through most at the lowest current, a breaker may at the highest too.
    """
    device = facts.record.feed.device
    current, time = facts.design(FEED, What.FAULT_LOWEST), facts.design(FEED, What.TIME)
    if not isinstance(current, Worked) or not isinstance(time, Worked) or device.kind is None:
        return False
    faults = [(current.value, time.value if time.high is None else time.high)]
    if not device.kind.is_fuse:
        highest = facts.design(FEED, What.FAULT_HIGHEST)
        if not isinstance(highest, Worked):
            return False
        faults.append((highest.value * 1000, SHORTEST))
    if any(opens > LONGEST for _, opens in faults):
        return False
    k = protective.k_separate()
    return all(
        size >= least_size(Ampere(amperes), Second(max(opens, SHORTEST)), k.value) - SLACK
        for amperes, opens in faults
    )


def _in_the_ground(facts: Facts, board: Board, size: float) -> Iterator[Judged]:
    """Thinner than Table 54.1 asks for in the ground."""
    bare = protective.least_buried_earthing(against_corrosion=False)
    sheathed = protective.least_buried_earthing(against_corrosion=True)
    laid = board.earthing_laid
    if laid is None:
        if board.earth is OutbuildingEarth.OWN_ELECTRODE and size < bare.value - SLACK:
            yield odd(
                facts,
                BOARD,
                "earthing conductor in the ground",
                f"In the ground a bare earthing conductor has at least {bare.value:g} mm², a "
                f"sheathed one {sheathed.value:g} mm²; {size:g} mm² is entered.",
                "Enter how the earthing conductor lies.",
                title="earthing conductor in the ground",
                verdict=Verdict.NOT_TAKEN,
                source=bare.source,
            )
        return
    least = {EarthingLaid.BARE: bare, EarthingLaid.SHEATHED: sheathed}.get(laid)
    if least is None or size >= least.value - SLACK:
        return
    yield odd(
        facts,
        BOARD,
        "earthing conductor in the ground",
        f"{laid.value.capitalize()}, an earthing conductor of copper has at least "
        f"{least.value:g} mm²; {size:g} mm² is entered.",
        f"Plan {least.value:g} mm², or a duct that protects it.",
        title="earthing conductor in the ground",
        source=least.source,
        weight=40,
    )
