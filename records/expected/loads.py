"""Design currents, capacity of the cables as laid, and voltage drop."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from records.errors import NotTabulated
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, once, where
from records.expected.formulas import capacity as cap
from records.expected.formulas import drop
from records.expected.protection import kind_and_rating
from records.expected.results import Cited, Filled, Text, Worked
from records.expected.workings import Missing, need, placed, worked
from records.model.circuit import Circuit
from records.model.wiring import Device, Run
from records.tables import ratings
from records.tables.conductors import operating_temperature
from records.tables.demand import diversity, ring_load_at_end
from records.tables.drop import drop_limit, volt_drop
from records.tables.made import must_be, no_such_size
from records.tables.rounding import cut_down
from records.tables.table import Published
from records.terms import CableKind, DeviceKind, FeedLoad, Form, Method, Use
from records.units import Ampere, Celsius, Metre, OhmPerMetre, SquareMillimetre, Unit, Watt

_AS_70 = Celsius(70.0)
_DEPTH = 0.7
"""Depth that the ratings of buried cable hold for [m] (BS 7671, Table 4B4, from memory)."""


@once
def design_current(context: Context, circuit: Circuit) -> Worked:
    """Return Ib of a circuit: as entered, from its load, or In where sockets can take it all."""
    load, power = circuit.load, circuit.power
    if load is not None:
        return _ib(load, "Ib as entered", ("{:g} A", load))
    if power is not None:
        u0 = context.u0
        current = cap.current_of(Watt(power * 1000), u0)
        note = "At unity power factor: motors draw more."
        return _ib(current, "Ib = P / U0", ("{:g} / {:g}", power * 1000, u0), note)
    if circuit.form is Form.FCU and circuit.fuse is not None:
        return _ib(circuit.fuse, "Ib = fuse of the connection unit", f"{circuit.fuse:g} A")
    if circuit.use is Use.SOCKETS:
        _, rating = kind_and_rating(circuit.device, where(circuit))
        return _ib(rating, "Ib = In, as sockets can take all of it", ("{:g} A", rating))
    raise Missing(f"neither Ib nor the load is entered yet ({where(circuit)}).")


def _ib(value: float, formula: str, put_in: Text, note: Text = "") -> Worked:
    return worked("Ib", value, Unit.AMPERE, formula, put_in, (cited.ORDER,), digits=1, note=note)


@once
def feed_current(context: Context) -> Worked:
    """Return Ib of the feed: as entered, or as its loading says, else added up without diversity.

    Raises:
        Missing: If what it follows from isn't entered.
    """
    feed = context.record.feed
    load = feed.load
    if load is not None:
        return _ib(load, "Ib as entered", ("{:g} A", load))
    if feed.loading is FeedLoad.RATED:
        _, rating = kind_and_rating(feed.device, "Feed")
        return _ib(rating, "Ib = In of the feed's device", f"{rating:g} A", "All that it lets by.")
    if not context.record.circuits:
        raise Missing("neither Ib of the feed nor any circuit is entered yet (Feed).")
    if feed.loading is FeedLoad.DIVERSITY:
        return _by_diversity(context)
    parts = [design_current(context, each).value for each in context.record.circuits]
    return _ib(
        sum(parts), "Ib = sum of Ib of the circuits",
        lambda: " + ".join(f"{each:.3g}" for each in parts),
        "No diversity taken off: errs high. Enter Ib after diversity if you have worked it out; "
        "household allowances mislead where one person can run everything at once.",
    )  # fmt: skip


def _by_diversity(context: Context) -> Worked:
    """Return Ib of the feed with a household's allowances, which mislead in a workshop."""
    loads: dict[Use, list[float]] = {use: [] for use in Use}
    for each in context.record.circuits:
        use = need(each.use, "what the circuit feeds is", where(each))
        loads[use].append(design_current(context, each).value)
    sockets = sorted(loads[Use.SOCKETS], reverse=True)
    fixed = sum(loads[Use.FIXED])
    shares = (
        ("lighting", sum(loads[Use.LIGHTING])),
        ("socket circuits, the largest", sum(sockets[:1])),
        ("socket circuits, each other", sum(sockets[1:])),
        ("heating and power, first 10 A", min(fixed, 10.0)),
        ("heating and power, above 10 A", max(fixed - 10.0, 0.0)),
    )
    taken = [(diversity(row), load) for row, load in shares if load]
    return worked(
        "Ib", sum(share.value * load for share, load in taken), Unit.AMPERE,
        "Ib = Σ allowance · Ib of the circuits",
        lambda: " + ".join(f"{share.value:g} × {load:.3g}" for share, load in taken),
        (cited.ORDER, *(share.source for share, _ in taken)), digits=1,
        note="A household's diversity misleads in a workshop: one person can run everything at "
        "once. The certifier decides whether it holds here.",
    )  # fmt: skip


