"""What feed would do: every cable that is made, tried in one run, with the check that decides."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from records.expected.results import Worked
from records.judgement.compare import SLACK
from records.model.record import Record
from records.model.wiring import Device
from records.options import stock
from records.options.assumptions import Assumed, assumed, feed_load
from records.options.cables import Make, make_of, makes
from records.options.cell import Cell, Tried, will_do
from records.options.cells import FEED_SHARE, Shared, feed_cells, is_complete
from records.options.confirm import CONFIRM
from records.terms import CableKind, Cpc, Earthing, OutbuildingEarth, Verdict
from records.units import Ampere

ROOM = 25.0
"""% of load that a feed leaves for later unless somebody says otherwise (common practice)."""


def wanted_room(record: Record) -> float:
    """Return the room for later load that a feed is to leave [%]: as the record has it, or 25."""
    given = record.buying.room
    return ROOM if given is None else given


@dataclass(frozen=True)
class Option(Tried):
    """A cable in one run of the feed, and how each check stands with it."""

    make: Make
    cells: tuple[Cell, ...]
    base: Record = field(repr=False)
    """The job as it was entered."""
    run: int
    """In which run of the feed, from 0."""
    larger: Record | None = field(repr=False)
    """The job with the load that room is asked for, and with what had to be assumed; None: no
    device is made for that."""
    pme_unsaid: bool = False
    """Whether the supply may be TN-C-S, since nobody said what it is."""

    # Both cost as much as a check, and are looked at for a few options alone.

    @cached_property
    def record(self) -> Record:
        """The job with the cable in it, as it was entered elsewhere: nothing assumed."""
        return with_cable(self.base, self.run, self.make)

    @cached_property
    def roomy(self) -> bool:
        """Whether the load may grow by the room asked for."""
        if not self.will_do or self.larger is None:
            return False
        larger = with_cable(self.larger, self.run, self.make)
        return will_do(feed_cells(larger, pme_unsaid=self.pme_unsaid))


@dataclass(frozen=True, slots=True)
class Choice:
    """All cables tried in one run of the feed."""

    run: int
    """Which run, from 0."""
    options: tuple[Option, ...]
    """Thin ones first; of equal ones that with fewest conductors."""
    notes: tuple[str, ...]
    """What had to be taken for granted."""
    lacks: tuple[str, ...]
    """What has to be entered before anything can be chosen; then there are no options."""
    room: float
    """% of load asked for as room."""
    present: Option | None = None
    """The cable that the run has now, tried as all others, and one of them if it is made; None: it
    has none yet."""

    @property
    def smallest(self) -> Option | None:
        """The smallest line conductor that will do; of equal ones that with fewest conductors."""
        return next((each for each in self.options if each.will_do), None)

    @property
    def roomy(self) -> Option | None:
        """The first that leaves the room asked for."""
        return next((each for each in self.options if each.roomy), None)


def feed_options(record: Record, run: int = 0, *, room: float | None = None) -> Choice:
    """Return what would do in one run of the feed; the other runs stay as they are.

    A run whose cable isn't entered yet gets the cable that is tried as well.

    Args:
        record: The job as far as it is entered: a distance and a load are enough.
        run: Which run is tried, from 0.
        room: % by which the load at the board may grow; None: as the record has it, or 25 %.
    Raises:
        IndexError: If the feed has runs, but not that one.
    """
    ready = assumed(record)
    room = wanted_room(record) if room is None else room
    if ready.lacks:
        return Choice(run, (), ready.notes, ready.lacks, room)
    offered = _offered(ready.record, run)
    grown = _grown(ready.record, room)
    options = tuple(_tried(record, ready, grown, run, offered))
    notes = (*ready.notes, *_notes(ready.record, run, record))
    now = make_of(record.feed.runs[run])
    present = next((each for each in options if each.make == now), None)
    if present is None and now is not None:
        present = next(_tried(record, ready, grown, run, (now,)))
    return Choice(run, options, notes, (), room, present)


_AS_70 = (
    "Armoured XLPE cable is rated as 70 °C cable, as most terminals are made for 70 °C. Its "
    "voltage drop and Zs are those at 90 °C: on the safe side."
)
_AS_90 = (
    "Armoured XLPE cable is rated at 90 °C, as the terminals at both ends are entered as made for "
    "it. Voltage drop and Zs are those at 90 °C."
)


def _offered(ready: Record, run: int) -> tuple[Make, ...]:
    laid = ready.feed.runs[run]
    exported = ready.board.earth is not OutbuildingEarth.OWN_ELECTRODE
    assert laid.method is not None  # it is assumed where it was not entered
    return makes(laid.method, carries_earth=exported, protected=bool(laid.protected))


def _notes(ready: Record, run: int, record: Record) -> Iterator[str]:
    if CableKind.SWA_XLPE in {each.cable for each in _offered(ready, run)}:
        yield _AS_90 if record.feed.runs[run].hot_terminals else _AS_70
    also = [str(at + 1) for at in _without_cable(record, run)]
    if also:
        yield f"Run {', '.join(also)} has no cable yet: the same cable is tried there."
    missing = [each.id for each in record.circuits if not is_complete(each)]
    if missing or not record.circuits:
        which = f"{', '.join(missing)} not all entered" if missing else "No circuit entered"
        yield f"{which}: the feed alone is held to {FEED_SHARE:g} % voltage drop."


def _without_cable(record: Record, run: int) -> list[int]:
    runs = record.feed.runs
    return [at for at, each in enumerate(runs) if at != run and each.cable is None]


def _grown(ready: Record, room: float) -> Record | None:
    """Return the job with a load that is higher; None if no device carries it.

    Where the load is more than In then, the next rating of that kind of device stands before it.
    """
    load, device = feed_load(ready), ready.feed.device
    if not isinstance(load, Worked) or device.kind is None or device.rating is None:
        return None
    more = load.value * (1 + room / 100)
    if more > device.rating + SLACK:
        larger = [each for each in stock.ratings(device.kind) if each >= more - SLACK]
        if not larger:
            return None
        device = _rated(device, larger[0])
    feed = ready.feed.model_copy(update={"load": more, "device": device})
    return ready.model_copy(update={"feed": feed})


def _rated(device: Device, rating: float) -> Device:
    return device.model_copy(update={"rating": Ampere(rating)})


def _tried(
    record: Record, ready: Assumed, grown: Record | None, run: int, offered: Iterable[Make]
) -> Iterator[Option]:
    unsaid, shared = ready.pme_unsaid, None
    for make in offered:
        tried = with_cable(ready.record, run, make)
        if shared is None:
            shared = Shared.of(tried)
        cells = feed_cells(tried, pme_unsaid=unsaid, shared=shared)
        yield Option(make, cells, record, run, grown, unsaid)


def with_cable(record: Record, run: int, make: Make) -> Record:
    """Return the record with another cable in one run of its feed, and in those without any."""
    at = (run, *_without_cable(record, run))
    runs = tuple(
        make.of(each) if number in at else each for number, each in enumerate(record.feed.runs)
    )
    feed = record.feed.model_copy(update={"runs": runs})
    return record.model_copy(update={"feed": feed})


def remarks(choice: Choice) -> Iterator[str]:
    """Yield what a person wants to know before the marked cable is asked for at a counter."""
    small = choice.smallest
    if small is None and choice.options:
        best = min(choice.options, key=_falls_short)
        why = best.decides.why if best.decides is not None else ""
        yield (
            "No cable is sure to do with the rest as it is. Nearest: "
            f"{words(best.make)}, cpc: {cpc_words(best.make)}. {why}"
        )
    unjudged = next((each for each in choice.options if each.verdict is Verdict.NOT_TAKEN), None)
    if unjudged is not None and (small is None or _is_before(choice, unjudged, small)):
        why = unjudged.decides.why if unjudged.decides is not None else ""
        yield (
            f"{words(unjudged.make)}, cpc: {cpc_words(unjudged.make)}, may do too: it can't be "
            f"judged yet. {why}"
        )
    if small is not None and small.make.cable is CableKind.SWA_PVC:
        yield (
            "Armoured cable with PVC insulation is rarely stocked, XLPE is usual (common "
            "practice): ask before you plan with it."
        )


def _falls_short(option: Option) -> tuple[bool, float]:
    """Return how far an option is from passing: first whether it fails, then by how much."""
    by = option.decides
    used = by.used if by is not None and by.used is not None else math.inf
    return option.verdict is Verdict.OUTSIDE, used


def _is_before(choice: Choice, one: Option, other: Option) -> bool:
    return next(each for each in choice.options if each is one or each is other) is one


def longest_run(record: Record) -> int:
    """Return which run of the feed is the longest, from 0: the one that a choice is about first."""
    runs = record.feed.runs
    return max(range(len(runs)), key=lambda at: runs[at].length or 0.0, default=0)


def cautions(record: Record) -> Iterator[str]:
    """Yield what stays in view beside a choice of feed."""
    exported = record.board.earth is not OutbuildingEarth.OWN_ELECTRODE
    if exported and record.origin.earthing in (Earthing.TN_C_S, None):
        yield (
            "Ask the certifier before PME earth is exported: if the supply's neutral breaks, metal "
            "outside can become live."
        )
    if not exported:
        yield (
            "Electrode: the armour is earthed at the house only, insulated at the outbuilding. The "
            "certifier decides on RCD and RA."
        )
    yield (f"Usually notifiable: settle that before you buy. {CONFIRM}")


def words(make: Make) -> str:
    """Return a cable as it is asked for at the counter: `3-core 10 mm² armoured (XLPE)`."""
    if make.cable is CableKind.FLAT:
        return f"{make.csa:g} mm² twin-and-earth"
    if make.cable is CableKind.SINGLES:
        return f"{make.csa:g} mm² single cores"
    if make.cable is CableKind.FLEX:
        return f"{make.csa:g} mm² flexible cable"
    kind = "XLPE" if make.cable is CableKind.SWA_XLPE else "PVC"
    return f"{make.cores}-core {make.csa:g} mm² armoured ({kind})"


def cpc_words(make: Make) -> str:
    """Return what serves as cpc, short."""
    return {
        Cpc.ARMOUR: "armour",
        Cpc.CORE: "core",
        Cpc.CORE_AND_ARMOUR: "core+armour",
        Cpc.SEPARATE: f"separate {make.cpc_csa or 0:g} mm²",
        Cpc.NONE: "armour, house",
    }[make.cpc]
