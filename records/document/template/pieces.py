"""Paragraphs, tables, links and fields, added to a document of python-docx."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from docx.document import Document as Doc
from docx.enum.section import WD_SECTION
from docx.enum.table import WD_ROW_HEIGHT_RULE
from docx.oxml import OxmlElement, parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Mm
from docx.table import _Cell as TableCell

from records.document.template.look import TEXT_WIDTH


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: heading, width [mm], what its cell prints, in which style."""

    heading: str
    width: float
    cell: str | Sequence[tuple[str, str]]
    """What is printed; or several paragraphs, each with its style, `{%p … %}` among them."""
    style: str = "Cell"


class Page:
    """A document that pieces are added to, one after the other."""

    def __init__(self, document: Doc) -> None:
        """Take an empty document with its styles."""
        self.document = document
        self._bookmarks = 0

    def heading(self, text: str, name: str = "", *, level: int = 1) -> None:
        """Add a heading; `name`: of a bookmark that links and page numbers lead to."""
        added = self.document.add_paragraph(text, style=f"Heading {level}")
        if name:
            self._bookmarks += 1
            start, end = OxmlElement("w:bookmarkStart"), OxmlElement("w:bookmarkEnd")
            for each in (start, end):
                each.set(qn("w:id"), str(self._bookmarks))
            start.set(qn("w:name"), name)
            first = added.runs[0]._r
            first.addprevious(start)
            first.addnext(end)

    def text(self, text: str, style: str = "Lead") -> None:
        """Add a paragraph."""
        self.document.add_paragraph(text, style=style)

    def tag(self, text: str) -> None:
        """Add a template tag on its own, such as `if findings`; it takes no room."""
        self.document.add_paragraph(f"{{%p {text} %}}", style="Tag")

    def each(self, loop: str, text: str, style: str = "Lead") -> None:
        """Add a paragraph for each of a list: `line in notes`."""
        self.tag(f"for {loop}")
        self.text(text, style)
        self.tag("endfor")

    def contents(self, entries: Sequence[tuple[str, str]]) -> None:
        """Add the contents, two to a line: links, with page numbers that are renewed.

        Args:
            entries: Each with its title and the bookmark that it leads to.
        """
        tab = "<w:r><w:tab/></w:r>"
        for at in range(0, len(entries), 2):
            last = at + 2 >= len(entries)
            added = self.document.add_paragraph(style="Contents last" if last else "Contents")
            links = [
                f'<w:hyperlink w:anchor="{name}" w:history="1"><w:r><w:t>{title}</w:t></w:r>{tab}'
                f"{_field(f'PAGEREF {name} {chr(92)}h', '–')}</w:hyperlink>"
                for title, name in entries[at : at + 2]
            ]
            for each in _runs(tab.join(links)):
                added._p.append(each)

    def caption(self, text: str) -> None:
        """Add what a table is, above it, with its number."""
        added = self.document.add_paragraph("Table ", style="Caption")
        number = 1 + sum(" SEQ Table " in each.text for each in self._instructions())
        for each in _runs(_field("SEQ Table \\* ARABIC", str(number))):
            added._p.append(each)
        added.add_run(f"  {text}")

    def table(
        self,
        caption: str,
        columns: Sequence[Column],
        loop: str,
        *,
        group: tuple[str, ...] = (),
        extra: tuple[str, str] | None = None,
        keep: str = "",
        otherwise: str | None = None,
    ) -> None:
        """Add a table with a heading row that is repeated, and a row for each of a list.

        Args:
            caption: What it is; empty for none.
            columns: Its columns.
            loop: `line in lines`; with `group`, the loop inside it.
            group: `group in log` and what stands over the rows of each: its name, then more.
            extra: A condition, and what a row across all columns prints where it holds.
            keep: Name of the list whose table stays on one page if it has 12 rows or fewer.
            otherwise: What is printed where the list is empty, instead of the table; "": nothing.
        """
        if otherwise is not None:
            self.tag(f"if {(group[0] if group else loop).split(' in ')[1]}")
        if caption:
            self.caption(caption)
        table = self._empty(columns, "Ruled", caption)
        self._heads(table, columns)
        if group:
            self._tag_row(table, f"for {group[0]}")
            self._across(table, group[1], "Group", *group[2:])
        self._tag_row(table, f"for {loop}")
        row = table.add_row()
        _whole(row)
        for cell, column in zip(row.cells, columns, strict=True):
            _fill(cell, column, keep)
            if extra:
                _unruled(cell, "bottom")
        if extra:
            self._tag_row(table, f"if {extra[0]}")
            _unruled(self._across(table, extra[1], "Under"), "top")
            self._tag_row(table, "endif")
        self._tag_row(table, "endfor")
        if group:
            self._tag_row(table, "endfor")
        self.text("", "Gap")
        if otherwise is not None:
            if otherwise:
                self.tag("else")
                self.text(otherwise)
            self.tag("endif")

    def facts(
        self,
        caption: str,
        rows: Sequence[tuple[str, str]],
        *,
        first: float = 36.0,
        room: float = 0.0,
    ) -> None:
        """Add a table of two columns without a heading row: names, and what is printed for each.

        Args:
            caption: What it is; empty for none.
            rows: The names and what is printed, or tags.
            first: Width of the names [mm].
            room: Least height of the last row, to write in by hand [mm].
        """
        if caption:
            self.caption(caption)
        columns = (Column("", first, ""), Column("", TEXT_WIDTH - first, ""))
        table = self._empty(columns, "Ruled", caption, first_row=False)
        for name, text in rows:
            if name.startswith("for ") or name in ("endfor", "endif") or name.startswith("if "):
                self._tag_row(table, name)
                continue
            row = table.add_row()
            _whole(row)
            row.cells[0].paragraphs[0].style = "Cell name"
            row.cells[0].paragraphs[0].add_run(name)
            _fill(row.cells[1], Column("", 0, text), "")
        if room:
            table.rows[-1].height = Mm(room)
            table.rows[-1].height_rule = WD_ROW_HEIGHT_RULE.AT_LEAST
        self.text("", "Gap")

    def columns(self, number: int, gap: float) -> None:
        """Have what follows run in columns, in a section that goes on below on the same page.

        Args:
            number: Of columns.
            gap: Between them [mm].
        """
        section = self.document.add_section(WD_SECTION.CONTINUOUS)
        columns = section._sectPr.find(qn("w:cols"))
        columns.set(qn("w:num"), str(number))
        columns.set(qn("w:space"), str(round(Mm(gap).pt * 20)))

    def strip(self, loop: str) -> None:
        """Add one row of boxes, a number over a word in each, for a list of unknown length."""
        columns = [Column("", 48.0 if at == 0 else 26.0, "") for at in range(6)]
        table = self._empty(columns, "Boxed", "Standing", first_row=False)
        row = table.add_row()
        _whole(row)
        for at, cell in enumerate(row.cells):
            cell.paragraphs[0].style = "Big"
            cell.paragraphs[0].add_run("{{ " + f"{loop}[{at}].big" + " }}")
            cell.add_paragraph("{{ " + f"{loop}[{at}].small" + " }}", style="Cell")
        self.text("", "Gap")

    def _instructions(self) -> list[Any]:
        return list(self.document.element.body.iter(qn("w:instrText")))

    def _empty(
        self, columns: Sequence[Column], style: str, caption: str, *, first_row: bool = True
    ) -> Any:
        table: Any = self.document.add_table(0, len(columns))
        table.style, table.autofit = style, False
        look = table._tbl.tblPr.find(qn("w:tblLook"))
        for name in list(look.attrib):
            del look.attrib[name]
        # Who hears the page read is told the heading of a column, or of a row in a table of facts.
        look.set(qn("w:val"), "0020" if first_row else "0080")
        look.set(qn("w:firstRow" if first_row else "w:firstColumn"), "1")
        if caption:
            said = OxmlElement("w:tblCaption")
            said.set(qn("w:val"), caption)
            table._tbl.tblPr.append(said)
        for column, each in zip(table.columns, columns, strict=True):
            column.width = Mm(each.width)
        return table

    def _heads(self, table: Any, columns: Sequence[Column]) -> None:
        row = table.add_row()
        _whole(row, repeats=True)
        for cell, column in zip(row.cells, columns, strict=True):
            cell.paragraphs[0].style = "Cell head"
            cell.paragraphs[0].add_run(column.heading)

    def _tag_row(self, table: Any, tag: str) -> None:
        self._across(table, f"{{%tr {tag} %}}", "Tag")

    def _across(self, table: Any, text: str, style: str, *more: str) -> TableCell:
        row = table.add_row()
        _whole(row)
        cell: TableCell = row.cells[0]
        if len(row.cells) > 1:
            cell = cell.merge(row.cells[-1])
        for each in cell.paragraphs[1:]:
            each._p.getparent().remove(each._p)
        cell.paragraphs[0].style = style
        cell.paragraphs[0].add_run(text)
        for each in more:
            cell.add_paragraph(each, style="Cell kept")
        return cell


