"""Resistances along the runs of a feed or a circuit, at one set of temperatures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from records.errors import NotTabulated, OutOfRange
from records.evidence import Source
from records.expected.formulas.resistance import at_temperature, side_by_side
from records.expected.workings import Missing, need, placed
from records.model.circuit import Circuit
from records.model.wiring import Run
from records.tables import conductors
from records.tables.known_sizes import must_be, no_such_conductor, no_such_size
from records.terms import CableKind, Cpc
from records.units import Celsius, Ohm, SquareMillimetre


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """What the conductors are taken to be like; made by `state`, so that like ones are one."""

    theta: float | None
    """Temperature of all conductors [°C]; None: each at its own operating temperature."""
    ac: bool
    """Whether the current is mains, which steel armour resists more, or a meter's d.c."""
    words: str
    """How the working calls it."""


@lru_cache(maxsize=512)
def state(theta: float | None, *, ac: bool) -> State:
    """Return the state of conductors at a temperature [°C], or each at its own in service."""
    words = "at operating temperature" if theta is None else f"at {theta:g} °C"
    return State(theta, ac, words)


HOT = state(None, ac=True)


@dataclass(frozen=True, slots=True)
class PerMetre:
    """Resistances of a cable by length."""

    line: float
    back: float | None
    """What serves as cpc; None if the earth is not carried."""
    x_neutral: float
    """Reactance of line and neutral [Ω/m], 0 below 25 mm²."""
    x_back: float
    """Reactance of line and cpc [Ω/m]."""
    sources: tuple[Source, ...]


@dataclass(slots=True)
class Along:
    """Resistances of runs in series [Ω]."""

    line: float
    back: float
    x_neutral: float
    x_back: float
    value: Ohm
    """Magnitude of line and cpc with their reactance: what they add to a loop."""
    parts: list[tuple[float, PerMetre]]
    """Length [m] and cable of each run."""
    earth: bool
    """Whether a way back by the cpc was asked for."""

    def __str__(self) -> str:
        return " + ".join(_text(length, each, self.earth) for length, each in self.parts)

    def back_only(self) -> str:
        """Return the working of what serves as cpc by itself."""
        return " + ".join(
            f"{length:g} m × {(each.back or 0.0) * 1000:.4g} mΩ/m" for length, each in self.parts
        )

    def cited(self) -> tuple[Source, ...]:
        """Return where they come from, each once."""
        found = {id(source): source for _, each in self.parts for source in each.sources}
        return tuple(found.values())

    def up_to(self, at: float) -> tuple[tuple[float, float], PerMetre]:
        """Return line and cpc from the start to a distance [Ω], and the cable that lies there.

        Args:
            at: Distance along the runs in the order given, at most their length [m].
        """
        line = back = 0.0
        for length, each in self.parts:
            piece = min(length, at)
            line += each.line * piece
            back += (each.back or 0.0) * piece
            at -= piece
            if at <= 0:
                break
        return (line, back), each

    @property
    def r1_r2(self) -> Ohm:
        """Line and cpc."""
        return Ohm(self.line + self.back)

    @property
    def line_neutral(self) -> Ohm:
        """Magnitude of line and neutral with their reactance."""
        return Ohm(math.hypot(2 * self.line, self.x_neutral) if self.x_neutral else 2 * self.line)


def where(circuit: Circuit | None) -> str:
    """Return where to enter what a circuit, or the feed, lacks."""
    return "Feed" if circuit is None else f"Circuits, {circuit.id}"


def along(
    runs: Sequence[Run], circuit: Circuit | None, state: State, *, earth: bool = True
) -> Along:
    """Return the resistances of runs in series.

    Args:
        runs: In any order.
        circuit: That they belong to, for messages; None: the feed.
        state: Temperatures, and whether a.c.
        earth: Whether a way back by the cpc is asked for; without, `back` is 0.
    Raises:
        Missing: If an input is not there, or a run doesn't carry the earth that is asked for.
        NotTabulated: If a cable is not tabulated.
        OutOfRange: If the inputs contradict each other.
    """
    if not runs:
        raise Missing(f"no run of cable is entered yet ({where(circuit)}).")
    line = back = x_neutral = x_back = 0.0
    parts: list[tuple[float, PerMetre]] = []
    for number, run in enumerate(runs, start=1):
        length = run.length
        if length is None:
            raise Missing(f"the length is not entered yet ({where(circuit)}, run {number}).")
        cpc = run.cpc if earth else Cpc.NONE
        if (
            run.cable is None
            or run.csa is None
            or cpc is None
            or (cpc is Cpc.SEPARATE and run.cpc_csa is None)
        ):
            raise _lacking(run, f"{where(circuit)}, run {number}", earth=earth)
        try:
            each = of_cable(run.cable, run.cores, run.csa, cpc, run.cpc_csa, state)
        except NotTabulated as error:
            raise placed(error, f"{where(circuit)}, run {number}") from None
        line += each.line * length
        if earth:
            if each.back is None:
                at = f"{where(circuit)}, run {number}"
                raise Missing(f"the earth is not exported by this run ({at}).")
            back += each.back * length
        if each.x_neutral:
            x_neutral += each.x_neutral * length
            x_back += each.x_back * length
        parts.append((length, each))
    value = math.hypot(line + back, x_back) if x_back else line + back
    return Along(line, back, x_neutral, x_back, Ohm(value), parts, earth)


