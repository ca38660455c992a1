"""Fills a template with a context: text stays text, names must exist, nothing else is reachable."""

from __future__ import annotations

import difflib
import html
import io
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

from records.document.identity import check_identity, put_identity
from records.document.ink import is_value, printed, tidied, with_ink
from records.document.making import making_properties
from records.document.mark import put_mark
from records.document.mistakes import place_of_name, place_of_words
from records.document.package import repacked, timeless
from records.document.photo_parts import photos_put, put_photos
from records.document.properties import put_properties
from records.errors import BadTemplate

ENDLESS = (
    "Look for loops inside loops in the template, or for a figure that grows without end. It needs "
    "more time or memory than any schedule takes."
)

_PROPERTY = 255
"""Letters that a property of a document holds (ECMA-376 part 2); the pages have it whole."""
_PAGES = "word/document.xml"
_XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_WITHOUT_TEXT = {f"{_W}{name}" for name in ("body", "tbl", "tr", "tc", "p", "r")}
"""Elements that hold other elements only."""


def filled(template: bytes, context: dict[str, Any], made: datetime, *, own: bool = False) -> bytes:
    """Return the document that a template and a context make; the same bytes for the same two.

    Args:
        template: A .docx file with template tags.
        context: Plain texts, lists and mappings only; see `ink` for what else can print.
        made: When the schedule is written; becomes the document's date.
        own: Whether the template is the one that comes with Farboard: it needs no repair.
    Raises:
        BadTemplate: If the file is no .docx, has a mistake in a tag, asks for a name that is not
            in the context, tries to reach beyond it, or hides what each page has to say.
    """
    from jinja2.exceptions import SecurityError, TemplateSyntaxError, UndefinedError

    try:
        document = _rendered(template, context, made, own)
    except UndefinedError as error:
        raise BadTemplate(_unknown(str(error), context, template)) from error
    except SecurityError as error:
        raise BadTemplate(
            f"The template tries to reach beyond what a schedule gives it, which is refused: "
            f"{_clause(error)}."
        ) from error
    except TemplateSyntaxError as error:
        raise BadTemplate(
            f"A tag of the template has a mistake{_near(error, template)}: {_clause(error)}. "
            "Compare it with the template that comes with Farboard."
        ) from error
    except _not_a_document() as error:
        raise BadTemplate(
            "The template is not a .docx document that can be read: save it again as .docx."
        ) from error
    except (MemoryError, RecursionError) as error:
        raise BadTemplate(ENDLESS) from error
    except Exception as error:  # a stranger's template may do anything; here it gets its answer
        raise BadTemplate(
            f"The template can’t be filled: {_clause(error)}. "
            "Each opening tag needs its closing one, in the same table or text."
        ) from error
    if not own:
        check_identity(document, context.get("schedule", {}))
    return document


def _rendered(template: bytes, context: dict[str, Any], made: datetime, own: bool) -> bytes:
    from docxtpl import DocxTemplate
    from jinja2 import StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment
    from lxml import etree

    page: Any = DocxTemplate(io.BytesIO(template))
    if own:
        body = _BodyAsText(page)
    else:
        mend = page.fix_tables

        def strictly(xml: str) -> Any:
            # docxtpl parses with recovery: what a misplaced tag breaks would be lost silently.
            tidy = tidied(xml)
            _none_astray(etree.fromstring(tidy.encode()))
            return mend(tidy)

        page.fix_tables = strictly
    # Line breaks and tabs are written by `printed`; looking for them in each run takes long.
    page.resolve_listing = lambda xml: xml
    tags = ImmutableSandboxedEnvironment(undefined=StrictUndefined, finalize=printed)
    page.render(with_ink(context), tags, autoescape=True)
    schedule = context.get("schedule", {})
    document = page.docx if own else _with_identity(page, schedule)
    about = document.core_properties
    about.author = about.last_modified_by = ""
    title, subject = schedule.get("title", ""), schedule.get("subject", "")
    about.title = title if len(title) <= _PROPERTY else "Wiring record"
    about.subject = subject if len(subject) <= _PROPERTY else ""
    about.language = "en-GB"
    about.created = about.modified = made.astimezone(UTC).replace(tzinfo=None, microsecond=0)
    about.revision = 1
    if own:
        body.put_photos(document)
    else:
        put_photos(document)
    put_mark(document, schedule.get("fingerprint", ""))
    put_properties(document, making_properties(template, made, schedule))
    out = io.BytesIO()
    with timeless():
        document.save(out)
    return repacked(out.getvalue(), {_PAGES: body.document()} if own else {})


