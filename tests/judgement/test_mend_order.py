"""Changes that mend a design check come in the order of money and sense."""

from __future__ import annotations

import pytest

from records.judgement.remedy.design_changes import Owner, with_rcd
from records.judgement.remedy.smallest_change import mends
from records.model.wiring import Rcd
from records.terms import RcdType
from tests.judgement.jobs import SOUND, circuit, flat, line


def changes(record, key: str) -> list[str]:
    return [each.change for each in mends(record, line(record, key))]


def test_a_cable_that_no_socket_takes_comes_last():
    """A socket takes two of 4 mm² (BS 1363-2, from memory): 6 or 10 mm² on a ring comes last."""
    ring = circuit(SOUND, "C1", runs=(flat(2.5, 200.0),), points=())

    drop = changes(ring, "C1/-/design/voltage drop")
    assert drop[0].startswith("C1: not longer than")
    assert drop[-1] == "C1: 10 mm² instead of 2.5 mm²"
    assert changes(ring, "C1/-/design/Zs")[0].startswith("C1: a 25 A")
    assert changes(ring, "C1/-/design/Zs")[-1] == "C1: 6 mm² instead of 2.5 mm²"


def test_a_thicker_or_shorter_feed_comes_before_10_mm2_on_a_ring():
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 60.0}),)
    long = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    found = changes(
        circuit(long, "C1", runs=(flat(2.5, 80.0),), points=()), "C1/-/design/voltage drop"
    )
    feed = [at for at, each in enumerate(found) if each.startswith("Feed")]
    thick = [at for at, each in enumerate(found) if each.startswith("C1: 6") or "C1: 10" in each]

    assert feed
    assert thick
    assert max(feed) < min(thick)


def test_a_wieldy_size_comes_before_a_shorter_way_and_an_unwieldy_one_after_the_feed():
    """A lamp takes 2.5 mm² (common practice); 4 mm² of sockets on a ring is still wieldy."""
    lights = circuit(SOUND, "C3", runs=(flat(1.5, 90.0),), points=(), load=2.0)
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 40.0}),)
    long = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    ring = circuit(long, "C1", runs=(flat(2.5, 65.0),), points=())

    assert changes(lights, "C3/-/design/voltage drop")[-1] == "C3: 4 mm² instead of 1.5 mm²"
    assert changes(ring, "C1/-/design/voltage drop")[0] == "C1: 4 mm² instead of 2.5 mm²"


def test_thirty_milliamperes_are_never_offered_instead_of_thirty():
    for rcd in (Rcd(residual=30.0, type=RcdType.A), Rcd(residual=10.0, type=RcdType.A)):
        owner = Owner(circuit(SOUND, "C2", rcd=rcd), "C2")
        assert list(with_rcd(owner)) == []
    board = SOUND.board.model_copy(update={"rcd": Rcd(residual=30.0, type=RcdType.A)})
    bare = circuit(SOUND, "C2", rcd=Rcd()).model_copy(update={"board": board})
    assert list(with_rcd(Owner(bare, "C2"))) == []


@pytest.mark.parametrize("rcd", [Rcd(), Rcd(residual=31.0), Rcd(residual=30.0, delayed=True)])
def test_where_no_rcd_of_thirty_opens_at_once_one_is_offered(rcd):
    (found,) = with_rcd(Owner(circuit(SOUND, "C2", rcd=rcd), "C2"))

    assert "30 mA" in found.words


def test_a_feed_is_offered_a_delayed_rcd_at_the_house_before_thicker_cable():
    """240 m of 10 mm² behind 40 A: an RCD opens it, S before those of the circuits (536.4.1.4)."""
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 240.0}),)
    long = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    words = changes(long, "feed/-/-/design/Zs")

    assert "Feed: a delayed RCD of 100 mA at the house" in words
    thick = next(at for at, each in enumerate(words) if "mm²" in each)
    assert words.index("Feed: a delayed RCD of 100 mA at the house") < thick
