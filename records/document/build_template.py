"""Builds `schedule.docx`, the template: run as `python -m records.document.build_template`.

The template is package data that a word processor opens and a person may edit a copy of; this
code is its source, so that a change to it can be read in a diff.
"""

from __future__ import annotations

import io

from records.document.package import TEMPLATE, repacked, timeless


def build() -> bytes:
    """Return the template as the bytes of a .docx file; the same ones each time."""
    from datetime import datetime

    from records.document.template import back, pages
    from records.document.template.look import blank
    from records.document.template.pieces import Page, margins

    document = blank()
    margins(document)
    page = Page(document)
    for add in (
        pages.standing,
        pages.as_built,
        pages.one_line,
        pages.supply,
        pages.findings,
        pages.closing,
        back.drawings,
        back.photographs,
        back.certifier,
        back.household,
        back.annexes,
    ):
        add(page)
    about = document.core_properties
    about.created = about.modified = datetime(1980, 1, 1)
    out = io.BytesIO()
    with timeless():
        document.save(out)
    return repacked(out.getvalue())


if __name__ == "__main__":
    TEMPLATE.write_bytes(build())
