"""The template that comes with Farboard, with a guide in it, for a person to edit."""

from __future__ import annotations

import io
import zipfile
from datetime import UTC, datetime, timedelta
from typing import Any
from xml.sax.saxutils import escape

from records.demo import demo_record
from records.document.context import context
from records.document.guide import guide
from records.document.package import TEMPLATE, packed
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.certifier import new_reading_id
from records.model.fabric import Photo
from records.model.reading import Figure, NotNeeded, Quantity, Reading, place_of, slot_of
from records.model.record import Record
from records.model.slots import slots
from records.terms import Part, Stage

_BODY = "word/document.xml"
_MADE = datetime(2026, 3, 21, 17, 30, tzinfo=UTC)
_FINGERPRINT = "3F2A-91BC-07DE-55AA"


def template_with_guide() -> bytes:
    """Return the template as the bytes of a .docx file, with the guide at its end.

    Filled, it gives the same text as the template without: each line of the guide is a comment.
    """
    with zipfile.ZipFile(io.BytesIO(TEMPLATE.read_bytes())) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    body = parts[_BODY].decode()
    at = body.rindex("<w:sectPr")
    lines = "".join(map(_comment, guide(example_contexts())))
    parts[_BODY] = f"{body[:at]}{lines}{body[at:]}".encode()
    return packed(parts)


def example_contexts() -> list[dict[str, Any]]:
    """Return what the schedules of a few jobs are filled with, so that no list is empty in all.

    The demo job, an empty record, and the demo job with what is rare: a test that is not needed, a
    test of few circuits, a photograph, and why a cable was chosen.
    """
    demo = demo_record()
    rare = _with_photograph(_with_rare_readings(demo))
    return [_context(demo), _context(Record()), _context(rare, why_cable=True)]


def _with_photograph(record: Record) -> Record:
    """Return a job with a photograph, and a feed of one run."""
    seen = Photo(file="photos/north.jpg", note="before the boards")
    first, *rest = record.fabric.surfaces
    surfaces = (first.model_copy(update={"photos": (seen,)}), *rest)
    fabric = record.fabric.model_copy(update={"surfaces": surfaces, "legs": ()})
    feed = record.feed.model_copy(update={"runs": record.feed.runs[:1]})
    return record.model_copy(update={"fabric": fabric, "feed": feed})


def _with_rare_readings(record: Record) -> Record:
    at = max(each.at for each in record.readings) + timedelta(hours=1)
    place = place_of(Part.CIRCUIT, record.circuits[0].id)
    for slot, taken in (
        (slots(record)[-1], NotNeeded(reason="not fitted in this job")),
        (slot_of(Quantity.R2_LONG, place, Stage.DEAD), Figure(value=0.3)),
    ):
        made = Reading(id=new_reading_id(record), slot=slot, taken=taken, at=at)
        record = record.model_copy(update={"readings": (*record.readings, made)})
    return record


def _context(record: Record, *, why_cable: bool = False) -> dict[str, Any]:
    follows = expected(record)
    verdicts = review(record, follows)
    standings = progress(record, verdicts)
    return context(
        record,
        follows,
        verdicts,
        standings,
        fingerprint=_FINGERPRINT,
        made=_MADE,
        why_cable=why_cable,
    )


def _comment(line: str) -> str:
    text = escape(f"{{#p {line} #}}")
    look = '<w:rPr><w:color w:val="7F7F7F"/><w:sz w:val="16"/></w:rPr>'
    return f'<w:p><w:r>{look}<w:t xml:space="preserve">{text}</w:t></w:r></w:p>'
