"""The trade's words: each choice says what it is, and verdicts need no colour."""

from __future__ import annotations

import pytest

from records.terms import CableKind, Cpc, DeviceKind, Method, Step, Verdict


@pytest.mark.parametrize(
    ("kind", "curve", "fuse", "rcbo"),
    [
        (DeviceKind.BREAKER_B, "B", False, False),
        (DeviceKind.BREAKER_C, "C", False, False),
        (DeviceKind.BREAKER_D, "D", False, False),
        (DeviceKind.RCBO_B, "B", False, True),
        (DeviceKind.RCBO_C, "C", False, True),
        (DeviceKind.RCBO_D, "D", False, True),
        (DeviceKind.BS_88_2, None, True, False),
        (DeviceKind.BS_88_3, None, True, False),
        (DeviceKind.BS_88_2_2, None, True, False),
        (DeviceKind.BS_1361, None, True, False),
        (DeviceKind.BS_3036, None, True, False),
        (DeviceKind.BS_1362, None, True, False),
    ],
)
def test_a_device_says_what_it_is(kind, curve, fuse, rcbo):
    assert (kind.curve, kind.is_fuse, kind.is_rcbo) == (curve, fuse, rcbo)


def test_every_kind_of_device_is_tried_above():
    assert len(DeviceKind) == 12


def test_only_steel_wire_armoured_cable_is_armoured():
    assert [each for each in CableKind if each.is_armoured] == [
        CableKind.SWA_XLPE,
        CableKind.SWA_PVC,
    ]
    assert len(Cpc) == 5


def test_every_verdict_has_a_mark_of_its_own():
    assert len({each.mark for each in Verdict}) == len(Verdict)
    assert all(len(each.mark) == 1 for each in Verdict)


def test_a_blank_and_a_marginal_reading_are_findings_and_only_a_proven_one_is_none():
    """Missing is not a pass, marginal is a third answer: common practice."""
    assert {each for each in Verdict if not each.is_finding} == {
        Verdict.WITHIN,
        Verdict.NOT_NEEDED,
    }


def test_the_walk_has_ten_steps_in_the_order_of_the_work():
    assert [each.value for each in Step] == [
        "Job",
        "Origin",
        "Feed",
        "Board",
        "Circuits",
        "Before covering",
        "Dead tests",
        "Live tests",
        "Review",
        "Hand over",
    ]


def test_the_reference_methods_are_those_of_the_tables_for_flat_armoured_and_single_cables():
    """BS 7671:2018+A2:2022, Tables 4A2, 4D1A, 4D4A, 4D5, 4E4A (read in secondary copies)."""
    assert {each.value for each in Method} == {"A", "B", "C", "D", "E", "100", "101", "102", "103"}
