"""What would make a design comply: each change is worked out, is the smallest, and mends."""

import itertools
import math

import pytest

from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.remedy.smallest_change import mends, worse
from records.judgement.review import review
from records.terms import Verdict
from tests.expected.jobs import XLPE, circuit, device, job, ring, run


def lines(record):
    return {each.key: each for each in review(record, expected(record)).lines}


def mended(record, key):
    line = lines(record)[key]
    assert line.verdict in (Verdict.OUTSIDE, Verdict.NEAR), line.why
    return [each.change for each in mends(record, line)], mends(record, line)


def one(**more):
    return job(circuits=[circuit(**more)])


def test_a_loop_too_high_names_cable_length_device_and_rcd():
    record = one(runs=[run(length=60.0)], device=device(rating=32.0))

    changes, found = mended(record, "circuit/C1/-/design/Zs")

    # By hand: 0.3 + 0.236 for the feed, then 60 m × 1.1965 × mΩ/m of IEC 60228: with 2.5/1.5 mm²
    # 1.401 (1.94 Ω), with 4/1.5 mm² 1.200 (1.74 Ω), with 6/2.5 mm² 0.753 (1.29 Ω). Table 41.3 has
    # 1.37 Ω for B32, 1.75 Ω for B25, 2.19 Ω for B20.
    assert "C1: 6 mm² instead of 2.5 mm²" in changes
    assert "C1: a 20 A circuit-breaker type B instead of 32 A" in changes
    assert "C1: a 30 mA RCBO type B instead of the circuit-breaker" in changes
    length = next(each for each in changes if "not longer" in each)
    # By hand, BS EN 60228 at 70 °C: (7.41 + 12.1) × 1.1965 mΩ/m for the circuit, and 30 m of
    # 6 mm² XLPE at 90 °C (3.08 × 2 × 1.2751 mΩ/m) for the feed.
    left = 1.37 - 0.3 - 30 * 2 * 3.08 * 1.2751 / 1000
    most = math.floor(left / (19.51 * 1.1965 / 1000) * 2) / 2
    assert length == f"C1: not longer than {most:g} m instead of 60 m"
    assert all("Zs" in str(each) or "RCD" in str(each) for each in found)


def test_every_mend_mends_and_breaks_nothing_else():
    record = one(runs=[run(length=60.0)])
    before = {key for key, each in lines(record).items() if each.verdict is Verdict.OUTSIDE}
    _, found = mended(record, "circuit/C1/-/design/Zs")

    for each in found:
        after = lines(each.record)
        outside = {key for key, line in after.items() if line.verdict is Verdict.OUTSIDE}
        assert outside <= before
        loop, time = after["circuit/C1/-/design/Zs"], "disconnection time, overcurrent device"
        behind_rcd = after[f"circuit/C1/-/design/{time}"].verdict is Verdict.NEAR
        assert loop.verdict is Verdict.WITHIN or behind_rcd


def test_a_length_half_a_metre_more_would_not_do():
    record = one(runs=[run(length=60.0)])
    _, found = mended(record, "circuit/C1/-/design/Zs")
    shorter = next(each for each in found if "not longer" in each.change)
    length = shorter.record.circuits[0].runs[0].length
    more = one(runs=[run(length=length + 0.5)])

    assert lines(more)["circuit/C1/-/design/Zs"].verdict is Verdict.OUTSIDE


def test_a_shorter_run_brings_the_points_at_its_end_nearer():
    """Left where they were they would be beyond the cable, and shortening would mend nothing."""
    points = [{"id": "P1", "at": 20.0}, {"id": "P2", "at": 60.0}]
    _, found = mended(one(runs=[run(length=60.0)], points=points), "circuit/C1/-/design/Zs")
    shorter = next(each for each in found if "not longer" in each.change).record.circuits[0]

    assert [each.at for each in shorter.points] == [20.0, shorter.runs[0].length]


def test_a_shorter_ring_will_do_wherever_it_is_cut():
    """The spur may come to lie half way round, if the ring is cut short at one end only.

    By hand, Zs = Zdb + (r1 + r2) per metre × (length of the ring / 4 + the spur).
    """
    points = [{"id": "P1", "at": 10.0}, {"id": "P2", "at": 40.0, "spur": 25.0}]
    record = one(form="ring", device=device(rating=32.0), runs=[run(length=60.0)], points=points)
    _, found = mended(record, "circuit/C1/-/design/Zs")
    shorter = next(each for each in found if "not longer" in each.change).record.circuits[0]
    length = shorter.runs[0].length

    for at in (length / 2, length * 40.0 / 60.0, length - 20.0):
        there = [{"id": "P2", "at": at, "spur": 25.0}]
        cut = one(form="ring", device=device(rating=32.0), runs=[run(length=length)], points=there)
        assert lines(cut)["circuit/C1/-/design/Zs"].verdict is Verdict.WITHIN
    left = 1.37 - 0.3 - 30 * 2 * 3.08 * 1.2751 / 1000
    most = 4 * (left / (19.51 * 1.1965 / 1000) - 25.0)
    assert length == pytest.approx(most, abs=0.5)


