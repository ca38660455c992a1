"""Something to read between the fields of a page."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Remark:
    """Words to read where they matter."""

    text: str
    urgent: bool = False
    """Whether somebody can be hurt, or something goes wrong, if it is not read."""


Asked = tuple[str, ...] | Remark
"""What stands on a page one under another: the names of fields, or something to read."""
