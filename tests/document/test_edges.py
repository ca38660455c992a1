"""What can be changed in a schedule beside the text of its body, and is seen all the same.

The documents are the schedule of the demo job, changed in one part as somebody could do by hand.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable

import pytest

from records.demo import demo_record
from records.document.comparison import Comparison, compared
from records.document.package import packed
from records.document.paragraphs import Pages, pages
from records.document.schedule import schedule_bytes
from tests.document import job

pytestmark = pytest.mark.slow

BODY, CORE, SETTINGS = "word/document.xml", "docProps/core.xml", "word/settings.xml"
Edit = Callable[[str], str]


def _all(pattern: str, new: str) -> Edit:
    return lambda text: re.sub(pattern, new, text, flags=re.DOTALL)


def _once(pattern: str, new: str) -> Edit:
    return lambda text: re.sub(pattern, new, text, count=1, flags=re.DOTALL)


@pytest.fixture(scope="module")
def parts() -> dict[str, bytes]:
    made = schedule_bytes(demo_record(), fingerprint=job.FINGERPRINT, made=job.MADE)
    with zipfile.ZipFile(io.BytesIO(made)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.fixture(scope="module")
def record(parts: dict[str, bytes]) -> Pages:
    return pages(io.BytesIO(packed(parts)))


def _changed(parts: dict[str, bytes], record: Pages, part: str, edit: Edit) -> Comparison:
    text = parts[part].decode()
    new = edit(text)
    assert new != text
    return compared(pages(io.BytesIO(packed({**parts, part: new.encode()}))), record)


SEEN: dict[str, tuple[str, Edit, str]] = {
    "a first page with an empty head": (
        BODY,
        _all("</w:sectPr>", "<w:titlePg/></w:sectPr>"),
        "head of the first page",
    ),
    "even pages with an empty head": (
        SETTINGS,
        _once("(<w:settings[^>]*>)", r"\1<w:evenAndOddHeaders/>"),
        "head of the even",
    ),
    "a head that no page asks for": (
        BODY,
        _all("<w:headerReference[^>]*/>", ""),
        "head or foot of the pages",
    ),
    "a foot that no page asks for": (
        BODY,
        _all("<w:footerReference[^>]*/>", ""),
        "head or foot of the pages",
    ),
    "another title": (CORE, _once("Wiring record", "Certificate"), "title of the document"),
    "no title": (CORE, _once("<dc:title>[^<]*</dc:title>", ""), "title of the document"),
    "another subject": (CORE, _once("<dc:subject>[^<]*", "<dc:subject>All passed"), "subject of"),
    "other words for a picture": (
        BODY,
        _once('descr="[^"]*"', 'descr="All passed"'),
        "words of a picture",
    ),
    "a number that the word processor puts before a text": (
        BODY,
        _once(
            '(<w:pStyle w:val="Lead"/>)',
            r'\1<w:numPr><w:ilvl w:val="0"/><w:numId w:val="3"/></w:numPr>',
        ),
        "Wiring record",
    ),
    "a text moved off the page": (
        BODY,
        _once('(<w:pStyle w:val="Lead"/>)', r'\1<w:ind w:left="30000"/>'),
        "Wiring record",
    ),
    "a text moved off the other edge": (
        BODY,
        _once('(<w:pStyle w:val="Lead"/>)', r'\1<w:ind w:left="-30000"/>'),
        "Wiring record",
    ),
    "a verdict turned": (BODY, _once("✗ outside: RCD time", "✓ outside: RCD time"), "Findings"),
    "a unit": (BODY, _once("342 ms, limit", "342 s, limit"), "Findings"),
    "a word put in by a tracked change": (
        BODY,
        _once(
            "(<w:t[^>]*>)342 ms",
            r"<w:t>34</w:t></w:r><w:ins><w:r><w:t>1</w:t></w:r></w:ins>"
            r"<w:r>\g<1>2 ms",
        ),
        "F1 ",
    ),
}


@pytest.mark.parametrize(("part", "edit", "place"), SEEN.values(), ids=SEEN)
def test_it_is_seen_and_its_place_is_named(
    parts: dict[str, bytes], record: Pages, part: str, edit: Edit, place: str
) -> None:
    found = _changed(parts, record, part, edit)

    assert found.differences
    assert found.differences[0].place.startswith(place)


SAME: dict[str, tuple[str, Edit]] = {
    "words of pictures dropped": (BODY, _all('descr="[^"]*"', 'descr=""')),
    "no number, as saved for headings": (
        BODY,
        _once(
            '(<w:pStyle w:val="Heading1"/>)',
            r'\1<w:numPr><w:ilvl w:val="0"/><w:numId w:val="0"/></w:numPr>',
        ),
    ),
    "no first page after all": (
        BODY,
        _all("</w:sectPr>", '<w:titlePg w:val="false"/></w:sectPr>'),
    ),
    "an indent of its own": (
        BODY,
        _once('(<w:pStyle w:val="Lead"/>)', r'\1<w:ind w:left="400" w:right="-20"/>'),
    ),
}


@pytest.mark.parametrize(("part", "edit"), SAME.values(), ids=SAME)
def test_what_word_processors_do_when_they_save_is_no_difference(
    parts: dict[str, bytes], record: Pages, part: str, edit: Edit
) -> None:
    assert _changed(parts, record, part, edit).same


def test_a_drawing_that_was_changed_or_drawn_anew_is_spoken_of(
    parts: dict[str, bytes], record: Pages
) -> None:
    """LibreOffice draws shapes again when it saves, so that this alone proves no change."""
    moved = _changed(parts, record, BODY, _once('<a:off x="[1-9][0-9]*"', '<a:off x="36001"'))
    assert moved.redrawn
    assert moved.same
    assert not compared(record, record).redrawn


def test_swapped_rows_are_seen(parts: dict[str, bytes], record: Pages) -> None:
    def swap(text: str) -> str:
        rows = re.findall("<w:tr[ >].*?</w:tr>", text, flags=re.DOTALL)
        five, six = (
            next(each for each in rows if f">{name}<" in each and "Cell" in each and ">0.2" in each)
            for name in ("C5", "C6")
        )
        return text.replace(five, "@").replace(six, five).replace("@", six)

    assert _changed(parts, record, BODY, swap).differences
