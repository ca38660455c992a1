"""Which tests belong together, and that their order stays the safe one."""

from __future__ import annotations

import pytest

from records.model.measurements import MEASUREMENTS
from records.taking.families import Family, families, family
from records.terms import Stage


def test_every_measurement_belongs_to_a_family():
    assert {family(each) for each in MEASUREMENTS} == set(Family)


@pytest.mark.parametrize("stage", Stage)
def test_families_keep_the_order_of_the_catalogue(stage: Stage):
    flat = [each for _, entries in families(stage) for each in entries]

    assert flat == [each for each in MEASUREMENTS if stage in each.stages]


def test_dead_tests_go_from_continuity_to_insulation_to_polarity():
    """IET Guidance Note 3, sequence of tests (from memory): BS 7671, 643.1."""
    names = [name for name, _ in families(Stage.DEAD)]

    assert names == [
        Family.EARTHS,
        Family.RING,
        Family.CONTINUITY,
        Family.INSULATION,
        Family.POLARITY,
        Family.ELECTRODE,
        Family.PUT_BACK,
    ]


def test_the_board_is_made_live_only_after_ze_and_before_any_loop_behind_it():
    """IET Guidance Note 3, sequence of tests (from memory)."""
    names = [name for name, _ in families(Stage.LIVE)]

    assert names.index(Family.SUPPLY) < names.index(Family.ENERGISE)
    assert names.index(Family.ENERGISE) < names.index(Family.BOARD_LOOP)
    assert names.index(Family.BOARD_LOOP) < names.index(Family.LOOP) < names.index(Family.RCD)
