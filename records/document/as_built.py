"""The context of the sheet that says what was built."""

from __future__ import annotations

from records.document.words import NOT_GIVEN, figure, given, joined, yes_no
from records.expected.results import Expected, What, Worked
from records.model.circuit import Circuit, Point
from records.model.outbuilding import Board, Bond
from records.model.reading import place_of
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.terms import ArmourEarthed, Cpc, FeedLoad, Method, OutbuildingEarth, Part
from records.units import Unit

Line = dict[str, str]


def origin(record: Record) -> Line:
    """Return the supply at the house board."""
    it = record.origin
    return {
        "earthing": it.earthing.value if it.earthing else NOT_GIVEN,
        "u0": figure(it.u0, Unit.VOLT),
        "ze": _with(figure(it.ze, Unit.OHM, 2), it.ze_ground and it.ze_ground.value),
        "fault_current": _with(
            figure(it.fault_current, Unit.KILOAMPERE, 2),
            it.fault_current_ground and it.fault_current_ground.value,
        ),
        "cutout": figure(it.cutout, Unit.AMPERE),
        "neutral": figure(it.neutral_csa, Unit.SQUARE_MILLIMETRE),
        "note": given(it.note),
    }


def feed(record: Record) -> dict[str, str | list[Line]]:
    """Return the feed and its runs."""
    it = record.feed
    loading = it.loading or FeedLoad.ADDED_UP
    load = f"calculated: {loading.value}" if it.load is None else figure(it.load, Unit.AMPERE)
    return {
        "device": device(it.device),
        "rcd": rcd(it.rcd, residual_part=_is_rcbo(it.device)),
        "load": load,
        "runs": [
            _run(f"Feed {at}", each, it.armour_earthed) for at, each in enumerate(it.runs, start=1)
        ]
        or [_no_run("Feed")],
    }


def board(record: Record) -> Line:
    """Return the sub-board, its earthing and its bonds."""
    it = record.board
    return {
        "place": given(it.place),
        "main_switch": figure(it.main_switch, Unit.AMPERE),
        "rcd": rcd(it.rcd),
        "surge_protection": yes_no(it.surge_protection),
        "earth": it.earth.value if it.earth else NOT_GIVEN,
        "earthing": joined(
            (
                figure(it.earthing_csa, Unit.SQUARE_MILLIMETRE),
                it.earthing_laid.value if it.earthing_laid else "",
            )
        ),
        "electrode": _electrode(it),
        "metal_in_ground": yes_no(it.metal_in_ground),
        "bonds": joined(map(_bond, it.bonds), "; ") or NOT_GIVEN,
    }


def circuits(record: Record, expected: Expected) -> list[dict[str, str | list[str]]]:
    """Return the circuits, one line each, in the columns of what was built."""
    return [_circuit(each, expected) for each in record.circuits]


def device(it: Device) -> str:
    """Return a protective device in one line."""
    if it.kind is None and it.rating is None:
        return NOT_GIVEN
    return joined(
        (
            it.kind.value if it.kind else "kind not given",
            figure(it.rating, Unit.AMPERE) if it.rating is not None else "In not given",
            f"breaks {figure(it.breaking, Unit.KILOAMPERE)}"
            if it.breaking is not None
            else "breaking capacity not given",
        )
    )


def rcd(it: Rcd, *, residual_part: bool = False) -> str:
    """Return an RCD in one line; `residual_part`: the one that is built into an RCBO."""
    if it.residual is None:
        return "in the RCBO, IΔn not given" if residual_part else NOT_GIVEN
    return joined(
        (
            f"{figure(it.residual, Unit.MILLIAMPERE)}{' in the RCBO' if residual_part else ''}",
            f"type {it.type.value}" if it.type else "type not given",
            "delayed (S)" if it.delayed else "",
            it.standard.value if it.standard else "",
            f"{figure(it.delay, Unit.MILLISECOND)} delay" if it.delay is not None else "",
        )
    )


def _with(text: str, ground: str | None) -> str:
    return text if text == NOT_GIVEN else f"{text}, {ground or 'how it is known is not given'}"


def _is_rcbo(it: Device) -> bool:
    return it.kind is not None and it.kind.is_rcbo


def _run(number: str, it: Run, armour: ArmourEarthed | None = None) -> Line:
    earthed = armour is not None and it.cable is not None and it.cable.is_armoured
    return {
        "number": number,
        "where": given(it.where),
        "cable": it.cable.value if it.cable else NOT_GIVEN,
        "conductors": joined(
            (figure(it.csa, Unit.SQUARE_MILLIMETRE), f"{it.cores} core{'s' * (it.cores > 1)}")
        ),
        "cpc": joined((_cpc(it), f"armour earthed {armour}" if earthed else "")),
        "length": figure(it.length, Unit.METRE),
        "method": it.method.value if it.method else NOT_GIVEN,
        "surroundings": _surroundings(it),
    }


