"""Reads a finished document back, by the library that word-processor files are commonly read by."""

from __future__ import annotations

import io
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
