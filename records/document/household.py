"""The page for whoever lives with it: the board, how to switch off, where cables hide."""

from __future__ import annotations

from records.document.walls.plain_words import hiding_places
from records.document.words import NOT_GIVEN, figure, joined
from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Device
from records.units import Unit


def chart(record: Record) -> list[dict[str, str]]:
    """Return the chart of the board: a line for each circuit."""
    return [
        {
            "number": each.id,
            "name": each.name or NOT_GIVEN,
            "device": _device(each.device),
            "where": _rooms(each),
        }
        for each in record.circuits
    ]


def hidden(record: Record) -> list[str]:
    """Return where cables run, in the words that were entered."""
    feed = [each.where for each in record.feed.runs if each.where]
    lines = [f"Cable from the house: {joined(feed, '; ')}."] if feed else []
    for circuit in record.circuits:
        runs = joined((each.where for each in circuit.runs), "; ")
        if runs:
            near = _NEAR[circuit.hidden]
            lines.append(f"{circuit.id} {circuit.name}: {runs}.{near}")
    lines += hiding_places(record)
    return lines or ["Where the cables run was not given. Ask before you drill or dig."]


def isolating(record: Record) -> list[str]:
    """Return how to switch off, as far as the record knows where."""
    place = record.board.place.rstrip(".")
    board = f"The board is here: {place}." if place else "Where the board is was not given."
    return [
        board,
        "To switch off the outbuilding: main switch of this board to off. Its incoming cable stays "
        "live until it is switched off at the house.",
        "To switch off one circuit: its own switch on the board, by the number in the chart.",
        "A switch that has tripped: find out why before it goes on again. If it trips again, leave "
        "it off and call an electrician.",
        "Test button (T) on each RCD or RCBO: press it as often as its maker says (often every six "
        "months). It must go off at once. If it doesn’t, don’t use the circuit; call an "
        "electrician.",
        "A tingle from metal, a smell of burning, a hot socket: touch nothing, get everybody out. "
        "Then call an electrician; if the supply itself seems at fault, 105 (Great Britain).",
        "Not for use before the certificate.",
    ]


_NEAR = {
    True: " Less than 50 mm deep: don’t drill there.",
    None: " How deep was not given: don’t drill there.",
    False: "",
}


def _device(it: Device) -> str:
    if it.rating is None and it.kind is None:
        return NOT_GIVEN
    return joined((figure(it.rating, Unit.AMPERE), it.kind.value if it.kind else ""))


def _rooms(it: Circuit) -> str:
    return joined(dict.fromkeys(each.room for each in it.points), "; ") or NOT_GIVEN
