"""Design checks of the sub-board: its switch, where its earth comes from, and bonding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from records.judgement import cite
from records.judgement.design_line import line
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.tables.protective import least_bond, least_bond_pme
from records.terms import Cpc, Earthing, Part, Verdict
from records.units import SquareMillimetre

_NEUTRAL = SquareMillimetre(35.0)
"""mm² that a supply neutral is taken to have at most: usual for 100 A (common practice)."""


def earth_lines(facts: Facts) -> Iterator[Judged]:
    """Return the checks of switch, earth and bonding; those that have nothing to check are out."""
    yield from _switch(facts)
    yield from _earth(facts)
    yield from _extraneous(facts)
    yield from _bonds(facts)


def _switch(facts: Facts) -> Iterator[Judged]:
    switch, rating = facts.record.board.main_switch, facts.record.feed.device.rating
    base = line(facts, BOARD, "main switch", "main switch")
    if switch is None or rating is None:
        which = "the main switch" if switch is None else "In of the feed's device"
        at = "Board" if switch is None else "Feed"
        yield replace(base, why=f"Not worked out: {which} is not entered yet ({at}).")
        return
    words = f"Main switch {switch:g} A; the feed's device {rating:g} A."
    if switch >= rating:
        yield replace(base, verdict=Verdict.WITHIN, why=words, source=cite.COMMON)
    else:
        yield replace(
            base, verdict=Verdict.OUTSIDE, why=f"{words} The feed could overload the switch.",
            next_check="A main switch rated at least as high as the feed's device.",
            source=cite.COMMON, weight=20,
        )  # fmt: skip


def _earth(facts: Facts) -> Iterator[Judged]:
    runs = facts.record.feed.runs
    if facts.record.board.earth is None or not runs:
        return
    base = line(facts, BOARD, "earth of the outbuilding", "where its earth comes from")
    if not facts.tt_island:
        broken = [count for count, run in enumerate(runs, start=1) if run.cpc is Cpc.NONE]
        if broken:
            yield replace(
                base, verdict=Verdict.OUTSIDE,
                why=f"The earth is said to be carried over, but run {broken[0]} of the feed "
                "carries none.",
                causes=("what serves as cpc was entered wrongly", "the earth isn't carried over"),
                next_check="Say what serves as cpc of each run, or that there is an electrode.",
                source=cite.bs7671("Regulation 542.1"), weight=60,
            )  # fmt: skip
        return
    core = [run.cpc for run in runs if run.cpc in (Cpc.CORE, Cpc.SEPARATE, Cpc.CORE_AND_ARMOUR)]
    if len(core) == len(runs):
        yield replace(
            base, verdict=Verdict.NEAR,
            why="The outbuilding has an electrode of its own, and the feed a protective conductor "
            "all the way: joined, they would be one earth, never half of each.",
            next_check="See that the feed's earth ends insulated at the outbuilding, and label it.",
            source=cite.bs7671("Regulation 542.1"), weight=10,
        )  # fmt: skip


def _extraneous(facts: Facts) -> Iterator[Judged]:
    record = facts.record
    if record.board.metal_in_ground is not True:
        return
    base = line(facts, BOARD, "bonding", "bonding of metal in contact with ground")
    if not record.board.bonds:
        yield replace(
            base, verdict=Verdict.OUTSIDE,
            why="Metal in contact with ground can bring in a potential; no bonding is entered.",
            next_check="Bond it to the earth bar, or show that it isn't extraneous.",
            source=cite.BONDS, weight=40,
        )  # fmt: skip
    elif record.origin.earthing is Earthing.TN_C_S and not facts.tt_island:
        yield replace(
            base, verdict=Verdict.NEAR,
            why="The earth of a TN-C-S supply is taken out to metal in contact with ground: if "
            "the supply's neutral breaks, that metal carries the load's return. An electrode of "
            "its own may be better here.",
            next_check="Agree the earthing with the certifier, and write the reason down.",
            source=cite.BONDS, weight=15,
        )  # fmt: skip
    else:
        yield replace(
            base, verdict=Verdict.WITHIN, why="Bonding is entered for it.", source=cite.BONDS
        )


def _bonds(facts: Facts) -> Iterator[Judged]:
    record = facts.record
    pme = record.origin.earthing is Earthing.TN_C_S and not facts.tt_island
    for bond in record.board.bonds:
        place = Place(part=Part.BOARD, point=bond.id)
        base = line(facts, place, "bond size", "size of the bonding conductor")
        earthing = record.board.earthing_csa
        if bond.csa is None or (not pme and earthing is None):
            which = "its size" if bond.csa is None else "the size of the earthing conductor"
            yield replace(base, why=f"Not worked out: {which} is not entered yet (Board).")
            continue
        least = least_bond_pme(_NEUTRAL) if pme else least_bond(SquareMillimetre(earthing or 0.0))
        words = f"{bond.csa:g} mm²; at least {least.value:g} mm²."
        if bond.csa >= least.value:
            yield replace(base, verdict=Verdict.WITHIN, why=words, source=least.source)
            continue
        # Whether the supply's neutral sets the size again inside an outbuilding is disputed.
        verdict = Verdict.NEAR if pme else Verdict.OUTSIDE
        more = " For TN-C-S the certifier decides if that size holds here." if pme else ""
        yield replace(
            base, verdict=verdict, why=f"{words} It is thinner.{more}",
            next_check="A larger bonding conductor, or the certifier's reason.",
            source=least.source, weight=20,
        )  # fmt: skip