class _BodyAsText:
    """The body of a filled document, which stays a text: no tree is made of it and written again.

    Gain: filling 60 circuits takes 0.95 of a bare docxtpl render, else 1.46; 1 circuit 0.80, else
    1.40 (`tests.bench.schedule`).
    """

    def __init__(self, page: Any) -> None:
        """Have docxtpl give its text away where it would make a tree of it."""
        self._page, self._xml = page, ""
        page.fix_tables = self._take
        page.fix_docpr_ids = page.map_tree = lambda tree: None

    def _take(self, xml: str) -> None:
        self._xml = tidied(xml)

    def put_photos(self, document: Any) -> None:
        """Give the small pictures their parts in the file."""
        self._xml = photos_put(self._xml, document)

    def document(self) -> bytes:
        """Return the part with the pages, as it is packed.

        Raises:
            ExpatError: If it is no XML, or a prefix is not declared.
        """
        from xml.parsers.expat import ParserCreate

        whole: str = self._page.xml_to_string(self._page.docx._element)
        before, after = whole.index("<w:body"), whole.index("</w:body>")
        # The namespaces that the body names stand at the document already.
        body = self._xml[self._xml.index(">") + 1 :].removesuffix("</w:body>")
        found = f"{_XML}{whole[:before]}<w:body>{body}{whole[after:]}".encode()
        ParserCreate(namespace_separator=" ").Parse(found, True)
        return found


def _with_identity(page: Any, schedule: dict[str, Any]) -> Any:
    """Return a filled template, opened again, with what is missing at the head and foot of pages.

    docxtpl puts filled heads and feet where python-docx doesn't look for them before it is saved.
    """
    from docx import Document

    between = io.BytesIO()
    with timeless():
        page.save(between)
    document = Document(io.BytesIO(between.getvalue()))
    put_identity(document, schedule)
    return document


def _none_astray(body: Any) -> None:
    """Raise ValueError if text lies between paragraphs, where a word processor would drop it."""
    for each in body.iter(*_WITHOUT_TEXT):
        for text in (each.text, *(inside.tail for inside in each)):
            if text and text.strip():
                raise ValueError(f"“{text.strip()[:40]}” lands outside any paragraph")


def _not_a_document() -> tuple[type[Exception], ...]:
    from zipfile import BadZipFile

    from docx.opc.exceptions import PackageNotFoundError

    return BadZipFile, PackageNotFoundError


def _unknown(message: str, context: dict[str, Any], template: bytes) -> str:
    found = re.search(r"'([^']+)' is undefined|has no attribute '([^']+)'", message)
    if found is None:
        return (
            f"The template asks for something that a schedule doesn’t have: {message.rstrip('.')}."
        )
    name = found.group(1) or found.group(2)
    known = sorted(set(_names(context)))
    close = difflib.get_close_matches(name, known, n=1)
    where = place_of_name(template, name)
    if close:
        return (
            f"The template asks for “{name}”{where}, which a schedule doesn’t have: "
            f"try “{close[0]}”."
        )
    return (
        f"The template asks for “{name}”{where}, which a schedule doesn’t have. "
        f"It has: {', '.join(sorted(context))}."
    )


def _clause(error: Exception) -> str:
    return str(error).rstrip(".") or type(error).__name__


def _names(value: object) -> Iterator[str]:
    if isinstance(value, dict) and not is_value(value):
        for name, inside in value.items():
            yield name
            yield from _names(inside)
    elif isinstance(value, list):
        for each in value[:1]:
            yield from _names(each)


def _near(error: Any, template: bytes) -> str:
    """Return the words round a mistake and their place, as ` near “…” (under “…”)`."""
    lines = list(getattr(error, "docx_context", ()))
    at = min(3, error.lineno - 1)
    words = lines[at].strip() if at < len(lines) else ""
    plain = html.unescape(re.sub(r"<[^>]*>", " ", words))
    found = place_of_words(template, plain)
    return found or (f" near “{' '.join(plain.split())[:60]}”" if plain.strip() else "")