def test_voltage_drop_is_mended_by_circuit_or_feed():
    record = one(load=20.0, device=device(rating=20.0), runs=[run(length=45.0)])

    changes, _ = mended(record, "circuit/C1/-/design/voltage drop")

    assert any(each.startswith("C1: ") and "mm²" in each for each in changes)
    assert any(each.startswith("C1: not longer") for each in changes)
    assert not any("type B" in each for each in changes)


def test_too_little_capacity_wants_a_thicker_cable_or_a_smaller_device():
    record = one(use="fixed appliance", load=20.0, runs=[run(csa=2.5, method="103", length=5.0)])

    changes, _ = mended(record, "circuit/C1/-/design/Iz")

    # Table 4D5: 2.5 mm² by method 103 carries 13.5 A; a 20 A load can't have a smaller device.
    assert any("mm² instead of 2.5 mm²" in each for each in changes)
    assert all(
        "A circuit-breaker" not in each or " 20 A" in each or " 25 A" in each for each in changes
    )


def test_breaking_capacity_wants_the_next_class():
    # 1.1 × 230 V / √(0.03² + 0.0115²) = 7.9 kA at the sub-board.
    origin = {"earthing": "TN-C-S", "ze": 0.03, "fault_current": 7.0}
    feed = {
        "device": device("BS 88-3 fuse", 32.0, breaking=16.0),
        "load": 25.0,
        "runs": [run(XLPE, 16.0, 5.0, method="D", ambient=20.0)],
    }
    record = job(origin=origin, feed=feed)

    changes, _ = mended(record, "circuit/C1/-/design/breaking capacity")

    assert changes == ["C1: a device of 10 kA breaking capacity instead of 6 kA"]


def test_a_socket_circuit_without_rcd_wants_an_rcbo():
    changes, _ = mended(one(), "circuit/C1/-/design/30 mA protection")

    assert changes == ["C1: a 30 mA RCBO type B instead of the circuit-breaker"]


def test_a_ring_of_thin_cable_wants_thicker_cable():
    record = job(circuits=[ring(runs=[run(csa=1.5, length=40.0)])])

    changes, _ = mended(record, "circuit/C1/-/design/ring conductors")

    assert changes[0] == "C1: 2.5 mm² instead of 1.5 mm²"


def test_the_main_switch_and_a_bond():
    board = {
        "earth": "carried over by the feed",
        "main_switch": 20.0,
        "earthing_csa": 16.0,
        "metal_in_ground": True,
        "bonds": [{"id": "B1", "csa": 4.0, "length": 3.0}],
    }
    record = job(board=board)

    changes, _ = mended(record, "board/-/-/design/main switch")
    assert changes == ["Board: a main switch of at least 32 A instead of 20 A"]
    changes, _ = mended(record, "board/-/B1/design/bond size")
    assert changes == ["Bond, B1: 10 mm² instead of 4 mm²"]


def test_what_holds_and_what_is_read_has_no_mend():
    record = demo_record()
    for each in review(record, expected(record)).lines:
        if each.slot is not None or each.verdict is Verdict.WITHIN:
            assert mends(record, each) == ()


@pytest.mark.parametrize("seed", ["load", "runs", "device"])
def test_a_design_without_inputs_has_no_mend(seed):
    empty = {"load": None, "runs": [], "device": {}}
    record = one(**{seed: empty[seed]})
    for each in review(record, expected(record)).lines:
        for mend in mends(record, each):
            assert mend.change
            assert mend.result


# Nothing that lets another check get worse, and no device above what its cable carries.


def hot_and_loaded(**more):
    """A heater of 38 A on a 32 A RCBO and 2.5 mm² in 40 °C: both checks fail already."""
    heater = circuit(
        use="fixed appliance",
        **{
            "load": 38.0,
            "device": device("RCBO type B", 32.0),
            "runs": [run(length=5.0, ambient=40.0)],
            **more,
        },
    )
    buried = run(XLPE, 16.0, 30.0, method="D", ambient=20.0)
    fuse = device("BS 88-3 fuse", 63.0, breaking=16.0)
    return job(circuits=[heater], feed={"device": fuse, "load": 40.0, "runs": [buried]})


def iz(record):
    return lines(record)["circuit/C1/-/design/Iz"]


def test_no_larger_device_is_offered_for_a_cable_that_is_too_thin_already():
    """BS 7671, Regulation 433.1.1: In ≤ Iz. 27 A × 0.87 at 40 °C is 23.49 A (4D5, 4B1)."""
    record = hot_and_loaded()
    line = lines(record)["circuit/C1/-/design/Ib"]
    changes, found = mended(record, line.key)

    assert iz(record).verdict is Verdict.OUTSIDE
    assert line.next_check.startswith("No larger device: this cable carries 23.4 A.")
    assert "Thicker cable first, or less load." in line.next_check
    assert not any("instead of 32 A" in each and "mm²" not in each for each in changes)
    for each in found:
        assert iz(each.record).verdict is Verdict.WITHIN
        # The cable is named before the device that it has to carry.
        assert each.change.index("mm²") < each.change.index("RCBO")


