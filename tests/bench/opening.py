"""Opening a record of many changes against reading the same rows by the engine alone."""

from __future__ import annotations

import random
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

from records.demo import demo_record
from records.store import container
from records.store.canonical import digest
from records.store.chain import Change, Fold
from records.store.file import RecordFile
from records.store.state import plain

CHANGES = 20_000
_ROUNDS = 7


def make(path: Path, *, readings: bool) -> None:
    """Make a record file of 20,000 changes, as the program would have written them one by one.

    Args:
        path: Where.
        readings: Whether all changes are readings; else they are of every kind.
    """
    chance = random.Random(5)
    record = demo_record()
    fold, rows = Fold(), []
    first: list[dict[str, Any]] = [{"op": "add", "path": "", "value": plain(record)}]
    model = plain(record)["readings"][0]
    last = max(int(each.id[1:]) for each in record.readings)
    for number in range(1, CHANGES + 1):
        kind = 0.0 if readings else chance.random()
        undoes = None
        if number == 1:
            ops = first
        elif kind < 0.05 and number < 19_000:
            taken = {**model, "id": f"M{last + number}"}
            ops = [{"op": "add", "path": "/readings/-", "value": taken}]
        elif kind < 0.15 and fold.undoable:
            undoes = fold.undoable[-1]
            ops = fold.backs[undoes]
        elif kind < 0.6:
            value = round(chance.uniform(1, 90), 2)
            ops = [{"op": "replace", "path": "/circuits/0/runs/0/length", "value": value}]
        else:
            ops = [{"op": "replace", "path": "/job/place", "value": f"place {number}"}]
        body = Change(number, datetime.now(UTC), "Ada", tuple(ops), undoes).body
        said = digest(fold.digest, body)
        fold.take(body, said)
        rows.append((body, said))
    container.create(path, rows).close()


def _timed(act: Callable[[], object]) -> float:
    start = time.perf_counter()
    act()
    return time.perf_counter() - start


def _open(path: Path, read_only: bool = False) -> None:
    RecordFile.open(path, read_only).close()


def _rows(path: Path) -> None:
    link = sqlite3.connect(path)
    link.execute("PRAGMA integrity_check(1)").fetchall()
    link.execute("SELECT body, digest FROM change ORDER BY number").fetchall()
    link.close()


def main() -> None:
    """Print the medians for changes of every kind and for readings alone."""
    for readings in (False, True):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "job.farboard"
            make(path, readings=readings)
            acts: dict[str, Callable[[], object]] = {
                "the rows alone": partial(_rows, path),
                "to write": partial(_open, path),
                "to look": partial(_open, path, read_only=True),
            }
            times: dict[str, list[float]] = {name: [] for name in acts}
            for _ in range(_ROUNDS):
                for name, act in acts.items():
                    times[name].append(_timed(act))
        kind = "readings" if readings else "changes of every kind"
        print(f"{CHANGES:,} {kind}")
        for name, taken in times.items():
            print(f"  {name:15} {statistics.median(taken):5.2f} s, at best {min(taken):5.2f} s")


if __name__ == "__main__":
    main()
