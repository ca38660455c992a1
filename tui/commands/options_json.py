"""Options as JSON, for other programs: codes, figures in the units named, and every reason."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from records.expected.results import Worked

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.buy import BuyList
    from records.options.cell import Cell
    from records.options.circuit import CircuitChoice
    from records.options.compare import Side
    from records.options.earth import EarthChoice, Need
    from records.options.feed import Choice, Option
    from records.options.room import Later, Room

Json = dict[str, Any]


def feed(record: Record, choice: Choice) -> Json:
    """Return all cables tried in a run of the feed."""
    from records.options.feed import cautions, remarks

    return {
        "what": "feed",
        "run": choice.run + 1,
        "room_percent": choice.room,
        "assumed": list(choice.notes),
        "missing": list(choice.lacks),
        "now": None if choice.present is None else _option(choice.present),
        "smallest": _number(choice, choice.smallest),
        "first_with_room": _number(choice, choice.roomy),
        "options": [_option(each) for each in choice.options],
        "remarks": list(remarks(choice)),
        "cautions": list(cautions(record)),
    }


def _number(choice: Choice, option: Option | None) -> int | None:
    return None if option is None else choice.options.index(option)


def _option(option: Option) -> Json:
    make = option.make
    return {
        "cable": make.cable.code,
        "cores": make.cores,
        "csa_mm2": make.csa,
        "cpc": make.cpc.code,
        "cpc_csa_mm2": make.cpc_csa,
        "will_do": option.will_do,
        "leaves_room": option.roomy,
        **_judged(option.verdict.code, option.decides, option.cells),
    }


def _judged(verdict: str, decides: Cell | None, cells: Iterable[Cell]) -> Json:
    return {
        "verdict": verdict,
        "decides": None if decides is None else decides.check.code,
        "checks": {each.check.code: _cell(each) for each in cells},
    }


def _cell(cell: Cell) -> Json:
    figure = cell.result if isinstance(cell.result, Worked) else None
    used = cell.used
    return {
        "verdict": cell.verdict.code,
        "value": _finite(figure.value) if figure is not None else None,
        "unit": figure.unit.value if figure is not None else None,
        "share_of_limit": None if used is None else _finite(used),
        "circuit": cell.place.circuit,
        "why": cell.why,
    }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def circuit(record: Record, choice: CircuitChoice) -> Json:
    """Return all that was tried for a circuit."""
    return {
        "what": choice.circuit.id,
        "assumed": list(choice.notes),
        "missing": list(choice.lacks),
        "options": [
            {
                "form": each.form.code,
                "csa_mm2": each.csa,
                "rating_A": each.rating,
                "length_m": each.length,
                "longest_m": each.longest,
                "will_do": each.will_do,
                **_judged(each.verdict.code, each.decides, each.cells),
            }
            for each in choice.options
        ],
    }


def room(rooms: Iterable[Room], tried: Later | None, assumed: str) -> Json:
    """Return how much more the design takes, and what a later load would do."""
    return {
        "what": "room",
        "assumed": [assumed] if assumed else [],
        "rooms": [_room(each) for each in rooms],
        "later": None
        if tried is None or tried.why
        else [
            {"check": each.title, "verdict": each.verdict.code, "why": each.why}
            for each in tried.fails
        ],
        "later_missing": "" if tried is None else tried.why,
    }


def _room(room: Room) -> Json:
    return {
        "where": room.where,
        "more": room.more,
        "unit": room.unit.value,
        "stops": [one.title for one in room.stops],
        "fails_already": room.already,
        "apart_from_that": None if room.apart is None else _room(room.apart),
        "why": room.why,
    }


def earth(both: EarthChoice) -> Json:
    """Return both earths of the outbuilding."""
    return {
        "what": "earth",
        "chosen": None if both.chosen is None else both.chosen.code,
        "exported": [_need(each) for each in both.exported],
        "electrode": [_need(each) for each in both.electrode],
        "cautions": list(both.cautions),
    }


def _need(need: Need) -> Json:
    return {"topic": need.topic, "state": need.state.code, "text": need.text}


def buy(bought: BuyList) -> Json:
    """Return the list of what to buy."""
    return {
        "what": "buy",
        "allowance_percent": bought.allowance,
        "items": [
            {
                "sort": each.sort.code,
                "what": each.what,
                "quantity": each.quantity,
                "unit": each.unit or "pieces",
                "for": list(each.uses),
                "note": each.note,
            }
            for each in bought.items
        ],
        "missing": list(bought.missing),
    }


def compare(record: Record, others: Sequence[Record]) -> Json:
    """Return what differs in other designs, and the checks that stand otherwise in them."""
    from records.options.compare import compared

    rows = compared([record, *others])
    return {
        "what": "compare",
        "designs": 1 + len(others),
        "inputs": [
            {"where": each.what, "sides": [side.text for side in each.sides]}
            for each in rows
            if not each.is_check
        ],
        "checks": [
            {"check": each.what, "sides": [_side(side) for side in each.sides]}
            for each in rows
            if each.is_check
        ],
    }


def _side(side: Side) -> Json:
    return {
        "verdict": None if side.check is None else side.check.verdict.code,
        "text": side.text,
        "worse": side.worse,
        "why": "" if side.check is None else side.check.why,
    }
