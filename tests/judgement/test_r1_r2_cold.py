"""R1+R2 is read cold, the table of Zs holds warm: what may be read before covering and after."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import What
from records.model.reading import Place, Quantity, Slot
from records.model.record import Record
from records.model.wiring import Rcd
from records.terms import DeviceKind, Earthing, Part, RcdType, Stage, Verdict
from tests.judgement.jobs import FEED_R1_R2, SOUND, at, circuit, flat, own, spoilt

# Copper rises by 0.00393 x (70 - 15) / (1 + 0.00393 x (15 - 20)) from 15 to 70 °C: IEC 60287-1-1.
COPPER = (1 + 0.00393 * 50) / (1 - 0.00393 * 5)


def long_radial(metres: float) -> Record:
    """A 16 A type C radial on 2.5 mm² with a cpc of 1.5 mm²: Zs 1.37 Ω at most (Table 41.3)."""
    record = circuit(SOUND, "C2", runs=(flat(2.5, metres),))
    device = record.circuits[1].device.model_copy(
        update={"kind": DeviceKind.RCBO_C, "rating": 16.0}
    )
    return circuit(record, "C2", device=device)


@pytest.mark.parametrize("stage", [Stage.BEFORE_COVERING, Stage.DEAD])
def test_r1_r2_may_only_be_what_keeps_the_table_once_it_is_warm(stage):
    """BS 7671, Table 41.3 and Appendix 3 (read in a secondary copy): by hand.

    The limit is (1.37 - Zdb) / 1.19 for a reading at 15 °C; without the rise a run could pass
    before it is covered, and fail at its first live test.
    """
    record = long_radial(38.0)
    slot = at(Quantity.R1_R2, "C2", stage)
    zdb = expected(record).meter[at(Quantity.ZDB, stage=Stage.LIVE)].value
    most = own(record, slot).limit.value

    assert most == pytest.approx((1.37 - zdb) / COPPER, abs=0.011)
    assert zdb + COPPER * most <= 1.37
    assert zdb + COPPER * (most + 0.011) > 1.37 - 1e-3


def test_a_run_at_the_edge_of_its_design_has_a_limit_too():
    """33 m more of cable than the loop has room for is over, 20 % of scatter or not."""
    record = long_radial(42.0)
    slot = at(Quantity.R1_R2, "C2", Stage.DEAD)
    due = expected(record).meter[slot].value
    most = own(record, slot).limit.value
    assert due < most < 1.1 * due

    inside, over = (spoilt((slot, value), record=_read(record)) for value in (most, most + 0.02))
    assert own(inside, slot).verdict is not Verdict.OUTSIDE
    assert own(over, slot).verdict is Verdict.OUTSIDE
    assert any(each in own(over, slot).why for each in ("Zs", "limit"))


def test_the_feed_is_held_against_the_table_warm_as_well():
    """XLPE cores at 90 °C: 1 + 0.00393 x 70 over the same at 15 °C."""
    rise = (1 + 0.00393 * 70) / (1 - 0.00393 * 5)

    assert own(SOUND, FEED_R1_R2).limit.value == pytest.approx((1.30 - 0.25) / rise, abs=0.011)


def test_a_feed_whose_fault_returns_by_an_electrode_has_no_limit_of_its_own():
    """500 Ω by the RCD, less the electrode: 250 Ω in a cable would be within that, and broken."""
    origin = SOUND.origin.model_copy(update={"earthing": Earthing.TT, "ze": 60.0})
    rcd = Rcd(residual=100.0, type=RcdType.A, delayed=True)
    feed = SOUND.feed.model_copy(update={"rcd": rcd})

    assert own(SOUND.model_copy(update={"origin": origin, "feed": feed}), FEED_R1_R2).limit is None
    assert own(SOUND, FEED_R1_R2).limit is not None


def test_where_the_design_has_no_room_it_says_so_instead():
    record = long_radial(60.0)
    design = expected(record).design
    here = Place(part=Part.CIRCUIT, circuit="C2")

    assert design[here, What.ZS].value > design[here, What.ZS_LIMIT].value
    assert own(record, Slot(quantity=Quantity.R1_R2, place=here, stage=Stage.DEAD)).limit is None


def _read(record: Record) -> Record:
    """Return the job with its readings as they should be."""
    from tests.judgement.jobs import sound_job

    return sound_job(record)