@lru_cache(maxsize=1024)
def rated_current(kind: DeviceKind, rating: Ampere) -> Worked:
    """Return In."""
    return worked(
        "In", rating, Unit.AMPERE, "from the label", kind.value, (cited.DECLARED_DEVICE,), digits=0
    )


def capacity(runs: tuple[Run, ...], device: Device, at: str) -> Worked:
    """Return Iz: the capacity of the run that carries least."""
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    kind = need(device.kind, "the protective device is", at)
    least: Worked | None = None
    for number, run in enumerate(runs, start=1):
        cable, csa, method = run.cable, run.csa, run.method
        if cable is None or csa is None or method is None:
            here = f"{at}, run {number}"
            need(cable, "the kind of cable is", here)
            need(csa, "the line's cross-section is", here)
            raise Missing(f"the installation method is not entered yet ({here}).")
        try:
            found = _run_capacity(number, _Laid.of(run, cable, csa, method), kind)
        except NotTabulated as error:
            raise placed(error, f"{at}, run {number}") from None
        if least is None or found.value < least.value:
            least = found
    return need(least, "a run of cable is", at)


class _Laid(NamedTuple):
    """What the capacity of a run depends on."""

    cable: CableKind
    csa: float
    method: Method
    ambient: float
    grouped: int
    insulated: float
    soil: float
    depth: float | None
    duct: bool
    gap: float
    hot: bool
    """Whether 90 °C cable ends on terminals for 90 °C."""

    @classmethod
    def of(cls, run: Run, cable: CableKind, csa: float, method: Method) -> _Laid:
        hot = run.hot_terminals and cable is CableKind.SWA_XLPE
        return cls(
            cable, csa, method, run.ambient, run.grouped, run.insulated, run.soil, run.depth,
            run.duct, run.gap, hot,
        )  # fmt: skip


@lru_cache(maxsize=4096)
def _run_capacity(number: int, laid: _Laid, kind: DeviceKind) -> Worked:
    cable, csa, method, depth = laid.cable, laid.csa, laid.method, laid.depth
    must_be(no_such_size(cable, csa))
    it = ratings.tabulated_rating(cable, method, SquareMillimetre(csa), as_70_degrees=not laid.hot)
    in_ground = method is Method.D
    in_duct = in_ground and laid.duct
    conductor = _rated_at(cable, hot=laid.hot)
    factors = {
        "Ca": ratings.ambient_factor(conductor, Celsius(laid.ambient), in_ground=in_ground),
        "Cg": ratings.grouping_factor(laid.grouped, method, in_duct=in_duct, gap_m=laid.gap),
    }
    if laid.insulated and method not in ratings.CONTAINS_INSULATION:
        factors["Ci"] = ratings.insulation_factor(laid.insulated)
    if in_ground:
        factors["Cs"] = ratings.soil_factor(laid.soil, in_duct=in_duct)
        factors["Cd"] = ratings.depth_factor(depth or _DEPTH, in_duct=in_duct)
    factors["Cc"] = ratings.device_factor(kind, in_ground=in_ground)
    sources: list[Source] = [cited.CAPACITY, it.source]
    as_70 = cable is CableKind.SWA_XLPE and not laid.hot
    if as_70:
        sources.append(cited.TERMINALS_70)
    acting = {symbol: each for symbol, each in factors.items() if each.value != 1.0}
    sources += [each.source for each in acting.values()]
    value = cap.capacity(it.value, (each.value for each in factors.values()))
    notes = [f"The least of all runs: run {number}."]
    if as_70:
        notes.append("Rated as 70 °C cable, as its terminals are.")
    if in_ground:
        deep = f"depth {_DEPTH:g} m, as none is entered" if depth is None else f"{depth:g} m deep"
        notes.append(f"{'In a duct' if in_duct else 'Laid direct'}, {deep}.")
    return worked(
        "Iz", value, Unit.AMPERE, "Iz = " + " · ".join(("It", *acting)),
        " × ".join((f"{it.value:g}", *(f"{each.value:g}" for each in acting.values()))),
        tuple(sources), digits=1, note=" ".join(notes),
    )  # fmt: skip


def _rated_at(cable: CableKind, *, hot: bool) -> Celsius:
    """Return the conductor temperature that a rating holds for [°C].

    That of 90 °C cable is 70 °C unless its terminals are for 90 °C.
    """
    conductor = operating_temperature("conductor", cable.value).value
    return conductor if hot else min(conductor, _AS_70)


