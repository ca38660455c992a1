"""What each reading should be, at the temperature of the test, the leads taken off."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from records.errors import FarboardError
from records.expected import installation_loops
from records.expected import sources as cited
from records.expected.context import Context, feed_along, once, own_along, where
from records.expected.formulas import ring
from records.expected.formulas.resistance import at_temperature, of_length
from records.expected.installation_loops import shown
from records.expected.optional_readings import Work, feed_one_way, r2_long, rn_r2
from records.expected.residual import operating_times
from records.expected.results import NotWorkedOut, Result, Text, Worked
from records.expected.runs import Along, State
from records.expected.workings import need
from records.model.circuit import Circuit, Point
from records.model.reading import Quantity, Slot
from records.model.wiring import Rcd
from records.tables import conductors
from records.tables.demand import supply_tolerance
from records.terms import Cpc, Earthing, Form, Part
from records.units import Celsius, Metre, Ohm, SquareMillimetre, Unit

_WHY_NONE = {
    Quantity.IR_LN: "new wiring usually reads > 200 MΩ (common practice).",
    Quantity.IR_LE: "new wiring usually reads > 200 MΩ (common practice).",
    Quantity.IR_NE: "new wiring usually reads > 200 MΩ (common practice).",
    Quantity.LEADS_ZERO: "nulled leads show 0.00 with the tips joined.",
    Quantity.ARMOUR_OPEN: "two earths that are kept apart: over range is what to expect.",
    Quantity.ELECTRODE_LOOP: "it follows from the ground: only a measurement tells.",
    Quantity.ELECTRODE: "it follows from the ground: only a measurement tells.",
    Quantity.EARTHING: "the length of the earthing conductor isn't recorded: a short one reads "
    "next to nothing.",
}


def readings(context: Context, wanted: Iterable[Slot]) -> dict[Slot, Result]:
    """Return what readings should be; nothing for a check that has no figure."""
    found: dict[Slot, Result] = {}
    for slot in wanted:
        work = _WORK[slot.place.part].get(slot.quantity)
        if isinstance(work, NotWorkedOut):
            found[slot] = work
        elif work is not None:
            try:
                found[slot] = work(context, slot)
            except FarboardError as error:
                found[slot] = NotWorkedOut(slot.quantity, str(error))
    return found


def _circuit(context: Context, slot: Slot) -> Circuit:
    return context.circuits[slot.place.circuit or ""]


def _point(circuit: Circuit, slot: Slot) -> Point:
    found = next((each for each in circuit.points if each.id == slot.place.point), None)
    return need(found, "the point is", where(circuit))


def _remark(context: Context, text: str = "") -> str:
    """Return a note, with what was taken for the temperature where none is entered."""
    if context.readings.ambient_entered:
        return text
    return f"{text} Temperature at the tests not entered: taken as 20 °C.".strip()


def _feed_r1_r2(context: Context, slot: Slot) -> Worked:
    at = context.readings.dead(slot)
    return _r1_r2(context, feed_along(context, at), at)


def _feed_r1_rn(context: Context, slot: Slot) -> Worked:
    at = context.readings.dead(slot)
    found = feed_along(context, at, earth=False)
    return Worked(
        "R1+Rn",
        2 * found.line,
        Unit.OHM,
        f"R1+Rn = 2 · Σ L · r1, {at.words}",
        ("2 × {}", found),
        (found,),
        note=_remark(context, "The neutral is as thick as the line."),
    )


def _circuit_r1_r2(context: Context, slot: Slot) -> Worked:
    return _of_circuit(context, _circuit(context, slot), context.readings.dead(slot))


@once  # asked for before covering and after it: the same figure, if it is as warm
def _of_circuit(context: Context, circuit: Circuit, at: State) -> Worked:
    if circuit.form is Form.RING:
        own = installation_loops.circuit_r1_r2(context, circuit, at)
        return Worked(
            "R1+R2",
            own.value,
            Unit.OHM,
            "R1+R2 = (r1 + r2) / 4 half way round",
            ("{}", own),
            (own,),
        )
    need(circuit.form, "its arrangement (ring or radial) is", where(circuit))
    own = installation_loops.circuit_r1_r2(context, circuit, at)
    if isinstance(own, Along):
        return _r1_r2(context, own, at)
    return Worked(
        "R1+R2",
        own.value,
        Unit.OHM,
        "R1+R2 at the end of a branch",
        ("{}", own),
        (own,),
        note=_remark(context, "From highest resistances: expect a little less."),
    )


def _r1_r2(context: Context, found: Along, at: State) -> Worked:
    return Worked(
        "R1+R2",
        found.line + found.back,
        Unit.OHM,
        f"R1+R2 = Σ L · (r1 + r2), {at.words}",
        ("{}", found),
        (found,),
        note=_remark(context, "From highest resistances: expect a little less."),
    )


def _ring_end(quantity: Quantity) -> Callable[[Context, Slot], Worked]:
    def work(context: Context, slot: Slot) -> Worked:
        at = context.readings.dead(slot)
        circuit = _circuit(context, slot)
        earth = quantity is Quantity.R2
        found = own_along(context, circuit, at, earth=earth)
        value = found.back if earth else found.line
        return Worked(
            quantity.value,
            value,
            Unit.OHM,
            f"{quantity.value} = Σ L · r, {at.words}",
            found.back_only if earth else ("{}", found),
            (found,),
            note=_remark(context),
        )

    return work


def _is_uniform(circuit: Circuit) -> bool:
    """Whether a ring is of one cable all round."""
    made = {(run.cable, run.csa, run.cpc, run.cpc_csa) for run in circuit.runs}
    return len(made) == 1


def _crossed(quantity: Quantity) -> Callable[[Context, Slot], Worked]:
    earth = quantity is Quantity.CROSS_LE
    other = "r2" if earth else "rn"

    def work(context: Context, slot: Slot) -> Worked:
        circuit = _circuit(context, slot)
        at = where(circuit)
        point = _point(circuit, slot)
        found = own_along(context, circuit, context.readings.dead(slot), earth=earth)
        around = sum(run.length or 0.0 for run in circuit.runs)
        position = point.at
        if position is None and (point.spur or _is_uniform(circuit)):
            position = around / 2  # where it is isn't entered: it reads most half way round
        name = point.name or point.id
        position = need(position, "the distance from the board is", f"{at}, {name}")
        ring.fraction(position, around)  # refuses a point that is off the ring
        before, here = found.up_to(position)
        whole = found.line, found.back if earth else found.line

        def at_point(before: tuple[float, float]) -> Ohm:
            after = whole[0] - before[0], whole[1] - before[1]
            return ring.crossed_between(
                (Ohm(before[0]), Ohm(before[1])), (Ohm(max(after[0], 0.0)), Ohm(max(after[1], 0.0)))
            )

        if not earth:
            before = before[0], before[0]
        after = whole[0] - before[0], whole[1] - before[1]
        value = at_point(before)
        low: Ohm | None = at_point((0.0, 0.0)) if point.at is None else None
        extra = Ohm(0.0)
        if point.spur:
            # A spur is taken to be of the cable that the ring has where it leaves it.
            extra = Ohm((here.line + ((here.back or 0.0) if earth else here.line)) * point.spur)
            value = ring.with_spur(value, extra)
            low = None if low is None else ring.with_spur(low, extra)
        note = f"About (r1 + {other}) / 4."
        if low is not None:
            what = "Where the spur leaves the ring" if point.spur else "Its distance from the board"
            note += f" {what} isn't entered: anywhere from the board to half way round."

        def put_in() -> str:
            text = (
                f"r1 {before[0]:.3f} + {after[0]:.3f}, {other} {before[1]:.3f} + {after[1]:.3f}, "
                f"{position:g} of {around:g} m"
            )
            return f"{text}; spur {extra:.3f}" if extra else text

        return Worked(
            quantity.value,
            value,
            Unit.OHM,
            f"a · b / (a + b), a = r1 before + {other} after, b = r1 after + {other} before",
            put_in,
            (cited.GN3_RING, cited.CROSSED, found),
            low=low,
            high=None if low is None else value,
            note=_remark(context, note),
        )

    return work


def _bond(context: Context, slot: Slot) -> Worked:
    bonds = (each for each in context.record.board.bonds if each.id == slot.place.point)
    bond = need(next(bonds, None), "the bond is", f"Board, bond {slot.place.point}")
    at = f"Board, bond {bond.what or bond.id}"
    size = SquareMillimetre(need(bond.csa, "the size is", at))
    length = Metre(need(bond.length, "the length is", at))
    copper, alpha = conductors.copper(size), conductors.alpha("copper")
    theta = Celsius(context.readings.temperature(slot))
    value = at_temperature(of_length(copper.value, length), alpha.value, theta)
    return Worked(
        "R",
        value,
        Unit.OHM,
        f"R = L · r, at {theta:g} °C",
        f"{length:g} m × {copper.value * 1000:.4g} mΩ/m at 20 °C",
        (copper.source, alpha.source),
        note=_remark(context),
    )


def _ze(context: Context, _: Slot) -> Worked:
    origin = context.record.origin
    ze = need(origin.ze, "Ze is", "Origin")
    how = origin.ze_ground.value if origin.ze_ground else "ground not entered"
    return Worked(
        "Ze",
        ze,
        Unit.OHM,
        "Ze as entered",
        f"{ze:g} Ω, {how}",
        (cited.DECLARED,),
        note="A declared figure is a highest one: expect less.",
    )


def _zdb(context: Context, slot: Slot) -> Worked:
    at = context.readings.live(slot)
    symbol = "RA + R1" if context.own_electrode else "Ze + (R1+R2) of the feed"
    return installation_loops.zdb(context, at).figure("Zdb", f"Zdb = {symbol}, {at.words}")


def _zs(context: Context, slot: Slot) -> Worked:
    at = context.readings.live(slot)
    found = installation_loops.zs(context, _circuit(context, slot), at)
    return found.figure("Zs", f"Zs = Zdb + (R1+R2), {at.words}")


def _origin_ln(context: Context, _: Slot) -> Worked:
    return shown(
        context,
        "Ipf",
        lambda: installation_loops.source_line_neutral(context),
        by_ze=context.record.origin.earthing is Earthing.TN_C_S,
    )


def _origin_le(context: Context, _: Slot) -> Worked:
    ze = need(context.record.origin.ze, "Ze is", "Origin")
    return shown(context, "Ipf", lambda: (ze, f"{ze:g}"), by_ze=True)


def _board_ln(context: Context, slot: Slot) -> Worked:
    def impedance() -> tuple[float, Text]:
        before, text = installation_loops.source_line_neutral(context)
        feed = feed_along(context, context.readings.live(slot), earth=False)
        return before + feed.line_neutral, f"{text} + 2 × {feed.line:.4f}"

    by_ze = context.record.origin.earthing is Earthing.TN_C_S
    return shown(context, "Ipf", impedance, by_ze=by_ze)


def _board_le(context: Context, slot: Slot) -> Worked:
    def impedance() -> tuple[float, Text]:
        found = installation_loops.zdb(context, context.readings.live(slot))
        return found.value, found.put_in

    return shown(context, "Ipf", impedance, by_ze=not context.own_electrode)


def _voltage(context: Context, _: Slot) -> Worked:
    above, below = supply_tolerance("above"), supply_tolerance("below")
    low, high = context.u0 * (1 - below.value), context.u0 * (1 + above.value)
    return Worked(
        "U0",
        context.u0,
        Unit.VOLT,
        "nominal, with the statutory tolerance",
        f"{context.u0:g} V -{below.value * 100:g} % / +{above.value * 100:g} %",
        (above.source,),
        digits=0,
        low=low,
        high=high,
        words=f"{low:.1f} to {high:.1f} V",
    )


def _rcd_time(context: Context, slot: Slot) -> Worked:
    record = context.record
    part = slot.place.part
    rcd = record.board.rcd if part is Part.BOARD else record.feed.rcd
    at = part.value.capitalize()
    if part is Part.CIRCUIT:
        circuit = _circuit(context, slot)
        rcd, at = circuit.rcd, where(circuit)
    need(rcd.residual, "IΔn of the RCD is", at)
    times = operating_times(rcd)[0]
    low, high = times.shortest * 1000, times.longest * 1000
    return Worked(
        "t",
        high,
        Unit.MILLISECOND,
        "break time at 1 × IΔn",
        _sort_of(rcd),
        (times.source,),
        digits=0,
        low=low,
        high=high,
        words=f"{low:.0f} to {high:.0f} ms" if low else f"within {high:.0f} ms",
    )


def _sort_of(rcd: Rcd) -> str:
    made = f", {rcd.standard.value}" if rcd.standard else ""
    return f"delayed{made or ', type S'}" if rcd.delayed else f"without delay{made}"


_NO_FIGURE = {quantity: NotWorkedOut(quantity, why) for quantity, why in _WHY_NONE.items()}
_WORK: dict[Part, dict[Quantity, Work | NotWorkedOut]] = {
    Part.ORIGIN: {
        Quantity.ZE: _ze,
        Quantity.FAULT_LN: _origin_ln,
        Quantity.FAULT_LE: _origin_le,
        **_NO_FIGURE,
    },
    Part.FEED: {
        Quantity.R1_R2: _feed_r1_r2,
        Quantity.R1_RN: _feed_r1_rn,
        Quantity.R1_R2_CORE: feed_one_way("R1+R2", Cpc.CORE),
        Quantity.R1_R2_ARMOUR: feed_one_way("R1+R2", Cpc.ARMOUR),
        Quantity.RCD_TIME: _rcd_time,
        **_NO_FIGURE,
    },
    Part.BOARD: {
        Quantity.BONDING: _bond,
        Quantity.ZDB: _zdb,
        Quantity.FAULT_LN: _board_ln,
        Quantity.FAULT_LE: _board_le,
        Quantity.VOLTAGE: _voltage,
        Quantity.RCD_TIME: _rcd_time,
        **_NO_FIGURE,
    },
    Part.CIRCUIT: {
        Quantity.R1_R2: _circuit_r1_r2,
        Quantity.R1: _ring_end(Quantity.R1),
        Quantity.RN: _ring_end(Quantity.RN),
        Quantity.R2: _ring_end(Quantity.R2),
        Quantity.CROSS_LN: _crossed(Quantity.CROSS_LN),
        Quantity.CROSS_LE: _crossed(Quantity.CROSS_LE),
        Quantity.ZS: _zs,
        Quantity.RCD_TIME: _rcd_time,
        Quantity.R2_LONG: r2_long,
        Quantity.RN_R2: rn_r2,
        **_NO_FIGURE,
    },
}
