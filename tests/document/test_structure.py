"""The parts of a schedule are built as the standard of the format asks for.

Order of children: ECMA-376, 1st edition, part 4, wml.xsd (transitional) and dml-main.xsd; of
shapes: [MS-DOCX] 2.2 (wps, wpg). From memory, as no schema was at hand; word processors refuse or
repair files that depart from it.
"""

from __future__ import annotations

import io
import posixpath
import zipfile
from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from lxml import etree

from records.demo import demo_record
from records.document.own_template import template_with_guide
from records.document.schedule import schedule_bytes
from records.document.workings import WorkingsOf
from records.model.record import Record
from tests.document import job
from tests.document.generated import job_of

pytestmark = pytest.mark.slow

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
WP = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"
WPS = "{http://schemas.microsoft.com/office/word/2010/wordprocessingShape}"
R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
MC = "{http://schemas.openxmlformats.org/markup-compatibility/2006}"

ORDER = {
    f"{W}pPr": "pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr "
    "suppressLineNumbers pBdr shd tabs suppressAutoHyphens kinsoku wordWrap overflowPunct "
    "topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd snapToGrid spacing ind "
    "contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment "
    "textboxTightWrap outlineLvl divId cnfStyle rPr sectPr pPrChange",
    f"{W}rPr": "rStyle rFonts b bCs i iCs caps smallCaps strike dstrike outline shadow emboss "
    "imprint noProof snapToGrid vanish webHidden color spacing w kern position sz szCs highlight "
    "u effect bdr shd fitText vertAlign rtl cs em lang eastAsianLayout specVanish oMath",
    f"{W}tblPr": "tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize "
    "tblW jc tblCellSpacing tblInd tblBorders shd tblLayout tblCellMar tblLook tblCaption "
    "tblDescription",
    f"{W}tcPr": "cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection "
    "tcFitText vAlign hideMark",
    f"{W}sectPr": "headerReference footerReference footnotePr endnotePr type pgSz pgMar paperSrc "
    "pgBorders lnNumType pgNumType cols formProt vAlign noEndnote titlePg textDirection bidi "
    "rtlGutter docGrid",
    f"{W}tbl": "tblPr tblGrid tr",
    f"{W}tr": "tblPrEx trPr tc",
    f"{W}style": "name aliases basedOn next link autoRedefine hidden uiPriority semiHidden "
    "unhideWhenUsed qFormat locked personal personalCompose personalReply rsid pPr rPr tblPr trPr "
    "tcPr tblStylePr",
    f"{W}tblBorders": "top left start bottom right end insideH insideV",
    f"{W}tcBorders": "top left start bottom right end insideH insideV tl2br tr2bl",
    f"{W}pBdr": "top left bottom right between bar",
    f"{W}tblCellMar": "top left start bottom right end",
    f"{W}styles": "docDefaults latentStyles style",
    f"{W}settings": "writeProtection view zoom removePersonalInformation evenAndOddHeaders compat "
    "rsids themeFontLang clrSchemeMapping decimalSymbol listSeparator",
    f"{WP}inline": "extent effectExtent docPr cNvGraphicFramePr graphic",
    f"{WPS}wsp": "cNvPr cNvSpPr cNvCnPr spPr style extLst txbx linkedTxbx bodyPr",
    f"{WPS}spPr": "xfrm custGeom prstGeom noFill solidFill gradFill pattFill ln",
    f"{A}ln": "noFill solidFill prstDash round bevel miter headEnd tailEnd",
    f"{A}custGeom": "avLst gdLst ahLst cxnLst rect pathLst",
    f"{A}xfrm": "off ext chOff chExt",
}
ONCE = {f"{W}pPr", f"{W}rPr", f"{W}tblPr", f"{W}tcPr"}
INSIDE = {
    f"{W}p": {"pPr", "r", "hyperlink", "bookmarkStart", "bookmarkEnd"},
    f"{W}tc": {"tcPr", "p", "tbl"},
    f"{W}hyperlink": {"r"},
    f"{W}body": {"p", "tbl", "sectPr"},
    f"{W}r": {
        "rPr",
        "t",
        "tab",
        "br",
        "fldChar",
        "instrText",
        "AlternateContent",
    },
}
FIRST = {f"{W}p": "pPr", f"{W}r": "rPr", f"{W}tc": "tcPr"}


