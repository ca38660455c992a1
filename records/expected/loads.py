"""Design currents, capacity of the cables as laid, and voltage drop."""

from __future__ import annotations

from records.evidence import Source
from records.expected import capacity as cap
from records.expected import drop
from records.expected import sources as cited
from records.expected.context import Context, once, where
from records.expected.protection import kind_and_rating
from records.expected.results import Worked
from records.expected.workings import Missing, need, worked
from records.model.circuit import Circuit
from records.model.wiring import Device, Run
from records.tables import ratings
from records.tables.demand import ring_load_at_end
from records.tables.drop import drop_limit, volt_drop
from records.tables.table import Published
from records.terms import CableKind, Form, Method, Use
from records.units import Ampere, Celsius, Metre, SquareMillimetre, Unit, Watt

_AS_70 = Celsius(70.0)


@once
def design_current(context: Context, circuit: Circuit) -> Worked:
    """Return Ib of a circuit: as entered, from its load, or In where sockets can take it all."""
    if circuit.load is not None:
        return _ib(circuit.load, "Ib as entered", f"{circuit.load:g} A")
    if circuit.power is not None:
        current = cap.current_of(Watt(circuit.power * 1000), context.u0)
        text = f"{circuit.power * 1000:g} / {context.u0:g}"
        return _ib(current, "Ib = P / U0", text, "At unity power factor: motors draw more.")
    if circuit.form is Form.FCU and circuit.fuse is not None:
        return _ib(circuit.fuse, "Ib = fuse of the connection unit", f"{circuit.fuse:g} A")
    if circuit.use is Use.SOCKETS:
        _, rating = kind_and_rating(circuit.device, where(circuit))
        return _ib(rating, "Ib = In, as sockets can take all of it", f"{rating:g} A")
    raise Missing(f"neither Ib nor the load is entered yet ({where(circuit)}).")


def _ib(value: float, formula: str, put_in: str, note: str = "") -> Worked:
    return worked("Ib", value, Unit.AMPERE, formula, put_in, (cited.ORDER,), digits=1, note=note)


@once
def feed_current(context: Context) -> Worked:
    """Return Ib of the feed: as entered, or added up from the circuits without diversity."""
    load = context.record.feed.load
    if load is not None:
        return _ib(load, "Ib as entered", f"{load:g} A")
    if not context.record.circuits:
        raise Missing("neither Ib of the feed nor any circuit is entered yet (Feed).")
    parts = [design_current(context, each).value for each in context.record.circuits]
    return _ib(
        sum(parts), "Ib = sum of Ib of the circuits", " + ".join(f"{each:.3g}" for each in parts),
        "No diversity taken off: errs high. Enter Ib after diversity if you have worked it out; "
        "household allowances mislead where one person can run everything at once.",
    )  # fmt: skip


def rated_current(device: Device, at: str) -> Worked:
    """Return In."""
    kind, rating = kind_and_rating(device, at)
    return worked(
        "In", rating, Unit.AMPERE, "from the label", kind.value, (cited.DECLARED_DEVICE,), digits=0
    )


def capacity(runs: tuple[Run, ...], device: Device, at: str) -> Worked:
    """Return Iz: the capacity of the run that carries least."""
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    kind = need(device.kind, "the protective device is", at)
    each = [
        _run_capacity(run, f"{at}, run {number}", f"run {number}", ratings.device_factor(
            kind, in_ground=run.method is Method.D))
        for number, run in enumerate(runs, start=1)
    ]  # fmt: skip
    return min(each, key=lambda found: found.value)


