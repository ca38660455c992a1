"""Changes one thing at a time and says whether the tests notice. Run by hand; see the options.

    uv pip install coverage
    PYTHONPATH=$PWD nice -n 19 .venv/bin/python .ci/mutations.py --count 80 \
        --reach /tmp/reach records/interlock tests/interlock tests/judgement tests/taking

The last words are the room whose sources are changed and then the tests, the nearest first. No
file is touched. The same seed makes the same changes. What no test notices is shown as a line to
look at: a test is missing, or the change means nothing. `--reach` keeps which test runs which line
for the next time; only what changed since is noted again.
"""

from __future__ import annotations

import argparse
import ast
import hashlib
import os
import pickle
import random
import re
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import mutation_kinds as kinds
import mutation_runs as runs
import pytest

QUICK = ["-q", "-n", "0", "-p", "no:cacheprovider", "--no-header", "-m", "not slow"]

NEAREST = 200
"""How many tests are tried where everything has to be imported again."""


class Users:
    """Where each name is used: in which lines of functions, and by which other names."""

    def __init__(self, root: Path) -> None:
        self.lines: dict[str, list[tuple[str, int]]] = defaultdict(list)
        self.names: dict[str, set[str]] = defaultdict(set)
        for path in sorted((root / "records").rglob("*.py")):
            place = str(path.relative_to(root))
            for statement in ast.parse(path.read_text(encoding="utf-8")).body:
                if not isinstance(statement, ast.Import | ast.ImportFrom):
                    self._note(place, statement, named(statement))

    def _note(self, place: str, statement: ast.stmt, names: set[str]) -> None:
        holds = isinstance(statement, ast.FunctionDef | ast.ClassDef)
        for node in ast.walk(statement):
            used = node.id if isinstance(node, ast.Name) else getattr(node, "attr", None)
            if used and holds and isinstance(node, ast.expr):
                self.lines[used].append((place, node.lineno))
            elif used:
                self.names[used] |= names

    def of(self, names: set[str]) -> set[tuple[str, int]]:
        """Return the lines that use one of the names, or another that is made from it."""
        waiting, seen = list(names), set(names)
        while waiting:
            more = self.names[waiting.pop()] - seen
            seen |= more
            waiting += more
        return {line for name in seen for line in self.lines[name]}


def named(statement: ast.stmt) -> set[str]:
    """Return the names that a statement of a module makes."""
    if isinstance(statement, ast.FunctionDef | ast.ClassDef):
        return {statement.name}
    return {
        node.id
        for node in ast.walk(statement)
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)
    }


