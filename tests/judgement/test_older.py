"""A reading older than the one it is held against is read again, not explained.

Ground: BS 7671, Regulation 643.1 (from memory): what came before work says nothing of it.
"""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.facts import Facts
from records.judgement.older import read_again
from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    ZDB,
    ZE,
    at,
    own,
    read,
    sound_job,
    spoilt,
    zs,
)
from tests.judgement.test_patterns import value_of

RA = at(Quantity.ELECTRODE)


def test_a_board_loop_from_before_the_rods_is_not_called_joined_metal():
    """The electrode was read again and is far higher now: Zdb is of the day before."""
    job = sound_job(ISLAND)
    found = own(spoilt(read(900, RA, 150.0, 900), record=job), ZDB)

    assert found.verdict is Verdict.UNLIKELY
    assert found.patterns == ("read again",)
    assert "It is older than RA beside it" in found.why
    assert not any("armour" in cause for cause in found.causes)
    assert "Read it again" in found.next_check


def test_a_board_loop_read_after_the_electrode_is_explained_as_before():
    job = sound_job(ISLAND)
    record = spoilt(read(900, RA, 150.0, 900), read(901, ZDB, value_of_zdb(job), 901), record=job)

    assert "read again" not in own(record, ZDB).patterns
    assert own(record, ZDB).patterns[0] == "zdb-low"


def value_of_zdb(job):
    return job.taken(ZDB)[0].taken.value


def mended_feed():
    """A gland was bad when feed and board were read; only the feed was read again since."""
    bad = spoilt(
        (FEED_R1_R2, round(value_of(FEED_R1_R2) + 0.6, 2)), (ZDB, round(value_of(ZDB) + 0.6, 2))
    )
    return spoilt(read(900, FEED_R1_R2, value_of(FEED_R1_R2), 900), record=bad)


def test_a_board_loop_from_before_the_gland_was_remade_is_read_again():
    found = own(mended_feed(), ZDB)

    assert "read again" in found.patterns
    assert "older than R1+R2" in found.why
    assert not any("paint" in cause for cause in found.causes)


@pytest.mark.parametrize(
    ("newer", "value"), [(FEED_R1_R2, 0.9), (at(Quantity.R1_R2, "C2"), 1.4), (ZE, 0.9)]
)
def test_a_reading_that_is_as_the_design_has_it_is_not_asked_for_again(newer, value):
    """Only the odd one is doubted: what was read again and is off."""
    record = spoilt(read(900, newer, value, 900))

    assert own(record, newer).verdict is not Verdict.WITHIN
    assert own(record, ZDB).verdict is own(record, zs("C2")).verdict is Verdict.WITHIN


def test_a_loop_from_before_its_board_was_mended_is_read_again():
    """Zdb was high when the loop was read, and is right now."""
    high = spoilt(
        (ZDB, round(value_of(ZDB) + 0.6, 2)), (zs("C2"), round(value_of(zs("C2")) + 0.6, 2))
    )
    record = spoilt(read(900, ZDB, value_of(ZDB), 900), record=high)

    assert "read again" in own(record, zs("C2")).patterns
    assert "older than Zdb" in own(record, zs("C2")).why
    assert "loose" not in " ".join(own(record, zs("C2")).causes)


@pytest.mark.parametrize(("minutes", "again"), [(-1, False), (0, False), (1, True)])
def test_only_a_younger_reading_that_comes_before_it_in_order_counts(minutes, again):
    record = sound_job()
    zdb = record.taken(ZDB)[0]
    when = (zdb.at - record.readings[0].at).total_seconds() / 60 + 3 + minutes
    record = spoilt(read(900, ZE, 0.3, when), record=record)
    facts = Facts.of(record, expected(record))

    assert (read_again(facts, zdb, ZE) is not None) is again
    assert read_again(facts, zdb, zs("C2"), None) is None  # comes after it: younger is as it should
    assert read_again(facts, zdb, at(Quantity.GLAND, part=Part.FEED)) is None
    early = at(Quantity.R1_R2, "C2", Stage.BEFORE_COVERING)
    assert read_again(facts, record.taken(early)[0], ZE) is None


R1, RN, R2 = (at(each, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2))


@pytest.mark.parametrize("odd", [R1, RN])
@pytest.mark.parametrize("by", [0.12, -0.12])
def test_of_the_ends_of_a_ring_only_the_odd_one_is_doubted(odd, by):
    """Common practice: what the cpc and the length agree with is not in doubt."""
    record = spoilt((odd, round(value_of(odd) + by, 2)))
    doubted = [slot for slot in (R1, RN, R2) if own(record, slot).verdict is not Verdict.WITHIN]

    assert doubted == [odd]
    assert "ring-ends-differ" in own(record, odd).patterns


def test_a_cpc_of_its_own_ratio_is_still_the_odd_one():
    record = spoilt((R2, value_of(R1)))

    assert "ring-ratio" in own(record, R2).patterns
    assert own(record, R1).verdict is own(record, RN).verdict is Verdict.WITHIN


def test_points_from_before_the_ends_were_remade_are_read_again():
    """Each end is lower now by a loose terminal that was tightened."""
    ends = [
        read(900 + n, slot, round(value_of(slot) * 0.6, 2), 900 + n)
        for n, slot in enumerate((R1, RN, R2))
    ]
    found = own(spoilt(*ends), at(Quantity.CROSS_LN, "C1", point="P3"))

    assert "ring-point-high" not in found.patterns


def test_a_fault_current_from_before_its_loop_is_read_again():
    fault = at(Quantity.FAULT_LE, stage=Stage.LIVE)
    high = spoilt((ZDB, 0.9), (fault, 0.26))
    found = own(spoilt(read(900, ZDB, value_of(ZDB), 900), record=high), fault)

    assert "read again" in found.patterns
    assert "fault-against-loop" not in found.patterns
