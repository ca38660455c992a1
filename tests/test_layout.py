"""How the files hang together: no circle of imports, not even one for types only."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

ROOT = Path(__file__).parents[1]
TOPS = ("records", "tui")


@cache
def modules() -> dict[str, Path]:
    found = {}
    for path in (each for top in TOPS for each in (ROOT / top).rglob("*.py")):
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        found[name.removesuffix(".__init__")] = path
    return found


@cache
def tree(name: str) -> ast.Module:
    return ast.parse(modules()[name].read_text(encoding="utf-8"))


def imported(name: str) -> Iterator[str]:
    """Yield the modules that one imports, late and for types only too."""
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.Import):
            yield from (each.name for each in node.names if each.name in modules())
        elif isinstance(node, ast.ImportFrom) and node.module in modules():
            for each in node.names:
                whole = f"{node.module}.{each.name}"
                yield whole if whole in modules() else str(node.module)


def test_no_circle_of_files() -> None:
    graph = {name: set(imported(name)) - {name} for name in modules()}
    assert sum(map(len, graph.values())) > len(graph), "imports were not found"
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        raise AssertionError(f"a circle: {' -> '.join(error.args[1])}") from None
