"""What a field is for stands where the help and the schema find it: in its description."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import records.model
from records.model.kinds import Piece
from records.model.record import Record

ROOM = Path(records.model.__path__[0])


def pieces(base: type[Piece] = Piece) -> Iterator[type[Piece]]:
    yield base
    for each in base.__subclasses__():
        yield from pieces(each)


def test_no_field_is_explained_where_nobody_reads_it() -> None:
    """A text under a field explains it to readers of the code alone."""
    named = {each.__name__ for each in pieces() if each.__module__.startswith("records.model")}
    unread = [
        f"{path.name}: {ast.unparse(field)}"
        for path in ROOM.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and node.name in named
        for field, text in pairwise(node.body)
        if isinstance(field, ast.AnnAssign) and isinstance(text, ast.Expr)
    ]
    assert len(named) > 30
    assert unread == []


def test_descriptions_are_part_of_the_schema() -> None:
    schema = Record.model_json_schema()
    said = [
        field["description"]
        for part in schema["$defs"].values()
        for field in part.get("properties", {}).values()
        if "description" in field
    ]
    assert len(said) > 120
    assert [each for each in said if each != " ".join(each.split())] == []
