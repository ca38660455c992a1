"""Body text of the schedule is at least 9 points; heads, feet and labels of drawings aside."""

from __future__ import annotations

from docx.enum.style import WD_STYLE_TYPE

from records.document.package import TEMPLATE
from tests.document.reading_back import opened

SMALLER = {"Head", "Foot", "Foot first", "Drawing text", "Tag", "Gap", "New page"}
"""Not body: at the edge of the page, in a drawing, or without text in the finished document."""


def test_no_style_of_the_body_is_smaller_than_9_points() -> None:
    styles = [
        each
        for each in opened(TEMPLATE.read_bytes()).styles
        if each.type is WD_STYLE_TYPE.PARAGRAPH and each.font.size is not None
    ]

    assert len(styles) > 10
    assert {
        each.name: each.font.size.pt
        for each in styles
        if each.font.size.pt < 9 and each.name not in SMALLER
    } == {}
