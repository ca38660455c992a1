"""What is said of loads in the document: how the feed is loaded, kinds, marks, loads at points."""

from __future__ import annotations

import pytest

from records.document import as_built as built
from records.expected.results import Expected
from records.model.circuit import Circuit, Point
from records.model.outbuilding import Feed
from records.model.record import Record
from records.terms import FeedLoad, LoadKind


@pytest.mark.parametrize(
    ("feed", "said"),
    [
        (Feed(), "calculated: all circuits added up"),
        (Feed(loading=FeedLoad.DIVERSITY), "calculated: after household diversity"),
        (Feed(loading=FeedLoad.TOGETHER), "calculated: what runs together"),
        (Feed(load=24.0, loading=FeedLoad.DIVERSITY), "24 A"),
    ],
)
def test_it_says_how_the_feed_is_loaded(feed: Feed, said: str) -> None:
    assert built.feed(Record(feed=feed))["load"] == said


def test_kind_start_and_mark_stand_beside_the_load() -> None:
    saw = Circuit(id="C1", load=9.5, kind=LoadKind.MOTOR, starting=70.0, together=True)
    cooker = Circuit(id="C2", power=9.5, kind=LoadKind.COOKING, cooker_socket=True, together=False)
    lines = built.circuits(Record(circuits=(saw, cooker)), Expected())

    assert "load Ib 9.5 A, motor, starts with 70 A, on with the others" in lines[0]["form"]
    assert (
        "load 9.5 kW, cooking, socket on the cooker control, not on with the others"
        in lines[1]["form"]
    )


def test_a_load_at_a_point_stands_with_its_place() -> None:
    points = (Point(id="P1", name="Gate", at=52.0, load=0.3), Point(id="P2", at=78.0, power=0.01))
    (line,) = built.circuits(Record(circuits=(Circuit(id="C1", points=points),)), Expected())

    assert line["points"] == "Gate (52 m, draws 0.3 A); P2 (78 m, draws 0.01 kW)"
