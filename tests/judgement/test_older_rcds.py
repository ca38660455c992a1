"""RCDs met at the house end: BS 4293 and BS 7288 ask for 200 ms at IΔn.

Read in an article on tripping times, not in the standards themselves.
"""

import pytest

from records.model.reading import Quantity
from records.model.wiring import Rcd
from records.terms import Part, RcdStandard, RcdType, Stage, Verdict
from tests.judgement.jobs import SOUND, at, own, sound_job, spoilt

SLOT = at(Quantity.RCD_TIME, stage=Stage.LIVE, part=Part.FEED)


def at_the_house(value, **more):
    feed = SOUND.feed.model_copy(update={"rcd": Rcd(residual=100.0, type=RcdType.A, **more)})
    record = SOUND.model_copy(update={"feed": feed})
    return own(spoilt((SLOT, value), record=sound_job(record)), SLOT)


@pytest.mark.parametrize("standard", [RcdStandard.BS_4293, RcdStandard.BS_7288])
@pytest.mark.parametrize(
    ("value", "verdict"), [(170.0, "within"), (200.0, "near limit"), (201.0, "outside")]
)
def test_an_older_one_has_200_ms(standard, value, verdict):
    assert at_the_house(value, standard=standard).verdict.value == verdict


@pytest.mark.parametrize(
    ("value", "verdict"), [(200.0, "within"), (201.0, "near limit"), (240.0, "near limit")]
)
def test_between_200_and_300_ms_the_standard_is_asked(value, verdict):
    found = at_the_house(value)

    assert found.verdict.value == verdict
    assert ("Read the standard off its label" in found.next_check) == (value > 200)


def test_one_of_todays_standard_is_not_asked_about():
    assert at_the_house(240.0, standard=RcdStandard.EN_61008).verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(249.0, "outside"), (275.0, "within"), (301.0, "outside")],
)
def test_a_delayed_one_to_bs_4293_by_the_delay_on_its_label(value, verdict):
    """With d = 100 ms between 200 + d/2 and 200 + d: 250 to 300 ms (a trade journal's table)."""
    found = at_the_house(value, standard=RcdStandard.BS_4293, delayed=True, delay=100.0)

    assert found.limit is not None
    assert found.limit.value == pytest.approx(250.0)
    assert found.limit.upper == pytest.approx(300.0)
    assert found.verdict.value == verdict
