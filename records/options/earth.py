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
from records.judgement.design.line import design_key
from records.judgement.facts import Facts
from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.model.record import Record
from records.options.edge import checks
from records.terms import (
    ArmourEarthed,
    Cpc,
    Earthing,
    LoadKind,
    OutbuildingEarth,
    Stage,
    Use,
    Verdict,
    Word,
)

_ADDITIONAL = 30.0
"""mA of an RCD for additional protection (BS 7671, Regulation 415.1.1)."""


class State(Word):
    """How far a need is met."""

    THERE = "there", "in the record"
    ADD = "add", "to add"
    DECIDE = "decide", "to decide"


_SIGNS = {State.THERE: "✓", State.ADD: "+", State.DECIDE: "?"}


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that an earth needs."""

    topic: str
    state: State
    text: str

    @property
    def sign(self) -> str:
        """The mark before it in a table."""
        return _SIGNS[self.state]


@dataclass(frozen=True, slots=True)
class EarthChoice:
    """Both ways, each with its needs in one order."""

    exported: tuple[Need, ...]
    electrode: tuple[Need, ...]
    chosen: OutbuildingEarth | None
    """As the record has it."""
    cautions: tuple[str, ...]
    """What stays in view, whichever way it is."""


_CAUTIONS = (
    "One or the other, never both: an electrode beside an exported PME earth carries the street's "
    "neutral current.",
    "Before a rod is driven: find out what is in the ground there. Gas, water, cables.",
    "Usually notifiable. The certifier decides on the earth before the cable is bought.",
)


def earth_choice(record: Record) -> EarthChoice:
    """Return what exporting the house's earth, and what an electrode, would need here."""
    return EarthChoice(
        tuple(_exported(_with(record, OutbuildingEarth.CARRIED_OVER))),
        tuple(_electrode(_with(record, OutbuildingEarth.OWN_ELECTRODE))),
        record.board.earth,
        _CAUTIONS,
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
            "supply",
            State.DECIDE,
            "PME: if the supply's neutral breaks, metal outside can become live. The network "
            "operator's conditions and the certifier decide whether it may be exported.",
        )
    else:
        earthing = record.origin.earthing.value
        yield Need("supply", State.THERE, f"{earthing}: its earth can be exported.")
    yield _way_back(record)
    yield _bond_by_feed(record, pme=pme)
    yield _metal(record, pme=pme)
    yield _outdoors(record, pme=pme)
    yield _rcds(record, every=record.origin.earthing is Earthing.TT)
    yield from _vehicle(record, pme=pme)
    yield Need(
        "distance",
        State.DECIDE,
        f"{_far(record)}Far from the house the earths there and here differ: the certifier "
        "decides.",
    )


def _far(record: Record) -> str:
    lengths = [run.length for run in record.feed.runs if run.length is not None]
    if not lengths or len(lengths) < len(record.feed.runs):
        return ""
    return f"{sum(lengths):g} m of feed. "


def _vehicle(record: Record, *, pme: bool) -> Iterator[Need]:
    """Yield what charging a vehicle asks for (BS 7671, Regulation 722.411.4.1, from memory)."""
    charging = [each.id for each in record.circuits if each.kind is LoadKind.VEHICLE]
    if not charging:
        return
    if not pme:
        text = f"{', '.join(charging)}: nothing more for this earth; a 30 mA RCD each."
        yield Need("vehicle charging", State.THERE, text)
        return
    yield Need(
        "vehicle charging",
        State.DECIDE,
        f"{', '.join(charging)}: on PME it needs equipment that opens on a broken neutral, or an "
        "earth electrode for the charging point. The certifier decides.",
    )


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
        said = "Enter where the armour is earthed" if ends is None else "Armour to earth"
        return Need("cpc of the feed", State.ADD, f"{names}. {said}: at both ends.")
    return Need("cpc of the feed", State.THERE, f"{names}.")


def _bond_by_feed(record: Record, *, pme: bool) -> Need:
    topic = "bond by the feed"
    context = Context(record)
    worth = attempt("S", lambda: bonding.cpc_as_copper(context))
    least = attempt("S", lambda: bonding.least(context))
    if not isinstance(worth, Worked) or not isinstance(least, Worked):
        lacking = next(each for each in (worth, least) if not isinstance(each, Worked))
        return Need(topic, State.ADD, f"Can't be said yet: {lacking.why}")
    text = (
        f"Its cpc conducts like {worth.value:.1f} mm² of copper; a bond needs {least.value:g} mm²"
    )
    if not pme:
        return Need(topic, State.THERE, f"{text} (the feed's cpc has to reach it with PME only).")
    if record.board.metal_in_ground is False:
        return Need(topic, State.THERE, f"{text}, but no metal in the ground is entered.")
    if worth.value >= least.value:
        return Need(topic, State.THERE, f"{text}.")
    metal = "." if record.board.metal_in_ground else ", if metal in the ground is bonded to it."
    return Need(topic, State.ADD, f"{text}{metal}")


