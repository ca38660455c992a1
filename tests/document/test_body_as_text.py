"""The body of the own template, filled as a text, says what the tree that docxtpl makes says."""

from __future__ import annotations

import io
import re
import zipfile
from xml.parsers.expat import ExpatError

import pytest
from lxml import etree

from records.document import filling
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.errors import BadTemplate
from tests.document import job
from tests.document.generated import job_of

PAGES = "word/document.xml"


def parts(*, own: bool, count: int) -> dict[str, bytes]:
    record = job_of(count)
    document = filled(TEMPLATE.read_bytes(), job.filled_context(record), job.MADE, own=own)
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def canonical(xml: bytes) -> bytes:
    """Return XML as one text for all ways to write it; docxtpl numbers drawings from 1001."""
    whole: bytes = etree.tostring(etree.fromstring(xml), method="c14n")
    return re.sub(rb'(<wp:docPr [^>]*?\bid=")(?:100)?(\d+")', rb"\1\2", whole)


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 9])
def test_the_pages_are_those_that_the_usual_way_makes(count):
    quick, usual = parts(own=True, count=count), parts(own=False, count=count)

    assert canonical(quick[PAGES]) == canonical(usual[PAGES])
    assert quick.keys() == usual.keys()


def test_drawings_have_each_their_own_number():
    drawing = '<wp:docPr id="1" name="A drawing"/>'

    numbers = re.findall(r' id="(\d+)"', filling.tidied(f"<w:p>{drawing}</w:p>{drawing}"))

    assert numbers == ["1", "2"]


@pytest.mark.parametrize("broken", ["<w:p><w:p>", "<strange:p/>", "&nobody;", "</w:body>"])
def test_what_is_no_xml_is_never_written(broken, monkeypatch):
    """A word processor drops what it can't read, or opens nothing at all, without a word."""
    tidy = filling.tidied
    monkeypatch.setattr(filling, "tidied", lambda xml: tidy(xml).replace("<w:p>", broken, 1))

    with pytest.raises(BadTemplate) as caught:
        filled(TEMPLATE.read_bytes(), job.filled_context(), job.MADE, own=True)

    assert isinstance(caught.value.__cause__, ExpatError)
