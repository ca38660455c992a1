"""Both earths of an outbuilding side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.terms import OutbuildingEarth
from tui.dialogs.table import Line, Table, Told

if TYPE_CHECKING:
    from records.options.earth import EarthChoice, Need

_WIDTHS = (11, 30, 28)
_NOW = ": now"


class EarthTable(Table[None]):
    """Shows what each earth needs here, what of it is there, and who decides."""

    KEYS_LINE = "↑ ↓ topics · n cautions · Esc closes"
    HELP = (
        "What exporting the earth of the house needs here, and what an earth electrode needs. "
        "✓ it is in the record, + it has to be added or entered, ? only the network operator or "
        "the certifier may decide it. Where the rules leave it to them, nothing is recommended."
    )
    NOTES = "Cautions"

    def __init__(self, both: EarthChoice) -> None:
        """Prepare the table."""
        left = {each.topic: each for each in both.exported}
        right = {each.topic: each for each in both.electrode}
        lines = []
        for topic in dict.fromkeys((*left, *right)):
            one, other = left.get(topic), right.get(topic)
            behind = (_told(topic, one or other), _told(topic, one), _told(topic, other))
            lines.append(Line((topic, _said(one), _said(other)), behind))
        title = "Earth of the outbuilding: ✓ in the record  + to add  ? to decide"
        now = [
            _NOW if both.chosen is each else ""
            for each in (OutbuildingEarth.CARRIED_OVER, OutbuildingEarth.OWN_ELECTRODE)
        ]
        head = ("", f"exported by the feed{now[0]}", f"electrode (TT){now[1]}")
        super().__init__(title, head, lines, both.cautions[:1], both.cautions[1:], _WIDTHS)

    def action_order(self) -> None:
        """Leave the order: it is that of the work."""


def _said(need: Need | None) -> str:
    return "–" if need is None else f"{need.sign} {need.text}"


def _told(topic: str, need: Need | None) -> Told | None:
    return None if need is None else Told(topic, f"{need.state.value}. {need.text}")
