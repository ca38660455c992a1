"""The size of a protective conductor where the device's let-through energy decides."""

from __future__ import annotations

from dataclasses import replace

import pytest

from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.review import review
from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, Verdict
from records.units import Unit
from tests.judgement.jobs import circuit, place, sound_job
from tests.test_fixtures import _job

C2 = place("C2")
BREAKER = Device(kind=DeviceKind.BREAKER_B, rating=20.0, breaking=6.0)


def judged(record, time: float | None):
    """The line of C2's cpc, too thin by the formula, with a device that takes this time [s]."""
    found = expected(record)
    design = dict(found.design)
    design[C2, What.CPC_SIZE] = Worked("S", 1.5, Unit.SQUARE_MILLIMETRE, "", "", ())
    design[C2, What.CPC_LEAST] = Worked("S", 4.0, Unit.SQUARE_MILLIMETRE, "", "", ())
    if time is not None:
        design[C2, What.TIME] = Worked("t", time, Unit.SECOND, "", "", (), high=time)
    lines = review(record, replace(found, design=design)).lines
    return next(each for each in lines if each.key == "circuit/C2/-/design/cpc size")


@pytest.mark.parametrize(
    ("time", "verdict"), [(0.1, Verdict.NOT_TAKEN), (0.4, Verdict.OUTSIDE), (4.0, Verdict.OUTSIDE)]
)
def test_a_breaker_that_opens_at_once_is_asked_for_its_let_through(time, verdict):
    """BS 7671, Regulations 434.5.2 and 543.1.3 (from memory): under 0.1 s k²S² > I²t."""
    line = judged(circuit(sound_job(), "C2", device=BREAKER, rcd=Rcd()), time)

    assert line.verdict is verdict
    assert ("let-through energy I²t" in line.next_check) is (verdict is Verdict.NOT_TAKEN)


@pytest.mark.parametrize("curve", ["B", "C", "D"])
@pytest.mark.parametrize(
    ("delayed", "verdict"), [(False, Verdict.NOT_TAKEN), (True, Verdict.OUTSIDE)]
)
def test_the_curve_of_an_rcbo_makes_no_difference_while_its_rcd_opens_at_once(
    curve, delayed, verdict
):
    """At 5 × IΔn and more an RCD without delay opens in 40 ms (BS EN 61009-1, Table 2), under the
    0.1 s of Regulation 543.1.3; a delayed one takes up to 150 ms."""
    device = Device(kind=DeviceKind(f"RCBO type {curve}"), rating=20.0, breaking=6.0)
    rcd = Rcd(residual=30.0, type="A", delayed=delayed)

    line = judged(circuit(sound_job(), "C2", device=device, rcd=rcd), 4.0)

    assert line.verdict is verdict


def test_it_is_never_a_pass_and_gives_both_figures():
    line = judged(sound_job(), 0.1)

    assert line.is_finding
    assert line.why.startswith("S 1.50 mm²; must be at least 4.00 mm². Not shown:")


def test_a_fuse_has_its_energy_in_its_curve_and_stays_outside():
    fuse = Device(kind=DeviceKind.BS_88_2, rating=20.0, breaking=80.0)
    assert judged(circuit(sound_job(), "C2", device=fuse), 0.05).verdict is Verdict.OUTSIDE


def test_beside_a_substation_the_feed_asks_its_maker_and_is_not_refused():
    job = _job("kiln-room")
    lines = {each.key: each for each in review(job, expected(job)).lines}

    assert lines["feed/-/-/design/cpc size"].verdict is Verdict.NOT_TAKEN


def test_a_breaker_that_waits_for_its_thermal_part_is_refused():
    """Joinery C1: type D, 289 A, up to 4 s: the formula holds (BS 7671, 543.1.3)."""
    job = _job("joinery")
    lines = {each.key: each for each in review(job, expected(job)).lines}

    assert lines["circuit/C1/-/design/cpc size"].verdict is Verdict.OUTSIDE
