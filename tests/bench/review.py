"""The review of the demo's job grown to more circuits, against the expectation of the same board.

The review walks each circuit's readings, so its time should grow as the board does and no faster:
the last column is the time for one circuit. Processor time is taken, the best of many rounds, turn
about; with `instructions` as the argument one review of 24 circuits is done, for a profiler.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from itertools import cycle

from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.record import Record

SIZES = (6, 12, 24, 60)


def grown(circuits: int) -> Record:
    """Return the demo's job with so many circuits: its own over and over, with their readings."""
    record = demo_record()
    pieces = record.model_dump(mode="json")
    kinds = pieces["circuits"]
    names = [f"C{number}" for number in range(1, circuits + 1)]
    pieces["circuits"] = [
        {**kind, "id": name} for name, kind in zip(names, cycle(kinds), strict=False)
    ]
    of = {name: kind["id"] for name, kind in zip(names, cycle(kinds), strict=False)}
    readings = [each for each in pieces["readings"] if each["slot"]["place"]["circuit"] is None]
    for name, kind in of.items():
        for each in pieces["readings"]:
            place = each["slot"]["place"]
            if place["circuit"] == kind:
                slot = {**each["slot"], "place": {**place, "circuit": name}}
                readings.append({**each, "slot": slot})
    pieces["readings"] = [{**each, "id": f"M{n}"} for n, each in enumerate(readings, start=1)]
    for gate in pieces["live_gate"]:
        if gate["may_go_live"] is not None:
            gate["may_go_live"] = names
    return Record.model_validate_json(json.dumps(pieces))


def _best(works: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    best = dict.fromkeys(works, float("inf"))
    for _ in range(rounds):
        for name, work in works.items():
            start = time.process_time()
            work()
            best[name] = min(best[name], time.process_time() - start)
    return best


def main(rounds: int = 15) -> None:
    """Print the times and their ratios."""
    for size in SIZES:
        record = grown(size)
        known = expected(record)
        judged = review(record, known)
        best = _best(
            {
                "expectation": lambda record=record: expected(record),
                "review": lambda record=record, known=known: review(record, known),
                "progress": lambda record=record, judged=judged: progress(record, judged),
            },
            rounds,
        )
        for name, taken in best.items():
            ratio = taken / best["expectation"]
            print(
                f"{size:3} circuits, {name:12}{taken * 1000:8.2f} ms = {ratio:5.2f} × expectation, "
                f"{taken * 1000 / size:6.3f} ms a circuit"
            )


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
