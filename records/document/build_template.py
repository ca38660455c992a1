"""Builds `schedule.docx`, the template: run as `python -m records.document.build_template`.

The template is package data that a word processor opens and a person may edit a copy of; this
code is its source, so that a change to it can be read in a diff.
"""

from __future__ import annotations

from records.document.package import TEMPLATE, packed
from records.document.template.built import built
from records.document.template.closing import closing, workings
from records.document.template.figures import expectations, readings
from records.document.template.front import front
from records.document.template.look import FONTS, HEAD, SETTINGS, STYLES, R, W
from records.document.template.open_points import findings, gaps
from records.document.template.pictures import pictures
from records.document.template.pieces import TAB, TEXT_WIDTH, field, para, run, section

_ORIENTATIONS = ("portrait", "landscape")
_NS = f'xmlns:w="{W}" xmlns:r="{R}"'
_WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"


def build() -> bytes:
    """Return the template as the bytes of a .docx file; the same ones each time."""
    parts = {
        "[Content_Types].xml": _content_types(),
        "_rels/.rels": _relations(
            ("rId1", f"{R}/officeDocument", "word/document.xml"),
            ("rId2", f"{_PACKAGE}/relationships/metadata/core-properties", "docProps/core.xml"),
        ),
        "docProps/core.xml": HEAD + f'<cp:coreProperties xmlns:cp="{_PACKAGE}/metadata/'
        'core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>Schedule'
        "</dc:title></cp:coreProperties>",
        "word/document.xml": _document(),
        "word/_rels/document.xml.rels": _relations(
            ("rIdStyles", f"{R}/styles", "styles.xml"),
            ("rIdSettings", f"{R}/settings", "settings.xml"),
            ("rIdFonts", f"{R}/fontTable", "fontTable.xml"),
            *((f"rIdHead{n}", f"{R}/header", f"header{n}.xml") for n in (1, 2)),
            *((f"rIdFoot{n}", f"{R}/footer", f"footer{n}.xml") for n in (1, 2)),
        ),
        "word/styles.xml": STYLES,
        "word/settings.xml": SETTINGS,
        "word/fontTable.xml": FONTS,
    }
    for number, orientation in enumerate(_ORIENTATIONS, start=1):
        parts[f"word/header{number}.xml"] = _head(TEXT_WIDTH[orientation])
        parts[f"word/footer{number}.xml"] = _foot(TEXT_WIDTH[orientation])
    return packed({name: text.encode() for name, text in parts.items()})


def _document() -> str:
    sheets = (
        (front(), "portrait"),
        (built() + expectations() + readings(), "landscape"),
        (findings() + gaps() + pictures(), "portrait"),
        (workings(), "landscape"),
    )
    body = "".join(
        text + para(style="Gap", inside=section(turn, number=_ORIENTATIONS.index(turn) + 1))
        for text, turn in sheets
    )
    last = closing() + para(style="Gap") + section("portrait", number=1)
    return f"{HEAD}<w:document {_NS}><w:body>{body}{last}</w:body></w:document>"


def _head(width: float) -> str:
    line = para(
        run("{{ schedule.standing }}", bold=True), TAB, "{{ schedule.reference }}",
        style="Head", tab_mm=width,
    )  # fmt: skip
    return f"{HEAD}<w:hdr {_NS}>{line}</w:hdr>"


def _foot(width: float) -> str:
    lines = (
        para("{{ schedule.every_page }}", style="Foot"),
        para(
            "Fingerprint {{ schedule.fingerprint }} · {{ schedule.limits_from }}", TAB, "Page ",
            field("PAGE"), " of ", field("NUMPAGES"), style="Foot", tab_mm=width,
        ),
    )  # fmt: skip
    return f"{HEAD}<w:ftr {_NS}>{''.join(lines)}</w:ftr>"


def _relations(*lines: tuple[str, str, str]) -> str:
    body = "".join(
        f'<Relationship Id="{name}" Type="{kind}" Target="{target}"/>'
        for name, kind, target in lines
    )
    return f'{HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{body}</Relationships>'


def _content_types() -> str:
    kinds = {
        "word/document.xml": f"{_WORD}.document.main+xml",
        "word/styles.xml": f"{_WORD}.styles+xml",
        "word/settings.xml": f"{_WORD}.settings+xml",
        "word/fontTable.xml": f"{_WORD}.fontTable+xml",
        "docProps/core.xml": "application/vnd.openxmlformats-package.core-properties+xml",
        **{f"word/header{n}.xml": f"{_WORD}.header+xml" for n in (1, 2)},
        **{f"word/footer{n}.xml": f"{_WORD}.footer+xml" for n in (1, 2)},
    }
    body = "".join(
        f'<Override PartName="/{name}" ContentType="{kind}"/>' for name, kind in kinds.items()
    )
    return (
        f'{HEAD}<Types xmlns="{_PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{body}</Types>'
    )


if __name__ == "__main__":
    TEMPLATE.write_bytes(build())
