"""What the type of a field says: the classes it is one of, the models it is made of, its rules."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo


def kinds_of(field: FieldInfo | None) -> Iterator[type[Any]]:
    """Yield the classes that a field's type is, or is one of."""
    if field is not None:
        for kind in (field.annotation, *get_args(field.annotation)):
            inner = get_args(kind)[0] if get_origin(kind) is Annotated else kind
            if isinstance(inner, type):
                yield inner


def rules_of(field: FieldInfo | None) -> Iterator[Any]:
    """Yield what the type of a field says beside its kind: its unit, its bounds."""
    if field is not None:
        yield from field.metadata
        yield from _inner(field.annotation)


def _inner(annotation: Any) -> Iterator[Any]:
    if get_origin(annotation) is Annotated:
        for each in get_args(annotation)[1:]:
            yield from each.metadata if isinstance(each, FieldInfo) else (each,)
    for each in get_args(annotation):
        yield from _inner(each)


def models_of(annotation: Any) -> Iterator[type[BaseModel]]:
    """Yield the models that a type speaks of, lists and choices unpacked."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for each in get_args(annotation):
        yield from models_of(each)