def margins(document: Doc) -> None:
    """Put head and foot on every page."""
    section = document.sections[0]
    head, foot = section.header, section.footer
    head.is_linked_to_previous = foot.is_linked_to_previous = False
    head.paragraphs[0].style = "Head"
    line: Any = head.paragraphs[0]
    line.add_run("{{ schedule.header }}")
    line.add_run("\tPage ")
    for each in _runs(_field("PAGE", "1")):
        line._p.append(each)
    line.add_run(" of ")
    for each in _runs(_field("NUMPAGES", "1")):
        line._p.append(each)
    foot.paragraphs[0].style = "Foot first"
    foot.paragraphs[0].add_run("{{ schedule.every_page }}")
    foot.add_paragraph("{{ schedule.identity }}", style="Foot")


def _fill(cell: TableCell, column: Column, keep: str) -> None:
    first: Any = cell.paragraphs[0]
    if isinstance(column.cell, str) and not keep:
        first.style = column.style
        first.add_run(column.cell)
        return
    if isinstance(column.cell, str):
        # Rows of a short table keep with the next, so that it stays whole.
        first.style = "Tag"
        first.add_run(f"{{%p if loop.last or {keep}|length > 12 %}}")
        cell.add_paragraph(column.cell, style=column.style)
        cell.add_paragraph("{%p else %}", style="Tag")
        kept = cell.add_paragraph(column.cell, style=column.style)
        kept.paragraph_format.keep_with_next = True
        cell.add_paragraph("{%p endif %}", style="Tag")
        return
    for at, (text, style) in enumerate(column.cell):
        if at == 0:
            first.style = style
            first.add_run(text)
        else:
            cell.add_paragraph(text, style=style)


