"""Why the cables of the feed were chosen: each beside the sizes next to it."""

from __future__ import annotations

from typing import Any

from records.document.words import joined
from records.model.record import Record
from records.options.why import Why, why_this_cable

_CELLS = ("cable", "cpc", "iz", "drop", "zs", "off", "cpc_size", "bond", "decides")
"""Names of the cells of a row, in the order of `FEED_HEAD`."""


def choice(record: Record) -> list[dict[str, Any]]:
    """Return each run of the feed: how its cable stands, then the sizes beside it, row by row."""
    return [_chosen(each) for each in why_this_cable(record)]


def _chosen(it: Why) -> dict[str, Any]:
    notes = joined((it.decides, f"{it.mark}." if it.mark else "", *it.assumed), " ")
    return {
        "name": f"Feed {it.run}: {it.cable}, cpc: {it.cpc}: {it.stands}",
        "notes": notes,
        "lines": [{"mark": row[0], **dict(zip(_CELLS, row[1:], strict=True))} for row in it.rows],
    }
