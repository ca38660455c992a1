"""Somebody at the bench of a small job, without a screen and without a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Slot, Tick
from records.model.record import Record
from records.session import Session
from records.store.file import RecordFile
from records.taking.act_names import KEYS, ActNames
from records.taking.bench import Bench
from records.taking.desk import Desk
from records.taking.prompt import Ask
from records.terms import Stage
from tests.taking.job import slot, small_job

DEAD, LIVE = Stage.DEAD, Stage.LIVE
R1, RN, R2 = (slot(each, DEAD, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2))


def opened(folder: Path, record: Record | None = None, *, read_only: bool = False) -> Session:
    """Return a record file with a job in it, opened."""
    path = folder / "job.farboard"
    if not path.exists():
        RecordFile.create(path, small_job() if record is None else record).close()
    return Session(RecordFile.open(path, read_only=read_only), "Wren Oakes")


def read_all(at: Desk, where: Slot) -> None:
    """Read each caution that comes before a reading, until none does."""
    for _ in range(5):
        caution = at.unread(where)
        if caution is None:
            return
        at.has_read(caution, where)
    raise AssertionError(f"The cautions before {where} come to no end.")


@contextmanager
def seated(
    folder: Path,
    stage: Stage = DEAD,
    record: Record | None = None,
    *,
    names: ActNames = KEYS,
    confirms: bool = False,
    piped: bool = False,
    read_only: bool = False,
) -> Iterator[Bench]:
    """Sit down at a stage, and let the record go at the end."""
    session = opened(folder, record, read_only=read_only)
    bench = Bench(session, stage, names, confirms=confirms, piped=piped)
    bench.begin()
    yield bench
    session.close()


def read_on(bench: Bench) -> int:
    """Read the cautions in the way, each to its end; return how many there were."""
    count = 0
    while bench.must_read.caution is not None:
        bench.must_read.shown_to_end()
        bench.must_read.read_caution()
        count += 1
    return count


def go(bench: Bench, where: Slot) -> None:
    """Go to a reading and read what comes before it."""
    assert bench.go_to(where), where
    read_on(bench)


def say_yes(bench: Bench) -> None:
    """Read the question before the live tests and answer it with yes."""
    bench.must_read.ask_live()
    bench.must_read.shown_to_end()
    bench.must_read.answer_live(yes=True)


def here(bench: Bench) -> Slot:
    """Return the slot of the reading in hand."""
    assert bench.entry is not None
    return bench.entry.slot


def values(bench: Bench, where: Slot) -> list[object]:
    """Return all that was entered in a slot, oldest first, in short."""
    return [_short(each.taken) for each in bench.session.record.taken(where)]


def _short(taken: Figure | Tick | NotTaken | NotNeeded) -> object:
    if isinstance(taken, Figure):
        return f"{taken.sign.value.removeprefix('=')}{taken.value:g}"
    return taken.good if isinstance(taken, Tick) else taken.reason


def takes(bench: Bench) -> bool:
    """Return whether a value is asked for now."""
    return bench.prompt.kind in (Ask.FIGURE, Ask.CHECK)
