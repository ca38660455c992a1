"""What the feed is taken to carry, and what depth does to its rating."""

import pytest

from records.expected.context import FEED
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from tests.expected.jobs import XLPE, circuit, device, job, run

FINALS = [
    circuit("C1", load=32.0),
    circuit("C2", load=20.0),
    circuit("C3", use="lighting", load=6.0),
    circuit("C4", use="fixed appliance", kind="space-heating", load=16.0),
]


def feed(**more):
    buried = run(XLPE, 10.0, 30.0, method="D", ambient=20.0, **more.pop("run", {}))
    return {"device": device("BS 88-3 fuse", 63.0), "runs": [buried], **more}


def figure(what, **parts):
    return expected(job(**{"circuits": FINALS, **parts})).design[FEED, what]


def test_household_diversity_is_worked_out_as_the_on_site_guide_has_it_and_warned_of():
    found = figure(What.IB, feed=feed(loading="after household diversity"))

    # IET On-Site Guide, Appendix A, individual household: 66 % of lighting; the largest socket
    # circuit and 40 % of the others; 10 A and half the rest of heating and power.
    assert found.value == pytest.approx(0.66 * 6 + 32 + 0.4 * 20 + 10 + 0.5 * 6)
    assert "misleads in a workshop" in found.note
    assert any("On-Site Guide" in source.work for source in found.sources)


def test_rated_loading_takes_in_and_the_drop_goes_by_it():
    rated = feed(loading="In of its device")

    assert figure(What.IB, feed=rated).value == 63.0
    # 4.7 mV/A/m: BS 7671, Table 4E4B, 10 mm² two-core XLPE.
    assert figure(What.VOLT_DROP, feed=rated).value == pytest.approx(4.7e-3 * 63 * 30)


def test_without_a_choice_all_circuits_add_up_and_an_entered_ib_goes_first():
    assert figure(What.IB, feed=feed()).value == pytest.approx(74.0)
    assert figure(What.IB, feed=feed(loading="all circuits added up")).value == pytest.approx(74.0)
    assert figure(What.IB, feed=feed(load=40.0, loading="In of its device")).value == 40.0


def test_diversity_needs_to_know_what_each_circuit_feeds():
    unknown = [circuit("C1", use=None, load=10.0)]
    found = figure(What.IB, circuits=unknown, feed=feed(loading="after household diversity"))

    assert isinstance(found, NotWorkedOut)
    assert "Circuits, C1" in found.why


@pytest.mark.parametrize(("depth", "factor"), [(0.7, 1.0), (0.8, 0.98), (0.9, 0.96), (1.25, 0.94)])
def test_a_deeper_cable_carries_less_by_table_4b4(depth, factor):
    usual = figure(What.IZ, feed=feed()).value
    found = figure(What.IZ, feed=feed(run={"depth": depth}))

    assert found.value == pytest.approx(usual * factor)
    assert ("Cd" in found.formula) is (factor != 1.0)
    assert f"{depth:g} m deep" in found.note


def test_a_depth_below_the_table_is_not_guessed_and_the_rest_is_worked_out():
    deep = feed(run={"depth": 2.0})

    assert isinstance(figure(What.IZ, feed=deep), NotWorkedOut)
    assert figure(What.ZS, feed=deep).value > 0


def test_cable_for_90_degrees_is_rated_as_for_70_where_its_terminals_are():
    found = figure(What.IZ, feed=feed())

    # BS 7671, Table 4D4A: 10 mm² two-core armoured 70 °C, method D, 60 A (from memory).
    assert "70 °C cable" in found.note
    assert found.put_in.startswith("60 ")
    assert any("512.1.5" in source.place for source in found.sources)
