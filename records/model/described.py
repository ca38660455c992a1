"""What the model's own words say about its fields: the texts under them in the source.

Read when they are asked for: to have each class read its source as it is made took longer than all
else that opening a record takes.
"""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import pairwise
from typing import Any

from records.model.kinds import Piece


@cache
def descriptions(model: type[Piece]) -> Mapping[str, str]:
    """Return what is said about the fields of a model, by name; a field may have nothing.

    Nothing at all is said where the program was installed without its source.
    """
    said: dict[str, str] = {}
    for each in reversed(model.__mro__):
        if issubclass(each, Piece):
            said.update(_texts(_classes(each.__module__).get(each.__name__, ())))
    return said


def describe(schema: dict[str, Any]) -> dict[str, Any]:
    """Return a JSON Schema of the record with the descriptions of its fields put in."""
    models = {each.__name__: each for each in _pieces(Piece)}
    parts = dict(schema.get("$defs", {}))
    described = {name: _described(part, models.get(name)) for name, part in parts.items()}
    return _described({**schema, "$defs": described}, models.get(schema.get("title", "")))


def _described(part: dict[str, Any], model: type[Piece] | None) -> dict[str, Any]:
    if model is None or "properties" not in part:
        return part
    said = descriptions(model)
    properties = {
        name: {**field, "description": said[name]} if name in said else field
        for name, field in part["properties"].items()
    }
    return {**part, "properties": properties}


def _pieces(base: type[Piece]) -> Iterator[type[Piece]]:
    yield base
    for each in base.__subclasses__():
        yield from _pieces(each)


@cache
def _classes(module: str) -> Mapping[str, list[ast.stmt]]:
    """Return what each class of a module consists of."""
    try:
        source = inspect.getsource(sys.modules[module])
    except OSError:
        return {}
    found = (each for each in ast.parse(source).body if isinstance(each, ast.ClassDef))
    return {each.name: each.body for each in found}


def _texts(body: Iterable[ast.stmt]) -> Iterator[tuple[str, str]]:
    for field, text in pairwise(body):
        if (
            isinstance(field, ast.AnnAssign)
            and isinstance(field.target, ast.Name)
            and isinstance(text, ast.Expr)
            and isinstance(text.value, ast.Constant)
            and isinstance(text.value.value, str)
        ):
            yield field.target.id, inspect.cleandoc(text.value.value)
