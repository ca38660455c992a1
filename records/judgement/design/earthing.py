"""Design checks of the sub-board: its switch, where its earth comes from, and bonding."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.design.line import line
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged, Limit, Sense
from records.model.reading import place_of
from records.terms import Cpc, Earthing, Part, Verdict


def earth_lines(facts: Facts) -> Iterator[Judged]:
    """Return the checks of switch, earth and bonding; those that have nothing to check are out."""
    yield from _switch(facts)
    yield from _earth(facts)
    yield from _extraneous(facts)
    yield from _bonds(facts)
    yield from _feed_as_bond(facts)


def _switch(facts: Facts) -> Iterator[Judged]:
    switch, rating = facts.record.board.main_switch, facts.record.feed.device.rating
    base = line(facts, BOARD, "main switch", "main switch")
    if switch is None or rating is None:
        which = "the main switch" if switch is None else "In of the feed's device"
        at = "Board" if switch is None else "Feed"
        yield base._replace(why=f"Not calculated: {which} is not entered yet ({at}).")
        return
    words = f"Main switch {switch:g} A; the feed's device {rating:g} A."
    if switch >= rating:
        yield base._replace(verdict=Verdict.WITHIN, why=words, source=cite.COMMON)
    else:
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"{words} The feed could overload the switch.",
            next_check=plan("A main switch rated at least as high as the feed's device."),
            source=cite.COMMON,
            weight=20,
        )


def _earth(facts: Facts) -> Iterator[Judged]:
    runs = facts.record.feed.runs
    if facts.record.board.earth is None or not runs:
        return
    base = line(facts, BOARD, "earth of the outbuilding", "where its earth comes from")
    if not facts.tt_island:
        broken = [count for count, run in enumerate(runs, start=1) if run.cpc is Cpc.NONE]
        if broken:
            yield base._replace(
                verdict=Verdict.OUTSIDE,
                why=f"The earth is entered as exported, but run {broken[0]} of the feed "
                "carries none.",
                causes=("what serves as cpc was entered wrongly", "the earth isn't exported"),
                next_check=do(
                    Act.ENTER, "Enter what serves as cpc of each run, or an electrode."
                ).text(),
                source=cite.bs7671("Regulation 542.1"),
                weight=60,
            )
        return
    core = [run.cpc for run in runs if run.cpc in (Cpc.CORE, Cpc.SEPARATE, Cpc.CORE_AND_ARMOUR)]
    if len(core) == len(runs):
        yield base._replace(
            verdict=Verdict.NEAR,
            why="The outbuilding has its own electrode, and the feed has a protective conductor "
            "all the way. Joined, they would be one earth, never half of each. The certifier "
            "decides how it ends.",
            next_check=_ENDS_INSULATED.text(),
            source=cite.bs7671("Regulation 542.1"),
            weight=10,
        )


def _extraneous(facts: Facts) -> Iterator[Judged]:
    record = facts.record
    if record.board.metal_in_ground is not True:
        return
    base = line(facts, BOARD, "bonding", "bonding of extraneous-conductive-parts")
    if not record.board.bonds:
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            why="Extraneous-conductive-parts can bring in a potential; no bonding is entered.",
            next_check=_pme_first(facts),
            source=cite.BONDS,
            weight=40,
        )
    elif record.origin.earthing is Earthing.TN_C_S and not facts.tt_island:
        yield base._replace(
            verdict=Verdict.NEAR,
            why="The earth of a TN-C-S supply is taken to extraneous-conductive-parts. If "
            "the supply's neutral breaks, that metal carries the load's return. A separate "
            "electrode may be better here: the certifier decides.",
            next_check=do(
                Act.ASK, "Agree the earthing with the certifier, and write the reason down."
            ).text(),
            source=cite.BONDS,
            weight=15,
        )
    else:
        yield base._replace(
            verdict=Verdict.WITHIN, why="Bonding is entered for it.", source=cite.BONDS
        )


_ENDS_INSULATED = do(
    Act.OPEN,
    "The feed's earth stays earthed at the house and ends insulated, labelled, at the outbuilding. "
    "Never the other way round.",
)


def _pme_first(facts: Facts) -> str:
    """Return what to do about metal in the ground: on PME nothing before it is decided.

    Joined to a PME earth it carries the street's neutral current, and its voltage if that breaks.
    """
    record = facts.record
    if record.origin.earthing in (Earthing.TN_C_S, None) and not facts.tt_island:
        return do(
            Act.ASK,
            "Bond nothing before the certifier has decided: PME bonding of that metal, or an "
            "electrode for the outbuilding.",
        ).text()
    return plan("Bond it to the earth bar, or show that it isn't extraneous.")


def _bonds(facts: Facts) -> Iterator[Judged]:
    for bond in facts.record.board.bonds:
        place = place_of(Part.BOARD, None, bond.id)
        base = line(facts, place, "bond size", "size of the bonding conductor")
        if bond.csa is None:
            yield base._replace(why="Not calculated: its size is not entered yet (Board).")
            continue
        least = facts.design(place, What.BOND_LEAST)
        if isinstance(least, NotWorkedOut):
            yield base._replace(why=f"Not calculated: {least.why}")
            continue
        limit = _least(least)
        base = base._replace(limit=limit)
        words = f"{bond.csa:g} mm²; must be {limit}."
        if bond.csa >= least.value:
            yield base._replace(verdict=Verdict.WITHIN, why=words, source=limit.source)
            continue
        # Some dispute that the supply's neutral sets the size again inside an outbuilding: that
        # makes the regulation no other, so thinner is outside until the certifier gives a reason.
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"{words} It is thinner.",
            next_check=plan("A larger bonding conductor, or the certifier's reason."),
            source=least.sources[0],
            weight=20,
        )


def _least(found: Worked) -> Limit:
    digits = 0 if found.value == round(found.value) else 1
    return Limit(Sense.LEAST, found.value, found.unit, found.sources[0], digits=digits)


def _feed_as_bond(facts: Facts) -> Iterator[Judged]:
    """With TN-C-S the feed's cpc ties metal in the ground to the supply: it bonds as well."""
    record = facts.record
    pme = record.origin.earthing is Earthing.TN_C_S and not facts.tt_island
    if not pme or record.board.metal_in_ground is not True or not record.board.bonds:
        return
    base = line(facts, FEED, "feed as bonding conductor", "its cpc as main bonding conductor")
    bond = place_of(Part.BOARD, None, record.board.bonds[0].id)
    least = facts.design(bond, What.BOND_LEAST)
    worth = facts.design(FEED, What.CPC_AS_COPPER)
    if isinstance(least, NotWorkedOut) or isinstance(worth, NotWorkedOut):
        lacking = least if isinstance(least, NotWorkedOut) else worth
        yield base._replace(why=f"Not calculated: {getattr(lacking, 'why', '')}")
        return
    limit = _least(least)
    base = base._replace(limit=limit, expected=worth)
    words = f"It conducts like {worth.value:.1f} mm² of copper; must be {limit}."
    if worth.value >= least.value:
        yield base._replace(verdict=Verdict.WITHIN, why=words, source=limit.source)
        return
    yield base._replace(
        verdict=Verdict.OUTSIDE,
        why=f"{words} With metal in the ground bonded to it, it can carry the supply's neutral "
        "current for long.",
        next_check=plan(
            "A cpc of that conductance, an electrode instead, or the certifier's reason."
        ),
        source=least.sources[0],
        weight=12,
    )
