"""An edit of 40 points and 60 legs, from the typed line to its picture and its verdicts.

Against what the bench does for a reading of the same record: to disk, and judged again. Both are
what a person waits for between Enter and the next line.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from records.model.circuit import Point
from records.model.fabric import Box, Fabric, Hole, Leg, Spot, Timber
from records.model.record import Record
from records.places.line import understood
from records.session import Session
from records.store.edits import append
from records.store.file import RecordFile
from tests.judgement.fabric.walls import WALL
from tests.judgement.jobs import sound_job
from tui.widgets.wall_picture import Seen, picture

POINTS, LEGS = 40, 60
_ROUNDS = 25
_SIZE = (76, 20)


def large() -> Record:
    """Return the sound job with 40 points and 60 bored legs on a wall of 12 m."""
    record = sound_job()
    each_has = POINTS // len(record.circuits)
    spots: list[tuple[str, Spot]] = []
    circuits = []
    for circuit in record.circuits:
        points = list(circuit.points)
        while len(points) < each_has:
            number = len(points) + 1
            points.append(Point(id=f"P{number}", name=f"S{number}"))
        placed = []
        for point in points:
            at = len(spots)
            spot = Spot(
                surface="W1", along=300.0 + 280 * at, up=450.0 + 200 * (at % 4), box=Box.ONE_GANG
            )
            spots.append((circuit.id, spot))
            placed.append(point.model_copy(update={"spot": spot}))
        circuits.append(circuit.model_copy(update={"points": tuple(placed)}))
    hole = Hole(timber=Timber.STUD, at=100.0, size=20.0, deep=95.0, from_face=37.5)
    legs = []
    for at in range(LEGS):
        owner, spot = spots[at % len(spots)]
        legs.append(
            Leg(
                id=f"L{at + 1}",
                circuit=owner,
                surface="W1",
                along=spot.along,
                up=spot.up + 40,
                to_along=spot.along,
                to_up=2325.0 if at < len(spots) else 20.0,
                deep=40.0,
                holes=(hole,),
            )
        )
    fabric = Fabric(surfaces=(WALL.model_copy(update={"width": 12_000.0}),), legs=tuple(legs))
    return record.model_copy(update={"circuits": tuple(circuits), "fabric": fabric})


def _timed(act: Callable[[], object]) -> float:
    start = time.perf_counter()
    act()
    return time.perf_counter() - start


def main() -> None:
    """Print the medians and the ratio."""
    with (
        tempfile.TemporaryDirectory() as folder,
        RecordFile.create(Path(folder) / "job.farboard", large()) as file,
    ):
        session = Session(file, "A")
        model = file.record.readings[0]
        last = max(int(each.id[1:]) for each in file.record.readings)
        times: dict[str, list[float]] = {"reading": [], "picture": [], "verdicts": []}

        def read(number: int) -> None:
            taken = model.model_copy(update={"id": f"M{last + number}"})
            session.change(append("/readings", taken))
            _ = session.review.lines

        def edit(number: int) -> None:
            surface = session.record.fabric.surfaces[0]
            line = f"S1 {450 + number} up 300 along 1g"
            found = understood(session.record, surface, f"C1 {line}")
            session.change(list(found.ops))
            surface = session.record.fabric.surfaces[0]
            picture(session.record, surface, Seen(), *_SIZE, plain=False)

        read(0)
        for number in range(1, _ROUNDS + 1):
            times["reading"].append(_timed(lambda at=number: read(at)))
            times["picture"].append(_timed(lambda at=number: edit(at)))
            times["verdicts"].append(_timed(lambda: session.review.lines))
    floor = statistics.median(times["reading"])
    for name, each in times.items():
        middle = statistics.median(each)
        print(f"{name:9} {middle * 1000:6.1f} ms = {middle / floor:4.2f} × a reading, judged")


if __name__ == "__main__":
    main()
