"""What every page says whatever template it was made with: what it is, from which record."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from typing import Any

from records.document.paragraphs import pages
from records.document.story import as_read
from records.errors import BadTemplate


def put_identity(document: Any, schedule: Mapping[str, Any]) -> None:
    """Put at the head and foot of each page what is missing there.

    Args:
        document: As python-docx has it open, filled.
        schedule: What the context says of the schedule itself.
    """
    from docx.text.paragraph import Paragraph

    if not schedule:
        return
    for part, said in _margins(document, schedule):
        known = " ".join("".join(each.itertext()) for each in part._element.iter(_P))
        for line in said:
            if " ".join(line.split()) not in " ".join(known.split()):
                added: Paragraph = part.add_paragraph()
                added.text = line


def check_identity(document: bytes, schedule: Mapping[str, Any]) -> None:
    """Look whether each page shows what it has to say, in a finished document.

    Raises:
        BadTemplate: If one doesn't: the template hides it.
    """
    for edge, shown in pages(io.BytesIO(document)).edges if schedule else ():
        said = " ".join(shown)
        names = ("header",) if edge.part == "head" else ("every_page", "identity")
        for name in names:
            words = " ".join(as_read(str(schedule[name])).split())
            if words not in said:
                raise BadTemplate(
                    f"The template hides at the {edge.place} what has to be seen there: "
                    f"“{words}”. Show it, or leave it out: then it is put there."
                )


def _margins(document: Any, schedule: Mapping[str, Any]) -> Iterator[tuple[Any, list[str]]]:
    head, foot = [schedule["header"]], [schedule["every_page"], schedule["identity"]]
    even = document.settings.odd_and_even_pages_header_footer
    for at, section in enumerate(document.sections):
        kinds = ["", *(["first_page_"] if section.different_first_page_header_footer else [])]
        kinds += ["even_page_"] if even else []
        for kind in kinds:
            for name, said in (("header", head), ("footer", foot)):
                part = getattr(section, kind + name)
                # One that is as in the section before was seen to there.
                if at == 0 or not part.is_linked_to_previous:
                    yield part, said


_P = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}p"
