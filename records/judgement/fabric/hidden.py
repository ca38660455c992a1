"""What a surface hides once it is covered: legs, their circuits, and which box a leg comes to."""

from __future__ import annotations

from records.expected.boxes import Placed, hole
from records.expected.formulas.zones import distance
from records.judgement.fabric.faces import mirrored, other_side
from records.judgement.fabric.legs import line_of, run_of
from records.model.fabric import Leg, Surface
from records.model.reading import Place
from records.model.record import Record


def hidden_legs(record: Record, surface: Surface) -> tuple[Leg, ...]:
    """Return the legs that nobody can see any more once a surface is covered.

    Those of the other face of its wall too, if that is covered: this is the last side they are seen
    from.
    """
    back = other_side(record, surface)
    ids = {surface.id}
    if back is not None and back.covered is not None:
        ids.add(back.id)
    return tuple(each for each in record.fabric.legs if each.surface in ids and each.deep != 0)


def circuits_behind(record: Record, surface: Surface) -> tuple[Place, ...]:
    """Return the circuits, and the feed, that have cable hidden behind a surface."""
    found: dict[Place, None] = {}
    for leg in hidden_legs(record, surface):
        run = run_of(record, leg)
        if run is not None:
            found.setdefault(run.place)
    return tuple(found)


def is_met(record: Record, surface: Surface, box: Placed) -> bool:
    """Whether a leg of its circuit comes to a box, on its surface or on the back of it."""
    back = other_side(record, surface)
    cut = hole(box.spot)
    x, y = cut.centre
    near = max(cut.right - cut.left, cut.top - cut.bottom) / 2 + _NEAR
    for leg in record.fabric.legs:
        if box.circuit is None or leg.circuit != box.circuit.id:
            continue
        if leg.surface == surface.id:
            at = x
        elif back is not None and leg.surface == back.id:
            at = mirrored(back, surface, x)
        else:
            continue
        if distance(line_of(leg), at, y) <= near:
            return True
    return False


_NEAR = 150.0
"""mm from the edge of a box within which a leg comes to it."""
