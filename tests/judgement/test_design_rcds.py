"""Which RCDs a design needs, of which kind, and which don't help."""

from __future__ import annotations

import pytest

from records.model.wiring import Device, Rcd
from records.terms import DeviceKind, RcdType, Use, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    circuit,
    line,
    reviewed,
)


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"use": Use.SOCKETS}, "socket-outlets"),
        ({"use": Use.LIGHTING}, "lamps of a household"),
        ({"use": Use.FIXED, "outdoors": True}, "something outdoors"),
        ({"use": Use.FIXED, "hidden": True}, "hidden less than 50 mm"),
    ],
)
def test_a_missing_30_ma_rcd_is_outside_and_says_why(changes, reason):
    """BS 7671, Regulations 411.3.3, 411.3.4, 522.6.202 (read in secondary copies)."""
    bare = {
        "device": Device(kind=DeviceKind.BREAKER_B, rating=16, breaking=6.0),
        "rcd": Rcd(),
        "outdoors": False,
        "hidden": False,
        **changes,
    }
    found = line(circuit(SOUND, "C2", **bare), "circuit/C2/-/design/30 mA protection")

    assert found.verdict is Verdict.OUTSIDE
    assert reason in found.why


def test_a_fixed_load_in_sight_needs_no_30_ma():
    bare = {
        "device": Device(kind=DeviceKind.BREAKER_B, rating=16, breaking=6.0),
        "rcd": Rcd(),
        "outdoors": False,
        "hidden": False,
        "use": Use.FIXED,
    }
    end = "circuit/C2/-/design/30 mA protection"

    assert line(circuit(SOUND, "C2", **bare), end).verdict is Verdict.NOT_NEEDED
    unsaid = circuit(SOUND, "C2", **{**bare, "hidden": None})
    assert line(unsaid, end).verdict is Verdict.NOT_TAKEN
    assert "whether it is concealed" in line(unsaid, end).why


def test_an_armoured_cable_in_a_wall_needs_no_30_ma_for_that():
    bare = {
        "device": Device(kind=DeviceKind.BREAKER_B, rating=16, breaking=6.0),
        "rcd": Rcd(),
        "outdoors": False,
        "hidden": True,
        "use": Use.FIXED,
        "runs": SOUND.feed.runs,
    }

    found = line(circuit(SOUND, "C2", **bare), "circuit/C2/-/design/30 mA protection")

    assert found.verdict is Verdict.NOT_NEEDED


def test_a_100_ma_rcd_is_no_additional_protection():
    found = line(
        circuit(SOUND, "C2", rcd=Rcd(residual=100.0, type=RcdType.A)),
        "circuit/C2/-/design/30 mA protection",
    )

    assert found.verdict is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("residual", "delayed", "verdict"),
    [
        (30.0, False, Verdict.WITHIN),
        (10.0, False, Verdict.WITHIN),
        (30.0, True, Verdict.OUTSIDE),
        (10.0, True, Verdict.OUTSIDE),
        (30.1, False, Verdict.OUTSIDE),
        (100.0, True, Verdict.OUTSIDE),
    ],
)
@pytest.mark.parametrize("where", ["circuit", "board", "feed"])
def test_only_30_ma_without_delay_is_additional_protection(residual, delayed, verdict, where):
    """BS 7671, Regulation 415.1.1 (from memory): 30 mA at most, 40 ms at 5 × IΔn."""
    rcd, none = Rcd(residual=residual, type=RcdType.A, delayed=delayed), Rcd()
    bare = {"device": Device(kind=DeviceKind.BREAKER_B, rating=16, breaking=6.0)}
    record = circuit(SOUND, "C2", rcd=rcd if where == "circuit" else none, outdoors=True, **bare)
    if where != "circuit":
        part = getattr(record, where).model_copy(update={"rcd": rcd})
        record = record.model_copy(update={where: part})
    found = line(record, "circuit/C2/-/design/30 mA protection")

    assert found.verdict is verdict
    if verdict is Verdict.OUTSIDE:
        assert reviewed(record).findings[0] == found
        assert f"{residual:g} mA{', delayed' if delayed else ''}" in found.why
        assert "415.1.1" in str(found.source)


def test_a_delayed_rcd_before_a_30_ma_one_takes_nothing_from_it():
    rcd = Rcd(residual=100.0, type=RcdType.A, delayed=True)
    record = SOUND.model_copy(update={"board": SOUND.board.model_copy(update={"rcd": rcd})})

    assert line(record, "circuit/C2/-/design/30 mA protection").verdict is Verdict.WITHIN