class Trial:
    """Collects the tests once, draws the changes and tries them."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self.asked, self.root = asked, asked.root
        self.reach = runs.Reach(self.root, [asked.room, *asked.also])
        self.texts: dict[str, str] = {}
        self.collected: dict[str, runs.Lines] = {}
        if asked.reach and asked.reach.exists():
            kept, self.texts = pickle.loads(asked.reach.read_bytes())
            self.reach.lines, self.reach.seconds, self.reach.failing = kept

    @pytest.hookimpl(wrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Iterator[None]:
        """Note what a file of tests works out while it is read."""
        if not isinstance(collector, pytest.Module):
            return (yield)
        watching = self.reach.watch()
        watching.start()
        try:
            return (yield)
        finally:
            watching.stop()
            self.collected[collector.nodeid] = self.reach.of(watching)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Try the changes in the place of running the tests."""
        if session.testsfailed:
            raise session.Interrupted("The tests cannot be read.")
        self.items = {each.nodeid: each for each in session.items}
        self.functions = runs.Functions(self.root)
        runs.gc.collect()
        runs.gc.freeze()
        self._record()
        self._try()
        return True

    def _record(self) -> None:
        now = {
            str(path.relative_to(self.root)): hashlib.md5(path.read_bytes()).hexdigest()
            for folder in ("records", "tests", "tui")
            for path in (self.root / folder).rglob("*.py")
        }
        stale = {path for path, text in now.items() if self.texts.get(path) != text}
        missing = [
            item
            for id, item in self.items.items()
            if id.split("::")[0] in stale
            or stale & self.reach.lines.get(id, {}).keys()
            or (id not in self.reach.lines and id not in self.reach.failing)
        ]
        print(f"Noting what {len(missing)} of {len(self.items)} tests reach ...", flush=True)
        self.reach.failing -= {each.nodeid for each in missing}
        self.reach.record(missing, self.asked.slowest)
        for item in missing:
            for path, lines in self.collected.get(item.nodeid.split("::")[0], {}).items():
                if item.nodeid in self.reach.lines:
                    own = self.reach.lines[item.nodeid]
                    own[path] = own.get(path, 0) | lines
        failing = sorted(each for each in self.reach.failing if each in self.items)
        print(
            f"Left out, they fail without a change or take too long: {len(failing)} {failing[:5]}"
        )
        if self.asked.reach:
            kept = self.reach.lines, self.reach.seconds, self.reach.failing
            self.asked.reach.write_bytes(pickle.dumps((kept, now)))

    def _try(self) -> None:
        self.users = Users(self.root)
        paths = sorted((self.root / self.asked.room).rglob("*.py"))
        kinds.learn_words((self.root / "records").rglob("*.py"))
        found = [each for path in paths for each in kinds.mutations(path)]
        drawn = random.Random(self.asked.seed).sample(found, min(self.asked.count, len(found)))
        if self.asked.again:
            lived = lived_in(self.asked.again.read_text(encoding="utf-8"))
            drawn = [
                each
                for each in found
                if (str(each.path.relative_to(self.root)), each.number) in lived
            ]
        noticed = 0
        for each in drawn:
            tree, what = each.made()
            says = self._noticed(each, tree)
            noticed += not says.startswith("LIVES")
            place = each.path.relative_to(self.root)
            print(f"{says}\n    {place}:{what}  [{each.number}]", flush=True)
        print(f"{self.asked.room}: {noticed} of {len(drawn)} noticed, of {len(found)} in all")

    def _noticed(self, mutation: kinds.Mutation, tree: ast.Module) -> str:
        ids = self._nearest(mutation)
        if not ids:
            return "LIVES: no test reaches it"
        try:
            new = compile(tree, str(mutation.path), "exec", dont_inherit=True)
        except (SyntaxError, ValueError) as error:
            return f"no Python: {error}"
        if mutation.inside:
            old = compile(mutation.path.read_text(encoding="utf-8"), str(mutation.path), "exec")
            items = [self.items[each] for each in ids]

            def work() -> tuple[str | None, int] | str:
                if not self.functions.take(mutation.path, old, new):
                    return "not here"
                return runs.first_failure(items, self.asked.seconds)

            result = runs.apart(work, self.asked.seconds * 2)
            if result is None:
                return "no end"
            if result != "not here" and result[0]:
                return f"noticed by {result[0]}"
            if result != "not here" and not self._read_before(mutation):
                return f"LIVES {result[1]} of {len(ids)} tests that reach it"
        return self._freshly(mutation, ids)

    def _read_before(self, mutation: kinds.Mutation) -> bool:
        """Return whether a file of tests ran the lines as it was read, before the fork."""
        place = str(mutation.path.relative_to(self.root))
        begin, end = mutation.lines
        lines = runs.bits(range(begin, end + 1))
        return any(lines & each.get(place, 0) for each in self.collected.values())

    def _nearest(self, mutation: kinds.Mutation) -> list[str]:
        """Return the tests that reach a change, the nearest and the quickest first."""
        place = str(mutation.path.relative_to(self.root))
        begin, end = mutation.lines
        if mutation.inside:
            ids = self.reach.tests(place, range(begin, end + 1))
        else:
            tree = ast.parse(mutation.path.read_text(encoding="utf-8"))
            holding = [each for each in tree.body if each.lineno <= begin <= (each.end_lineno or 0)]
            names = {name for each in holding for name in named(each)}
            by_file: dict[str, set[int]] = defaultdict(set)
            for each in holding:  # what a function or a class takes unless it is told
                by_file[place].update(range(each.lineno, (each.end_lineno or 0) + 1))
            for path, line in self.users.of(names):
                by_file[path].add(line)
            ids = {}
            for path, used in by_file.items():
                for id, direct in self.reach.tests(path, used).items():
                    ids[id] = direct or ids.get(id, False)
        near = [str(each) for each in self.asked.tests]
        of_file = {id for id, direct in self.reach.tests(place, range(1000)).items() if direct}
        alike = f"test_{mutation.path.stem}"

        def rank(id: str) -> tuple[bool, bool, bool, int, float]:
            folder = next((at for at, each in enumerate(near) if id.startswith(each)), len(near))
            return alike not in id, not ids[id], id not in of_file, folder, self.reach.seconds[id]

        return sorted(ids.keys() & self.items.keys(), key=rank)

    def _freshly(self, mutation: kinds.Mutation, ids: list[str]) -> str:
        """Try a change with everything imported again."""
        with tempfile.TemporaryDirectory() as name:
            order, answer = Path(name, "order"), Path(name, "answer")
            near = ids[:NEAREST]  # to read all files of tests takes longer than to run some
            order.write_bytes(pickle.dumps((self.root, mutation, near, self.asked.seconds, answer)))
            call = [sys.executable, __file__, "--fresh", str(order)]
            limit = self.asked.seconds * 3
            try:
                subprocess.run(call, capture_output=True, check=False, timeout=limit)
            except subprocess.TimeoutExpired:
                return "no end"
            if not answer.exists():
                return "noticed as the tests are read"
            failed, ran = pickle.loads(answer.read_bytes())
        return (
            f"noticed by {failed}" if failed else f"LIVES {ran} of {len(ids)} tests that reach it"
        )


