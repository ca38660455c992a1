"""A surface drawn to scale: cables by circuit, boxes, studs, zones, and strips to keep out of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from records.document.walls.dimensions import dimensions, scale_bar
from records.document.walls.legend import PENS, Pen, legend
from records.document.walls.scale import A4, Paper, View, view
from records.document.walls.shapes import (
    FAINT,
    GREY,
    PALE,
    Line,
    Page,
    Part,
    Ring,
    Shape,
    Words,
)
from records.expected.boxes import Placed, hole, placed, plate
from records.expected.formulas.zones import HalfPlane, Zone
from records.judgement.fabric.faces import mirrored, other_side
from records.judgement.fabric.fixings import keep_out
from records.judgement.fabric.from_behind import seen_from_back
from records.judgement.fabric.legs import line_of, point_on, run_of, surface_name
from records.judgement.fabric.memory import MARK, from_memory, leg_from_memory
from records.judgement.fabric.zones import WALLS, zone_gaps, zones
from records.model.fabric import Box, Leg, Surface
from records.model.record import Record


def drawing(
    record: Record,
    surface: Surface,
    *,
    strips: bool = False,
    from_behind: bool = False,
    paper: Paper = A4,
) -> Page:
    """Return a page with a surface to scale.

    Args:
        record: The job.
        surface: One of its surfaces.
        strips: Whether to show, instead of zones, where no screw belongs.
        from_behind: Whether to draw it as seen from its other face; it has no zones then, for
            a point on this face isn't seen from there.
        paper: How the page is laid out.
    """
    gaps = {} if from_behind else zone_gaps(record, surface)
    if from_behind:
        record, surface = seen_from_back(record, surface)
    name = surface_name(surface)
    what = "Keep screws and nails out of the grey strips" if strips else "Where the cables are"
    page = Page(paper.width, paper.height, f"{name}: {what.lower()}")
    if paper.titled:
        page.add(Words((12, 10), f"{name} · {what}", 4.2, bold=True))
        page.add(Words((285, 10), record.job.reference, 2.8, "end"))
    if surface.width is None or surface.height is None:
        page.add(Words((12, 24), f"Enter width and height of {name}: then it can be drawn.", 3.2))
        return page
    far = surface.height if surface.height_far is None else surface.height_far
    seen = view(surface.width, surface.height, far, paper.room)
    if paper.titled:
        page.add(Words((12, 16), measured(surface, seen), 2.8))
    page.add(
        *(
            _strips(record, surface, seen)
            if strips or from_behind
            else _zones(record, surface, seen)
        )
    )
    page.add(*_studs(surface, seen))
    page.add(Shape(seen.outline, "outline", surface.id, thick=0.5))
    page.add(*_back(record, surface, seen))
    circuits = tuple(dict.fromkeys(leg.circuit for leg in _legs(record, surface)))
    pens = {each: PENS[at % len(PENS)] for at, each in enumerate(circuits)}
    for leg in _legs(record, surface):
        page.add(*_cable(leg, seen, pens[leg.circuit], gaps.get(leg.id, ())))
    # Openings first: the name of a box beside a door is longer than the wall there.
    for each in sorted(placed(record, surface), key=lambda each: not each.is_opening):
        page.add(*_box(each, seen, late=from_memory(surface, each.spot)))
    page.add(*_numbers(record, surface, seen))
    page.add(*dimensions(record, surface, seen))
    page.add(*scale_bar(seen, paper.bar))
    page.add(
        *legend(record, pens, paper, strips=strips or from_behind, zones=surface.kind in WALLS)
    )
    return page


def measured(surface: Surface, seen: View) -> str:
    """Return what a surface is and how it is measured, with its scale."""
    size = f"{surface.width:g} × {surface.height:g} mm"
    if surface.height_far is not None:
        size = f"{surface.width:g} mm long, {surface.height:g} to {surface.height_far:g} mm high"
    kind = f"{str(surface.kind).capitalize()}, " if surface.kind is not None else ""
    return (
        f"{kind}{size}. Seen by whoever faces it; along from {surface.corner}, up from finished "
        f"floor. Scale 1:{seen.scale} on A4."
    )


def _legs(record: Record, surface: Surface) -> Iterator[Leg]:
    return (
        each
        for each in record.fabric.legs
        if each.surface == surface.id and run_of(record, each) is not None
    )


def _zones(record: Record, surface: Surface, seen: View) -> Iterator[Part]:
    if surface.kind not in WALLS:
        return
    for each in zones(record, surface):
        corners = tuple(seen.at(x, y) for x, y in _clipped(each, surface))
        if len(corners) >= 3:
            yield Shape(corners, "zone", each.why, ink=None, fill="#e6f0e6")


def _clipped(zone: Zone, surface: Surface) -> list[tuple[float, float]]:
    """Return the corners of a zone where it lies on its surface."""
    return _cut(list(_outline(surface)), zone.sides)


def _outline(surface: Surface) -> tuple[tuple[float, float], ...]:
    width, left = surface.width or 0.0, surface.height or 0.0
    right = left if surface.height_far is None else surface.height_far
    return (0.0, 0.0), (0.0, left), (width, right), (width, 0.0)


def _within(corners: Iterable[tuple[float, float]], surface: Surface) -> list[tuple[float, float]]:
    """Return the corners of what of a shape lies on its surface."""
    width, left = surface.width or 0.0, surface.height or 0.0
    right = left if surface.height_far is None else surface.height_far
    slope = (right - left) / width if width else 0.0
    return _cut(list(corners), ((-1, 0, 0), (1, 0, width), (0, -1, 0), (-slope, 1, left)))


def _cut(
    corners: list[tuple[float, float]], sides: Iterable[HalfPlane]
) -> list[tuple[float, float]]:
    """Return the corners of a convex shape cut by half planes (Sutherland and Hodgman)."""
    for a, b, c in sides:
        kept: list[tuple[float, float]] = []
        for one, other in zip(corners, [*corners[1:], *corners[:1]], strict=True):
            here, there = a * one[0] + b * one[1] - c, a * other[0] + b * other[1] - c
            if here <= 0:
                kept.append(one)
            if here * there < 0:
                share = here / (here - there)
                kept.append(
                    (one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share)
                )
        corners = kept
        if not corners:
            return []
    return corners


def _strips(record: Record, surface: Surface, seen: View) -> Iterator[Part]:
    for each in keep_out(record, surface):
        corners = tuple(seen.at(x, y) for x, y in _within(each.corners, surface))
        if len(corners) >= 3:
            yield Shape(corners, "strip", each.why, ink=GREY, dash=(1, 0.6), fill=PALE)


def _studs(surface: Surface, seen: View) -> Iterator[Part]:
    if surface.centres is None or not surface.centres or surface.width is None:
        return
    first = surface.first_stud if surface.first_stud is not None else surface.centres
    for count in range(int(max(surface.width - first, 0) // surface.centres) + 1):
        x = first + count * surface.centres
        share = x / surface.width if surface.width else 0.0
        top = seen.left + (seen.right - seen.left) * share
        yield Line(seen.at(x, 0), seen.at(x, top), "stud", f"{x:g}", 0.15, (1.5, 1.5), PALE)


def _back(record: Record, surface: Surface, seen: View) -> Iterator[Part]:
    """The boxes on the other side, the other way round: what a long screw or a saw can meet."""
    back = other_side(record, surface)
    if back is None:
        return
    for each in placed(record, back):
        if each.is_opening:
            continue
        cut = hole(each.spot)
        left, right = mirrored(surface, back, cut.right), mirrored(surface, back, cut.left)
        yield Shape(
            seen.box(left, cut.bottom, right, cut.top), "back", each.name, dash=(0.6, 0.6), ink=GREY
        )


def _cable(leg: Leg, seen: View, pen: Pen, gaps: Iterable[tuple[float, float]]) -> Iterator[Part]:
    x0, y0, x1, y1 = line_of(leg)
    yield Line(seen.at(x0, y0), seen.at(x1, y1), "cable", leg.id, pen.thick, pen.dash, pen.ink)
    for each in leg.holes:
        yield Ring(seen.at(*point_on(leg, each.at)), 0.8, "bored", leg.id, fill="#ffffff")
    for low, high in gaps:
        x, y = seen.at(*point_on(leg, (low + high) / 2))
        for slant in (1.1, -1.1):
            yield Line((x - 1.1, y - slant), (x + 1.1, y + slant), "outside", leg.id, 0.4)


def _box(each: Placed, seen: View, *, late: bool) -> Iterator[Part]:
    cut, face = hole(each.spot), plate(each.spot)
    corners = seen.box(cut.left, cut.bottom, cut.right, cut.top)
    if each.is_opening:
        yield Shape(corners, "opening", each.name, thick=0.35, fill="#ffffff")
        yield Line(corners[0], corners[2], "opening-mark", each.name, 0.1, ink=GREY)
        yield Words(seen.at(*cut.centre), each.name, 2.6, "middle", ground=True)
        return
    if each.spot.box in (Box.ROUND, Box.LAMP):
        radius = (cut.right - cut.left) / 2 / seen.scale
        yield Ring(seen.at(*cut.centre), radius, "box", each.name, 0.35, "#ffffff")
    else:
        fill = FAINT if each.spot.box is Box.BOARD else "#ffffff"
        yield Shape(corners, "box", each.name, thick=0.35, fill=fill)
    x, y = seen.at(cut.centre[0], face.top)
    label = each.name if each.circuit is None else f"{each.name} · {each.circuit.id}"
    label = f"{label} · {MARK}" if late else label
    yield Words((x, y - 1.9), label, 2.4, "middle", ground=True)


def _numbers(record: Record, surface: Surface, seen: View) -> Iterator[Part]:
    """The circuit of each cable, once in the middle of a leg that is long enough."""
    for leg in _legs(record, surface):
        text = leg.circuit or "feed"
        text = f"{text} · {MARK}" if leg_from_memory(surface, leg) else text
        if leg.length * 1000 / seen.scale < 9:
            continue
        shift = 0.38 if int(leg.id[1:]) % 2 else 0.62
        yield Words(
            seen.at(*point_on(leg, leg.length * 1000 * shift)), text, 2.2, "middle", ground=True
        )
