"""Reads a finished document back, by the library that word-processor files are commonly read by."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from docx import Document
from docx.document import Document as Doc


def opened(document: bytes | Path) -> Doc:
    """Return a document from its bytes or its file."""
    return Document(io.BytesIO(document) if isinstance(document, bytes) else str(document))


def paragraphs(document: Doc) -> Iterator[str]:
    """Yield the text of each paragraph, in and out of tables."""
    for each in document.element.body.iter(_w("p")):
        yield "".join(text.text or "" for text in each.iter(_w("t")))


def text(document: Doc) -> str:
    """Return all text of the body, a line for each paragraph."""
    return "\n".join(paragraphs(document))


def rows(document: Doc, heading: str) -> list[list[str]]:
    """Return the rows of the table whose first heading cells start with `heading`, headings first.

    Args:
        document: The document.
        heading: Such as "Where|What|Stage".
    """
    wanted = heading.split("|")
    for table in document.tables:
        lines = [_cells(each) for each in table._tbl.iter(_w("tr"))]
        if lines and lines[0][: len(wanted)] == wanted:
            return lines
    raise AssertionError(f"no table headed {heading}")


def table(document: Doc, caption: str) -> list[list[str]]:
    """Return the rows of the table under a caption, headings first.

    Args:
        document: The document.
        caption: How the caption begins, after its number.
    """
    for each in document.tables:
        before = each._tbl.getprevious()
        words = "".join(text.text or "" for text in before.iter(_w("t")))
        if re.fullmatch(r"Table \d+  " + re.escape(caption) + ".*", words):
            return [_cells(row) for row in each._tbl.iter(_w("tr"))]
    raise AssertionError(f"no table under “{caption}”")


def words(element: Any) -> str:
    """Return the text of an element."""
    return "".join(each.text or "" for each in element.iter(_w("t")))


def anchors(document: Doc) -> tuple[set[str], set[str]]:
    """Return where links and page numbers lead, and the names that they can lead to."""
    body = document.element.body
    to = {each.get(_w("anchor")) for each in body.iter(_w("hyperlink"))}
    to |= {
        words.split()[1]
        for each in body.iter(_w("instrText"))
        if (words := each.text or "").split()[:1] == ["PAGEREF"]
    }
    names = [each.get(_w("name")) for each in body.iter(_w("bookmarkStart"))]
    assert len(names) == len(set(names)), "a name stands twice"
    return to, set(names)


def margins(document: Doc) -> list[str]:
    """Return the text of the head and the foot of each section."""
    return [
        "\n".join(each.text for each in (*part.header.paragraphs, *part.footer.paragraphs))
        for part in document.sections
    ]


def _cells(row: Any) -> list[str]:
    return [
        "\n".join(
            "".join(text.text or "" for text in each.iter(_w("t"))) for each in cell.iter(_w("p"))
        )
        for cell in row.iter(_w("tc"))
    ]


def _w(name: str) -> str:
    return f"{{http://schemas.openxmlformats.org/wordprocessingml/2006/main}}{name}"