def _unruled(cell: TableCell, side: str) -> None:
    """Have no line at a side of a cell: it belongs to the row beside it."""
    borders = parse_xml(f'<w:tcBorders {nsdecls("w")}><w:{side} w:val="nil"/></w:tcBorders>')
    cell._tc.get_or_add_tcPr().insert_element_before(
        borders, "w:shd", "w:noWrap", "w:tcMar", "w:textDirection", "w:tcFitText", "w:vAlign"
    )


def _whole(row: Any, *, repeats: bool = False) -> None:
    """Have no page break split a row; `repeats`: print it again on top of each page."""
    properties = row._tr.get_or_add_trPr()
    properties.append(OxmlElement("w:cantSplit"))
    if repeats:
        properties.append(OxmlElement("w:tblHeader"))


def _field(instruction: str, shown: str) -> str:
    def part(kind: str) -> str:
        return f'<w:r><w:fldChar w:fldCharType="{kind}"/></w:r>'

    code = f'<w:r><w:instrText xml:space="preserve"> {instruction} </w:instrText></w:r>'
    return f"{part('begin')}{code}{part('separate')}<w:r><w:t>{shown}</w:t></w:r>{part('end')}"


def _runs(xml: str) -> list[Any]:
    return list(parse_xml(f"<w:p {nsdecls('w')}>{xml}</w:p>"))
