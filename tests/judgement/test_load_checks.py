"""Design checks of loads: against the feed, at a motor's start, at a point, on a lamp circuit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.review import review
from records.model.circuit import Point
from records.model.wiring import Device
from records.terms import DeviceKind, LoadKind, Verdict
from records.units import Unit
from tests.judgement.jobs import circuit, place, sound_job


def lines(record, found=None):
    return {each.key: each for each in review(record, found or expected(record)).lines}


def heater(**more):
    """The sound job with its heater, C4, changed."""
    return circuit(sound_job(), "C4", **more)


def with_feed(record, **more):
    return record.model_copy(update={"feed": record.feed.model_copy(update=more)})


ABOVE = "circuit/C4/-/design/load above the feed"
DEVICE = "circuit/C4/-/design/device above the feed"


@pytest.mark.parametrize(("load", "found"), [(26.0, False), (25.9, False), (26.1, True)])
def test_a_load_above_ib_of_the_feed_as_entered_is_a_finding(load, found):
    """The feed of the sound job is entered as 26 A (Regulation 433.1.1)."""
    line = lines(heater(power=None, load=load)).get(ABOVE)

    assert (line is not None) is found
    if line is not None:
        assert line.verdict is Verdict.UNLIKELY
        assert "Ib of the feed is entered as 26.0 A" in line.why


@pytest.mark.parametrize(("load", "found"), [(40.0, False), (40.1, True)])
def test_a_load_above_the_feeds_device_is_outside_and_told_by_the_feed(load, found):
    record = with_feed(heater(power=None, load=load), load=None)
    record = circuit(circuit(record, "C1", load=0.1), "C2", load=0.1)
    record = circuit(record, "C3", load=0.1)
    line = lines(record).get(ABOVE)

    assert (line is not None) is found
    if line is not None:
        assert line.verdict is Verdict.OUTSIDE
        assert line.part_of == "feed/-/-/design/Ib"
        assert lines(record)["feed/-/-/design/Ib"].verdict is Verdict.OUTSIDE


@pytest.mark.parametrize(("rating", "found"), [(40.0, False), (32.0, False), (50.0, True)])
def test_a_device_above_the_feeds_device_is_a_finding(rating, found):
    """The feed's fuse is 40 A."""
    device = Device(kind=DeviceKind.BREAKER_B, rating=rating, breaking=6.0)
    line = lines(heater(device=device)).get(DEVICE)

    assert (line is not None) is found
    assert line is None or line.is_finding


@pytest.mark.parametrize(
    ("curve", "starting", "verdict"),
    [
        ("B", 47.9, Verdict.WITHIN),
        ("B", 48.0, Verdict.NEAR),
        ("B", 79.9, Verdict.NEAR),
        ("B", 80.0, Verdict.OUTSIDE),
        ("C", 79.9, Verdict.WITHIN),
        ("C", 80.0, Verdict.NEAR),
        ("D", 159.0, Verdict.WITHIN),
        ("D", 320.0, Verdict.OUTSIDE),
    ],
)
def test_a_start_is_held_against_the_band_of_the_breaker(curve, starting, verdict):
    """16 A: type B opens at once from 3 to 5 In, C 5 to 10, D 10 to 20 (BS EN 60898-1, Table 7)."""
    device = Device(kind=DeviceKind(f"circuit-breaker type {curve}"), rating=16.0, breaking=6.0)
    record = heater(kind=LoadKind.MOTOR, load=10.0, power=None, starting=starting, device=device)

    assert lines(record)["circuit/C4/-/design/motor start"].verdict is verdict


def test_a_fuse_has_no_band():
    device = Device(kind=DeviceKind.BS_88_2, rating=16.0, breaking=80.0)
    assert "circuit/C4/-/design/motor start" not in lines(heater(starting=300.0, device=device))


@pytest.mark.parametrize(
    ("id", "kind", "found"),
    [
        ("C2", LoadKind.SOCKETS, False),
        ("C2", LoadKind.VEHICLE, False),
        ("C2", LoadKind.LIGHTING, True),
        ("C3", LoadKind.LIGHTING, False),
        ("C3", LoadKind.COOKING, True),
        ("C4", LoadKind.SPACE_HEATING, False),
        ("C4", LoadKind.SOCKETS, True),
        ("C4", None, False),
    ],
)
def test_a_kind_of_load_fits_the_use_of_its_circuit(id, kind, found):
    key = f"circuit/{id}/-/design/kind of load"
    assert (key in lines(circuit(sound_job(), id, kind=kind))) is found


@pytest.mark.parametrize(("load", "found"), [(1.2, False), (1.1, False), (1.3, True)])
def test_a_point_draws_no_more_than_its_circuit(load, found):
    """Ib of the lights is entered as 1.2 A."""
    record = circuit(sound_job(), "C3", points=(Point(id="P1", at=25.0, load=load),))
    assert ("circuit/C3/P1/design/load above the circuit" in lines(record)) is found


@pytest.mark.parametrize(
    ("low", "verdict"),
    [(6.9, Verdict.NEAR), (6.8, Verdict.NEAR), (6.91, Verdict.OUTSIDE), (None, Verdict.OUTSIDE)],
)
def test_lamps_that_pass_where_they_are_are_not_called_outside(low, verdict):
    """3 % of 230 V is 6.9 V: BS 7671, Appendix 4, Table 4Ab (read in a secondary copy)."""
    record = sound_job()
    found = expected(record)
    drop = Worked("ΔU", 7.4, Unit.VOLT, "", "", (), low=low)
    design = {**found.design, (place("C3"), What.VOLT_DROP): drop}
    line = lines(record, replace(found, design=design))["circuit/C3/-/design/voltage drop"]

    assert line.verdict is verdict
    if verdict is Verdict.NEAR:
        assert "Enter the load of each lamp at its point" in line.next_check
