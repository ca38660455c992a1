"""An accepted reading until it is on disk and all that follows from it is right, by circuits.

The demo's job grown to more circuits; each time one of its readings, picked at random, is taken
again. What the session keeps is held against working all of it out again. Processor time, the best
and the worst of many, turn about; the worst are readings that everything rests on, such as Ze.
"""

from __future__ import annotations

import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.record import Record
from records.session import Session
from records.store.edits import append
from records.store.file import RecordFile
from tests.bench.review import grown

SIZES = (6, 24, 60)


def _timed(act: Callable[..., object], *given: object) -> float:
    start = time.process_time()
    act(*given)
    return (time.process_time() - start) * 1000


def _anew(record: Record) -> None:
    progress(record, review(record, expected(record)))


def main(rounds: int = 40) -> None:
    """Print the times and their ratios."""
    chance = random.Random(5)
    for size in SIZES:
        with (
            tempfile.TemporaryDirectory() as folder,
            RecordFile.create(Path(folder) / "job.farboard", grown(size)) as file,
        ):
            session, models = Session(file, "A"), file.record.readings
            last = max(int(each.id[1:]) for each in models)
            steps: dict[str, Callable[[], object]] = {
                "expectation": lambda session=session: session.expected,
                "review": lambda session=session: session.review,
                "progress": lambda session=session: session.progress,
            }
            times: dict[str, list[float]] = {
                name: [] for name in ("on disk", *steps, "all of it", "worked out anew")
            }
            for number in range(1, rounds + 1):
                taken = chance.choice(models).model_copy(update={"id": f"M{last + number}"})
                ops = append("/readings", taken)
                found = [_timed(session.change, ops)]
                found += [_timed(work) for work in steps.values()]
                again = _timed(_anew, session.record)
                for name, took in zip(times, (*found, sum(found), found[0] + again), strict=True):
                    times[name].append(took)
            floor = statistics.median(times["worked out anew"])
            for name, taken_ in times.items():
                middle = statistics.median(taken_)
                print(
                    f"{size:3} circuits, {name:16}{min(taken_):7.2f} to {max(taken_):7.2f}, middle "
                    f"{middle:7.2f} ms = {middle / floor:5.2f} × worked out anew"
                )


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
