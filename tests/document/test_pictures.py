"""Pictures of the schedule: shapes that can be searched, and words for who can't see them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from records.demo import demo_record
from records.document.diagram import _columns, _drawn
from records.document.filling import filled
from records.document.ledger import Ledger
from records.document.pictures import pictures, sound_bars, sound_curve
from records.document.plots import plot_curve, plot_loop, plot_ring
from records.document.reading_cells import Cells
from records.document.schedule import write_schedule
from records.errors import BadTemplate
from records.expected.pictures.curve import TimeCurrent, time_current
from records.expected.pictures.loop import loop_bars
from records.expected.pictures.ring import ring_picture
from records.expected.plan import expected
from records.expected.results import NotWorkedOut
from records.judgement.review import review
from records.model.reading import place_of
from records.model.record import Record
from records.terms import Part
from tests.document import job
from tests.document.generated import job_of
from tests.document.reading_back import opened
from tests.document.test_template import _template

pytestmark = pytest.mark.slow

WP = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"


def _made(record: Record) -> list[dict[str, Any]]:
    follows = expected(record)
    return pictures(record, follows, review(record, follows))


def _cells(record: Record) -> Cells:
    verdicts = review(record, expected(record))
    return Cells(record, verdicts, Ledger(verdicts))


def _descriptions(folder: Path, record: Record) -> list[str]:
    out = folder / "one.docx"
    write_schedule(record, out, fingerprint=job.FINGERPRINT, made=job.MADE)
    return [each.get("descr") for each in opened(out).element.body.iter(f"{WP}docPr")]


def test_a_diagram_is_always_there_and_a_picture_only_where_a_reading_is_worth_one(
    tmp_path: Path,
) -> None:
    diagram, *rest = _descriptions(tmp_path, demo_record())
    surfaces = [each.name for each in demo_record().fabric.surfaces]

    assert "C3 Lights inside: B6 RCBO, 1.5 mm², 24 m, radial (F1, readings missing)." in diagram
    assert [each.partition(". ")[0] for each in rest[1:]] == surfaces
    assert "Bench, middle: 2500 along, 700 up to its underside" in rest[3]
    assert rest[0].startswith("C1 Socket ring round the shed: ring, cross-connected.")
    assert "To look at: S5 dye shelf, L-cpc: 0.36 Ω F4." in rest[0]


def test_nothing_is_plotted_from_a_reading_that_can_not_be() -> None:
    """Demo C5 and C6 read loops that can't be; C3 has an RCD that failed its time."""
    record, cells = demo_record(), _cells(demo_record())
    for circuit, points in (("C6", ["design"]), ("C4", ["design", "readings"])):
        place = place_of(Part.CIRCUIT, circuit)
        curve = sound_curve(cells, expected(record), place)
        assert isinstance(curve, TimeCurrent)
        assert [each.name for each in curve.points] == points
        assert [each.name for each in sound_bars(cells, expected(record), place)] == points
    failed = sound_curve(cells, expected(record), place_of(Part.CIRCUIT, "C3"))
    assert isinstance(failed, TimeCurrent)
    assert failed.rcd is None
    assert {each.by_rcd for each in failed.points} == {None}


def test_a_diagram_of_many_circuits_goes_on_on_further_sheets_of_a_page_at_most() -> None:
    """A4 less margins, head, foot and the heading over it: 225 mm are left at most."""
    record = job_of(60)
    sheets = _drawn(record, _columns(record, _cells(record)))

    assert len(sheets) > 1
    assert all(each.height <= 225 for each in sheets)
    assert [each.faults() for each in sheets] == [[] for _ in sheets]


def _with_high_loops() -> Record:
    """Return a job of many circuits, each so long that its loop is over its limit by design."""
    record = job_of(24)
    circuits = tuple(
        each.model_copy(
            update={"runs": (each.runs[0].model_copy(update={"length": 600.0}),), "points": ()}
        )
        for each in record.circuits
    )
    return record.model_copy(update={"circuits": circuits, "readings": ()})


def test_of_many_loops_over_their_limit_the_worst_are_drawn_and_the_others_named() -> None:
    """Pages of bars say less than the line of each circuit."""
    record = _with_high_loops()
    follows = expected(record)
    shown = pictures(record, follows, review(record, follows))
    loops = [each["title"] for each in shown if each["title"].endswith(": loop")]
    (rest,) = (line for each in shown for line in each["words"] if "Without a picture" in line)

    drawn = {each.split()[0] for each in loops}
    named = set(re.findall(r"C\d+", rest))
    assert len(drawn) == 6
    assert len(named) > 6
    assert not named & drawn


def test_no_label_stands_over_a_line_or_another_label() -> None:
    record = demo_record()
    assert [each.faults() for each in _drawn(record, _columns(record, _cells(record)))] == [[]]
    follows = expected(record)
    for circuit in record.circuits:
        place = place_of(Part.CIRCUIT, circuit.id)
        curve = time_current(record, follows, place)
        bars = loop_bars(record, follows, place)
        assert not isinstance(curve, NotWorkedOut)
        assert not isinstance(bars, NotWorkedOut)
        assert plot_curve(curve).faults() == []
        assert plot_loop(list(bars)).faults() == []
    ring = ring_picture(record, follows, place_of(Part.CIRCUIT, "C1"), frozenset())
    assert not isinstance(ring, NotWorkedOut)
    assert plot_ring(ring, lambda *_: "").faults() == []


def test_the_words_of_a_drawing_are_text_of_the_document(tmp_path: Path) -> None:
    """Shapes hold real text: a search finds it, and so does a comparison."""
    out = tmp_path / "one.docx"
    write_schedule(demo_record(), out, fingerprint=job.FINGERPRINT, made=job.MADE)
    xml = etree.tostring(opened(out).element.body, encoding="unicode")
    boxes = "".join(etree.fromstring(xml).itertext())

    assert "Main switch 63 A" in boxes
    assert "S5 dye shelf: 0.36 Ω L-cpc F4" in boxes


def test_names_that_look_like_markup_or_tags_stay_words_in_a_picture(tmp_path: Path) -> None:
    record = demo_record()
    odd = '<b> & "{{ 7*7 }}" {_{x}_} Ω'
    first = record.circuits[0].model_copy(update={"name": odd})
    points = tuple(each.model_copy(update={"name": odd}) for each in first.points)
    first = first.model_copy(update={"points": points})
    record = record.model_copy(update={"circuits": (first, *record.circuits[1:])})
    diagram, ring, *walls = _descriptions(tmp_path, record)

    assert f"C1 {odd}: B32 RCBO" in diagram
    assert ring.startswith(f"C1 {odd}: ring, cross-connected.")
    assert f"To look at: {odd}, L-cpc" in ring
    assert f"{odd}: 900 along" in walls[0]


@pytest.mark.parametrize("reach", ["_xml", "__class__", "__slots__"])
def test_a_template_reaches_nothing_behind_a_picture(reach: str) -> None:
    context = job.filled_context() | {"pictures": _made(demo_record())}
    with pytest.raises(BadTemplate):
        filled(_template("{{ pictures[0].image." + reach + " }}"), context, job.MADE)


def test_an_own_template_prints_a_picture_where_it_asks_for_it() -> None:
    context = job.filled_context() | {"pictures": _made(demo_record())}
    made = opened(filled(_template("Before {{ pictures[0].image }}"), context, job.MADE))

    assert len(list(made.element.body.iter(f"{WP}docPr"))) == 1
    plain = opened(filled(_template("{{ job.place }}"), context, job.MADE))
    assert not list(plain.element.body.iter(f"{WP}docPr"))
