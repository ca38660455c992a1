"""Changes one token at a time and says whether the tests nearby notice. Run by hand.

    .venv/bin/python .ci/mutations.py --count 40 --seed 1 records/expected records/judgement

Works on a copy, never on this checkout. The same seed makes the same changes. A change that no test
notices is shown as a line to look at: a test is missing, or the change means nothing.
"""

from __future__ import annotations

import argparse
import ast
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SWAPS: dict[type[ast.AST], str] = {
    ast.Lt: "<=",
    ast.LtE: "<",
    ast.Gt: ">=",
    ast.GtE: ">",
    ast.Eq: "!=",
    ast.NotEq: "==",
    ast.Is: "is not",
    ast.IsNot: "is",
    ast.In: "not in",
    ast.NotIn: "in",
}
SIGNS: dict[type[ast.AST], str] = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*"}
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any"}
NEARBY = {
    "records/expected": ("tests/expected", "tests/published", "tests/judgement"),
    "records/judgement": ("tests/judgement", "tests/published", "tests/test_fixtures.py"),
    "records/interlock": (
        "tests/interlock",
        "tests/taking",
        "tests/judgement/test_live_on_bad_dead.py",
    ),
    "records/store": ("tests/store",),
    "records/taking": ("tests/taking", "tests/commands"),
}


@dataclass(frozen=True)
class Mutation:
    """One token put in the place of another."""

    path: Path
    line: int
    start: int
    end: int
    new: str

    def of(self, text: str) -> str:
        """Return the text with the token changed; columns count bytes, as Python's parser does."""
        lines = text.splitlines(keepends=True)
        raw = lines[self.line - 1].encode()
        lines[self.line - 1] = (raw[: self.start] + self.new.encode() + raw[self.end :]).decode()
        return "".join(lines)


def mutations(path: Path) -> Iterator[Mutation]:
    """Yield what can be changed in a file."""
    text = path.read_text(encoding="utf-8")
    lines = [line.encode() for line in text.splitlines()]
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Compare) and len(node.ops) == 1:
            yield from _between(path, lines, node.left, node.comparators[0], SWAPS, node.ops[0])
        elif isinstance(node, ast.BinOp):
            yield from _between(path, lines, node.left, node.right, SIGNS, node.op)
        elif isinstance(node, ast.BoolOp):
            new = {"and": "or", "or": "and"}
            old = "and" if isinstance(node.op, ast.And) else "or"
            yield from _word(path, lines, node.values[0], node.values[1], old, new[old])
        elif isinstance(node, ast.Name) and node.id in NAMES:
            yield Mutation(path, node.lineno, node.col_offset, _end(node), NAMES[node.id])
        elif isinstance(node, ast.Constant) and type(node.value) in (int, float, bool):
            new_value = not node.value if isinstance(node.value, bool) else node.value * 1.01 + 1e-3
            yield Mutation(path, node.lineno, node.col_offset, _end(node), repr(new_value))


def _between(
    path: Path,
    lines: list[bytes],
    left: ast.expr,
    right: ast.expr,
    swaps: dict[type[ast.AST], str],
    operator: ast.AST,
) -> Iterator[Mutation]:
    if type(operator) in swaps:
        texts = {
            ast.Add: "+",
            ast.Sub: "-",
            ast.Mult: "*",
            ast.Div: "/",
            ast.Lt: "<",
            ast.LtE: "<=",
            ast.Gt: ">",
            ast.GtE: ">=",
            ast.Eq: "==",
            ast.NotEq: "!=",
            ast.Is: "is",
            ast.IsNot: "is not",
            ast.In: "in",
            ast.NotIn: "not in",
        }
        yield from _word(path, lines, left, right, texts[type(operator)], swaps[type(operator)])


def _word(
    path: Path, lines: list[bytes], left: ast.expr, right: ast.expr, old: str, new: str
) -> Iterator[Mutation]:
    if left.end_lineno == right.lineno:  # else the operator may stand on either line
        line, begin = right.lineno, left.end_col_offset or 0
        at = lines[line - 1].find(old.encode(), begin, right.col_offset)
        if at >= 0:
            yield Mutation(path, line, at, at + len(old), new)


def _end(node: ast.expr) -> int:
    return node.end_col_offset or node.col_offset


def _is_in(path: Path, room: str) -> bool:
    return path.relative_to(ROOT).as_posix().startswith(room)


def passes(copy: Path, tests: tuple[str, ...]) -> bool:
    """Whether the tests pass in the copy as it stands."""
    run = [sys.executable, "-m", "pytest", "-q", "-x", *tests]
    return subprocess.run(run, cwd=copy, capture_output=True, check=False).returncode == 0


def noticed(copy: Path, mutation: Mutation, tests: tuple[str, ...]) -> bool:
    """Whether a test fails, or types do not fit, with a change in the copy."""
    target = copy / mutation.path.relative_to(ROOT)
    text = target.read_text(encoding="utf-8")
    try:
        target.write_text(mutation.of(text), encoding="utf-8")
        run = [sys.executable, "-m", "pytest", "-q", "-x", *tests]
        ended = subprocess.run(run, cwd=copy, capture_output=True, check=False, timeout=1200)
    except subprocess.TimeoutExpired:
        return True  # a loop without an end is noticed by whoever waits
    finally:
        target.write_text(text, encoding="utf-8")
    return ended.returncode != 0


def main() -> None:
    """Try a number of changes and count those that are noticed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    found = [
        each
        for folder in asked.folders
        for path in sorted((ROOT / folder).rglob("*.py"))
        for each in mutations(path)
    ]
    drawn = random.Random(asked.seed).sample(found, min(asked.count, len(found)))
    seen = 0
    with tempfile.TemporaryDirectory() as name:
        copy = Path(name) / "copy"
        shutil.copytree(
            ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", ".*cache*")
        )
        for room in {near for each in drawn for near in NEARBY if _is_in(each.path, near)}:
            # Tests that fail without any change would notice every one.
            if not passes(copy, NEARBY[room]):
                sys.exit(f"The tests of {room} fail without a change: nothing can be counted.")
        for each in drawn:
            place = each.path.relative_to(ROOT).as_posix()
            tests = next(near for room, near in NEARBY.items() if place.startswith(room))
            good = noticed(copy, each, tests)
            seen += good
            line = each.path.read_text(encoding="utf-8").splitlines()[each.line - 1].strip()
            print(
                f"{'noticed' if good else 'MISSED '} {place}:{each.line} -> {each.new}: {line}",
                flush=True,
            )
    print(f"{seen} of {len(drawn)} noticed")


if __name__ == "__main__":
    main()
