"""Design currents, and capacity of the cables as laid."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from records.errors import NotTabulated
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, once, where
from records.expected.formulas import capacity as cap
from records.expected.protection import kind_and_rating
from records.expected.results import Text, Worked
from records.expected.workings import Missing, need, placed
from records.model.circuit import Circuit, Point
from records.model.wiring import Device, Run
from records.tables import ratings
from records.tables.conductors import operating_temperature
from records.tables.known_sizes import must_be, no_such_size
from records.tables.table import Published
from records.terms import CableKind, DeviceKind, Form, LoadKind, Method, Use
from records.units import Ampere, Celsius, SquareMillimetre, Unit, Volt, Watt

_AS_70 = Celsius(70.0)
_DEPTH = 0.7
"""Depth that the ratings of buried cable hold for [m] (BS 7671, Table 4B4, from memory)."""


@once
def design_current(context: Context, circuit: Circuit) -> Worked:
    """Return Ib of a circuit: as entered, from its load, or In where sockets can take it all."""
    load, power = circuit.load, circuit.power
    if load is not None:
        return ib(load, "Ib as entered", ("{:g} A", load))
    at_points = sum(point_current(each, context.u0) or 0.0 for each in circuit.points)
    if power is not None:
        return _by_power(context, circuit, power, at_points)
    if at_points and circuit.use is not Use.SOCKETS:
        return ib(at_points, "Ib = sum of the loads at the points", *_of_points(circuit))
    if circuit.form is Form.FCU and circuit.fuse is not None:
        return ib(circuit.fuse, "Ib = fuse of the connection unit", f"{circuit.fuse:g} A")
    if circuit.use is Use.SOCKETS:
        _, rating = kind_and_rating(circuit.device, where(circuit))
        return ib(rating, "Ib = In, as sockets can take all of it", ("{:g} A", rating))
    raise Missing(f"neither Ib nor the load is entered yet ({where(circuit)}).")


def _of_points(circuit: Circuit) -> tuple[str, str]:
    """Return how many points a sum of loads is of, and what it leaves out."""
    bare = [each.name or each.id for each in circuit.points if each.load is each.power is None]
    count = len(circuit.points) - len(bare)
    note = f"No load entered, so none counted: {', '.join(bare)}." if bare else ""
    return f"{count} of {len(circuit.points)} points" if bare else f"{count} points", note


def _by_power(context: Context, circuit: Circuit, power: float, at_points: float) -> Worked:
    if circuit.kind is LoadKind.MOTOR:
        raise Missing(
            "Ib of the motor is not entered yet: it draws more than its kW say. The full-load "
            f"current is on its plate ({where(circuit)})."
        )
    u0 = context.u0
    current = cap.current_of(Watt(power * 1000), u0)
    note = "At unity power factor: motors draw more."
    if at_points > current:
        note = f"The load entered is {current:.3g} A; those at the points add up to more."
        return ib(at_points, "Ib = sum of the loads at the points", f"{at_points:.3g} A", note)
    return ib(current, "Ib = P / U0", ("{:g} / {:g}", power * 1000, u0), note)


def point_current(point: Point, u0: Volt) -> float | None:
    """Return what a point draws [A]; None if that isn't entered."""
    if point.load is not None:
        return point.load
    return None if point.power is None else cap.current_of(Watt(point.power * 1000), u0)


def ib(value: float, formula: str, put_in: Text, note: Text = "") -> Worked:
    """Return a design current [A] with its working."""
    return Worked("Ib", value, Unit.AMPERE, formula, put_in, (cited.ORDER,), digits=1, note=note)


@lru_cache(maxsize=1024)
def rated_current(kind: DeviceKind, rating: Ampere) -> Worked:
    """Return In."""
    return Worked(
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
            cable,
            csa,
            method,
            run.ambient,
            run.grouped,
            run.insulated,
            run.soil,
            run.depth,
            run.duct,
            run.gap,
            hot,
        )


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
    wrapped = ""
    if laid.insulated:
        inside = ratings.insulation_factor(laid.insulated)
        clipped = _clipped(laid) if method in ratings.CONTAINS_INSULATION else None
        if method not in ratings.CONTAINS_INSULATION:
            factors["Ci"] = inside
        elif clipped is not None and clipped.value * inside.value < it.value:
            it, factors["Ci"] = clipped, inside
            wrapped = (
                f"Where insulation surrounds it wholly it carries less than method {method.value} "
                "allows: rated as method C with Ci."
            )
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
    if wrapped:
        notes.append(wrapped)
    if as_70:
        notes.append("Rated as 70 °C cable, as its terminals are.")
    if in_ground:
        deep = f"depth {_DEPTH:g} m, as none is entered" if depth is None else f"{depth:g} m deep"
        notes.append(f"{'In a duct' if in_duct else 'Laid direct'}, {deep}.")
    return Worked(
        "Iz",
        value,
        Unit.AMPERE,
        "Iz = " + " · ".join(("It", *acting)),
        " × ".join((f"{it.value:g}", *(f"{each.value:g}" for each in acting.values()))),
        tuple(sources),
        digits=1,
        note=" ".join(notes),
        side="most",
    )


def _clipped(laid: _Laid) -> Published[Ampere] | None:
    """Return the rating clipped in the open, which the factors of Table 52.2 hold for, if any."""
    try:
        return ratings.tabulated_rating(
            laid.cable, Method.C, SquareMillimetre(laid.csa), as_70_degrees=not laid.hot
        )
    except NotTabulated:
        return None


def _rated_at(cable: CableKind, *, hot: bool) -> Celsius:
    """Return the conductor temperature that a rating holds for [°C].

    That of 90 °C cable is 70 °C unless its terminals are for 90 °C.
    """
    conductor = operating_temperature("conductor", cable.code).value
    return conductor if hot else min(conductor, _AS_70)
