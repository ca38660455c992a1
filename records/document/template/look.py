"""The page and the styles of the template: the look is in styles, nothing is formatted by hand."""

from __future__ import annotations

from typing import Any

from docx import Document
from docx.document import Document as Doc
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement, parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Mm, Pt, RGBColor

FONT = "Arial"
TEXT_WIDTH = 180.0
"""Of A4 between margins of 15 mm [mm]."""
_MARGIN = 15.0
_KEPT_PARTS = (
    "/styles",
    "/settings",
    "/fontTable",
    "/numbering",
    "/officeDocument",
    "/core-properties",
    "/header",
    "/footer",
)
_PARAGRAPHS: dict[str, dict[str, Any]] = {
    # name: size, space before and after [pt], and what else holds
    "Lead": {"size": 9, "after": 4},
    "Lead kept": {"size": 9, "after": 4, "kept": True},
    "Cell": {"size": 9},
    "Cell kept": {"size": 9, "kept": True},
    "Under": {"size": 9, "indent": 9.0},
    "Cell name": {"size": 9, "bold": True},
    "Cell head": {"size": 9, "bold": True, "kept": True},
    "Group": {"size": 9, "bold": True, "kept": True, "before": 2},
    "Ohms": {"size": 9, "stop": 4.6},
    "Megohms": {"size": 9, "stop": 8.6},
    "Whole": {"size": 9, "stop": 6.4},
    "Big": {"size": 13, "bold": True, "kept": True},
    "Warning": {"size": 9, "bold": True, "after": 3},
    "Drawing text": {"size": 8},
    "Picture": {"size": 9, "before": 3, "after": 3, "kept": True},
    "Picture alone": {"size": 9, "before": 3, "after": 3},
    "Contents": {"size": 9, "right": TEXT_WIDTH, "halves": True, "kept": True},
    "Contents last": {"size": 9, "right": TEXT_WIDTH, "halves": True},
    "Tag": {"size": 2},
    "Gap": {"size": 4},
    "New page": {"size": 2, "breaks": True},
    "Head": {"size": 8, "bold": True, "right": TEXT_WIDTH},
    "Foot first": {"size": 7, "before": 4},
    "Foot": {"size": 7},
}
_CHARACTERS = {
    "Link": {},
    "Value": {},
    "Strong": {"bold": True},
    "Quiet": {"italic": True},
    "Flag": {"bold": True, "shaded": True},
}


def blank() -> Doc:
    """Return an empty document with the page and the styles."""
    document = Document()
    section = document.sections[0]
    section.page_width, section.page_height = Mm(210), Mm(297)
    section.left_margin = section.right_margin = Mm(_MARGIN)
    section.top_margin, section.bottom_margin = Mm(16), Mm(16)
    section.header_distance, section.footer_distance = Mm(8), Mm(7)
    _prune(document)
    _defaults(document)
    for name, look in _PARAGRAPHS.items():
        _paragraph_style(document, name, **look)
    for name, look in _CHARACTERS.items():
        _character_style(document, name, **look)
    _heading(document, 1, 14, before=9, after=3, ruled=True)
    _heading(document, 2, 10.5, before=7, after=2)
    _title(document)
    _caption(document)
    _table_style(document)
    return document


def _prune(document: Doc) -> None:
    """Take out what python-docx's own template brings and this one doesn't need."""
    kept = {
        "Normal",
        "Default Paragraph Font",
        "Normal Table",
        "No List",
        "Heading 1",
        "Heading 2",
        "Title",
        "Caption",
    }
    for style in list(document.styles):
        if style.name not in kept:
            style.delete()
    for owner in (document.part, document.part.package):
        for rel in list(owner.rels.values()):
            if not rel.reltype.endswith(_KEPT_PARTS):
                del owner.rels[rel.rId]
    for rel in list(document.part.rels.values()):
        if rel.reltype.endswith("/numbering"):
            del document.part.rels[rel.rId]
    settings = document.settings.element
    for each in list(settings):
        settings.remove(each)
    settings.append(parse_xml(f'<w:zoom {nsdecls("w")} w:percent="100"/>'))
    settings.append(parse_xml(f'<w:decimalSymbol {nsdecls("w")} w:val="."/>'))
    settings.append(parse_xml(f'<w:listSeparator {nsdecls("w")} w:val=","/>'))
    latent = document.styles.element.find(qn("w:latentStyles"))
    if latent is not None:
        document.styles.element.remove(latent)
    about = document.core_properties
    about.author = about.last_modified_by = about.comments = about.keywords = ""
    about.title = "Schedule"


def _defaults(document: Doc) -> None:
    defaults = document.styles.element.find(qn("w:docDefaults"))
    run = defaults.find(qn("w:rPrDefault")).find(qn("w:rPr"))
    for each in list(run):
        run.remove(each)
    run.append(
        parse_xml(
            f'<w:rFonts {nsdecls("w")} w:ascii="{FONT}" w:hAnsi="{FONT}" w:eastAsia="{FONT}" '
            f'w:cs="{FONT}"/>'
        )
    )
    run.append(parse_xml(f'<w:sz {nsdecls("w")} w:val="19"/>'))
    run.append(parse_xml(f'<w:lang {nsdecls("w")} w:val="en-GB" w:eastAsia="en-GB"/>'))
    normal = document.styles["Normal"]
    _plain(normal)
    normal.paragraph_format.space_before = normal.paragraph_format.space_after = Pt(0)
    normal.font.size = Pt(9.5)


