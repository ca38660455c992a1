"""A wall has two faces: what is entered on one holds for the other, seen the other way round."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from records.model.fabric import Frame, Surface
from records.model.record import Record


def other_side(record: Record, surface: Surface) -> Surface | None:
    """Return the back of a surface, whichever of both names the other."""
    for each in record.fabric.surfaces:
        if each.id != surface.id and (
            each.id == surface.other_side or each.other_side == surface.id
        ):
            return each
    return None


def mirrored(surface: Surface, other: Surface, along: float) -> float:
    """Return where on a surface a distance along its back is [mm].

    Whoever faces the other side sees it the other way round. A wall is as much wider outside as its
    corners are thick: both faces have their middle in one place.
    """
    width, back = surface.width or 0.0, other.width or surface.width or 0.0
    return width / 2 - (along - back / 2)


def with_both_faces(record: Record, surface: Surface) -> Surface:
    """Return a surface with what its other face says of the same wall.

    Where both say it and differ, the worse is taken: the thinner wall, the metal frame.
    """
    back = other_side(record, surface)
    if back is None:
        return surface
    changes: Mapping[str, Any] = {
        "thick": min(
            (each for each in (surface.thick, back.thick) if each is not None), default=None
        ),
        "frame": Frame.METAL
        if Frame.METAL in (surface.frame, back.frame)
        else surface.frame or back.frame,
        "foil": True if True in (surface.foil, back.foil) else surface.foil,
    }
    return surface.model_copy(update=changes)
