"""What can be changed in a file, one thing at a time: the mistakes that harm here.

The edge of a comparison, a sign, a number, a condition turned round, a statement left out, an entry
left out of a table, another word of a fixed choice. Changes that can mean nothing are left out by
rule: texts, docstrings, types, how a dataclass is made, and what compiles to the same.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

EDGES: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
SIGNS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any"}
# How a thing is made or kept, not what it is: to change one changes nothing that a person sees.
MAKING = {
    "frozen",
    "slots",
    "strict",
    "eq",
    "order",
    "maxsize",
    "kw_only",
    "repr",
    "init",
    "hash",
    "include_url",
}
NOT_CALLED = {"dataclass", "lru_cache", "cast", "NewType", "TypeVar", "ConfigDict", "overload"}
STEP = 0.05
"""By how much a number is changed: a limit's factor off by a twentieth has to be noticed."""
SMALLEST = 1e-5
"""Below this a number only absorbs rounding."""
SLACK = ("SLACK", "1e-09")
"""By which a comparison is known that leaves room for rounding: its edge itself means nothing."""
SORTS = {"Act"}
"""Choices that sort sentences which a test reads in the sources themselves."""


@dataclass(frozen=True)
class Mutation:
    """One change in a file: the `number`th of all that can be made there."""

    path: Path
    number: int
    lines: tuple[int, int]
    inside: bool
    """In the body of a function, so that it can be tried without importing everything again."""

    def made(self) -> tuple[ast.Module, str]:
        """Return the file's syntax with this change made, and what it is, in words."""
        tree = ast.parse(self.path.read_text(encoding="utf-8"))
        node, _, change = list(_changes(tree, Where()))[self.number]
        line, before = node.lineno, ast.unparse(node)
        change()
        return tree, f"{line}: {_difference(before, ast.unparse(node))}"


@dataclass(frozen=True)
class Where:
    """In what a node stands."""

    statement: ast.stmt | None = None
    inside: bool = False


def learn_words(paths: Iterable[Path]) -> None:
    """Find the members of each fixed choice (an enum)."""
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and any(
                "Enum" in ast.unparse(base) or ast.unparse(base) == "Word" for base in node.bases
            ):
                names = [
                    target.id
                    for each in node.body
                    if isinstance(each, ast.Assign)
                    for target in each.targets
                    if isinstance(target, ast.Name) and target.id.isupper()
                ]
                if len(names) > 1 and node.name not in SORTS:
                    WORDS[node.name] = names


def mutations(path: Path) -> list[Mutation]:
    """Return all that can be changed in a file, always in the same order."""
    found = []
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for number, (node, where, _) in enumerate(_changes(tree, Where())):
        begin = (where.statement or node).lineno
        found.append(Mutation(path, number, (begin, node.end_lineno or node.lineno), where.inside))
    return found


WORDS: dict[str, list[str]] = {}
"""The members of each fixed choice, by its name."""
Change = tuple[ast.expr | ast.stmt, Where, Callable[[], None]]