def _paragraph_style(
    document: Doc,
    name: str,
    size: float,
    *,
    before: float = 0,
    after: float = 0,
    bold: bool = False,
    kept: bool = False,
    stop: float | None = None,
    right: float | None = None,
    halves: bool = False,
    indent: float = 0,
    breaks: bool = False,
) -> None:
    style: Any = document.styles.add_style(name, WD_STYLE_TYPE.PARAGRAPH)
    style.base_style = document.styles["Normal"]
    style.font.size, style.font.bold = Pt(size), bold or None
    text = style.paragraph_format
    text.space_before, text.space_after = Pt(before), Pt(after)
    if indent:
        text.left_indent = Mm(indent)
    if breaks:
        text.page_break_before = True
    if kept:
        text.keep_with_next = True
    if stop is not None:
        # In a cell numbers align at this stop without a tab character.
        text.tab_stops.add_tab_stop(Mm(stop), WD_TAB_ALIGNMENT.DECIMAL)
    if halves:
        text.tab_stops.add_tab_stop(Mm(TEXT_WIDTH / 2 - 4), WD_TAB_ALIGNMENT.RIGHT)
        text.tab_stops.add_tab_stop(Mm(TEXT_WIDTH / 2 + 4), WD_TAB_ALIGNMENT.LEFT)
    if right is not None:
        text.tab_stops.add_tab_stop(Mm(right), WD_TAB_ALIGNMENT.RIGHT)


def _character_style(
    document: Doc, name: str, *, bold: bool = False, italic: bool = False, shaded: bool = False
) -> None:
    style: Any = document.styles.add_style(name, WD_STYLE_TYPE.CHARACTER)
    style.font.bold, style.font.italic = bold or None, italic or None
    if shaded:
        shade = OxmlElement("w:shd")
        for attribute, value in (("val", "clear"), ("color", "auto"), ("fill", "D0D0D0")):
            shade.set(qn(f"w:{attribute}"), value)
        style.element.get_or_add_rPr().append(shade)


def _heading(
    document: Doc, level: int, size: float, *, before: float, after: float, ruled: bool = False
) -> None:
    style: Any = document.styles[f"Heading {level}"]
    _plain(style)
    style.font.size, style.font.bold, style.font.color.rgb = Pt(size), True, RGBColor(0, 0, 0)
    text = style.paragraph_format
    text.space_before, text.space_after, text.keep_with_next = Pt(before), Pt(after), True
    if ruled:
        _rule(style)


def _title(document: Doc) -> None:
    style: Any = document.styles["Title"]
    _plain(style)
    style.font.size, style.font.bold, style.font.color.rgb = Pt(18), True, RGBColor(0, 0, 0)
    style.paragraph_format.space_after = Pt(2)


def _caption(document: Doc) -> None:
    style: Any = document.styles["Caption"]
    _plain(style)
    style.font.size, style.font.bold, style.font.color.rgb = Pt(9), True, RGBColor(0, 0, 0)
    text = style.paragraph_format
    text.space_before, text.space_after, text.keep_with_next = Pt(6), Pt(2), True


def _plain(style: Any) -> None:
    """Take the looks of python-docx's own template off a style."""
    for name in ("w:rPr", "w:pPr"):
        found = style.element.find(qn(name))
        if found is not None:
            keep = [each for each in found if each.tag == qn("w:outlineLvl")]
            for each in list(found):
                if each not in keep:
                    found.remove(each)


def _rule(style: Any) -> None:
    borders = parse_xml(
        f'<w:pBdr {nsdecls("w")}><w:bottom w:val="single" w:sz="8" w:space="1" w:color="000000"/>'
        "</w:pBdr>"
    )
    properties = style.element.get_or_add_pPr()
    properties.insert_element_before(
        borders, "w:shd", "w:tabs", "w:spacing", "w:ind", "w:jc", "w:outlineLvl"
    )


def _table_style(document: Doc) -> None:
    line = 'w:val="single" w:space="0" w:color='
    document.styles.element.append(
        parse_xml(
            f'<w:style {nsdecls("w")} w:type="table" w:customStyle="1" w:styleId="Ruled">'
            '<w:name w:val="Ruled"/><w:basedOn w:val="TableNormal"/><w:tblPr><w:tblBorders>'
            f'<w:top w:sz="10" {line}"000000"/><w:bottom w:sz="6" {line}"000000"/>'
            f'<w:insideH w:sz="4" {line}"909090"/></w:tblBorders><w:tblCellMar>'
            '<w:left w:w="50" w:type="dxa"/><w:right w:w="30" w:type="dxa"/></w:tblCellMar>'
            '</w:tblPr><w:tblStylePr w:type="firstRow"><w:tcPr><w:shd w:val="clear" w:color="auto" '
            'w:fill="E6E6E6"/></w:tcPr></w:tblStylePr></w:style>'
        )
    )
    boxed = 'w:val="single" w:sz="12" w:space="0" w:color="000000"'
    document.styles.element.append(
        parse_xml(
            f'<w:style {nsdecls("w")} w:type="table" w:customStyle="1" w:styleId="Boxed">'
            '<w:name w:val="Boxed"/><w:basedOn w:val="TableNormal"/><w:tblPr><w:tblBorders>'
            + "".join(f"<w:{side} {boxed}/>" for side in ("top", "left", "bottom", "right"))
            + '<w:insideV w:val="single" w:sz="6" w:space="0" w:color="000000"/></w:tblBorders>'
            '<w:tblCellMar><w:left w:w="60" w:type="dxa"/><w:right w:w="30" w:type="dxa"/>'
            "</w:tblCellMar></w:tblPr></w:style>"
        )
    )
