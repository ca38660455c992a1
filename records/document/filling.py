"""Fills a template with a context: text stays text, names must exist, nothing else is reachable."""

from __future__ import annotations

import difflib
import io
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any
from xml.etree import ElementTree

from records.document.images import Picture, drawn, with_pictures
from records.document.making import making_properties
from records.document.mark import put_mark
from records.document.package import repacked, timeless
from records.document.properties import put_properties
from records.errors import BadTemplate

ENDLESS = (
    "The template needs more time or memory than any schedule takes: look for loops inside loops, "
    "or for a figure that grows without end."
)

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_WITHOUT_TEXT = {f"{_W}{name}" for name in ("body", "tbl", "tr", "tc", "p", "r")}
"""Elements that hold other elements only."""


def filled(template: bytes, context: dict[str, Any], made: datetime) -> bytes:
    """Return the document that a template and a context make; the same bytes for the same two.

    Args:
        template: A .docx file with template tags.
        context: Plain texts, lists and mappings only; see `images` for how a picture stands in it.
        made: When the schedule is written; becomes the document's date.
    Raises:
        BadTemplate: If the file is no .docx, has a mistake in a tag, asks for a name that is not
            in the context, or tries to reach beyond it.
    """
    from jinja2.exceptions import SecurityError, TemplateSyntaxError, UndefinedError

    try:
        return repacked(_rendered(template, context, made))
    except UndefinedError as error:
        raise BadTemplate(_unknown(str(error), context)) from error
    except SecurityError as error:
        raise BadTemplate(
            f"The template tries to reach beyond what a schedule gives it, which is refused: "
            f"{_clause(error)}."
        ) from error
    except TemplateSyntaxError as error:
        raise BadTemplate(
            f"A tag of the template has a mistake{_near(error)}: {_clause(error)}. "
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


def _rendered(template: bytes, context: dict[str, Any], made: datetime) -> bytes:
    from docxtpl import DocxTemplate
    from jinja2 import StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    page: Any = DocxTemplate(io.BytesIO(template))
    mend = page.fix_tables

    def strictly(xml: str) -> Any:
        # docxtpl parses with recovery: what a misplaced tag breaks would be lost without a word.
        _none_astray(ElementTree.fromstring(xml))
        return mend(xml)

    page.fix_tables = strictly

    def printed(value: object) -> object:
        if isinstance(value, Picture):
            return _braced(drawn(value, page.current_rendering_part))
        return _as_typed(value)

    tags = ImmutableSandboxedEnvironment(undefined=StrictUndefined, finalize=printed)
    page.render(with_pictures(context), tags, autoescape=True)
    about = page.docx.core_properties
    about.author = about.last_modified_by = ""
    about.created = about.modified = made.astimezone(UTC).replace(tzinfo=None, microsecond=0)
    about.revision = 1
    put_mark(page.docx, context.get("schedule", {}).get("fingerprint", ""))
    put_properties(page.docx, making_properties(template, made))
    out = io.BytesIO()
    with timeless():
        page.save(out)
    return out.getvalue()


def _none_astray(body: ElementTree.Element) -> None:
    """Raise ValueError if text lies between paragraphs, where a word processor would drop it."""
    for each in body.iter():
        if each.tag not in _WITHOUT_TEXT:
            continue
        for text in (each.text, *(inside.tail for inside in each)):
            if text and text.strip():
                raise ValueError(f"“{text.strip()[:40]}” lands outside any paragraph")


def _as_typed(value: object) -> object:
    from markupsafe import escape

    return _braced(str(escape(value)))


def _braced(xml: str) -> object:
    from markupsafe import Markup

    # docxtpl turns {_{ and the like into {{ after filling; as references braces stay as typed.
    return Markup(xml.replace("{", "&#123;").replace("}", "&#125;"))


def _not_a_document() -> tuple[type[Exception], ...]:
    from zipfile import BadZipFile

    from docx.opc.exceptions import PackageNotFoundError

    return BadZipFile, PackageNotFoundError


def _unknown(message: str, context: dict[str, Any]) -> str:
    found = re.search(r"'([^']+)' is undefined|has no attribute '([^']+)'", message)
    if found is None:
        return (
            f"The template asks for something that a schedule doesn’t have: {message.rstrip('.')}."
        )
    name = found.group(1) or found.group(2)
    known = sorted(set(_names(context)))
    close = difflib.get_close_matches(name, known, n=1)
    if close:
        return f"The template asks for “{name}”, which a schedule doesn’t have: try “{close[0]}”."
    return (
        f"The template asks for “{name}”, which a schedule doesn’t have. "
        f"It has: {', '.join(sorted(context))}."
    )


def _clause(error: Exception) -> str:
    return str(error).rstrip(".") or type(error).__name__


def _names(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for name, inside in value.items():
            yield name
            yield from _names(inside)
    elif isinstance(value, list):
        for each in value[:1]:
            yield from _names(each)


def _near(error: Any) -> str:
    """Return the words round a mistake, as ` near “…”`."""
    lines = list(getattr(error, "docx_context", ()))
    at = min(3, error.lineno - 1)
    words = lines[at].strip() if at < len(lines) else ""
    return f" near “{words[:60]}”" if words else ""