@dataclass(slots=True)
class _Drop:
    """The voltage drop along runs in series, and what it is made of."""

    value: float
    load: float
    share: float
    parts: list[tuple[float, Published[OhmPerMetre]]]

    def __str__(self) -> str:
        text = " + ".join(
            f"{each.value * 1000:.3g} × {self.load:.3g} × {length:g}" for length, each in self.parts
        )
        return f"({text}) / 1000" + ("" if self.share == 1 else f" × {self.share:g}")

    def cited(self) -> tuple[Source, ...]:
        """Return the sources."""
        return (cited.DROP, *(each.source for _, each in self.parts))


def _along_drop(runs: tuple[Run, ...], load: float, at: str, share: float) -> _Drop:
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    total = 0.0
    parts = []
    for number, run in enumerate(runs, start=1):
        length, csa, cable = run.length, run.csa, run.cable
        if length is None or csa is None or cable is None:
            here = f"{at}, run {number}"
            need(length, "the length is", here)
            need(csa, "the line's cross-section is", here)
            raise Missing(f"the kind of cable is not entered yet ({here}).")
        try:
            must_be(no_such_size(cable, csa))
            each = volt_drop(cable, SquareMillimetre(csa))
        except NotTabulated as error:
            raise placed(error, f"{at}, run {number}") from None
        total += drop.voltage_drop(each.value, Ampere(load), Metre(length), share)
        parts.append((length, each))
    return _Drop(total, load, share, parts)


@once
def feed_drop(context: Context) -> Worked:
    """Return the voltage drop of the feed.

    Where Ib is only added up from the circuits and comes to more than the feed's own device
    lets through for long, In is taken for it.
    """
    load = feed_current(context)
    current, notes = load.value, [load.note]
    rating = context.record.feed.device.rating
    if context.record.feed.load is None and rating is not None and rating < current:
        current, notes = rating, [f"Loaded with In {rating:g} A: the circuits add up to more."]
    found = _along_drop(context.record.feed.runs, current, "Feed", drop.AT_END)
    return worked(
        "ΔU", found.value, Unit.VOLT, "ΔU = Σ (mV/A/m) · Ib · L / 1000", ("{}", found),
        (found,), note=lambda: " ".join(filter(None, (_HOT_DROP, *notes))),
    )  # fmt: skip


_HOT_DROP = "With conductors at operating temperature: errs high."


def circuit_drop(context: Context, circuit: Circuit) -> Worked:
    """Return the voltage drop from the origin to the far point of a circuit."""
    feed = feed_drop(context)
    load = design_current(context, circuit).value
    at = where(circuit)
    if circuit.form is Form.RING:
        return _ring_drop(circuit, feed, load, at)
    need(circuit.form, "the form of the circuit is", at)
    own = _along_drop(circuit.runs, load, at, drop.AT_END)
    note = "All of the load at the far point: errs high."
    return _added_drop(feed, own.value, ("{:.2f} + {}", feed.value, own), (own,), note)


def _ring_drop(circuit: Circuit, feed: Worked, load: float, at: str) -> Worked:
    most = ring_load_at_end()
    end = min(load, most.value)
    half_way = _along_drop(circuit.runs, end, at, drop.RING)
    note = f"Ring: {end:.3g} A half way round, the rest spread evenly."
    if not load > end:
        put_in: Filled = ("{:.2f} + {}", feed.value, half_way)
        return _added_drop(feed, half_way.value, put_in, (most.source, half_way), note)
    rest = _along_drop(circuit.runs, load - end, at, drop.RING_SPREAD)
    put_in = ("{:.2f} + {} + {}", feed.value, half_way, rest)
    value = half_way.value + rest.value
    return _added_drop(feed, value, put_in, (most.source, half_way, rest), note)


def _added_drop(feed: Worked, own: float, put_in: Filled, sources: Cited, note: str) -> Worked:
    return worked(
        "ΔU", feed.value + own, Unit.VOLT, "ΔU = ΔU of the feed + ΔU of the circuit", put_in,
        (feed, *sources), note=note,
    )  # fmt: skip


def drop_limit_of(context: Context, circuit: Circuit) -> Worked:
    """Return the highest voltage drop from the origin to a circuit's far point."""
    if circuit.use is None:
        need(circuit.use, "what the circuit feeds is", where(circuit))
    return _drop_limit(circuit.use is Use.LIGHTING, context.u0)


@lru_cache(maxsize=64)
def _drop_limit(lighting: bool, u0: float) -> Worked:
    share = drop_limit(lighting=lighting)
    return worked(
        "ΔU", cut_down(share.value * u0), Unit.VOLT, "ΔU ≤ share of U0",
        f"{share.value * 100:g} % of {u0:g}", (share.source,),
    )  # fmt: skip