def hostile() -> Record:
    """Return a job in whose names stands what could break a document."""
    demo = demo_record()
    names = (
        "R&D <shed> ]]>",
        "עברית مرحبا",
        "👩‍🔧 é e\u0301 \u202e turned",
        "{{ 7*7 }} {% if %}",
        "x" * 180,
        "</w:t></w:r></w:p>",
        "tab\there",
    )
    circuits = tuple(
        each.model_copy(update={"name": names[at % len(names)]})
        for at, each in enumerate(demo.circuits)
    )
    return demo.model_copy(update={"circuits": circuits})


def _made(record: Record, **more: Any) -> bytes:
    return schedule_bytes(record, fingerprint=job.FINGERPRINT, made=job.MADE, **more)


MADE: dict[str, Callable[[], bytes]] = {
    "demo": lambda: _made(demo_record(), workings=WorkingsOf.ALL, why_cable=True),
    "empty": lambda: _made(Record()),
    "one circuit": lambda: _made(job_of(1)),
    "twenty circuits": lambda: _made(job_of(20)),
    "hostile": lambda: _made(hostile()),
    "template with its guide": template_with_guide,
}


@pytest.fixture(scope="module", params=MADE)
def parts(request: pytest.FixtureRequest) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(MADE[request.param]())) as archive:
        assert len(archive.namelist()) == len(set(archive.namelist()))
        return {name: archive.read(name) for name in archive.namelist()}


def _trees(parts: dict[str, bytes]) -> Iterator[Any]:
    for name, data in parts.items():
        if name.endswith((".xml", ".rels")):
            yield etree.fromstring(data)


def _local(element: Any) -> str:
    return str(etree.QName(element).localname)


def test_children_stand_in_the_order_of_the_schema(parts: dict[str, bytes]) -> None:
    for tree in _trees(parts):
        for each in tree.iter(*ORDER):
            order = ORDER[each.tag].split()
            names = [_local(child) for child in each]
            assert set(names) <= set(order), (each.tag, names)
            places = [order.index(name) for name in names]
            assert places == sorted(places), (each.tag, names)
            if each.tag in ONCE:
                assert len(names) == len(set(names)), (each.tag, names)


def test_elements_hold_only_what_they_may(parts: dict[str, bytes]) -> None:
    for tree in _trees(parts):
        for each in tree.iter(*INSIDE):
            names = [_local(child) for child in each]
            assert set(names) <= INSIDE[each.tag], (each.tag, names)
            first = FIRST.get(each.tag)
            assert first not in names[1:], (each.tag, names)
            if each.tag == f"{W}tc":
                assert names[-1] == "p"
            if each.tag == f"{W}body":
                assert names[-1] == "sectPr"
                assert names.count("sectPr") == 1


def test_each_row_has_as_many_columns_as_its_table(parts: dict[str, bytes]) -> None:
    tree = etree.fromstring(parts["word/document.xml"])
    for table in tree.iter(f"{W}tbl"):
        columns = len(table.find(f"{W}tblGrid"))
        assert len(table.findall(f"{W}tr")) > 0
        for row in table.iterfind(f"{W}tr"):
            spans = [each.get(f"{W}val") for each in row.iterfind(f"{W}tc/{W}tcPr/{W}gridSpan")]
            plain = len(row.findall(f"{W}tc")) - len(spans)
            assert plain + sum(map(int, spans)) == columns


def test_bookmarks_and_drawings_have_numbers_of_their_own(parts: dict[str, bytes]) -> None:
    tree = etree.fromstring(parts["word/document.xml"])
    starts = [each.get(f"{W}id") for each in tree.iter(f"{W}bookmarkStart")]
    ends = [each.get(f"{W}id") for each in tree.iter(f"{W}bookmarkEnd")]
    names = [each.get(f"{W}name") for each in tree.iter(f"{W}bookmarkStart")]
    drawings = [each.get("id") for each in tree.iter(f"{WP}docPr")]

    assert Counter(starts) == Counter(ends)
    for each in (starts, names, drawings):
        assert len(each) == len(set(each))
    assert all(len(each) <= 40 for each in names)