def _metal(record: Record, *, pme: bool) -> Need:
    topic, metal = "metal in the ground", record.board.metal_in_ground
    if metal is None:
        return Need(topic, State.ADD, "Enter whether pipes or steel come out of the ground.")
    if not metal:
        return Need(topic, State.THERE, "None, as entered: nothing to bond.")
    bonded = "bonds entered" if record.board.bonds else "no bond entered"
    if pme:
        return Need(
            topic,
            State.DECIDE,
            f"There is some, {bonded}. Bonded to PME it can carry the supply's neutral current: "
            "bond nothing before the certifier has decided.",
        )
    return Need(
        topic,
        State.THERE if record.board.bonds else State.ADD,
        f"There is some, {bonded}: bond it to the earth bar.",
    )


def _outdoors(record: Record, *, pme: bool) -> Need:
    topic = "outdoor points"
    outside = [each for each in record.circuits if each.outdoors]
    unsaid = [each.id for each in record.circuits if each.outdoors is None]
    if outside:
        names = ", ".join(each.id for each in outside)
        bare = [each.id for each in outside if not _is_additional(record, each)]
        has = f"{', '.join(bare)}: a 30 mA RCD to add." if bare else f"{names}: behind 30 mA RCDs."
        if pme:
            more = "Metal-cased things held outside on PME: the certifier decides."
            return Need(topic, State.DECIDE, f"{has} {more}")
        return Need(topic, State.ADD if bare else State.THERE, has)
    if unsaid or not record.circuits:
        which = f" ({', '.join(unsaid)})" if unsaid else ""
        return Need(topic, State.ADD, f"Enter which circuits feed anything outdoors{which}.")
    return Need(topic, State.THERE, "None.")


def _is_additional(record: Record, circuit: Circuit) -> bool:
    """Whether an RCD of at most 30 mA stands before a circuit."""
    return any(
        each.residual is not None and each.residual <= _ADDITIONAL
        for each in (circuit.rcd, record.board.rcd)
    )


def _rcds(record: Record, *, every: bool) -> Need:
    whole = record.board.rcd.residual or (record.feed.rcd.residual if every else None)
    bare = [each.id for each in record.circuits if each.rcd.residual is None]
    if not record.circuits:
        return Need("RCDs", State.ADD, "Enter the circuits.")
    if not every:
        asked = [each for each in record.circuits if each.use is Use.SOCKETS or each.outdoors]
        lacking = [each.id for each in asked if not _is_additional(record, each)]
        if lacking:
            text = f"{', '.join(lacking)}: sockets and outdoor points need 30 mA."
            return Need("RCDs", State.ADD, text)
        text = "Sockets and outdoor points have 30 mA." if asked else "No sockets are entered."
        return Need("RCDs", State.THERE, text)
    if whole or not bare:
        return Need("RCDs", State.THERE, "Every circuit is behind one.")
    have = "has" if len(bare) == 1 else "have"
    return Need("RCDs", State.ADD, f"An RCD before every circuit: {', '.join(bare)} {have} none.")


def _electrode(record: Record) -> Iterator[Need]:
    board = record.board
    yield Need(
        "supply",
        State.THERE,
        "Any: the house's earth stops at the feed's armour or cpc, insulated at this end.",
    )
    rod = board.electrode.strip()
    yield Need(
        "electrode",
        State.THERE if rod else State.ADD,
        f"{rod}." if rod else "An electrode: kind and number (Board).",
    )
    yield _resistance(record)
    yield _rcds(record, every=True)
    yield _earthing_conductor(record)
    yield _separation(record)
    yield _metal(record, pme=False)
    yield _outdoors(record, pme=False)
    yield from _vehicle(record, pme=False)
    yield Need(
        "distance",
        State.DECIDE,
        "House metal and outbuilding metal must not be touched at once: pipes, fences, screens of "
        "data and aerial cables. Where the rod goes, clear of services: the certifier decides.",
    )


def _earthing_conductor(record: Record) -> Need:
    """Return what is to say of it; what the design checks have against it is said."""
    board, topic = record.board, "earthing conductor"
    if board.earthing_csa is None or board.earthing_laid is None:
        text = "Its size and how it lies (Board): thicker in the ground."
        return Need(topic, State.ADD, text)
    against = [
        each
        for key, each in checks(record).items()
        if key.startswith(design_key(BOARD, topic)) and each.verdict.is_finding
    ]
    if any(each.verdict is Verdict.OUTSIDE for each in against):
        return Need(topic, State.ADD, against[0].why)
    if against:
        return Need(topic, State.DECIDE, against[0].why)
    return Need(topic, State.THERE, f"{board.earthing_csa:g} mm², {board.earthing_laid}.")


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
    """Return how the feed ends; nothing is taken for separate that isn't entered."""
    topic, runs, ends = "armour, separation", record.feed.runs, record.feed.armour_earthed
    unsaid = [at for at, run in enumerate(runs, start=1) if run.cable is None or run.cpc is None]
    if not runs or unsaid:
        which = f"run {unsaid[0]} of the feed" if unsaid else "the feed"
        return Need(topic, State.ADD, f"Enter the cable of {which}, and what serves as its cpc.")
    if all(run.cpc is not Cpc.NONE for run in runs):
        return Need(topic, State.ADD, "The feed's cpc runs all the way: end it insulated here.")
    armoured = any(run.cable is not None and run.cable.is_armoured for run in runs)
    if armoured and ends is not ArmourEarthed.HOUSE:
        return Need(topic, State.ADD, "Armour: earthed at the house only, insulated here.")
    return Need(topic, State.THERE, "Nothing of the feed joins both earths.")
