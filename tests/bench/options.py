"""Table of feeds and room left, against as many evaluations by an engine in C++, and by our own.

Both in the same process, turn about, the best of several rounds of each, in processor time. The
engine is given the resistances of each cable beforehand; ours looks everything up and judges it.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable

from records.expected.plan import expected
from records.options.edge import checks
from records.options.feed import feed_options
from records.options.room import each_room, room_left
from records.units import Unit
from tests.bench.calculation import board
from tests.bench.engine import Board, evaluate

_ROUNDS = 5
_STEPS = {Unit.AMPERE: 8, Unit.METRE: 10}
"""Times that all checks are made where a search halves what is left: log2 of 200 and 600."""


def _best(work: Callable[[], object]) -> float:
    found = float("inf")
    for _ in range(_ROUNDS):
        start = time.process_time()
        work()
        found = min(found, time.process_time() - start)
    return found


def main() -> None:
    """Print the ratios."""
    record = board(random.Random(7))
    choice = feed_options(record)
    tried = [each.record for each in choice.options]
    boards = [Board(each) for each in tried]
    ours = _best(lambda: feed_options(record))
    engine = _best(lambda: [evaluate(each) for each in boards])
    one = _best(lambda: expected(record.model_copy()))
    sound = tried[-1]
    rooms = room_left(sound)
    steps = sum(_STEPS[each.unit] for each in rooms)
    room = _best(lambda: room_left(sound))
    first = _best(lambda: next(each_room(sound)))
    lines = _best(lambda: checks(sound))
    print(f"{len(tried)} cables, {len(record.circuits)} circuits")
    print(f"table {ours * 1000:.0f} ms; engine, as often {engine * 1000:.0f} ms")
    print(f"table / engine {ours / engine:.2f} (aim: at most 0.5)")
    print(f"table / one expectation {ours / one:.0f} (aim: under 100)")
    print(f"{len(rooms)} rooms {room * 1000:.0f} ms, the first after {first * 1000:.0f} ms")
    print(f"room / the design checks once {room / lines:.0f}; each step tried: {steps:.0f}")


if __name__ == "__main__":
    main()
