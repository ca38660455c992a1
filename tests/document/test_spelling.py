"""Symbols and words are spelt out where they occur; photographs and the choice are named."""

from __future__ import annotations

import pytest

from records.demo import demo_record
from records.document.choice import choice
from records.document.schedule import schedule_bytes
from records.document.spelling import spelt_out
from records.model.fabric import Photo
from records.model.record import Record
from records.options.rows import FEED_HEAD
from tests.document import job
from tests.document.reading_back import opened, table, text

pytestmark = pytest.mark.slow


@pytest.mark.parametrize(
    ("said", "term"),
    [
        ("RA 12 Ω", "RA"),
        ("read with R1+Rn", "R1+Rn"),
        ("supply: TT", "TT"),
        ("TN-C-S", "TN-C-S (PME)"),
        ("(PME)", "TN-C-S (PME)"),
        ("SWA cable", "SWA"),
    ],
)
def test_a_symbol_is_spelt_out_where_it_occurs(said: str, term: str) -> None:
    assert term in {each["term"] for each in spelt_out({"one": [{"line": said}]})}


@pytest.mark.parametrize("said", ["RANGE", "TTL", "R1+R2", "a walk to the rail and the bench", ""])
def test_no_symbol_is_spelt_out_that_does_not_occur(said: str) -> None:
    """Part of another word is none; walk, rail and bench are words for the screen."""
    found = {each["term"] for each in spelt_out({"one": said})}

    assert not found & {"RA", "TT", "R1+Rn", "walk", "rail", "bench", "SWA"}


def _made(record: Record, *, why_cable: bool = False) -> bytes:
    return schedule_bytes(record, fingerprint=job.FINGERPRINT, made=job.MADE, why_cable=why_cable)


def test_why_a_cable_was_chosen_is_printed_where_somebody_asks_for_it() -> None:
    demo = demo_record()
    lines = table(opened(_made(demo, why_cable=True)), "Why this cable")

    # The names of the cells are the template's: each of the options' own has a column.
    assert len(lines[0]) == 1 + len(FEED_HEAD)
    for each in choice(demo):
        (group,) = (line for line in lines if line[0].startswith(each["name"]))
        at = lines.index(group)
        assert [row[1] for row in lines[at + 1 : at + 1 + len(each["lines"])]] == [
            row["cable"] for row in each["lines"]
        ]
    assert "Why this cable" not in text(opened(_made(demo)))


@pytest.mark.parametrize("buying", [{"print_why": True}, {"why": "It was in stock."}])
def test_a_record_that_asks_for_it_has_why_its_cable_was_chosen_printed(buying) -> None:
    demo = demo_record()
    wanted = demo.model_copy(update={"buying": demo.buying.model_copy(update=buying)})
    printed = text(opened(_made(wanted)))

    assert "Why this cable" in printed
    assert buying.get("why", "") in printed


def test_each_photograph_is_named_with_what_it_is_known_by() -> None:
    demo = demo_record()
    first, *rest = demo.fabric.surfaces
    seen = Photo(file="photos/north.jpg", note="before the boards", size=4321, sha256="ab" * 32)
    fabric = demo.fabric.model_copy(
        update={"surfaces": (first.model_copy(update={"photos": (seen,)}), *rest)}
    )
    (line,) = table(opened(_made(demo.model_copy(update={"fabric": fabric}))), "Photographs")[1:]

    assert line[-3:] == [
        "photos/north.jpg",
        "before the boards",
        "4321 bytes, SHA-256 abababababababab",
    ]
