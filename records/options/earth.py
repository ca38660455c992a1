"""Two earths for the outbuilding side by side: what each needs, has, and who alone may decide.

No recommendation: where the rules leave it to the certifier or the network operator, it says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.expected import bonding
from records.expected.context import BOARD, Context
from records.expected.plan import expected
from records.expected.results import What, Worked
from records.expected.workings import attempt
from records.judgement.facts import Facts
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import ArmourEarthed, Cpc, Earthing, OutbuildingEarth, Stage, Use, Word

_ADDITIONAL = 30.0
"""mA of an RCD for additional protection (BS 7671, Regulation 415.1.1)."""


class State(Word):
    """How far a need is met."""

    THERE = "there", "in the record"
    ADD = "add", "to add"
    DECIDE = "decide", "to decide"


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that an earth needs."""

    topic: str
    state: State
    text: str


@dataclass(frozen=True, slots=True)
class EarthChoice:
    """Both ways, each with its needs in one order."""

    exported: tuple[Need, ...]
    electrode: tuple[Need, ...]
    chosen: OutbuildingEarth | None
    """As the record has it."""


def earth_choice(record: Record) -> EarthChoice:
    """Return what exporting the house's earth, and what an electrode, would need here."""
    return EarthChoice(
        tuple(_exported(_with(record, OutbuildingEarth.CARRIED_OVER))),
        tuple(_electrode(_with(record, OutbuildingEarth.OWN_ELECTRODE))),
        record.board.earth,
    )


def _with(record: Record, earth: OutbuildingEarth) -> Record:
    board = record.board.model_copy(update={"earth": earth})
    return record.model_copy(update={"board": board})


def _exported(record: Record) -> Iterator[Need]:
    pme = record.origin.earthing is Earthing.TN_C_S
    if record.origin.earthing is None:
        yield Need("supply", State.ADD, "Enter the earthing of the supply: PME changes the answer.")
    elif pme:
        yield Need(
            "supply", State.DECIDE,
            "PME: if the supply's neutral breaks, metal outside can become live. The network "
            "operator's conditions and the certifier decide whether it may be exported.",
        )  # fmt: skip
    else:
        earthing = record.origin.earthing.value
        yield Need("supply", State.THERE, f"{earthing}: its earth can be exported.")
    yield _way_back(record)
    yield _bond_by_feed(record, pme=pme)
    yield _metal(record, pme=pme)
    yield _outdoors(record, pme=pme)
    yield _rcds(record, every=record.origin.earthing is Earthing.TT)
    yield Need(
        "distance", State.DECIDE,
        "Far from the house the earths there and here differ: the certifier decides.",
    )  # fmt: skip


def _way_back(record: Record) -> Need:
    runs = record.feed.runs
    without = [at for at, run in enumerate(runs, start=1) if run.cpc in (None, Cpc.NONE)]
    if not runs or without:
        where = f"run {without[0]}" if without else "the feed"
        return Need("cpc of the feed", State.ADD, f"A cpc all the way: {where} has none entered.")
    names = " + ".join(dict.fromkeys(run.cpc.value for run in runs if run.cpc is not None))
    ends = record.feed.armour_earthed
    if any(run.cpc in (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR) for run in runs) and (
        ends is not ArmourEarthed.BOTH
    ):
        return Need("cpc of the feed", State.ADD, f"{names}: armour to earth at both ends.")
    return Need("cpc of the feed", State.THERE, f"{names}.")


def _bond_by_feed(record: Record, *, pme: bool) -> Need:
    topic = "bond by the feed"
    context = Context(record)
    worth = attempt("S", lambda: bonding.cpc_as_copper(context))
    least = attempt("S", lambda: bonding.least(context))
    if not isinstance(worth, Worked) or not isinstance(least, Worked):
        lacking = next(each for each in (worth, least) if not isinstance(each, Worked))
        return Need(topic, State.ADD, f"Can't be said yet: {lacking.why}")
    text = f"Its cpc conducts like {worth.value:.1f} mm² of copper; a bond needs {least.value:g}"
    if not pme:
        text += " (the feed's cpc has to reach it with PME only)"
    enough = worth.value >= least.value or not pme
    return Need(topic, State.THERE if enough else State.ADD, f"{text}.")


def _metal(record: Record, *, pme: bool) -> Need:
    topic, metal = "metal in the ground", record.board.metal_in_ground
    if metal is None:
        return Need(topic, State.ADD, "Enter whether pipes or steel come out of the ground.")
    if not metal:
        return Need(topic, State.THERE, "None, as entered: nothing to bond.")
    bonded = "bonds entered" if record.board.bonds else "no bond entered"
    if pme:
        return Need(
            topic, State.DECIDE,
            f"There is some, {bonded}. Bonded to PME it can carry the supply's neutral current: "
            "bond nothing before the certifier has decided.",
        )  # fmt: skip
    return Need(topic, State.THERE if record.board.bonds else State.ADD,
                f"There is some, {bonded}: bond it to the earth bar.")  # fmt: skip


