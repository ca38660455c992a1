"""What the feed carries: as entered, added up, with household diversity, or what runs together.

It carries at least its largest circuit, whatever else says less.
"""

from __future__ import annotations

from collections.abc import Iterator

from records.errors import FarboardError
from records.expected import sources as cited
from records.expected.context import Context, once, where
from records.expected.loads import design_current, ib
from records.expected.protection import kind_and_rating
from records.expected.results import Worked
from records.expected.workings import Missing, need
from records.model.circuit import Circuit
from records.tables.demand import cooker_socket, diversity
from records.terms import FeedLoad, LoadKind, Use
from records.units import Unit

_FIRST = 10.0
"""A of heating, and of cooking, that count in full (IET On-Site Guide, Appendix A)."""
_BY_USE = {Use.SOCKETS: LoadKind.SOCKETS, Use.LIGHTING: LoadKind.LIGHTING}
_WHOLE = {
    LoadKind.STORED_WATER: "thermostatic water heater",
    LoadKind.STORAGE_HEATING: "thermal storage heating",
    LoadKind.FLOOR_WARMING: "floor warming",
    LoadKind.LIGHTING: "lighting",
}
"""Kinds of load of which one share counts, whatever they come to."""
_IN_FULL = "in full"


@once
def feed_current(context: Context) -> Worked:
    """Return Ib of the feed: as entered, or as its loading says; at least its largest circuit.

    Raises:
        Missing: If what it follows from isn't entered.
    """
    found = _loaded(context)
    largest = largest_circuit(context)
    if largest is None or largest[1].value <= found.value:
        return found
    circuit, own = largest
    return ib(
        own.value,
        "Ib = that of the largest circuit",
        f"{own.value:.3g} A, {circuit.id}",
        f"{found.formula} gives {found.value:.3g} A. A feed carries at least its largest circuit.",
    )


def largest_circuit(context: Context) -> tuple[Circuit, Worked] | None:
    """Return the circuit with the highest Ib, among those whose Ib is known."""
    found = []
    for circuit in context.record.circuits:
        try:
            found.append((circuit, design_current(context, circuit)))
        except FarboardError:
            continue
    return max(found, key=lambda pair: pair[1].value, default=None)


def _loaded(context: Context) -> Worked:
    feed = context.record.feed
    load = feed.load
    if load is not None:
        return ib(load, "Ib as entered", ("{:g} A", load))
    if feed.loading is FeedLoad.RATED:
        _, rating = kind_and_rating(feed.device, "Feed")
        return ib(rating, "Ib = In of the feed's device", f"{rating:g} A", "All that it carries.")
    if not context.record.circuits:
        raise Missing("neither Ib of the feed nor any circuit is entered yet (Feed).")
    if feed.loading is FeedLoad.DIVERSITY:
        return _by_diversity(context)
    if feed.loading is FeedLoad.TOGETHER:
        return _together(context)
    parts = [design_current(context, each).value for each in context.record.circuits]
    return ib(
        sum(parts),
        "Ib = sum of Ib of the circuits",
        lambda: " + ".join(f"{each:.3g}" for each in parts),
        "No diversity taken off: on the safe side. For a workshop choose what runs together, and "
        "mark the circuits that can be on at once.",
    )


def _together(context: Context) -> Worked:
    """Return Ib of the feed from the circuits that can be on at once, as somebody marked them."""
    circuits = context.record.circuits
    on = [each for each in circuits if each.together is not False]
    parts = [(each.id, design_current(context, each).value) for each in on]
    unsaid = [each.id for each in circuits if each.together is None]
    off = [each.id for each in circuits if each.together is False]
    notes = []
    if off:
        notes.append(f"Not on with the others, as marked: {', '.join(off)}.")
    if unsaid:
        notes.append(f"Not marked, so counted as on: {', '.join(unsaid)}.")
    return ib(
        sum(value for _, value in parts),
        "Ib = sum of Ib of the circuits that run together",
        lambda: " + ".join(f"{value:.3g} ({id})" for id, value in parts) or "none",
        " ".join(notes),
    )


def _by_diversity(context: Context) -> Worked:
    """Return Ib of the feed with a household's allowances, which mislead in a workshop."""
    loads: dict[LoadKind | None, list[float]] = {}
    control = 0
    unsaid = []
    for each in context.record.circuits:
        use = need(each.use, "what the circuit feeds is", where(each))
        kind = each.kind or _BY_USE.get(use)
        if kind is None:
            unsaid.append(each.id)
        control += kind is LoadKind.COOKING and bool(each.cooker_socket)
        loads.setdefault(kind, []).append(design_current(context, each).value)
    taken = list(_shares(loads))
    published = [(row, diversity(row), load) for row, load in taken if row != _IN_FULL]
    full = [load for row, load in taken if row == _IN_FULL]
    added = cooker_socket()
    total = sum(share.value * load for _, share, load in published) + sum(full)
    total += control * added.value

    def put_in() -> str:
        parts = [f"{share.value:g} × {load:.3g} ({row})" for row, share, load in published]
        parts += [f"{load:.3g} (in full)" for load in full]
        parts += [f"{control} × {added.value:g} (socket on a cooker control)"] if control else []
        return " + ".join(parts)

    sources = [share.source for _, share, _ in published]
    notes = [
        "A household's diversity misleads in a workshop: one person can run everything at once. "
        "The certifier decides whether it holds here."
    ]
    if unsaid:
        notes.append(f"In full, as their kind of load is not entered: {', '.join(unsaid)}.")
    return Worked(
        "Ib",
        total,
        Unit.AMPERE,
        "Ib = Σ allowance · Ib of the circuits",
        put_in,
        (cited.ORDER, *sources, *((added.source,) if control else ())),
        digits=1,
        note=" ".join(notes),
    )


def _shares(loads: dict[LoadKind | None, list[float]]) -> Iterator[tuple[str, float]]:
    """Yield each row of the table with the current that it applies to; in full without a row."""
    for kind, currents in loads.items():
        if kind is LoadKind.SOCKETS:
            largest, others = _split(currents, 1)
            parts = [("socket circuits, the largest", largest)]
            parts.append(("socket circuits, each other", others))
        elif kind is LoadKind.INSTANT_WATER:
            largest, others = _split(currents, 2)
            parts = [("instantaneous water heaters, the two largest", largest)]
            parts.append(("instantaneous water heaters, each other", others))
        elif kind in (LoadKind.COOKING, LoadKind.SPACE_HEATING):
            name = "cooker" if kind is LoadKind.COOKING else "heating and power"
            whole = sum(currents)
            parts = [(f"{name}, first 10 A", min(whole, _FIRST))]
            parts.append((f"{name}, above 10 A", max(whole - _FIRST, 0.0)))
        elif kind in _WHOLE:
            parts = [(_WHOLE[kind], sum(currents))]
        else:
            parts = [(_IN_FULL, each) for each in currents]
        yield from ((row, load) for row, load in parts if load)


def _split(currents: list[float], count: int) -> tuple[float, float]:
    ordered = sorted(currents, reverse=True)
    return sum(ordered[:count]), sum(ordered[count:])
