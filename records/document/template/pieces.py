"""Paragraphs, tables and sections of a word-processor document (ECMA-376 part 1), as XML text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from xml.sax.saxutils import escape

TWIPS_PER_MM = 1440 / 25.4


def twips(mm: float) -> int:
    """Return a length in twentieths of a point, from millimetres."""
    return round(mm * TWIPS_PER_MM)


def run(text: str, *, bold: bool = False, style: str = "") -> str:
    """Return a run of text; template tags in it stay as they are."""
    look = (f'<w:rStyle w:val="{style}"/>' if style else "") + ("<w:b/>" if bold else "")
    return (
        f"<w:r>{f'<w:rPr>{look}</w:rPr>' if look else ''}"
        f'<w:t xml:space="preserve">{escape(text)}</w:t></w:r>'
    )


def field(instruction: str) -> str:
    """Return a field that the word processor fills, such as PAGE."""
    return f'<w:fldSimple w:instr=" {instruction} "><w:r><w:t>1</w:t></w:r></w:fldSimple>'


TAB = "<w:r><w:tab/></w:r>"


def para(
    *runs: str, style: str = "Normal", tab_mm: float | None = None, inside: str = "",
    new_page: bool = False,
) -> str:  # fmt: skip
    """Return a paragraph; a string that is no XML yet becomes a run.

    Args:
        runs: Texts or finished runs, in order.
        style: Id of a paragraph style in `look.STYLES`.
        tab_mm: Where a right-hand tab stop stands, from the left margin [mm].
        inside: A section that ends with this paragraph.
        new_page: Whether it starts a page.
    """
    stop = (
        f'<w:tabs><w:tab w:val="right" w:pos="{twips(tab_mm)}"/></w:tabs>'
        if tab_mm is not None
        else ""
    )
    before = "<w:pageBreakBefore/>" if new_page else ""
    body = "".join(each if each.startswith("<w:") else run(each) for each in runs)
    return f'<w:p><w:pPr><w:pStyle w:val="{style}"/>{before}{stop}{inside}</w:pPr>{body}</w:p>'


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its heading, its width [mm], and whether a person writes in it."""

    heading: str
    width: float
    to_fill_in: bool = False


def cell(
    *paragraphs: str, width: float, style: str = "Cell", fill: str = "", span: int = 1,
    to_fill_in: bool = False,
) -> str:  # fmt: skip
    """Return a table cell of paragraphs; a string that is no paragraph yet becomes one."""
    look = f'<w:tcW w:w="{twips(width)}" w:type="dxa"/>'
    look += f'<w:gridSpan w:val="{span}"/>' if span > 1 else ""
    if to_fill_in:
        look += "<w:tcBorders>" + "".join(
            f'<w:{side} w:val="single" w:sz="6" w:space="0" w:color="{INK}"/>'
            for side in ("top", "left", "bottom", "right")
        )
        look += "</w:tcBorders>"
    look += f'<w:shd w:val="clear" w:color="auto" w:fill="{fill}"/>' if fill else ""
    body = "".join(
        each if each.startswith("<w:p>") else para(each, style=style) for each in paragraphs
    )
    return f"<w:tc><w:tcPr>{look}</w:tcPr>{body}</w:tc>"


def row(*cells: str, repeats: bool = False, height: float | None = None) -> str:
    """Return a table row that no page break splits; `repeats`: again on top of each page."""
    look = "<w:cantSplit/>"
    look += f'<w:trHeight w:val="{twips(height)}" w:hRule="atLeast"/>' if height else ""
    look += "<w:tblHeader/>" if repeats else ""
    return f"<w:tr><w:trPr>{look}</w:trPr>{''.join(cells)}</w:tr>"


INK = "22303C"
BRASS = "9A7B2F"
HAIR = "A9A493"
BAND = "F0ECE0"
GROUP = "E4E7EA"


def table(widths: Iterable[float], *rows: str, ruled: bool = True) -> str:
    """Return a table of fixed widths [mm] with a hairline under each row, no upright rules."""
    widths = tuple(widths)
    rules = (
        f'<w:top w:val="single" w:sz="12" w:space="0" w:color="{INK}"/>'
        f'<w:bottom w:val="single" w:sz="8" w:space="0" w:color="{INK}"/>'
        f'<w:insideH w:val="single" w:sz="4" w:space="0" w:color="{HAIR}"/>'
        if ruled
        else f'<w:left w:val="single" w:sz="36" w:space="0" w:color="{BRASS}"/>'
    )
    return (
        f'<w:tbl><w:tblPr><w:tblW w:w="{sum(map(twips, widths))}" w:type="dxa"/>'
        f"<w:tblBorders>{rules}</w:tblBorders>"
        '<w:tblLayout w:type="fixed"/><w:tblCellMar><w:left w:w="57" w:type="dxa"/>'
        '<w:right w:w="57" w:type="dxa"/></w:tblCellMar></w:tblPr><w:tblGrid>'
        + "".join(f'<w:gridCol w:w="{twips(each)}"/>' for each in widths)
        + f"</w:tblGrid>{''.join(rows)}</w:tbl>"
    )


def heading_row(columns: Iterable[Column]) -> str:
    """Return the row of column headings, which repeats on each page."""
    cells = (cell(each.heading, width=each.width, style="CellHead", fill=BAND) for each in columns)
    return row(*cells, repeats=True)


def tag_row(tag: str, columns: Iterable[Column]) -> str:
    """Return a row that holds a template tag such as `{%tr for … %}` and vanishes with it."""
    widths = [each.width for each in columns]
    return row(cell(tag, width=sum(widths), span=len(widths), style="Tag"))


def tag(text: str) -> str:
    """Return a paragraph that holds a template tag such as `{%p if … %}` and vanishes with it."""
    return para(text, style="Tag")


def section(orientation: str, *, number: int) -> str:
    """Return the properties of a section on A4, with its own head and foot.

    Args:
        orientation: "portrait" or "landscape".
        number: Which head and foot parts it takes: `header{number}.xml`.
    """
    short, long = twips(210), twips(297)
    width, height = (short, long) if orientation == "portrait" else (long, short)
    side = twips(MARGIN[orientation])
    turned = ' w:orient="landscape"' if orientation == "landscape" else ""
    return (
        f'<w:sectPr><w:headerReference w:type="default" r:id="rIdHead{number}"/>'
        f'<w:footerReference w:type="default" r:id="rIdFoot{number}"/>'
        f'<w:type w:val="nextPage"/><w:pgSz w:w="{width}" w:h="{height}"{turned}/>'
        f'<w:pgMar w:top="{twips(20)}" w:right="{side}" w:bottom="{twips(22)}" w:left="{side}"'
        f' w:header="{twips(9)}" w:footer="{twips(8)}" w:gutter="0"/></w:sectPr>'
    )


MARGIN = {"portrait": 18.0, "landscape": 14.0}
TEXT_WIDTH = {"portrait": 210 - 2 * 18.0, "landscape": 297 - 2 * 14.0}