@pytest.mark.parametrize("rating", [16.0, 32.0, 40.0, 63.0])
def test_sockets_need_additional_protection_whatever_the_device_before_them(rating):
    """BS 7671, Regulation 411.3.3 (read in a secondary copy): the 32 A are those of the outlet.

    A 13 A socket behind a 40 A breaker is a socket up to 32 A.
    """
    record = circuit(
        SOUND,
        "C2",
        rcd=Rcd(),
        outdoors=False,
        hidden=False,
        device=Device(kind=DeviceKind.BREAKER_B, rating=rating),
    )
    found = line(record, "circuit/C2/-/design/30 mA protection")

    assert found.verdict is Verdict.OUTSIDE
    assert ("rated above 32 A" in found.why) is (rating > 32)


@pytest.mark.parametrize(("rating", "asked"), [(32.0, True), (32.1, False)])
def test_a_fixed_load_outdoors_above_32_a_needs_none_for_that_alone(rating, asked):
    """BS 7671, Regulation 411.3.3 (read in a secondary copy): mobile equipment up to 32 A."""
    record = circuit(
        SOUND,
        "C4",
        rcd=Rcd(),
        outdoors=True,
        hidden=False,
        use=Use.FIXED,
        device=Device(kind=DeviceKind.BREAKER_B, rating=rating),
    )
    found = line(record, "circuit/C4/-/design/30 mA protection")

    assert (found.verdict is Verdict.OUTSIDE) is asked


def test_an_rcbo_without_its_residual_current_is_asked_for_it():
    found = line(circuit(SOUND, "C2", rcd=Rcd()), "circuit/C2/-/design/30 mA protection")

    assert found.verdict is Verdict.NOT_TAKEN
    assert "IΔn of the RCBO" in found.why


def test_type_ac_is_not_for_sockets():
    """BS 7671, Regulation 531.3.3 (read in a secondary copy)."""
    ac = Rcd(residual=30.0, type=RcdType.AC)

    assert line(circuit(SOUND, "C2", rcd=ac), "C2/-/design/RCD type").verdict is Verdict.OUTSIDE
    assert line(circuit(SOUND, "C4", rcd=ac), "C4/-/design/RCD type").verdict is Verdict.NEAR


def test_a_type_ac_rcd_before_a_type_a_one_can_still_be_blinded():
    """BS 7671, Regulation 531.3.3 (read in a secondary copy): all current flows through both."""
    ac = Rcd(residual=100.0, type=RcdType.AC, delayed=True)
    before = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"rcd": ac})})
    found = line(before, "C2/-/design/RCD type")

    assert found.verdict is Verdict.NEAR
    assert "feed" in found.why


@pytest.mark.parametrize(
    ("board", "feed", "told"), [(100, None, 0), (None, 100, 0), (None, None, 1)]
)
def test_the_board_of_an_outbuilding_with_its_own_electrode_needs_an_rcd_before_it(
    board, feed, told
):
    """BS 7671, Regulation 411.5.2 (from memory): up to the first RCD all has to be class II."""
    parts = {
        name: getattr(ISLAND, name).model_copy(
            update={"rcd": Rcd(residual=each and float(each), delayed=bool(each))}
        )
        for name, each in (("board", board), ("feed", feed))
    }
    lines = reviewed(ISLAND.model_copy(update=parts)).lines
    found = [each for each in lines if each.key == "board/-/-/design/TT protection"]

    assert len(found) == told
    assert all(each.verdict is Verdict.NEAR and "class II" in each.next_check for each in found)


def test_the_type_of_an_rcd_further_up_stands_for_none_nearer():
    up = Rcd(residual=100.0, type=RcdType.A, delayed=True)
    before = SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"rcd": up})})
    found = line(circuit(before, "C2", rcd=Rcd(residual=30.0)), "C2/-/design/RCD type")

    assert found.verdict is Verdict.NOT_TAKEN
    assert "Circuits, C2" in found.why


@pytest.mark.parametrize(
    ("residual", "delayed", "verdict"),
    [
        (100.0, True, Verdict.WITHIN),
        (90.0, True, Verdict.WITHIN),
        (89.9, True, Verdict.NEAR),
        (60.0, True, Verdict.NEAR),
        (100.0, False, Verdict.NEAR),
    ],
)
def test_rcds_one_after_the_other(residual, delayed, verdict):
    """Delayed, and three times the IΔn: BS 7671, Regulation 536.4.1.4 (from memory)."""
    rcd = Rcd(residual=residual, type=RcdType.A, delayed=delayed)
    record = SOUND.model_copy(update={"board": SOUND.board.model_copy(update={"rcd": rcd})})

    assert line(record, "design/RCDs before circuits").verdict is verdict


def test_an_electrode_without_an_rcd_is_the_gravest_of_design_findings():
    record = circuit(
        ISLAND, "C2", rcd=Rcd(), device=Device(kind=DeviceKind.BREAKER_B, rating=20, breaking=6.0)
    )
    record = record.model_copy(update={"board": record.board.model_copy(update={"rcd": Rcd()})})
    found = line(record, "circuit/C2/-/design/TT protection")

    assert found.verdict is Verdict.OUTSIDE
    assert line(record, "circuit/C2/-/design/30 mA protection").part_of == found.key
