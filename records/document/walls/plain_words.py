"""Where cables hide, for whoever lives with it: a sentence a surface, in plain words."""

from __future__ import annotations

from collections.abc import Iterable

from records.judgement.fabric.fixings import KEEP
from records.judgement.fabric.legs import run_of, surface_name
from records.judgement.fabric.memory import leg_from_memory
from records.model.fabric import Buried, Leg, Surface, SurfaceKind
from records.model.record import Record

_MOST = 6
"""Places that are named on one surface."""


def hiding_places(record: Record) -> list[str]:
    """Return a sentence for each surface with hidden cable and for each stretch in the ground."""
    lines = []
    for surface in record.fabric.surfaces:
        legs = [
            each
            for each in record.fabric.legs
            if each.surface == surface.id and each.deep != 0 and run_of(record, each) is not None
        ]
        if legs:
            lines.append(_behind(surface, legs))
    lines += [_in_ground(each) for each in record.fabric.buried if run_of(record, each) is not None]
    return lines


def _behind(surface: Surface, legs: list[Leg]) -> str:
    level = sorted({each.up for each in legs if each.up == each.to_up})
    plumb = sorted({each.along for each in legs if each.along == each.to_along})
    slant = any(each.up != each.to_up and each.along != each.to_along for each in legs)
    flat = surface.kind in (SurfaceKind.CEILING, SurfaceKind.FLOOR, SurfaceKind.SOFFIT)
    said = []
    if level:
        height = "from its lower edge" if flat else "above the floor"
        said.append(f"level, {_figures(level)} mm {height}")
    if plumb:
        way = "across" if flat else "straight up and down"
        said.append(f"{way}, {_figures(plumb)} mm from {surface.corner}")
    if slant:
        said.append("sloping below its top edge")
    late = any(leg_from_memory(surface, each) for each in legs)
    doubt = " Some of it was entered from memory: use a cable locator." if late else ""
    return (
        f"{surface_name(surface)}: cables {'; '.join(said)}. Keep screws and nails {KEEP:g} mm "
        f"away; its drawing is in part 7.{doubt}"
    )


def _figures(values: Iterable[float]) -> str:
    known = [f"{each:.0f}" for each in values]
    more = " and at more places" if len(known) > _MOST else ""
    return f"{', '.join(known[:_MOST])}{more}"


def _in_ground(it: Buried) -> str:
    deep = "depth not measured" if it.deep is None else f"{it.deep * 1000:.0f} mm deep"
    cover = "" if it.cover is None else f", {it.cover}"
    where = f" {it.from_what.rstrip('.')}." if it.from_what else ""
    return f"In the ground or along a wall outside: {it.length:g} m of cable, {deep}{cover}.{where}"
