"""Main bonding: the least size, and what a cpc of steel is worth as a bonding conductor."""

from __future__ import annotations

from records.evidence import Source
from records.expected.context import Context
from records.expected.results import Worked
from records.expected.runs import of_cable, state
from records.expected.workings import Missing, need
from records.tables.conductors import copper
from records.tables.protective import least_bond, least_bond_pme
from records.terms import Basis, Cpc, Earthing
from records.units import SquareMillimetre, Unit

USUAL_NEUTRAL = SquareMillimetre(35.0)
"""mm² that a supply neutral is taken to have at most: usual for 100 A (common practice)."""
_CONDUCTANCE = Source(
    "BS 7671:2018+A2:2022", "Regulation 544.1.1, Table 54.8: copper equivalent", Basis.MEMORY
)
_COLD = state(20.0, ac=False)


def least(context: Context) -> Worked:
    """Return the least main bonding conductor at the sub-board, copper [mm²].

    TN-C-S carried over: by the supply neutral, Table 54.8. Otherwise half the earthing conductor
    of the outbuilding, at least 6 and at most 25 mm².

    Raises:
        Missing: If the earthing, or the earthing conductor's size, isn't entered.
    """
    record = context.record
    if context.earthing is Earthing.TN_C_S and not context.own_electrode:
        given = record.origin.neutral_csa
        neutral = SquareMillimetre(given or USUAL_NEUTRAL)
        found = least_bond_pme(neutral)
        note = "" if given else f"Supply neutral not entered: taken as {neutral:g} mm² at most."
        return Worked(
            "S",
            found.value,
            Unit.SQUARE_MILLIMETRE,
            "by the supply neutral, TN-C-S",
            f"neutral {neutral:g} mm²",
            (found.source,),
            digits=0,
            note=f"{note} Whether the neutral sets it again inside an outbuilding is disputed: the "
            "certifier decides.".strip(),
        )
    size = need(record.board.earthing_csa, "the size of the earthing conductor is", "Board")
    found = least_bond(SquareMillimetre(size))
    return Worked(
        "S",
        found.value,
        Unit.SQUARE_MILLIMETRE,
        "S = half the earthing conductor, 6 to 25 mm²",
        f"{size:g} / 2",
        (found.source,),
        digits=0,
    )


def cpc_as_copper(context: Context) -> Worked:
    """Return the copper conductor that conducts as well as the feed's cpc, at its worst run [mm²].

    A main bonding conductor that isn't copper must conduct as well as the copper asked for.

    Raises:
        Missing: If a run isn't entered, or the earth isn't exported.
        NotTabulated: If a cable is not tabulated.
    """
    runs = context.record.feed.runs
    if not runs:
        raise Missing("no run of cable is entered yet (Feed).")
    reference = copper(SquareMillimetre(16.0))
    found: list[tuple[float, float, tuple[Source, ...]]] = []
    for number, run in enumerate(runs, start=1):
        at = f"Feed, run {number}"
        cable = need(run.cable, "the kind of cable is", at)
        csa = need(run.csa, "the line's cross-section is", at)
        cpc = need(run.cpc, "what serves as cpc is", at)
        if cpc is Cpc.SEPARATE:
            need(run.cpc_csa, "the size of the separate cpc is", at)
        each = of_cable(cable, run.cores, csa, cpc, run.cpc_csa, _COLD)
        if each.back is None:
            raise Missing(f"the earth is not exported by this run ({at}).")
        area = reference.value * 16.0 / each.back
        found.append((area, each.back, (*each.sources, reference.source)))
    area, back, sources = min(found, key=lambda each: each[0])
    return Worked(
        "S",
        area,
        Unit.SQUARE_MILLIMETRE,
        "S = 16 mm² · r(16 mm² copper) / r(cpc), at 20 °C",
        f"16 × {reference.value * 1000:.4g} / {back * 1000:.4g}",
        (_CONDUCTANCE, *sources),
        digits=1,
        note="As a main bonding conductor it must reach the least size. Armour and core side by "
        "side are taken together.",
    )
