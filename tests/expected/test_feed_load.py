"""The feed carries at least its largest circuit; diversity by kind of load; what runs together."""

import pytest

from records.expected.context import FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from tests.expected.jobs import XLPE, circuit, device, job, run

DIVERSITY, TOGETHER = "after household diversity", "together"
Z_FEED = 4.7e-3 * 30
"""10 mm² two-core XLPE, 30 m: BS 7671, Table 4E4B (read in a secondary copy)."""


def fixed(id, load=None, kind=None, **more):
    """A circuit to something fixed."""
    rated = device(rating=more.pop("rating", 50.0))
    return circuit(id, use="fixed appliance", load=load, kind=kind, device=rated, **more)


def figures(circuits, rating=63.0, **feed):
    buried = run(XLPE, 10.0, 30.0, method="D", ambient=20.0)
    given = {"device": device("BS 88-3 fuse", rating), "runs": [buried], **feed}
    return expected(job(circuits=circuits, feed=given)).design


def ib(circuits, **feed):
    return figures(circuits, **feed)[FEED, What.IB]


def test_household_diversity_on_one_load_takes_nothing_off_its_own_circuit():
    """9.5 kW at 230 V is 41.3 A; 10 A and half the rest would be 25.7 A (On-Site Guide)."""
    found = ib([fixed("C1", power=9.5, kind="space-heating")], loading=DIVERSITY)

    assert found.value == pytest.approx(9500 / 230)
    assert "at least its largest circuit" in found.note
    assert "25.7 A" in found.note


@pytest.mark.parametrize(
    ("entered", "counts"), [(20.0, 32.0), (31.9, 32.0), (32.0, 32.0), (32.1, 32.1)]
)
def test_an_ib_entered_by_hand_is_not_below_the_largest_circuit(entered, counts):
    assert ib([fixed("C1", 32.0), fixed("C2", 5.0)], load=entered).value == counts


KINDS = [
    # (kind, loads, what counts) by IET On-Site Guide, Appendix A, individual household
    # (read in a secondary copy).
    ("lighting", [3.0, 3.0], 0.66 * 6),
    ("space-heating", [16.0, 4.0], 10 + 0.5 * 10),
    ("space-heating", [10.0, 0.0001], 10.0),
    ("cooking", [30.0, 10.0], 10 + 0.3 * 30),
    ("instant-water", [30.0, 20.0], 50.0),
    ("instant-water", [30.0, 20.0, 12.0], 50 + 0.25 * 12),
    ("stored-water", [12.0, 13.0], 25.0),
    ("storage-heating", [12.0, 13.0], 25.0),
    ("floor-warming", [12.0, 13.0], 25.0),
    ("motor", [12.0, 13.0], 25.0),
    ("vehicle", [12.0, 13.0], 25.0),
    ("machine", [12.0, 13.0], 25.0),
    ("other", [12.0, 13.0], 25.0),
    (None, [12.0, 13.0], 25.0),
]


@pytest.mark.parametrize(("kind", "loads", "counts"), KINDS)
def test_each_kind_of_load_has_its_own_row_or_counts_in_full(kind, loads, counts):
    circuits = [fixed(f"C{n}", each, kind) for n, each in enumerate(loads, start=1)]
    # 40 A of a motor beside it, in full, so that the largest circuit isn't what decides.
    found = ib([*circuits, fixed("C9", 40.0, "motor")], loading=DIVERSITY)

    assert found.value == pytest.approx(40 + counts, abs=1e-3)


@pytest.mark.parametrize(("socket", "more"), [(True, 5.0), (False, 0.0), (None, 0.0)])
def test_a_socket_on_the_cooker_control_adds_5_a(socket, more):
    """IET On-Site Guide, Appendix A (read in a secondary copy)."""
    cooker = fixed("C1", 30.0, "cooking", cooker_socket=socket)
    found = ib([cooker, fixed("C2", 35.0, "motor")], loading=DIVERSITY)

    assert found.value == pytest.approx(35 + 10 + 0.3 * 20 + more)