def _lacking(run: Run, where: str, *, earth: bool) -> Missing:
    """Return what to say of the first input that the resistances of a run need and that lacks."""
    try:
        need(run.cable, "the kind of cable is", where)
        need(run.csa, "the line's cross-section is", where)
        if earth:
            need(run.cpc, "what serves as cpc is", where)
        need(run.cpc_csa, "the size of the separate cpc is", where)
    except Missing as missing:
        return missing
    return Missing(f"an input is not entered yet ({where}).")


@lru_cache(maxsize=4096)
def of_cable(
    cable: CableKind, cores: int, csa: float, cpc: Cpc, cpc_csa: float | None, state: State
) -> PerMetre:
    """Return the resistances of a cable by length.

    Args:
        cable: How it is made.
        cores: Of an armoured cable.
        csa: Of the line [mm²].
        cpc: What serves as cpc; for a separate one its size must be given.
        cpc_csa: Size of the cpc core or the separate cpc [mm²]; None: as the cable is made.
        state: Temperatures, and whether a.c.
    Raises:
        NotTabulated: If the cable is not tabulated.
        OutOfRange: If a cable without armour is to use it as cpc.
    """
    must_be(no_such_size(cable, csa))
    size = SquareMillimetre(csa)
    sources: list[Source] = []
    line = _copper(size, cable, _theta("conductor", cable.code, state, sources), sources)
    back = _back(cable, cores, size, cpc, cpc_csa, state, sources)
    x_neutral = x_back = 0.0
    if size >= conductors.REACTANCE_FROM and state.ac:
        one = conductors.reactance()
        x_neutral = x_back = 2 * one.value
        sources.append(one.source)
        if cpc is Cpc.ARMOUR:
            armour = conductors.armour_loop_reactance()
            x_back = armour.value
            sources.append(armour.source)
    return PerMetre(line, back, x_neutral, x_back, tuple(sources))


_APART = "separate conductor", "not bunched with the cable"


def _back(
    cable: CableKind,
    cores: int,
    size: SquareMillimetre,
    cpc: Cpc,
    cpc_csa: float | None,
    state: State,
    sources: list[Source],
) -> float | None:
    if cpc is Cpc.NONE:
        return None
    if cpc is Cpc.SEPARATE:
        # Beside single cores it lies in their conduit or trunking, and gets as warm as they do.
        bunched = cable is CableKind.SINGLES
        part = ("conductor", cable.code) if bunched else _APART
        theta = _theta(*part, state, sources)
        return _copper(SquareMillimetre(cpc_csa or size), CableKind.SINGLES, theta, sources)
    armour = core = None
    if cpc in (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR):
        armour = _armour(cable, cores, size, state, sources)
    if cpc in (Cpc.CORE, Cpc.CORE_AND_ARMOUR):
        own = SquareMillimetre(cpc_csa) if cpc_csa else cpc_as_made(cable, size)
        core = _copper(own, cable, _theta("conductor", cable.code, state, sources), sources)
    if armour is not None and core is not None:
        return side_by_side(Ohm(core), Ohm(armour))
    return armour if core is None else core


def cpc_as_made(cable: CableKind, line: SquareMillimetre) -> SquareMillimetre:
    """Return the size of a cpc core that goes with a line as the cable is made [mm²].

    Raises:
        NotTabulated: If flat cable is not made with that line.
    """
    must_be(no_such_size(cable, line))
    return conductors.flat_cpc(line).value if cable is CableKind.FLAT else line


def _armour(
    cable: CableKind, cores: int, size: SquareMillimetre, state: State, sources: list[Source]
) -> float:
    if not cable.is_armoured:
        raise OutOfRange(f"{cable.value} has no armour that could serve as cpc.")
    found = conductors.armour_resistance(cable, cores, size)
    steel = conductors.alpha("steel")
    sources += [found.source, steel.source]
    theta = _theta("armour", cable.code, state, sources)
    warm = at_temperature(Ohm(found.value), steel.value, theta)
    if not state.ac:
        return warm
    factor = conductors.armour_ac_factor()
    sources.append(factor.source)
    return warm * factor.value


def _copper(
    size: SquareMillimetre, cable: CableKind, theta: Celsius, sources: list[Source]
) -> float:
    must_be(no_such_conductor(size))
    found = conductors.copper(size, flexible=cable is CableKind.FLEX)
    alpha = conductors.alpha("copper")
    sources += [found.source, alpha.source]
    return at_temperature(Ohm(found.value), alpha.value, theta)


def _theta(part: str, cable: str, state: State, sources: list[Source]) -> Celsius:
    if state.theta is not None:
        return Celsius(state.theta)
    found = conductors.operating_temperature(part, cable)
    sources.append(found.source)
    return found.value


def _text(length: float, each: PerMetre, earth: bool) -> str:
    line = f"{each.line * 1000:.4g}"
    if not earth or each.back is None:
        return f"{length:g} m × {line} mΩ/m"
    return f"{length:g} m × ({line} + {each.back * 1000:.4g}) mΩ/m"
