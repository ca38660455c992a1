"""Why the cables of the feed were chosen: each beside the sizes next to it."""

from __future__ import annotations

from typing import Any

from records.document.words import joined
from records.model.record import Record
from records.options.why import Why, printed_why, why_this_cable

_CELLS = ("cable", "cpc", "iz", "drop", "zs", "off", "cpc_size", "bond", "decides")
"""Names of the cells of a row, in the order of `FEED_HEAD`."""


def choice(record: Record, *, asked: bool = True) -> list[dict[str, Any]]:
    """Return each run of the feed: how its cable stands, then the sizes beside it, row by row.

    Args:
        record: The job. Where it says so itself, it is printed unasked, in the person's own words
            first, then what is missing.
        asked: Whether somebody asks for it with this document.
    """
    own = printed_why(record)
    if own is None:
        return [_chosen(each) for each in why_this_cable(record)] if asked else []
    notes = joined((own.words, *own.missing), " ")
    said = [{"name": "Why", "notes": notes, "lines": []}] if notes else []
    return [*said, *map(_chosen, own.runs)]


def _chosen(it: Why) -> dict[str, Any]:
    notes = joined((it.decides, f"{it.mark}." if it.mark else "", *it.assumed), " ")
    return {
        "name": f"Feed {it.run}: {it.cable}, cpc: {it.cpc}: {it.stands}",
        "notes": notes,
        "lines": [{"mark": row[0], **dict(zip(_CELLS, row[1:], strict=True))} for row in it.rows],
    }