def test_a_load_without_a_kind_is_named_and_counts_in_full():
    found = ib([fixed("C1", 20.0), fixed("C2", 20.0, "motor")], loading=DIVERSITY)

    assert found.value == 40
    assert "their kind of load is not entered: C1" in found.note


def test_every_row_of_the_table_is_read():
    from records.tables.demand import diversity
    from records.tables.table import table

    used = set()
    for kind, loads, _ in KINDS:
        circuits = [fixed(f"C{n}", each, kind) for n, each in enumerate(loads, start=1)]
        used.add(ib([*circuits, fixed("C9", 40.0, "motor")], loading=DIVERSITY).put_in)
    sockets = [circuit("C1"), circuit("C2")]
    used.add(ib(sockets, loading=DIVERSITY).put_in)

    for row in table("diversity").under():
        assert diversity(row)
        assert any(f"({row})" in text for text in used), row


def workshop(*marks):
    """Four machines of 16, 13, 10 and 8 A with their marks."""
    loads = (16.0, 13.0, 10.0, 8.0)
    return [
        fixed(f"C{n}", load, "machine", together=mark)
        for n, (load, mark) in enumerate(zip(loads, marks, strict=True), start=1)
    ]


@pytest.mark.parametrize(
    ("marks", "counts"),
    [
        ((True, True, True, True), 47.0),
        ((True, False, False, True), 24.0),
        ((None, None, None, None), 47.0),
        ((True, False, None, False), 26.0),
        ((False, False, True, True), 18.0),
        ((False, True, False, False), 16.0),
        ((False, False, False, False), 16.0),
    ],
)
def test_what_runs_together_adds_up_and_the_largest_circuit_is_the_least(marks, counts):
    assert ib(workshop(*marks), loading=TOGETHER).value == counts


def test_it_says_who_is_off_and_who_was_not_asked():
    found = ib(workshop(True, False, None, True), loading=TOGETHER)

    assert "as marked: C2" in found.note
    assert "Not marked, so counted as on: C3" in found.note


def test_an_unknown_load_that_is_off_is_not_needed_and_one_that_is_on_is():
    known = fixed("C1", 16.0)
    assert ib([known, fixed("C2", together=False)], loading=TOGETHER).value == 16
    found = ib([known, fixed("C2", together=True)], loading=TOGETHER)
    assert isinstance(found, NotWorkedOut)
    assert "C2" in found.why


@pytest.mark.parametrize(("feed_ib", "through"), [(30.0, 30.0), (29.9, 30.0), (30.1, 30.1)])
def test_a_circuits_drop_takes_at_least_its_own_ib_through_the_feed(feed_ib, through):
    """One circuit of 30 A over 20 m of 6 mm² flat cable: 7.3 mV/A/m (Table 4D5)."""
    one = fixed("C1", 30.0, runs=[run(csa=6.0, length=20.0)])
    found = figures([one], load=feed_ib)[circuit_place(job().circuits[0]), What.VOLT_DROP]

    assert found.value == pytest.approx(Z_FEED * through + 7.3e-3 * 20 * 30)


def test_in_of_the_feed_caps_what_is_added_up_but_not_below_the_circuit_itself():
    one, two = fixed("C1", 30.0, runs=[run(csa=6.0, length=20.0)]), fixed("C2", 30.0)
    found = figures([one, two], rating=20.0)

    assert found[FEED, What.VOLT_DROP].value == pytest.approx(Z_FEED * 20)
    own = found[circuit_place(job().circuits[0]), What.VOLT_DROP]
    assert own.value == pytest.approx(Z_FEED * 30 + 7.3e-3 * 20 * 30)


def test_a_motor_known_by_its_kw_alone_asks_for_the_current_on_its_plate():
    found = figures([fixed("C1", power=1.5, kind="motor")])[
        circuit_place(job().circuits[0]), What.IB
    ]

    assert isinstance(found, NotWorkedOut)
    assert "plate" in found.why


def test_without_a_load_and_without_circuits_no_current_is_made_up():
    for loading in (None, DIVERSITY, TOGETHER):
        found = ib([], loading=loading)
        assert isinstance(found, NotWorkedOut)
        assert "neither Ib of the feed nor any circuit is entered" in found.why
