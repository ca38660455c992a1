"""The stages of the work as words after a command."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from records.terms import Stage

STAGES = ("before-covering", "dead", "live")


def stage_of(word: str) -> Stage:
    """Return the stage that a word stands for."""
    from records.terms import Stage

    return dict(zip(STAGES, Stage, strict=True))[word]