@pytest.mark.parametrize(("csa", "offered"), [(4.0, False), (6.0, True)])
def test_a_larger_device_is_offered_up_to_iz_and_not_above(csa, offered):
    """Method C, flat cable: 4 mm² carries 37 A, 6 mm² 47 A (Table 4D5); × 0.87 at 40 °C."""
    record = hot_and_loaded(runs=[run(csa=csa, length=5.0, ambient=40.0)])
    line = lines(record)["circuit/C1/-/design/Ib"]
    changes, _ = mended(record, line.key)

    assert ("C1: a 40 A RCBO type B instead of 32 A" in changes) is offered
    assert ("A larger device must be at most" in line.next_check) is offered


def test_without_iz_no_larger_device_is_offered():
    record = hot_and_loaded(runs=[run(length=5.0, method=None)])
    changes, _ = mended(record, "circuit/C1/-/design/Ib")

    assert changes == []
    assert "No larger device before Iz" in lines(record)["circuit/C1/-/design/Ib"].next_check


def test_a_smaller_device_is_no_way_out_where_the_load_is_more_than_the_cable_carries():
    line = iz(hot_and_loaded())

    assert line.next_check.startswith("Thicker cable first, or less load: 38.0 A is more")
    assert all("mm²" in each.change for each in mends(hot_and_loaded(), line))


def excess(line):
    if line.limit is None or line.expected is None:
        return 0.0
    off = line.expected.value - line.limit.value
    return -off if line.limit.sense.value == "at least" else off


def spoilt_designs():
    """Records with several failing checks at once, so that one could be paid for with another."""
    yield hot_and_loaded()
    for csa, length, rating, load in itertools.product(
        (1.5, 2.5), (20.0, 90.0), (20.0, 32.0, 40.0), (12.0, 38.0)
    ):
        yield one(
            load=load,
            use="fixed appliance",
            device=device(rating=rating),
            runs=[run(csa=csa, length=length, method="103")],
        )


@pytest.mark.slow
def test_no_change_that_is_offered_makes_another_check_worse():
    """Each change is put in; what failed may not fail by more, what held has to hold still."""
    offered = 0
    bad = (Verdict.OUTSIDE, Verdict.UNLIKELY)
    for record in spoilt_designs():
        before = lines(record)
        for line in before.values():
            for mend in mends(record, line):
                offered += 1
                for key, after in lines(mend.record).items():
                    was = before.get(key)
                    if after.verdict in bad:
                        assert was is not None, (mend.change, key)
                        assert was.verdict in bad, (mend.change, key)
                        assert excess(after) <= excess(was) + 1e-6, (mend.change, key)
                    elif after.verdict is Verdict.NOT_TAKEN and was is not None:
                        assert was.verdict in (*bad, Verdict.NOT_TAKEN), (mend.change, key)
    assert offered > 20


@pytest.mark.parametrize(
    ("before", "after", "is_worse"),
    [
        ("within", "within", False),
        ("within", "near limit", False),
        ("within", "outside", True),
        ("near limit", "unlikely", True),
        ("not taken", "outside", True),
        ("within", "not taken", True),
        ("not taken", "not taken", False),
        (None, "outside", True),
        (None, "within", False),
        ("outside", "within", False),
    ],
)
def test_a_check_is_worse_if_it_fails_anew_or_is_not_shown_any_more(before, after, is_worse):
    line = iz(hot_and_loaded())
    was = None if before is None else line._replace(verdict=Verdict(before))

    assert worse(was, line._replace(verdict=Verdict(after))) is is_worse


@pytest.mark.parametrize(
    ("key", "more"),
    [("Ib", {"load": 41.0}), ("Iz", {"runs": [run(csa=1.5, length=5.0, ambient=40.0)]})],
)
def test_a_failing_check_is_worse_if_it_fails_by_more(key, more):
    """Ib must be at most In, Iz at least: more is worse for one, less for the other."""
    key = f"circuit/C1/-/design/{key}"
    line, by_more = lines(hot_and_loaded())[key], lines(hot_and_loaded(**more))[key]

    assert line.verdict is by_more.verdict is Verdict.OUTSIDE
    assert worse(line, by_more) is True
    assert worse(by_more, line) is False
    assert worse(line, line) is False


@pytest.mark.parametrize(("residual", "says"), [(30.0, True), (None, False)])
def test_a_loop_too_high_behind_an_rcd_says_that_only_the_rcd_opens(residual, says):
    """“Or an RCD” is no advice where there is one, and “not in time” is not so."""
    kind = "RCBO type B" if residual else "circuit-breaker type B"
    record = one(
        runs=[run(length=60.0)],
        device={"kind": kind, "rating": 32.0, "breaking": 6.0},
        rcd={"residual": residual, "type": "A" if residual else None},
    )
    loop = lines(record)["circuit/C1/-/design/Zs"]

    assert loop.verdict is Verdict.OUTSIDE
    assert ("Only the RCD disconnects" in loop.why) is says
    assert ("would not be disconnected in time" in loop.why) is not says
    assert ("or an RCD that" in loop.next_check) is not says
