"""Drawing against design: the length of the legs, what lies round them, what shares their holes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from records.errors import FarboardError
from records.expected.loads import capacity
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import point_on, runs_of, surface_name
from records.judgement.facts import FEED, Facts
from records.judgement.remedy.design_changes import Owner
from records.judgement.review_types import Judged
from records.model.fabric import Lagging, Leg
from records.model.reading import Place, place_of
from records.model.record import Record
from records.model.wiring import Run
from records.tables.ratings import CONTAINS_INSULATION
from records.terms import CableKind, Method, Part, Verdict

APART = 0.10
"""Share of the entered length by which the drawing may differ from it."""


def drawn(record: Record, circuit: str | None, run: int) -> float | None:
    """Return the length of a run by its legs, with what is set for tails [m]; None: no legs."""
    fabric = record.fabric
    legs = [each.length for each in fabric.legs if (each.circuit, each.run) == (circuit, run)]
    legs += [each.length for each in fabric.buried if (each.circuit, each.run) == (circuit, run)]
    if not legs:
        return None
    return sum(legs) * (1 + fabric.tails / 100)


@dataclass(frozen=True, slots=True)
class Apart:
    """A run whose length as drawn isn't the one that is entered."""

    circuit: str | None
    """Its circuit; None: the feed."""
    run: int
    name: str
    drawn: float
    """To a tenth of a metre [m]."""
    entered: float | None

    def __str__(self) -> str:
        entered = "none entered" if self.entered is None else f"{self.entered:g} m entered"
        return f"{self.name}: {self.drawn:g} m drawn, {entered}"


def lengths_apart(record: Record) -> Iterator[Apart]:
    """Yield the runs whose drawn length can be taken over: all that differ by a tenth of a metre.

    One that is drawn in part only has its points still to place: it isn't offered.
    """
    for owner in _owners(record):
        for at, run in enumerate(owner.runs):
            found = drawn(record, owner.id, at)
            if found is None:
                continue
            if run.length is not None and _unfinished(owner) and found < run.length:
                continue
            if run.length is None or abs(round(found, 1) - run.length) >= 0.1 - SLACK:
                yield Apart(owner.id, at, owner.run_name(at), round(found, 1), run.length)


def _owners(record: Record) -> tuple[Owner, ...]:
    return (Owner(record, None), *(Owner(record, each.id) for each in record.circuits))


def agreement_lines(facts: Facts) -> Iterator[Judged]:
    """Return the lines in which drawing and design are held against each other."""
    record = facts.record
    shared = _together(record)
    for owner in _owners(record):
        place = FEED if owner.id is None else place_of(Part.CIRCUIT, owner.id)
        for at, run in enumerate(owner.runs):
            yield from _length(facts, place, owner, at, run)
            yield from _surroundings(facts, place, owner, at, run)
            yield from _grouping(facts, place, owner, at, run, shared)


def _length(facts: Facts, place: Place, owner: Owner, at: int, run: Run) -> Iterator[Judged]:
    found = drawn(facts.record, owner.id, at)
    if found is None:
        return
    name = owner.run_name(at)
    base = line(facts, place, f"drawn length {at}", f"{name}: length as drawn")._replace(
        source=cite.COMMON,
        weight=18,
    )
    words = f"Legs and {facts.record.fabric.tails:g} % for tails: {found:.1f} m"
    if run.length is None:
        yield base._replace(
            why=f"{words}; no length is entered.",
            next_check=do(Act.ENTER, f"Enter {found:.1f} m ({name}).").text(),
        )
    elif _unfinished(owner) and found < run.length:
        yield base._replace(verdict=Verdict.WITHIN, why=f"{words} so far, of {run.length:g} m.")
    elif abs(found - run.length) > APART * run.length + SLACK:
        yield base._replace(
            verdict=Verdict.NEAR,
            why=f"{words}; {run.length:g} m is entered. All that is calculated goes by the entry.",
            next_check=do(
                Act.ENTER,
                f"Enter the drawn length ({found:.1f} m; t at the surfaces takes it over), or the "
                "leg that is missing.",
            ).text(),
        )
    else:
        yield base._replace(verdict=Verdict.WITHIN, why=f"{words}; {run.length:g} m is entered.")


def _unfinished(owner: Owner) -> bool:
    """Whether a point of a circuit has no place yet: then its drawing can't be whole."""
    points = () if owner.circuit is None else owner.circuit.points
    return any(each.spot is None for each in points)