def lived_in(text: str) -> set[tuple[str, int]]:
    """Return file and number of the changes that an earlier run says no test noticed."""
    found = re.findall(r"^LIVES.*\n    (\S+?):\d+: .*\[(\d+)\]$", text, re.MULTILINE)
    return {(path, int(number)) for path, number in found}


class Fresh:
    """Runs some of the tests, in an order, until one fails."""

    def __init__(self, ids: list[str], seconds: float, answer: Path) -> None:
        self.ids, self.seconds, self.answer = ids, seconds, answer

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run them and leave the answer."""
        if not session.testsfailed:
            by_id = {each.nodeid: each for each in session.items}
            items = [by_id[each] for each in self.ids if each in by_id]
            self.answer.write_bytes(pickle.dumps(runs.first_failure(items, self.seconds)))
        return True


def fresh(order: Path) -> None:
    """Try one change in this process, from the first import on."""
    root, mutation, ids, seconds, answer = pickle.loads(order.read_bytes())
    kinds.learn_words((root / "records").rglob("*.py"))
    tree, _ = mutation.made()
    code = compile(tree, str(mutation.path), "exec", dont_inherit=True)
    runs.Changed(root, mutation.path, code).install()
    files = list(dict.fromkeys(each.split("::")[0] for each in ids))
    pytest.main([*QUICK, *files], plugins=[Fresh(ids, seconds, answer)])


def main() -> None:
    """Try a number of changes and count those that are noticed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room", type=Path)
    parser.add_argument("tests", nargs="+", type=Path)
    parser.add_argument("--count", type=int, default=80)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--again", type=Path, help="only what lived, in the output of a run")
    parser.add_argument("--root", type=Path, default=Path(__file__).resolve().parents[1])
    parser.add_argument("--also", nargs="*", default=["records"], help="note lines of these too")
    parser.add_argument("--reach", type=Path, help="where to keep which test reaches what")
    parser.add_argument("--seconds", type=float, default=40, help="for the tests of one change")
    parser.add_argument("--slowest", type=float, default=20, help="a test may take, to be used")
    asked = parser.parse_args()
    os.chdir(asked.root)
    pytest.main([*QUICK, *map(str, asked.tests)], plugins=[Trial(asked)])


if __name__ == "__main__":
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    if sys.argv[1:2] == ["--fresh"]:
        fresh(Path(sys.argv[2]))
    else:
        main()