def _outdoors(record: Record, *, pme: bool) -> Need:
    topic = "outdoor points"
    outside = [each.id for each in record.circuits if each.outdoors]
    unsaid = [each.id for each in record.circuits if each.outdoors is None]
    if outside:
        text = f"{', '.join(outside)}: they need a 30 mA RCD."
        if pme:
            more = "Metal-cased things held outside on PME: the certifier decides."
            return Need(topic, State.DECIDE, f"{text} {more}")
        return Need(topic, State.THERE, text)
    if unsaid or not record.circuits:
        return Need(topic, State.ADD, "Enter which circuits feed anything outdoors.")
    return Need(topic, State.THERE, "None.")


def _rcds(record: Record, *, every: bool) -> Need:
    whole = record.board.rcd.residual or (record.feed.rcd.residual if every else None)
    bare = [each.id for each in record.circuits if each.rcd.residual is None]
    if not record.circuits:
        return Need("RCDs", State.ADD, "Enter the circuits.")
    if not every:
        asked = {each.id for each in record.circuits if each.use is Use.SOCKETS or each.outdoors}
        lacking = [id for id in bare if id in asked and record.board.rcd.residual != _ADDITIONAL]
        if lacking:
            text = f"{', '.join(lacking)}: sockets and outdoor points need 30 mA."
            return Need("RCDs", State.ADD, text)
        return Need("RCDs", State.THERE, "Sockets and outdoor points have 30 mA.")
    if whole or not bare:
        return Need("RCDs", State.THERE, "Every circuit is behind one.")
    return Need("RCDs", State.ADD, f"An RCD before every circuit: {', '.join(bare)} has none.")


def _electrode(record: Record) -> Iterator[Need]:
    board = record.board
    yield Need(
        "supply", State.THERE,
        "Any: the house's earth stops at the feed's armour or cpc, insulated at this end.",
    )  # fmt: skip
    rod = board.electrode.strip()
    yield Need(
        "electrode", State.THERE if rod else State.ADD,
        f"{rod}." if rod else "An electrode: kind and number (Board).",
    )  # fmt: skip
    yield _resistance(record)
    yield _rcds(record, every=True)
    laid = board.earthing_csa is not None and board.earthing_laid is not None
    yield Need(
        "earthing conductor", State.THERE if laid else State.ADD,
        f"{board.earthing_csa:g} mm², {board.earthing_laid}." if laid
        else "Its size and how it lies (Board): thicker in the ground.",
    )  # fmt: skip
    yield _separation(record)
    yield _metal(record, pme=False)
    yield _outdoors(record, pme=False)
    yield Need(
        "distance", State.DECIDE,
        "House metal and outbuilding metal must not be touched at once: pipes, fences, screens of "
        "data and aerial cables. Where the rod goes, clear of services: the certifier decides.",
    )  # fmt: skip


def _resistance(record: Record) -> Need:
    follows = expected(record)
    limit = follows.design.get((BOARD, What.RA_LIMIT))
    if not isinstance(limit, Worked):
        why = getattr(limit, "why", "the RCD is not entered yet")
        return Need("RA", State.ADD, f"Its limit follows from the RCD: {why}")
    read = Facts.of(record, follows).plain_at(BOARD, Quantity.ELECTRODE, Stage.DEAD)
    text = f"At most {limit}. {limit.note}".strip()
    if read is None:
        return Need("RA", State.ADD, f"{text} Measure it: nobody can promise it beforehand.")
    state = State.THERE if read <= limit.value else State.ADD
    return Need("RA", state, f"{text} Read: {read:g} Ω.")


def _separation(record: Record) -> Need:
    topic, runs, ends = "armour, separation", record.feed.runs, record.feed.armour_earthed
    armoured = any(run.cable is not None and run.cable.is_armoured for run in runs)
    through = [at for at, run in enumerate(runs, start=1) if run.cpc not in (None, Cpc.NONE)]
    if through and len(through) == len(runs):
        return Need(topic, State.ADD, "The feed's cpc runs all the way: end it insulated here.")
    if armoured and ends is not ArmourEarthed.HOUSE:
        return Need(topic, State.ADD, "Armour: earthed at the house only, insulated here.")
    return Need(topic, State.THERE, "Nothing of the feed joins both earths.")