def _surroundings(facts: Facts, place: Place, owner: Owner, at: int, run: Run) -> Iterator[Judged]:
    record = facts.record
    lagged = {
        each.id: each for each in record.fabric.surfaces if each.lagging not in (None, Lagging.NONE)
    }
    long: dict[str, float] = {}
    for leg in record.fabric.legs:
        mine = (leg.circuit, leg.run) == (owner.id, at)
        if mine and leg.surface in lagged and leg.deep != 0:
            long[leg.surface] = long.get(leg.surface, 0.0) + leg.length * 1000
    if not long or run.method is None:
        return
    around = {id: mm for id, mm in long.items() if lagged[id].lagging is Lagging.AROUND}
    name = owner.run_name(at)
    base = line(facts, place, f"insulation {at}", f"{name}: thermal insulation round it")._replace(
        source=cite.bs7671("Regulation 523.9"),
        verdict=Verdict.OUTSIDE,
        weight=40,
    )
    if around:
        id, inside = max(around.items(), key=lambda each: each[1])
        counted = min(inside, _ALL)
        if run.method is Method.M103 or run.insulated >= counted - SLACK:
            return
        entered = f"; {run.insulated:g} mm are entered" if run.insulated else ""
        yield base._replace(
            why=f"Insulation lies all round {inside:.0f} mm of it ({surface_name(lagged[id])})"
            f"{entered}, rated by method {run.method.value}."
            f"{_becomes(owner, at, run, around=counted)}",
            next_check=do(
                Act.ENTER,
                f"Enter {counted:.0f} mm in thermal insulation, or the method that fits. Then "
                "look whether Iz is still at least In.",
            ).text(),
        )
    elif run.method not in CONTAINS_INSULATION and not run.insulated:
        id = next(iter(long))
        yield base._replace(
            why=f"Rated by method {run.method.value}, but it lies in thermal insulation "
            f"({surface_name(lagged[id])}).{_becomes(owner, at, run, around=None)}",
            next_check=do(
                Act.ENTER,
                "Enter the method that fits, or the length that is wholly surrounded. Then look "
                "whether Iz is still at least In.",
            ).text(),
        )


_ALL = 500.0
"""mm from which the factor of Table 52.2 falls no further."""


def _becomes(owner: Owner, at: int, run: Run, *, around: float | None) -> str:
    """Return what the insulation does to Iz, as a sentence with a blank before it.

    Args:
        owner: The feed or a circuit.
        at: Which run of it.
        run: That run.
        around: mm that are surrounded; None: insulation lies on one side.
    """
    flat = run.cable is CableKind.FLAT
    if around is None:
        if not flat:
            return ""
        changed, how = owner.with_run(at, method=Method.A), "By method A"
    elif flat and around >= _ALL:
        changed, how = owner.with_run(at, method=Method.M103), "By method 103"
    else:
        changed, how = owner.with_run(at, insulated=around), f"With {around:.0f} mm surrounded"
    try:
        found = capacity(Owner(changed, owner.id).runs, owner.device, owner.name)
    except FarboardError:
        return ""
    return f" {how} it carries {found}."


def _grouping(
    facts: Facts,
    place: Place,
    owner: Owner,
    at: int,
    run: Run,
    shared: Mapping[tuple[str | None, int], tuple[int, str]],
) -> Iterator[Judged]:
    most, where = shared.get((owner.id, at), (1, ""))
    if most <= run.grouped:
        return
    name = owner.run_name(at)
    yield line(facts, place, f"shared holes {at}", f"{name}: circuits in one hole")._replace(
        verdict=Verdict.OUTSIDE,
        why=f"{most} circuits go through one hole ({where}); {run.grouped} are entered as grouped.",
        next_check=do(Act.ENTER, f"Enter {most} grouped circuits, or plan a hole for each.").text(),
        source=cite.bs7671("Regulation 523.5"),
        weight=38,
    )


def _together(record: Record) -> dict[tuple[str | None, int], tuple[int, str]]:
    """Return how many circuits share a hole of a run, at most, and where: by circuit and run."""
    owner = runs_of(record)
    bored: dict[str, list[tuple[Leg, float, float]]] = {}
    for leg in record.fabric.legs:
        if owner(leg) is not None:
            holes = ((leg, *point_on(leg, hole.at)) for hole in leg.holes)
            bored.setdefault(leg.surface, []).extend(holes)
    names = {each.id: each.name or each.id for each in record.fabric.surfaces}
    most: dict[tuple[str | None, int], tuple[int, str]] = {}
    for surface, those in bored.items():
        for leg, x, y in those:
            circuits = {
                other.circuit
                for other, there, up in those
                if abs(there - x) <= _SAME and abs(up - y) <= _SAME
            }
            if len(circuits) > most.get((leg.circuit, leg.run), (1, ""))[0]:
                where = f"{names.get(surface, surface)}, {x:.0f} along, {y:.0f} up"
                most[leg.circuit, leg.run] = len(circuits), where
    return most


_SAME = 20.0
"""mm: holes whose middles are this near are taken for one (common practice)."""
