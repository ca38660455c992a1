"""The demo job, made up from end to end: a weaver's loom shed behind an orchard.

Its people, instruments and readings are invented; no such place exists. The readings follow the
resistances of the cables at the temperature of the day, as a meter would show them, but for what
is planted for a review to find.
"""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from records.model.record import Record


def demo_record() -> Record:
    """Return the demo job, complete but for what is planted in it."""
    from records.model.record import Record  # pydantic is slow to load: not before it is asked for

    text = files(__package__).joinpath("loom_shed.json").read_text(encoding="utf-8")
    return Record.model_validate_json(text)
