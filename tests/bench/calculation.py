"""A board of one feed and twelve circuits worked out, against one evaluation by an engine in C++.

Both in the same process, turn about, the best of many rounds of each: times belong to the machine,
ratios travel. Processor time is taken, so that what else runs meanwhile doesn't count. An
expectation has every number worked out; its texts are written when looked at, which is timed beside
it. Before anything is timed, the loops of both must agree.
"""

from __future__ import annotations

import json
import random
import sys
import time
from collections.abc import Callable, Iterable
from typing import Any

from records.expected.plan import expected
from records.expected.results import Expected, Worked
from records.model.record import Record
from tests.bench.engine import Board, evaluate
from tests.expected.jobs import BOTH, FLAT, XLPE, circuit, device, run
from tests.expected.quick import ends

_FEEDS = ((6.0, 32.0), (10.0, 40.0), (16.0, 63.0))
_FINALS = (
    (1.0, 6.0, "lighting"),
    (1.5, 6.0, "lighting"),
    (2.5, 20.0, "sockets"),
    (4.0, 32.0, "sockets"),
    (6.0, 32.0, "fixed appliance"),
)


def board(chance: random.Random, circuits: int = 12) -> Record:
    """Return a made-up board: an armoured feed, core and armour as cpc, and radial circuits."""
    csa, rating = chance.choice(_FEEDS)
    finals = []
    for number in range(1, circuits + 1):
        size, most, use = chance.choice(_FINALS)
        finals.append(
            circuit(
                f"C{number}",
                use=use,
                device=device(rating=most),
                load=chance.uniform(1, 5),
                runs=[run(FLAT, size, chance.uniform(4, 35))],
            )
        )
    parts = {
        "job": {"ambient": 15.0},
        "origin": {"earthing": "TN-C-S", "ze": chance.uniform(0.1, 0.35), "fault_current": 1.5},
        "feed": {
            "device": device("BS 88-3 fuse", rating, breaking=16.0),
            "runs": [run(XLPE, csa, chance.uniform(10, 60), cpc=BOTH, method="D", ambient=20.0)],
        },
        "board": {"earth": "carried over by the feed"},
        "circuits": finals,
    }
    return Record.model_validate_json(json.dumps(parts))


def written(result: Expected) -> int:
    """Write out every working of an expectation; return how many characters that is."""
    found = 0
    for each in (*result.design.values(), *result.meter.values(), *result.measured.values()):
        if isinstance(each, Worked):
            found += len(f"{each}{each.formula}{each.put_in}{each.note}") + len(each.sources)
        else:
            found += len(each.why)
    return found


def _best(jobs: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    best = dict.fromkeys(jobs, float("inf"))
    for _ in range(rounds):
        for name, work in jobs.items():
            start = time.process_time()
            work()
            best[name] = min(best[name], time.process_time() - start)
    return best


def _each(work: Callable[[Any], object], boards: Iterable[Any]) -> None:
    for each in boards:
        work(each)  # not kept: one after the other is worked out and used


def _agree(record: Record) -> None:
    hot = evaluate(Board(record))[0][1:]
    worst = max(abs(a.zs / b - 1) for a, b in zip(ends(record), hot, strict=True))
    if worst > 1e-3:
        raise SystemExit(f"The loops differ by {worst:.1e}: nothing is timed.")
    print(f"Loops agree with the engine within {worst:.0e}.")


def main(many: int = 10_000) -> None:
    """Print times and their ratios to one evaluation by the engine."""
    chance = random.Random(7)
    record, double = board(chance), board(chance, 24)
    known = Board(record)
    _agree(record)
    best = _best(
        {
            "engine, one evaluation": lambda: evaluate(known),
            "loops and fault currents alone": lambda: ends(record),
            "whole expectation": lambda: expected(record),
            "the same, every working written out": lambda: written(expected(record)),
            "whole expectation, 24 circuits": lambda: expected(double),
        },
        150,
    )
    engine = best["engine, one evaluation"]
    for name, taken in best.items():
        print(f"{name:38} {taken * 1000:8.3f} ms = {taken / engine:6.3f} × engine")
    print(f"loops: {engine / best['loops and fault currents alone']:.0f} times as fast")
    twice = best["whole expectation, 24 circuits"] / best["whole expectation"]
    print(f"24 circuits against 12: {twice:.2f} times as long")

    records = [board(chance) for _ in range(many)]
    boards = [Board(each) for each in records]
    few = boards[: len(boards) // 4]
    taken = _best(
        {
            "engine": lambda: _each(evaluate, few),
            "loops": lambda: _each(ends, records),
            "whole": lambda: _each(expected, records),
        },
        3,
    )
    per = {
        "engine": taken["engine"] / len(few),
        "loops": taken["loops"] / len(records),
        "whole": taken["whole"] / len(records),
    }
    for name, each in per.items():
        ratio = each / per["engine"]
        print(f"{many} boards, {name:8} {each * many:8.2f} s = {ratio:6.3f} × engine")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
