"""Rows of a form made from the model: its title, its description, its unit, its choices."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from enum import Enum
from functools import cache
from typing import Any, get_args

from pydantic.fields import FieldInfo

from records.entering.field import NOT_SAID, Field, Kind, Option
from records.model.kinds import In, Piece
from records.terms import Earthing, FeedLoad, LoadKind, Method, RcdType
from records.units import Unit

_NOTES: dict[type[Enum], dict[Enum, str]] = {
    Earthing: {
        Earthing.TN_S: "earth on the cable's sheath or a separate core",
        Earthing.TN_C_S: "earth from the supply's neutral (PME)",
        Earthing.TT: "no earth from the supplier: an electrode",
    },
    FeedLoad: {
        FeedLoad.ADDED_UP: "on the safe side",
        FeedLoad.DIVERSITY: "for a whole dwelling, not for a workshop",
        FeedLoad.RATED: "all that its device carries",
        FeedLoad.TOGETHER: "you mark which circuits can be on at once",
    },
    LoadKind: {
        LoadKind.COOKING: "diversity: 10 A and 30 % of the rest",
        LoadKind.SPACE_HEATING: "diversity: 10 A and half the rest",
        LoadKind.INSTANT_WATER: "diversity: the third and more 25 %",
        LoadKind.MOTOR: "in full; asks for its starting current",
        LoadKind.VEHICLE: "in full",
        LoadKind.MACHINE: "in full",
    },
    RcdType: {
        RcdType.AC: "a.c. only",
        RcdType.A: "a.c. and pulsating d.c.",
        RcdType.F: "as A, and mixed frequencies",
        RcdType.B: "as F, and smooth d.c.",
    },
    # BS 7671 Appendix 4, Table 4A2, in short (from memory).
    Method: {
        Method.A: "in conduit in an insulated wall",
        Method.B: "in conduit or trunking on a wall",
        Method.C: "clipped direct",
        Method.D: "in the ground, direct or in a duct",
        Method.E: "in free air, or on a perforated tray",
        Method.M100: "flat: above a ceiling, ≤ 100 mm of insulation",
        Method.M101: "flat: above a ceiling, > 100 mm of insulation",
        Method.M102: "flat: insulated stud wall, touching its face",
        Method.M103: "flat: insulated stud wall, not touching",
    },
}
"""By kind: type A of an RCD and method A of installation are the same letter."""


def fields_of(piece: Piece, pointer: str, names: Sequence[str]) -> tuple[Field, ...]:
    """Return a row for each named field of a piece of the record.

    Args:
        piece: The part of the record as it stands.
        pointer: Where it stands in the record.
        names: Which of its fields, in the order wanted.
    Raises:
        KeyError: If the piece has no such field.
    """
    return tuple(
        Field(
            pointer=f"{pointer}/{name}",
            label=shape.title,
            kind=shape.kind,
            hint=shape.hint,
            value=getattr(piece, name),
            default=shape.default,
            unit=shape.unit,
            options=shape.options,
        )
        for name in names
        for shape in (_shape(type(piece), name),)
    )


class _Shape:
    """What the model says about one field, whatever its value."""

    def __init__(self, info: FieldInfo, name: str) -> None:
        parts = list(_parts(info.annotation))
        metadata = [*info.metadata, *(each for part in parts for each in get_args(part)[1:])]
        self.title = info.title or name
        self.hint = info.description or ""
        self.default = info.default
        self.unit = next((each.unit for each in metadata if isinstance(each, In)), Unit.NUMBER)
        optional = type(None) in parts
        kinds = [part for part in parts if isinstance(part, type)]
        chosen = next((part for part in kinds if issubclass(part, Enum)), None)
        self.options: tuple[Option, ...] = ()
        if chosen is not None:
            self.kind, notes = Kind.CHOICE, _NOTES.get(chosen, {})
            self.options = tuple(Option(each.value, each, notes.get(each, "")) for each in chosen)
        elif bool in kinds:
            self.kind = Kind.YES_NO
            self.options = (Option("yes", True), Option("no", False))
        elif date in kinds:
            self.kind = Kind.DATE
        elif int in kinds:
            self.kind = Kind.COUNT
        elif float in kinds:
            self.kind = Kind.FIGURE
        else:
            self.kind = Kind.TEXT
        if self.options and optional:
            self.options += (Option(NOT_SAID, None),)


@cache
def _shape(model: type[Piece], name: str) -> _Shape:
    return _Shape(model.model_fields[name], name)


def _parts(annotation: Any) -> Iterator[Any]:
    """Yield an annotation and all that it is made of: `Ohms | None` gives Ohms, float and None."""
    yield annotation
    inner = get_args(annotation)
    # Of Annotated[float, ...] only the first is a type.
    for each in inner[:1] if hasattr(annotation, "__metadata__") else inner:
        yield from _parts(each)