def _alike(one: str, other: str) -> int:
    """Return how many characters are the same from the beginning."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((at for at, (a, b) in pairs if a != b), min(len(one), len(other)))


def _difference(before: str, after: str, around: int = 45) -> str:
    """Return what was and what is, without most of what is the same at both ends."""
    old, new = " ".join(before.split()), " ".join(after.split())
    begin = _alike(old, new)
    end = _alike(old[begin:][::-1], new[begin:][::-1])

    def part(text: str) -> str:
        first, last = max(begin - around, 0), len(text) - end + around
        return f"{'… ' if first else ''}{text[first:last]}{' …' if last < len(text) else ''}"

    return f"{part(old)}  ->  {part(new)}"


def _changes(node: ast.AST, where: Where) -> Iterator[Change]:
    """Go through what a node holds, without types, decorators and how things are made."""
    for field, value in ast.iter_fields(node):
        if field in ("annotation", "returns", "decorator_list", "type_params", "bases"):
            continue
        body = field in ("body", "orelse", "finalbody", "handlers")
        inside = where.inside or (body and isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))
        for each in value if isinstance(value, list) else [value]:
            if not isinstance(each, ast.AST) or _means_nothing(each):
                continue
            here = Where(each, inside) if isinstance(each, ast.stmt) else where
            if isinstance(each, ast.expr | ast.stmt):
                for change in _of(each, node):
                    yield each, here, change
            yield from _changes(each, here)


def _means_nothing(node: ast.AST) -> bool:
    match node:
        case ast.keyword(arg=str(name)) if name in MAKING:
            return True
        case ast.Call(func=ast.Name(id=name)) if name in NOT_CALLED:
            return True
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
        case ast.Import() | ast.ImportFrom() | ast.Pass() | ast.Global():
            return True
        case ast.Assign(targets=[ast.Name(id=name)]) if name.startswith("__"):
            return True
        case ast.FunctionDef(name="__getattr__" | "__repr__" | "__hash__"):
            return True
    return False


def _of(node: ast.expr | ast.stmt, parent: ast.AST) -> Iterator[Callable[[], None]]:
    """Yield what can be done to a node itself."""
    match node:
        case ast.Compare() if not _has_room(node):
            for at, op in enumerate(node.ops):
                yield lambda at=at, op=op: node.ops.__setitem__(at, EDGES[type(op)]())  # type: ignore[misc]
        case ast.BinOp(op=op) if type(op) in SIGNS and not _is_text(node):
            yield lambda: setattr(node, "op", SIGNS[type(op)]())
        case ast.BoolOp():
            new = ast.Or() if isinstance(node.op, ast.And) else ast.And()
            yield lambda: setattr(node, "op", new)
            for at in range(len(node.values)):
                yield lambda at=at: _less(node, at)  # type: ignore[misc]
        case ast.Name(id=name) if name in NAMES:
            yield lambda: setattr(node, "id", NAMES[name])
        case ast.Constant(value=bool(value)):
            yield lambda: setattr(node, "value", not value)
        case ast.Constant(value=int(value)):
            yield lambda: setattr(node, "value", value + 1)
            if value > 1:
                yield lambda: setattr(node, "value", value - 1)
        case ast.Constant(value=float(value)) if value == 0 or abs(value) > SMALLEST:
            yield lambda: setattr(node, "value", value * (1 + STEP) if value else STEP)
            yield lambda: setattr(node, "value", value * (1 - STEP) if value else -STEP)
        case ast.UnaryOp(op=ast.Not()) | ast.UnaryOp(op=ast.USub()):
            yield lambda: _become(node, node.operand)
        case ast.IfExp():
            yield lambda: _swap(node)
        case ast.If() | ast.While():
            if not isinstance(node.test, ast.Compare | ast.UnaryOp):
                yield lambda: setattr(node, "test", _not(node.test))
        case ast.Attribute(value=ast.Name(id=name), attr=attr) if attr in WORDS.get(name, ()):
            others = WORDS[name]
            new = others[(others.index(attr) + 1) % len(others)]
            yield lambda: setattr(node, "attr", new)
        case ast.Tuple() | ast.List() | ast.Set() if len(node.elts) > 2:
            if isinstance(getattr(node, "ctx", ast.Load()), ast.Load) and not _is_subscript(parent):
                for at in range(len(node.elts)):
                    yield lambda at=at: _without(node.elts, at)  # type: ignore[misc]
        case ast.Dict() if len(node.keys) > 1:
            for at in range(len(node.keys)):
                yield lambda at=at: (_without(node.keys, at), _without(node.values, at))  # type: ignore[misc,func-returns-value]
        case ast.Return(value=value) if value is not None and not _is_none(value):
            if isinstance(parent, ast.If):  # as if the case were not told apart
                yield lambda: _become(node, ast.Pass())
        case ast.Raise() | ast.Continue() | ast.Break() | ast.AugAssign():
            yield lambda: _become(node, ast.Pass())
        case ast.Expr(value=ast.Call() | ast.YieldFrom() | ast.Yield()):
            yield lambda: _become(node, _like(node))
    if isinstance(node, ast.ListComp | ast.GeneratorExp | ast.SetComp | ast.DictComp):
        for part in node.generators:
            for at in range(len(part.ifs)):
                yield lambda part=part, at=at: _without(part.ifs, at)  # type: ignore[misc]


def _like(node: ast.Expr) -> ast.stmt:
    """Return what does nothing; a generator has to stay one."""
    if isinstance(node.value, ast.YieldFrom | ast.Yield):
        return ast.Expr(ast.YieldFrom(ast.Tuple([], ast.Load())))
    return ast.Pass()


def _become(node: ast.AST, other: ast.AST) -> None:
    place = {name: getattr(node, name) for name in ("lineno", "col_offset")}
    node.__class__ = other.__class__  # type: ignore[assignment]
    fields = {name: value for name, value in other.__dict__.items() if name in other._fields}
    end = {name: getattr(node, name) for name in ("end_lineno", "end_col_offset")}
    node.__dict__.clear()
    node.__dict__.update(fields | place | end)
    ast.fix_missing_locations(node)


def _swap(node: ast.IfExp) -> None:
    node.body, node.orelse = node.orelse, node.body


def _not(test: ast.expr) -> ast.expr:
    return ast.copy_location(ast.UnaryOp(ast.Not(), test), test)


def _without(values: list[ast.expr], at: int) -> None:
    del values[at]


def _less(node: ast.BoolOp, at: int) -> None:
    del node.values[at]
    if len(node.values) == 1:
        _become(node, node.values[0])


def _has_room(node: ast.Compare) -> bool:
    text = ast.unparse(node)
    is_size = all(isinstance(each, ast.Lt | ast.LtE | ast.Gt | ast.GtE) for each in node.ops)
    return is_size and any(each in text for each in SLACK)


def _is_text(node: ast.BinOp) -> bool:
    return any(
        isinstance(each, ast.JoinedStr)
        or (isinstance(each, ast.Constant) and isinstance(each.value, str))
        for each in ast.walk(node)
    )


def _is_subscript(parent: ast.AST) -> bool:
    return isinstance(parent, ast.Subscript)


def _is_none(value: ast.expr) -> bool:
    return isinstance(value, ast.Constant) and value.value is None
