"""The cut-out sheet of a surface: each hole from one corner, and what cable lies behind it."""

from __future__ import annotations

from dataclasses import dataclass

from records.expected.boxes import Rect, hole, placed
from records.expected.formulas.zones import distance
from records.judgement.fabric.legs import line_of
from records.judgement.fabric.memory import from_memory
from records.model.fabric import Box, Leg, Spot, Surface
from records.model.record import Record

NEAR = 150.0
"""mm round a hole within which a cable is named (common practice)."""


@dataclass(frozen=True, slots=True)
class Behind:
    """A cable near a hole."""

    circuit: str
    """Its id, or `feed`."""
    sides: tuple[str, ...]
    """On which sides of the hole it lies: left, right, above, below."""
    deep: float | None
    """mm from the finished face."""


@dataclass(frozen=True, slots=True)
class CutOut:
    """One hole to cut."""

    name: str
    box: Box | None
    edges: Rect
    """From the corner that the sheet measures from, and from finished floor [mm]."""
    is_round: bool
    behind: tuple[Behind, ...]
    memory: bool
    """Whether its place was entered after the surface was covered."""


def cut_outs(record: Record, surface: Surface, *, from_far: bool = False) -> tuple[CutOut, ...]:
    """Return the holes of a surface, along it.

    Args:
        record: The job.
        surface: One of its surfaces.
        from_far: Whether to measure from the other corner; the width has to be entered.
    """
    legs = [each for each in record.fabric.legs if each.surface == surface.id and each.deep != 0]
    found = []
    for each in placed(record, surface):
        if each.is_opening or not _is_cut(each.spot):
            continue
        cut = hole(each.spot)
        behind = tuple(_behind(leg, cut) for leg in legs if _is_near(leg, cut))
        edges = cut
        if from_far and surface.width is not None:
            edges = Rect(surface.width - cut.right, cut.bottom, surface.width - cut.left, cut.top)
            behind = tuple(_mirrored(each) for each in behind)
        is_round = each.spot.box in (Box.ROUND, Box.LAMP)
        merged = _by_circuit(behind)
        memory = from_memory(surface, each.spot)
        found.append(CutOut(each.name, each.spot.box, edges, is_round, merged, memory))
    return tuple(sorted(found, key=lambda cut: (cut.edges.left, cut.edges.bottom)))


def _is_cut(spot: Spot) -> bool:
    """Whether a hole is cut for it: a hidden joint has none, nor a board that stands on the face.

    A board that is let into the wall has a depth.
    """
    if spot.box is None:
        return spot.width is not None
    if spot.box is Box.BOARD:
        return spot.deep is not None
    return not spot.box.is_hidden


def _is_near(leg: Leg, cut: Rect) -> bool:
    x, y = cut.centre
    half = max(cut.right - cut.left, cut.top - cut.bottom) / 2
    return distance(line_of(leg), x, y) <= half + NEAR


def _behind(leg: Leg, cut: Rect) -> Behind:
    x0, y0, x1, y1 = line_of(leg)
    sides = []
    if min(x0, x1) < cut.left:
        sides.append("left")
    if max(x0, x1) > cut.right:
        sides.append("right")
    if max(y0, y1) > cut.top:
        sides.append("above")
    if min(y0, y1) < cut.bottom:
        sides.append("below")
    return Behind(leg.circuit or "feed", tuple(sides), leg.deep)


def _by_circuit(behind: tuple[Behind, ...]) -> tuple[Behind, ...]:
    """Return the cables near a hole, those of a circuit at one depth as one."""
    sides: dict[tuple[str, float | None], list[str]] = {}
    for each in behind:
        sides.setdefault((each.circuit, each.deep), []).extend(each.sides)
    return tuple(
        Behind(circuit, tuple(each for each in _SIDES if each in found), deep)
        for (circuit, deep), found in sides.items()
    )


_SIDES = ("left", "right", "above", "below")
_OTHER = {"left": "right", "right": "left"}


def _mirrored(behind: Behind) -> Behind:
    sides = tuple(_OTHER.get(each, each) for each in behind.sides)
    return Behind(behind.circuit, sides, behind.deep)