def _no_run(number: str) -> Line:
    names = ("where", "cable", "conductors", "cpc", "length", "method", "surroundings")
    return {"number": number, **dict.fromkeys(names, NOT_GIVEN)}


def _cpc(it: Run) -> str:
    if it.cpc is None:
        return NOT_GIVEN
    if it.cpc in (Cpc.ARMOUR, Cpc.NONE):
        return it.cpc.value
    size = "as made" if it.cpc_csa is None else figure(it.cpc_csa, Unit.SQUARE_MILLIMETRE)
    kept = {True: ", protected", False: ", not protected", None: ""}[it.protected]
    return f"{it.cpc.value} ({size}{kept})"


def _surroundings(it: Run) -> str:
    return joined(
        (
            f"rated for {figure(it.ambient, Unit.CELSIUS)}",
            f"{it.grouped} grouped circuits" if it.grouped > 1 else "",
            f"{figure(it.insulated, Unit.MILLIMETRE)} in insulation" if it.insulated else "",
            f"{figure(it.depth, Unit.METRE)} deep" if it.depth is not None else "",
            f"soil {figure(it.soil, Unit.KELVIN_METRE_PER_WATT, 1)}"
            if it.method is Method.D
            else "",
            "in a duct" if it.duct and it.method is Method.D else "",
            f"{figure(it.gap, Unit.METRE)} to the next cable" if it.gap else "",
            "terminals for 90 °C" if it.hot_terminals else "",
        )
    )


def _electrode(it: Board) -> str:
    if it.earth is OutbuildingEarth.CARRIED_OVER and not it.electrode:
        return f"{NOT_GIVEN}; the earth is exported through the feed"
    return given(it.electrode)


def _bond(it: Bond) -> str:
    length = figure(it.length, Unit.METRE) if it.length else ""
    return f"{given(it.what)} {joined((figure(it.csa, Unit.SQUARE_MILLIMETRE), length))}"


def _circuit(it: Circuit, expected: Expected) -> dict[str, str | list[str]]:
    load = joined(
        (
            f"Ib {figure(it.load, Unit.AMPERE)}" if it.load is not None else "",
            figure(it.power, Unit.KILOWATT) if it.power is not None else "",
            it.kind.value if it.kind is not None else "",
            f"starts with {figure(it.starting, Unit.AMPERE)}" if it.starting is not None else "",
            "socket on the cooker control" if it.cooker_socket else "",
            _TOGETHER[it.together],
        )
    )
    rcbo = _is_rcbo(it.device)
    return {
        "number": it.id,
        "name": given(it.name),
        "form": joined(
            (
                it.use.value if it.use else "use not given",
                it.form.value if it.form else "arrangement not given",
                f"load {load or NOT_GIVEN}",
                f"fuse in connection unit {figure(it.fuse, Unit.AMPERE)}" if it.fuse else "",
                f"outdoors: {yes_no(it.outdoors)}",
                f"concealed less than 50 mm deep: {yes_no(it.hidden)}",
            )
        ),
        "points": joined(map(_point, it.points), "; ") or NOT_GIVEN,
        "cables": [_cable(each) for each in it.runs] or [NOT_GIVEN],
        "least_cpc": _least_cpc(it, expected),
        "device": device(it.device),
        "rcd": rcd(it.rcd, residual_part=rcbo),
    }


def _cable(it: Run) -> str:
    size = f"{it.csa:g}" if it.csa is not None else "line size not given"
    cpc = f" / {it.cpc_csa:g}" if it.cpc_csa is not None else ""
    return joined(
        (
            f"{size}{cpc} mm², {figure(it.length, Unit.METRE)}",
            it.cable.value if it.cable else f"cable {NOT_GIVEN}",
            f"cpc: {_cpc(it)}",
            f"method {it.method.value if it.method else NOT_GIVEN}",
            _surroundings(it),
            it.where,
        )
    )


def _least_cpc(it: Circuit, expected: Expected) -> str:
    place = place_of(Part.CIRCUIT, it.id)
    size, least = (expected.design.get((place, what)) for what in (What.CPC_SIZE, What.CPC_LEAST))
    if not isinstance(size, Worked) or not isinstance(least, Worked):
        return ""
    return f"cpc: {size}; a fault needs {least}"


_TOGETHER = {None: "", True: "on with the others", False: "not on with the others"}


def _point(it: Point) -> str:
    where = joined(
        (
            it.room,
            figure(it.at, Unit.METRE) if it.at is not None else "",
            f"spur of {figure(it.spur, Unit.METRE)}" if it.spur is not None else "",
            f"fused {figure(it.fuse, Unit.AMPERE)}" if it.fuse is not None else "",
            "cpc ends before it" if it.cpc_ends else "",
            f"draws {figure(it.load, Unit.AMPERE)}" if it.load is not None else "",
            f"draws {figure(it.power, Unit.KILOWATT)}" if it.power is not None else "",
        )
    )
    named = it.name or it.id
    return f"{named} ({where})" if where else named
