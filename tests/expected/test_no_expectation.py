"""Where no figure can be expected, it is said what a person may hold the reading against."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.expected.results import NotWorkedOut
from records.model.reading import Place, Quantity, Slot
from records.model.slots import every
from records.terms import Part, Stage
from tests.judgement.jobs import ISLAND, SOUND

HIGH = "new wiring usually reads > 200 MΩ (common practice)."
GROUND = "it follows from the ground: only a measurement tells."


@pytest.mark.parametrize(
    ("quantity", "says"),
    [
        (Quantity.IR_LN, HIGH),
        (Quantity.IR_LE, HIGH),
        (Quantity.IR_NE, HIGH),
        (Quantity.LEADS_ZERO, "nulled leads show 0.00"),
        (Quantity.ARMOUR_OPEN, "over range is what to expect"),
        (Quantity.ELECTRODE, GROUND),
        (Quantity.ELECTRODE_LOOP, GROUND),
    ],
)
def test_a_reading_that_nothing_leads_to_says_what_is_usual(quantity: Quantity, says: str) -> None:
    found = {
        slot: result
        for job in (SOUND, ISLAND)
        for slot, result in expected(job).meter.items()
        if slot.quantity is quantity
    }

    assert found
    for slot, result in found.items():
        assert isinstance(result, NotWorkedOut), slot
        assert says in result.why, slot


def test_no_figure_is_made_up_for_a_check() -> None:
    polarity = Slot(
        quantity=Quantity.POLARITY, place=Place(part=Part.CIRCUIT, circuit="C2"), stage=Stage.DEAD
    )
    assert polarity in every(SOUND)
    assert polarity not in expected(SOUND).meter
