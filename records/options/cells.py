"""The checks that a choice of cable or device touches, worked out as cells of a table."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from records.expected import bonding
from records.expected.branch import Branch
from records.expected.context import BOARD, FEED, Context, circuit_place
from records.expected.figures import some
from records.expected.results import Expected, NotWorkedOut, Result, What, Worked
from records.expected.workings import attempt
from records.judgement.compare import SLACK
from records.judgement.design.cpc_size import let_through, needs_current
from records.judgement.design.disconnection_time import time_line
from records.judgement.design.load_checks import where_lamps_are
from records.judgement.design.pairs import CHECKS, checked
from records.judgement.design.ring_checks import ring_capacity, ring_size
from records.judgement.facts import Facts
from records.judgement.review_types import Judged, Sense
from records.model.circuit import Circuit
from records.model.reading import Place
from records.model.record import Record
from records.options.cell import Cell, Check, columns
from records.options.decisive import decisive
from records.terms import Cpc, Earthing, Form, OutbuildingEarth, Use, Verdict

_PAIRS = {
    What.IB: Check.LOAD,
    What.IZ: Check.RATING,
    What.VOLT_DROP: Check.DROP,
    What.ZS: Check.LOOP,
    What.CPC_SIZE: Check.CPC,
}
_FEED_BY_LINE = (What.IN, What.IZ, What.IB, What.VOLT_DROP)
_FEED_BY_LOOP = (
    What.TIME_REQUIRED,
    What.ZS_LIMIT,
    What.ZS,
    What.FAULT_LOWEST,
    What.TIME,
    What.TIME_RCD,
    What.CPC_SIZE,
    What.CPC_LEAST,
)
_BY_LINE = (What.VOLT_DROP, What.VOLT_DROP_LIMIT)
_BY_LOOP = (
    What.TIME_REQUIRED,
    What.ZS_LIMIT,
    What.ZS,
    What.FAULT_LOWEST,
    What.TIME,
    What.TIME_RCD,
)
"""What a feed decides of a circuit behind it: by its line conductors, and with its cpc."""
OWN = (*_BY_LINE, *_BY_LOOP, What.IN, What.IZ, What.IB, What.CPC_SIZE, What.CPC_LEAST)
"""What a circuit's own cable and device decide."""
FEED_SHARE = 2.5
"""% of U0 that a feed may lose while what the circuits behind it lose isn't known (common practice:
of the 3 % that lights may lose in all, 0.5 % are left to them)."""


@dataclass(slots=True)
class Shared:
    """What many feeds have in common that are tried before the same circuits."""

    circuits: tuple[Circuit, ...]
    """Those that are all entered, and can decide."""
    complete: bool
    """Whether all are entered, and there are some."""
    by_line: dict[object, list[Cell]] = field(default_factory=dict)
    """The checks that follow from the line conductors of a feed, whatever its cpc."""

    @classmethod
    def of(cls, record: Record) -> Shared:
        """Return it for a job.

        Args:
            record: The job, with one of the feeds in it.
        """
        circuits = [each for each in record.circuits if is_complete(each)]
        complete = bool(circuits) and len(circuits) == len(record.circuits)
        return cls(tuple(decisive(Context(record), circuits)), complete)


def feed_cells(
    record: Record, *, pme_unsaid: bool = False, shared: Shared | None = None
) -> tuple[Cell, ...]:
    """Return the checks that the feed decides, a cell for each column.

    Of several circuits the one that has least in hand speaks. While a circuit isn't all entered
    the feed alone is held to a share of the voltage drop.

    Args:
        record: The job, with the choice in it.
        pme_unsaid: Whether the supply may be TN-C-S, though another is assumed.
        shared: What other feeds tried in the same job have in common with this one.
    """
    return tuple(columns(feed_lines(record, pme_unsaid=pme_unsaid, shared=shared)))


def feed_lines(
    record: Record, *, pme_unsaid: bool = False, shared: Shared | None = None
) -> list[Cell]:
    """Return the same checks before one speaks for its column: each circuit that fails has its own.

    Args:
        record: The job.
        pme_unsaid: As for `feed_cells`.
        shared: As for `feed_cells`; then circuits that can't decide are left out.
    """
    if shared is None:
        found = tuple(each for each in record.circuits if is_complete(each))
        shared = Shared(found, bool(found) and len(found) == len(record.circuits))
    look = _Look(record)
    key = tuple((each.cable, each.csa) for each in record.feed.runs)
    by_line = shared.by_line.get(key)
    if by_line is None:
        by_line = shared.by_line[key] = look.by_line(shared)
    return [*by_line, *look.by_loop(shared), *look.bond(unsaid=pme_unsaid)]


def feed_alone(record: Record) -> Cell | None:
    """Return the drop of the feed held to its share, while circuits are not all entered; else None.

    Args:
        record: The job.
    """
    if record.circuits and all(map(is_complete, record.circuits)):
        return None
    return _Look(record).drop_of_feed_alone()


