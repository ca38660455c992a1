"""What a document says of its own making, so that it can be made again and compared."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from records.document.workings import WorkingsOf

_MADE, _TEMPLATE = "Farboard made", "Farboard template"
_VERSION, _WORKINGS = "Farboard version", "Farboard workings"
_WHY_CABLE = "Farboard why cable"
_YEARS = range(1980, 2200)
"""What a zip can carry, and what survives being put into another zone."""


@dataclass(frozen=True, slots=True)
class Making:
    """When, with which template and by which Farboard a document was made."""

    made: datetime
    template: str
    """The digest of the template; see `template_digest`."""
    version: str
    workings: WorkingsOf = WorkingsOf.FINDINGS
    """Of which figures it has the workings."""
    why_cable: bool = False
    """Whether it says why the cables of the feed were chosen."""


def template_digest(template: bytes) -> str:
    """Return the SHA-256 of a template, in hexadecimal digits."""
    return hashlib.sha256(template).hexdigest()


def version() -> str:
    """Return which Farboard this is."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("farboard")
    except PackageNotFoundError:
        return "not installed"


def making_properties(
    template: bytes, made: datetime, schedule: Mapping[str, Any]
) -> dict[str, str]:
    """Return what a document carries of its own making, by the names of its properties.

    Args:
        template: What it is filled into.
        made: When.
        schedule: What the context says of the schedule itself.
    """
    why = schedule.get("why_cable", "")
    return {
        _MADE: made.isoformat(),
        _TEMPLATE: template_digest(template),
        _VERSION: version(),
        _WORKINGS: schedule.get("workings", ""),
        **({_WHY_CABLE: why} if why else {}),
    }


def making(properties: Mapping[str, Any]) -> Making | None:
    """Return what a document carries of its own making; None if that is not all there."""
    try:
        made = datetime.fromisoformat(properties[_MADE])
        if made.tzinfo is None or made.year not in _YEARS:
            return None
        workings = WorkingsOf(properties[_WORKINGS])
        return Making(
            made,
            properties[_TEMPLATE],
            properties[_VERSION],
            workings,
            why_cable=properties.get(_WHY_CABLE) == "yes",
        )
    except (KeyError, ValueError):
        return None