def _run_capacity(run: Run, at: str, name: str, device: Published[float]) -> Worked:
    cable = need(run.cable, "the kind of cable is", at)
    csa = SquareMillimetre(need(run.csa, "the line's cross-section is", at))
    method = need(run.method, "the installation method is", at)
    it = ratings.tabulated_rating(cable, method, csa, as_70_degrees=True)
    in_ground = method is Method.D
    factors = {
        "Ca": ratings.ambient_factor(_AS_70, Celsius(run.ambient), in_ground=in_ground),
        "Cg": ratings.grouping_factor(run.grouped, method),
    }
    if run.insulated and method not in ratings.CONTAINS_INSULATION:
        factors["Ci"] = ratings.insulation_factor(run.insulated)
    if in_ground:
        factors["Cs"] = ratings.soil_factor(run.soil, in_duct=False)
    factors["Cc"] = device
    sources: list[Source] = [cited.CAPACITY, it.source]
    if cable is CableKind.SWA_XLPE:
        sources.append(cited.TERMINALS_70)
    acting = {symbol: each for symbol, each in factors.items() if each.value != 1.0}
    sources += [each.source for each in acting.values()]
    value = cap.capacity(it.value, (each.value for each in factors.values()))
    notes = [f"The least of all runs: {name}."]
    if cable is CableKind.SWA_XLPE:
        notes.append("Rated as 70 °C cable, as its terminals are.")
    if in_ground:
        notes.append("Laid direct, depth 0.7 m.")
    return worked(
        "Iz", value, Unit.AMPERE, "Iz = " + " · ".join(("It", *acting)),
        " × ".join((f"{it.value:g}", *(f"{each.value:g}" for each in acting.values()))),
        sources, digits=1, note=" ".join(notes),
    )  # fmt: skip


def along_drop(runs: tuple[Run, ...], load: float, at: str, share: float) -> Worked:
    """Return the voltage drop along runs in series."""
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    total = 0.0
    texts = []
    sources: list[Source] = [cited.DROP]
    for number, run in enumerate(runs, start=1):
        here = f"{at}, run {number}"
        length = Metre(need(run.length, "the length is", here))
        csa = SquareMillimetre(need(run.csa, "the line's cross-section is", here))
        each = volt_drop(need(run.cable, "the kind of cable is", here), csa)
        total += drop.voltage_drop(each.value, Ampere(load), length, share)
        texts.append(f"{each.value * 1000:.3g} × {load:.3g} × {length:g}")
        sources.append(each.source)
    text = " + ".join(texts)
    text = f"({text}) / 1000" + ("" if share == 1 else f" × {share:g}")
    return worked(
        "ΔU", total, Unit.VOLT, "ΔU = Σ (mV/A/m) · Ib · L / 1000", text, sources,
        note="With conductors at operating temperature: errs high.",
    )  # fmt: skip


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
    found = along_drop(context.record.feed.runs, current, "Feed", drop.AT_END)
    return found.with_note(lambda: " ".join(filter(None, (found.note, *notes))))


def circuit_drop(context: Context, circuit: Circuit) -> Worked:
    """Return the voltage drop from the origin to the far point of a circuit."""
    feed = feed_drop(context)
    load = design_current(context, circuit).value
    at = where(circuit)
    if circuit.form is Form.RING:
        end = min(load, ring_load_at_end().value)
        own = along_drop(circuit.runs, end, at, drop.RING)
        rest = along_drop(circuit.runs, load - end, at, drop.RING_SPREAD)
        value = own.value + rest.value
        text = f"{own.put_in} + {rest.put_in}" if rest.value else own.put_in
        sources = (ring_load_at_end().source, *own.sources)
        note = f"Ring: {end:.3g} A half way round, the rest spread evenly."
    else:
        need(circuit.form, "the form of the circuit is", at)
        own = along_drop(circuit.runs, load, at, drop.AT_END)
        value, text, sources = own.value, own.put_in, own.sources
        note = "All of the load at the far point: errs high."
    return worked(
        "ΔU", feed.value + value, Unit.VOLT, "ΔU = ΔU of the feed + ΔU of the circuit",
        f"{feed.value:.2f} + {text}", (*feed.sources, *sources), note=note,
    )  # fmt: skip


def circuit_drop_limit(context: Context, circuit: Circuit) -> Worked:
    """Return the highest voltage drop from the origin to a circuit's far point."""
    lighting = need(circuit.use, "what the circuit feeds is", where(circuit)) is Use.LIGHTING
    share = drop_limit(lighting=lighting)
    return worked(
        "ΔU", share.value * context.u0, Unit.VOLT, "ΔU ≤ share of U0",
        f"{share.value * 100:g} % of {context.u0:g}", (share.source,),
    )  # fmt: skip
