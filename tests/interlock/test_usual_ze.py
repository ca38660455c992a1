"""A Ze above what is usually declared keeps nothing from going live that the device allows."""

from __future__ import annotations

import pytest

from records.interlock.live_failures import live_failures
from records.judgement.loop.ze import USUAL
from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import ZE, at, own, reviewed, sound_job, spoilt
from tests.judgement.test_loop_scenes import DECLARED

FAULT_LN = at(Quantity.FAULT_LN, part=Part.ORIGIN, stage=Stage.LIVE)


@pytest.mark.parametrize(("ohms", "locks"), [(0.5, False), (0.93, False), (0.94, True), (4, True)])
def test_only_a_ze_that_the_device_does_not_allow_locks_all(ohms: float, locks: bool) -> None:
    """0.35 Ω is declared for this TN-C-S supply; the feed's fuse allows 0.93 Ω here."""
    whole = spoilt((ZE, ohms), record=sound_job(DECLARED))
    # With TN-C-S the fault current L-N would contradict it, which is another matter.
    record = whole.model_copy(
        update={"readings": tuple(each for each in whole.readings if each.slot != FAULT_LN)}
    )
    found = own(record, ZE)
    failed = [each.slot for each in live_failures(record, reviewed(record).verdicts)]

    assert (USUAL in found.patterns) is not locks
    assert (ZE in failed) is locks
    if not locks:
        assert found.verdict in (Verdict.OUTSIDE, Verdict.NEAR)  # it is told all the same