def test_each_link_leads_to_a_bookmark(parts: dict[str, bytes]) -> None:
    tree = etree.fromstring(parts["word/document.xml"])
    names = {each.get(f"{W}name") for each in tree.iter(f"{W}bookmarkStart")}
    to = {each.get(f"{W}anchor") for each in tree.iter(f"{W}hyperlink")}
    pages = {each.text.split()[1] for each in tree.iter(f"{W}instrText") if "PAGEREF" in each.text}

    assert to | pages <= names


def test_each_style_that_is_asked_for_is_there(parts: dict[str, bytes]) -> None:
    styles = {
        each.get(f"{W}styleId")
        for each in etree.fromstring(parts["word/styles.xml"]).iter(f"{W}style")
    }
    asked = {
        each.get(f"{W}val")
        for name, data in parts.items()
        if name.startswith("word/") and name.endswith(".xml")
        for each in etree.fromstring(data).iter(
            f"{W}pStyle", f"{W}rStyle", f"{W}tblStyle", f"{W}basedOn"
        )
    }

    assert asked <= styles


def test_each_part_has_its_kind_and_each_relation_its_part(parts: dict[str, bytes]) -> None:
    kinds = etree.fromstring(parts["[Content_Types].xml"])
    known = {each.get("PartName") for each in kinds if each.get("PartName")}
    ends = {each.get("Extension") for each in kinds if each.get("Extension")}
    for name in parts:
        assert f"/{name}" in known or name.rpartition(".")[2] in ends, name
    assert {each.removeprefix("/") for each in known} <= set(parts)
    for name in (each for each in parts if each.endswith(".rels")):
        folder = posixpath.dirname(posixpath.dirname(name))
        for relation in etree.fromstring(parts[name]):
            assert relation.get("TargetMode") is None
            target = posixpath.normpath(posixpath.join("/", folder, relation.get("Target")))
            assert target.removeprefix("/") in parts
    tree = etree.fromstring(parts["word/document.xml"])
    relations = {each.get("Id") for each in etree.fromstring(parts["word/_rels/document.xml.rels"])}
    assert {
        value for each in tree.iter() for key, value in each.attrib.items() if key.startswith(R)
    } <= relations


def test_what_a_choice_asks_for_is_declared_there(parts: dict[str, bytes]) -> None:
    tree = etree.fromstring(parts["word/document.xml"])
    for each in tree.iter(f"{MC}Choice"):
        assert set(each.get("Requires").split()) <= set(each.nsmap)
    for each in tree.iter(f"{MC}AlternateContent"):
        assert [_local(child) for child in each] == ["Choice", "Fallback"]
    ignored = tree.get(f"{MC}Ignorable", "").split()
    assert set(ignored) <= set(tree.nsmap)


def test_text_keeps_its_blanks(parts: dict[str, bytes]) -> None:
    """A text that begins or ends with a blank loses it unless it says so (XML 1.0, 2.10)."""
    for tree in _trees(parts):
        for each in tree.iter(f"{W}t", f"{W}instrText"):
            said = each.text or ""
            if said != said.strip():
                assert each.get("{http://www.w3.org/XML/1998/namespace}space") == "preserve", said


def test_who_hears_the_page_read_gets_through_it(parts: dict[str, bytes]) -> None:
    """Language, title, headings of tables, words for pictures (WCAG 2.1: 1.1.1, 1.3.1, 3.1.1)."""
    styles = etree.fromstring(parts["word/styles.xml"])
    assert [each.get(f"{W}val") for each in styles.iter(f"{W}lang")] == ["en-GB"]
    core = parts["docProps/core.xml"].decode()
    assert "<dc:title>" in core
    body = etree.fromstring(parts["word/document.xml"])
    for table in body.iter(f"{W}tbl"):
        look = table.find(f"{W}tblPr/{W}tblLook")
        first = table.find(f"{W}tr")
        repeats = first.find(f"{W}trPr/{W}tblHeader") is not None
        assert repeats == (look.get(f"{W}firstRow") == "1")
        assert repeats or look.get(f"{W}firstColumn") == "1"
    for drawing in body.iter(f"{WP}docPr"):
        assert drawing.get("name")
        assert len(drawing.get("descr", "")) > 20