def circuit_cells(record: Record, circuit: Circuit) -> tuple[Cell, ...]:
    """Return the checks that a circuit's own cable and device decide, a cell for each column.

    Args:
        record: The job, with the choice in it.
        circuit: The one of that record.
    """
    return tuple(columns(circuit_lines(record, circuit)))


def circuit_lines(record: Record, circuit: Circuit) -> list[Cell]:
    """Return the same checks before one speaks for its column."""
    return _Look(record).own(circuit)


def is_complete(circuit: Circuit) -> bool:
    """Return whether all is entered that voltage drop and Zs of a circuit follow from."""
    return (
        circuit.use is not None
        and circuit.form is not None
        and circuit.device.kind is not None
        and circuit.device.rating is not None
        and bool(circuit.runs)
        and all(
            run.cable
            and run.csa
            and run.length is not None
            and run.cpc
            and (run.cpc is not Cpc.SEPARATE or run.cpc_csa)
            for run in circuit.runs
        )
        and (circuit.use is Use.SOCKETS or _has_load(circuit))
    )


def _has_load(circuit: Circuit) -> bool:
    given = (circuit.load, circuit.power, circuit.fuse)
    return any(each is not None for each in given) or any(
        each.load is not None or each.power is not None for each in circuit.points
    )


class _Look:
    """A record, and the figures of it that are asked for."""

    def __init__(self, record: Record) -> None:
        self._record = record
        self._context = Context(record)
        self._design: dict[tuple[Place, What], Result] = {}

    @cached_property
    def _facts(self) -> Facts:
        # Rules of the design look at no reading: what they would be is not worked out.
        return Facts(self._record, Expected(design=self._design))

    @property
    def _own_electrode(self) -> bool:
        return self._record.board.earth is OutbuildingEarth.OWN_ELECTRODE

    def by_line(self, shared: Shared) -> list[Cell]:
        """Return the checks that follow from the line conductors of the feed."""
        self._work_out(Branch(self._context, None), _FEED_BY_LINE)
        lines = list(self._pairs(FEED, (What.IB, What.IZ)))
        for circuit in shared.circuits:
            self._work_out(Branch(self._context, circuit), _BY_LINE)
        places = map(circuit_place, shared.circuits)
        for place in self._telling(places, What.VOLT_DROP, What.VOLT_DROP_LIMIT):
            lines += self._pairs(place, (What.VOLT_DROP,))
        return lines if shared.complete else [*lines, self.drop_of_feed_alone()]

    def by_loop(self, shared: Shared) -> list[Cell]:
        """Return the checks that follow from its loop as well."""
        self._work_out(Branch(self._context, None), _FEED_BY_LOOP)
        lines = self._cells(FEED, (What.ZS, What.CPC_SIZE))
        lines += self._breaking(shared.circuits)
        if self._own_electrode:
            # It and the RCD disconnect there: no cable before the board decides it.
            return lines
        for circuit in shared.circuits:
            self._work_out(Branch(self._context, circuit), _BY_LOOP)
        places = [circuit_place(each) for each in shared.circuits]
        for place in self._telling(places, What.ZS, What.ZS_LIMIT):
            lines += self._pairs(place, (What.ZS,))
        for place in self._telling(places, What.TIME, What.TIME_REQUIRED):
            lines.append(_cell(Check.TIME, time_line(self._facts, place, None)))
        return lines

    def _breaking(self, circuits: Iterable[Circuit]) -> Iterator[Cell]:
        """Yield the devices at the sub-board that a fault current with this feed may burst.

        Told where it fails alone: a label that isn't entered, or a current that is assumed, is
        asked for in the review and decides on no cable.
        """
        labelled = [each for each in circuits if each.device.breaking is not None]
        for circuit in sorted(labelled, key=lambda each: each.device.breaking or 0.0):
            place = circuit_place(circuit)
            self._work_out(Branch(self._context, circuit), (What.BREAKING, What.FAULT_HIGHEST))
            current, most = (self._design[place, e] for e in (What.FAULT_HIGHEST, What.BREAKING))
            if not isinstance(current, Worked) or not isinstance(most, Worked) or current.assumed:
                return
            if current.value <= most.value + SLACK:
                return  # the current at the board is one for all: those that bear more hold too
            check = next(each for each in CHECKS if each.what is What.FAULT_HIGHEST)
            yield _cell(Check.BREAKING, checked(self._facts, place, check))

    def _telling(self, places: Iterable[Place], what: What, limit: What) -> Iterator[Place]:
        """Yield the places whose check can be the one that speaks for its column.

        Those over their limit, those that can't be judged, and of the rest the one with least in
        hand. Most of the time of a table would go into words about the others.
        """
        worst: tuple[float, Place] | None = None
        for place in places:
            figure, most = self._design[place, what], self._design[place, limit]
            if not isinstance(figure, Worked) or not isinstance(most, Worked):
                yield place
                continue
            ends = (figure.value, figure.value if figure.high is None else figure.high)
            share = max(ends) / most.value if most.value > 0 else math.inf
            if share > 1 - SLACK:
                yield place
            elif worst is None or share > worst[0]:
                worst = share, place
        if worst is not None:
            yield worst[1]

    def own(self, circuit: Circuit) -> list[Cell]:
        self._work_out(Branch(self._context, circuit), OWN)
        place = circuit_place(circuit)
        if circuit.form is not Form.RING:
            return self._cells(place, tuple(_PAIRS))
        cells = self._cells(place, tuple(each for each in _PAIRS if each is not What.IZ))
        ring = (ring_capacity(self._facts, place), ring_size(self._facts, place, circuit))
        return [*cells, *(_cell(Check.RATING, each) for each in ring)]

    def drop_of_feed_alone(self) -> Cell:
        """Return the drop of a feed by itself, held to what it may take of the whole."""
        if (FEED, What.VOLT_DROP) not in self._design:
            self._work_out(Branch(self._context, None), (What.VOLT_DROP,))
        found = self._design[FEED, What.VOLT_DROP]
        if isinstance(found, NotWorkedOut):
            return Cell(Check.DROP, Verdict.NOT_TAKEN, "", found.why, FEED, found)
        most = FEED_SHARE / 100 * self._record.origin.u0
        verdict = Verdict.NEAR if found.value <= most + SLACK else Verdict.OUTSIDE
        why = (
            f"ΔU {found} in the feed alone. Held to {FEED_SHARE:g} % ({most:.2f} V) while circuits "
            "are not all entered: what they lose comes on top."
        )
        return Cell(Check.DROP, verdict, str(found), why, FEED, found, found.value / most)

    def bond(self, *, unsaid: bool = False) -> list[Cell]:
        """Return whether the feed's cpc will do as a bond, where the house's earth is exported."""
        record, context = self._record, self._context
        if self._own_electrode or record.board.metal_in_ground is False:
            return []
        if record.origin.earthing is not Earthing.TN_C_S:
            if not unsaid:
                return []
            origin = record.origin.model_copy(update={"earthing": Earthing.TN_C_S})
            context = Context(record.model_copy(update={"origin": origin}))
        worth = attempt("S", lambda: bonding.cpc_as_copper(context))
        least = attempt("S", lambda: bonding.least(context))
        if not isinstance(worth, Worked) or not isinstance(least, Worked):
            lacking = next(e for e in (worth, least) if isinstance(e, NotWorkedOut))
            return [Cell(Check.BOND, Verdict.NOT_TAKEN, "", lacking.why, FEED, lacking)]
        why = (
            f"It conducts like {worth.value:.1f} mm² of copper; a bond asks for {least.value:g} mm²"
        )
        used = least.value / worth.value if worth.value else None
        verdict = Verdict.WITHIN
        if worth.value < least.value:
            metal = record.board.metal_in_ground
            verdict = Verdict.OUTSIDE if metal and not unsaid else Verdict.NEAR
            ifs = ["the supply is PME (TN-C-S)"] if unsaid else []
            ifs += [] if metal else ["pipes or steel in the ground are bonded to it"]
            why += f", if {' and '.join(ifs)}" if ifs else ""
        return [Cell(Check.BOND, verdict, str(worth), f"{why}.", BOARD, worth, used)]

    def _work_out(self, branch: Branch, wanted: Iterable[What]) -> None:
        for what, each in some(branch, wanted).items():
            self._design[branch.place, what] = each

    def _cells(self, place: Place, wanted: tuple[What, ...]) -> list[Cell]:
        lines = list(self._pairs(place, wanted))
        return [*lines, _cell(Check.TIME, time_line(self._facts, place, None))]

    def _pairs(self, place: Place, wanted: tuple[What, ...]) -> Iterator[Cell]:
        facts = self._facts
        for check in CHECKS:
            if check.what not in wanted:
                continue
            found = checked(facts, place, check)
            if check.what is What.VOLT_DROP:
                found = where_lamps_are(facts, found)
            if check.what is What.CPC_SIZE:
                found = let_through(facts, place, needs_current(facts, place, found))
            yield _cell(_PAIRS[check.what], found)


def _cell(check: Check, found: Judged) -> Cell:
    result = found.expected
    figure = str(result) if isinstance(result, Worked) else ""
    return Cell(check, found.verdict, figure, found.why, found.place, result, _used(found))


def _used(found: Judged) -> float | None:
    limit, result = found.limit, found.expected
    if limit is None or not isinstance(result, Worked) or result.unit is not limit.unit:
        return None
    if found.verdict is Verdict.WITHIN and math.isinf(result.value):
        return None  # the printed limit lets it by, and the curve has no figure
    most = result.value if result.high is None else result.high
    least = result.value if result.low is None else result.low
    if limit.sense is Sense.MOST and limit.value > 0:
        return most / limit.value
    if limit.sense is Sense.LEAST and least > 0:
        return limit.value / least
    return None
