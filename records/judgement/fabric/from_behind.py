"""A wall as whoever stands behind it sees it: for what is fixed to its outside face."""

from __future__ import annotations

from records.judgement.fabric.faces import mirrored, other_side, with_both_faces
from records.judgement.fabric.legs import CABLE
from records.model.fabric import Spot, Surface
from records.model.record import Record

_BACK = "W99"
"""Id of a surface that is only looked at; the record keeps none of it."""


def seen_from_back(record: Record, surface: Surface) -> tuple[Record, Surface]:
    """Return a surface as whoever stands behind it sees it, with a record that has only that.

    All that is entered on either face is on it, the other way round where it was entered from here.
    An outside corner is a wall thickness away from the inside one.

    Args:
        record: The job.
        surface: One of its surfaces.
    """
    own = other_side(record, surface)
    thick = with_both_faces(record, surface).thick or 0.0
    wide = None if surface.width is None else surface.width + 2 * thick
    sloped = surface.height_far is not None
    there = surface.model_copy(
        update={
            "id": _BACK,
            "name": f"{surface.name or surface.id}, from behind",
            "corner": "its left corner, seen from behind",
            "width": wide,
            "height": surface.height_far if sloped else surface.height,
            "height_far": surface.height if sloped else None,
            "other_side": None,
            "centres": None,
        }
    )
    if own is not None:
        same = {"id": _BACK, "other_side": None, "width": own.width or wide}
        there = own.model_copy(update={**same, "height": own.height or there.height})

    def along(x: float) -> float:
        return mirrored(there, surface, x)

    def spot(each: Spot | None) -> Spot | None:
        if each is None or each.surface not in (surface.id, None if own is None else own.id):
            return None
        x = along(each.along) if each.surface == surface.id else each.along
        return each.model_copy(update={"surface": _BACK, "along": max(x, 0.0)})

    legs = []
    for leg in record.fabric.legs:
        if leg.surface == surface.id:
            deep = None if leg.deep is None or not thick else max(0.1, thick - leg.deep - CABLE)
            turned = {"surface": _BACK, "along": along(leg.along), "to_along": along(leg.to_along)}
            legs.append(leg.model_copy(update={**turned, "deep": 0.0 if leg.deep == 0 else deep}))
        elif own is not None and leg.surface == own.id:
            legs.append(leg.model_copy(update={"surface": _BACK}))
    fixtures = tuple(
        each.model_copy(update={"spot": found})
        for each in record.fabric.fixtures
        if (found := spot(each.spot)) is not None
    )
    circuits = tuple(
        each.model_copy(
            update={
                "points": tuple(
                    point.model_copy(update={"spot": spot(point.spot)}) for point in each.points
                )
            }
        )
        for each in record.circuits
    )
    fabric = record.fabric.model_copy(
        update={"surfaces": (there,), "legs": tuple(legs), "fixtures": fixtures}
    )
    return record.model_copy(update={"fabric": fabric, "circuits": circuits}), there
