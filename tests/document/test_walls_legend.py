"""The legend of a drawing: no name cut short, no word beside the page, however many circuits."""

from __future__ import annotations

import pytest

from records.document.walls.legend import PENS, legend
from records.document.walls.scale import A4, CUT, FIGURE
from records.document.walls.shapes import Words
from records.model.record import Record
from tests.document.walls_job import walls

LONG = "Sockets along the bench under the north window and round the corner to the stove"


def named(record: Record, name: str, circuits: int) -> tuple[Record, dict]:
    (first, *_) = record.circuits
    made = tuple(
        first.model_copy(update={"id": f"C{at}", "name": name}) for at in range(1, circuits + 1)
    )
    pens = {each.id: PENS[at % len(PENS)] for at, each in enumerate(made)}
    return record.model_copy(update={"circuits": made}), pens


@pytest.mark.parametrize("paper", [A4, CUT, FIGURE], ids=["page", "cut-out sheet", "schedule"])
@pytest.mark.parametrize("circuits", [1, 2, 5, 6, 8, 12, 13, 30])
@pytest.mark.parametrize("name", ["Lights", "Socket ring round the shed", LONG])
def test_a_name_stands_whole_or_its_number_alone(paper, circuits, name):
    record, pens = named(walls(), name, circuits)
    words = [
        each
        for each in legend(record, pens, paper, strips=False, zones=True)
        if isinstance(each, Words)
    ]
    said = {each.text for each in words}
    whole = {f"{id} {name}" for id in pens} | set(pens)

    assert {each for each in said if each.startswith("C") and each != "C…"} <= whole
    assert set(pens) <= {each.split()[0] for each in said} or "each cable bears its number" in said
    assert {"safe zone, 522.6.202", "hole through timber", "box on the other side"} <= said
    for each in words:
        assert each.at[0] + 1.4 * len(each.text) * (each.size / 2.5) <= paper.width + 2, each
        assert each.at[1] < paper.height


def test_a_short_name_is_not_left_out():
    record, pens = named(walls(), "Lights", 5)
    words = legend(record, pens, FIGURE, strips=False, zones=True)

    assert "C5 Lights" in {each.text for each in words if isinstance(each, Words)}
