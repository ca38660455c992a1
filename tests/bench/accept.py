"""An accepted value to disk against a bare SQLite transaction with the same settings."""

from __future__ import annotations

import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from records.demo import demo_record
from records.store import container
from records.store.edits import append, put
from records.store.file import RecordFile

_ROUNDS = 400


def _timed(act: Callable[[], object]) -> float:
    start = time.perf_counter()
    act()
    return time.perf_counter() - start


def _bare(path: Path) -> Callable[[str, bytes], None]:
    """Return what adds one row of the same shape in one transaction, and nothing else."""
    link = sqlite3.connect(path, isolation_level=None)
    for setting in container._SETTINGS:
        link.execute(f"PRAGMA {setting}")
    link.execute(container._TABLE)

    def add(body: str, digest: bytes) -> None:
        link.execute("BEGIN IMMEDIATE")
        link.execute("INSERT INTO change (body, digest) VALUES (?, ?)", (body, digest))
        link.execute("COMMIT")

    return add


def main() -> None:
    """Print the medians and their ratio, for a design value and for a reading."""
    with tempfile.TemporaryDirectory() as folder:
        add = _bare(Path(folder) / "bare.sqlite")
        with RecordFile.create(Path(folder) / "job.farboard", demo_record()) as file:
            model = file.record.readings[0]
            last = max(int(each.id[1:]) for each in file.record.readings)
            times: dict[str, list[float]] = {"bare": [], "design value": [], "reading": []}
            for number in range(1, _ROUNDS + 1):
                length = 10 + number / 8
                value = put("/circuits/0/runs/0/length", length)
                times["design value"].append(_timed(lambda ops=value: file.change(ops, by="A")))
                taken = model.model_copy(update={"id": f"M{last + number}"})
                ops = append("/readings", taken)
                times["reading"].append(_timed(lambda ops=ops: file.change(ops, by="A")))
                row = file._rows()[-1]
                times["bare"].append(_timed(lambda row=row: add(*row)))
    floor = statistics.median(times["bare"])
    for name, taken in times.items():
        middle = statistics.median(taken)
        print(f"{name:14} {middle * 1000:6.2f} ms = {middle / floor:4.2f} × a bare transaction")


if __name__ == "__main__":
    main()
