"""Runs tests against a change in memory: no file is touched, and no test sees what another left.

The tests are collected once and run in forks, coverage.py noting which lines each reaches. Each
change is then tried in a fork in which the changed function has the changed code. What is read when
a module is imported needs a new process.
"""

from __future__ import annotations

import gc
import importlib.abc
import importlib.machinery
import os
import pickle
import select
import signal
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from itertools import groupby
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import coverage
import pytest
from _pytest.runner import runtestprotocol

Lines = dict[str, int]
"""Lines that ran, by file: a bit for each."""


def bits(lines: Iterable[int]) -> int:
    """Return lines as one number with a bit for each: a set of them for each test is too much."""
    found = 0
    for line in lines:
        found |= 1 << line
    return found


def apart(work: Callable[[], Any], seconds: float) -> Any:
    """Return what the work gives in a process of its own; None if it takes too long or dies."""
    out, back = os.pipe()
    child = os.fork()
    if child == 0:
        os.setpgid(0, 0)
        os.close(out)
        nothing = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(nothing, stream)
        try:
            with os.fdopen(back, "wb") as file:
                pickle.dump(work(), file)
        finally:
            os._exit(0)
    os.close(back)
    given, end = b"", time.monotonic() + seconds
    while (left := end - time.monotonic()) > 0 and select.select([out], [], [], left)[0]:
        if not (more := os.read(out, 1 << 20)):
            break
        given += more
    os.close(out)
    with suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    try:
        return pickle.loads(given)
    except (EOFError, pickle.UnpicklingError):
        return None


def file_of(item: pytest.Item) -> str:
    """Return the file that a test stands in."""
    return item.nodeid.split("::")[0]


def passes(item: pytest.Item, following: pytest.Item | None) -> bool:
    """Whether a test passes."""
    return all(each.passed for each in runtestprotocol(item, log=False, nextitem=following))


def first_failure(items: Sequence[pytest.Item], seconds: float) -> tuple[str | None, int]:
    """Return the first test that fails, and how many ran in the time given."""
    end = time.monotonic() + seconds
    for at, item in enumerate(items):
        if time.monotonic() > end:
            return None, at
        if not passes(item, items[at + 1] if at + 1 < len(items) else None):
            return item.nodeid, at + 1
    return None, len(items)


class Reach:
    """Which test runs which lines of the sources, how long it takes, and whether it passes."""

    def __init__(self, root: Path, sources: Sequence[str]) -> None:
        self.root = root
        self.sources = [f"{root / each}/*" for each in sources]
        self.lines: dict[str, Lines] = {}
        self.seconds: dict[str, float] = {}
        self.failing: set[str] = set()

    def watch(self) -> coverage.Coverage:
        """Return what notes the lines that run."""
        watching = coverage.Coverage(data_file=None, include=self.sources, config_file=False)
        watching.set_option("run:disable_warnings", ["no-data-collected"])
        return watching

    def of(self, watching: coverage.Coverage) -> Lines:
        """Return the lines noted."""
        data = watching.get_data()
        return {
            str(Path(name).relative_to(self.root)): bits(data.lines(name) or ())
            for name in data.measured_files()
        }

    def record(self, items: Sequence[pytest.Item], limit: float) -> None:
        """Run the tests file by file, each file apart, and note what each test reaches."""

        def run(tests: Sequence[pytest.Item]) -> list[tuple[bool, float, Lines]]:
            found = []
            for item, following in zip(tests, (*tests[1:], None), strict=True):
                watching = self.watch()
                watching.start()
                began = time.perf_counter()
                good = passes(item, following)
                took = time.perf_counter() - began
                watching.stop()
                found.append((good, took, self.of(watching)))
            return found

        for name, those in groupby(items, file_of):
            tests = list(those)
            results = apart(lambda tests=tests: run(tests), limit * len(tests))  # type: ignore[misc]
            took = sum(each[1] for each in results or ())
            print(f"  {name} {took:.0f} s", flush=True)
            for item, result in zip(tests, results or [None] * len(tests), strict=True):
                if result is None or not result[0]:
                    self.failing.add(item.nodeid)
                else:
                    _, self.seconds[item.nodeid], self.lines[item.nodeid] = result

    def tests(self, path: str, lines: Iterable[int]) -> dict[str, bool]:
        """Return the tests that run one of the lines: True for those that were seen to.

        False for the others of their files: what one of them worked out and kept, the next one
        uses without running it again.
        """
        wanted = bits(lines)
        direct = {each for each, seen in self.lines.items() if wanted & seen.get(path, 0)}
        files = {each.split("::")[0] for each in direct}
        return {each: each in direct for each in self.lines if each.split("::")[0] in files}


def codes(code: CodeType) -> dict[tuple[str, int], list[CodeType]]:
    """Return what is compiled inside, by name and first line."""
    found: dict[tuple[str, int], list[CodeType]] = defaultdict(list)
    waiting = [code]
    while waiting:
        for each in waiting.pop().co_consts:
            if isinstance(each, CodeType):
                found[each.co_qualname, each.co_firstlineno].append(each)
                waiting.append(each)
    return found


class Functions:
    """The functions in memory, by where they come from."""

    def __init__(self, root: Path) -> None:
        self.by_place: dict[tuple[str, str, int], list[FunctionType]] = defaultdict(list)
        for each in gc.get_objects():
            if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(str(root)):
                code = each.__code__
                place = code.co_filename, code.co_qualname, code.co_firstlineno
                self.by_place[place].append(each)

    def take(self, path: Path, old: CodeType, new: CodeType) -> bool:
        """Give the changed functions their changed code; say whether any has it now."""
        before, changed = codes(old), 0
        for (name, line), made in codes(new).items():
            if len(made) != 1 or before.get((name, line)) == made:
                continue
            for each in self.by_place[str(path), name, line]:
                try:
                    each.__code__ = made[0]
                except ValueError:  # it closes over other names now
                    return False
                changed += 1
        return changed > 0


class Changed(importlib.abc.MetaPathFinder):
    """Gives one module its changed code when it is imported."""

    def __init__(self, root: Path, path: Path, code: CodeType) -> None:
        names = path.relative_to(root).with_suffix("").parts
        self.name = ".".join(names[:-1] if names[-1] == "__init__" else names)
        self.path, self.code = path, code

    def find_spec(self, name: str, path: Any, target: Any = None) -> Any:
        """Return the usual way to the module, with the changed code at its end."""
        if name != self.name:
            return None
        spec = importlib.machinery.PathFinder.find_spec(name, path)
        if spec is not None and spec.loader is not None:
            spec.loader.get_code = lambda name: self.code  # type: ignore[attr-defined]
        return spec

    def install(self) -> None:
        """Ask this first from now on."""
        sys.meta_path.insert(0, self)
