"""How the files hang together: no circle of imports, not even for types; no name without a use."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

from records.terms import Step

ROOT = Path(__file__).parents[1]
TOPS = ("records", "tui")
CALLED_BY_LIBRARIES = re.compile(
    r"__\w+__|_?(on|action|watch|validate|key)_\w+|compose|render\w*|get_\w+|[A-Z0-9_]+|_[a-z_]+"
    r"|model_config|context_class"
)
"""Members of classes that Textual, pydantic, click or Python itself ask for by their names."""
NAMED = re.compile(r"([\w.]+):(\w+)")
"""How a text names what is loaded late: module, colon, name."""


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


@cache
def nodes(name: str) -> tuple[ast.AST, ...]:
    return tuple(ast.walk(tree(name)))


def imported(name: str) -> Iterator[str]:
    """Yield the modules that one imports, late and for types only too."""
    for node in nodes(name):
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


def defined(body: list[ast.stmt]) -> Iterator[str]:
    """Yield the names that a module or a class gives to something."""
    for node in body:
        match node:
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                yield name
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name):
                yield name
            case ast.ClassDef(name=name):
                yield name


def used(name: str) -> Iterator[tuple[str, str]]:
    """Yield each name of a module that this one uses, with the module it is of."""
    called: dict[str, str] = {}  # what a module goes by here
    for node in nodes(name):
        if isinstance(node, ast.Import):
            called |= {each.asname or each.name: each.name for each in node.names}
        elif isinstance(node, ast.ImportFrom):
            for each in node.names:
                whole = f"{node.module}.{each.name}"
                if whole in modules():
                    called[each.asname or each.name] = whole
                else:
                    yield str(node.module), each.name
    for node in nodes(name):
        match node:
            case ast.Name(id=own, ctx=ast.Load()):
                yield name, own
            case ast.Attribute(value=whose, attr=each) if (it := ast.unparse(whose)) in called:
                yield called[it], each
            case ast.Constant(value=str(text)):
                for module, each in NAMED.findall(text):
                    yield module, each
                    yield f"{name.rpartition('.')[0]}.{module}", each


def test_no_name_of_a_module_that_nobody_uses() -> None:
    """Use by tests alone is none. A step's screen is found by the step's name (`screen_of`)."""
    uses = {each for name in modules() for each in used(name)}
    uses |= set(NAMED.findall((ROOT / "pyproject.toml").read_text(encoding="utf-8")))
    steps = {f"tui.steps.{step.name.lower()}" for step in Step}
    dead = sorted(
        f"{name}.{each}"
        for name in modules()
        for each in defined(tree(name).body)
        if (name, each) not in uses
        and each != "__all__"
        and not (name in steps and not each.islower())
    )
    assert dead == []


def test_no_member_of_a_class_that_nobody_asks_for() -> None:
    """By its name alone, whatever it is a member of; a text may name it too, as bound keys do.

    What a record says is left out: a field of its file isn't dropped without a new form.
    """
    whole = [each for name in modules() for each in nodes(name)]
    explains = {node.value for node in whole if isinstance(node, ast.Expr)}
    asked = set()
    for node in whole:
        match node:
            case ast.Attribute(attr=each, ctx=ast.Load()):
                asked.add(each)
            case ast.MatchClass(kwd_attrs=several):
                asked.update(several)
            case ast.Constant(value=str(text)) if node not in explains:
                asked.update(re.findall(r"\w+", text))
    dead = sorted(
        f"{name}.{node.name}.{each}"
        for name in modules()
        for node in nodes(name)
        if isinstance(node, ast.ClassDef) and not name.startswith("records.model.")
        for each in defined(node.body)
        if each not in asked and not CALLED_BY_LIBRARIES.fullmatch(each)
    )
    assert dead == []


TABLES = {
    "records/document/text_width.py",
    "records/model/measurements.py",
    "records/units.py",
}
"""Files with a table that would be unreadable a word a line."""


def test_the_formatter_lays_out_all_but_a_few_tables() -> None:
    mark = "# fmt: " + "skip"
    left = {
        path.relative_to(ROOT).as_posix()
        for top in (*TOPS, "tests", ".ci")
        for path in (ROOT / top).rglob("*.py")
        if mark in path.read_text(encoding="utf-8")
    }
    assert left <= TABLES
