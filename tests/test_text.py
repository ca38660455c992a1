"""Free text is taken as typed, or refused; nothing is cleaned up behind anybody's back."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.errors import BadText
from records.text import LONGEST, checked_text

PATIENT = settings(deadline=None)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "R&D <shed> {{ 7*7 }}",
        "Sockets [/] [ring]",
        "{% raw %} ${x} \\[x] %s",
        "Bänke, Çırak, 日本, Ω ≤ 0.35 µ",
        "=1+1; DROP TABLE",
        "a  b",
    ],
)
def test_what_can_be_shown_stays_as_typed(text):
    assert checked_text(text) == text


def test_only_the_blanks_at_both_ends_go():
    assert checked_text("  by the  door ") == "by the  door"


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("bell \x07", "Character 6 (U+0007)"),
        ("\x1b[31mred", "Character 1 (U+001B)"),
        ("a\nb", "Character 2 (U+000A)"),
        ("a\tb", "Character 2 (U+0009)"),
        ("nul\x00x", "U+0000"),
        ("\ud800", "U+D800"),
        ("turned \u202eround", "U+202E"),
        ("line\u2028end", "U+2028"),
        ("\ue000", "U+E000"),
        ("\ufffe", "U+FFFE"),
        ("del\x7fx", "U+007F"),
        ("c1\x9bx", "U+009B"),
    ],
)
def test_what_no_screen_or_document_can_carry_is_named(text, named):
    with pytest.raises(BadText) as refused:
        checked_text(text)

    assert named in str(refused.value)
    assert "Delete it" in str(refused.value)


def test_the_longest_text_is_taken_and_one_more_is_not():
    assert checked_text("x" * LONGEST)
    with pytest.raises(BadText, match="2,001 characters; 2,000 is the most"):
        checked_text("x" * (LONGEST + 1))


def test_a_caller_may_ask_for_less():
    with pytest.raises(BadText, match="3 is the most"):
        checked_text("four", longest=3)


@PATIENT
@given(st.text())
def test_any_text_is_kept_or_refused_and_what_is_kept_is_stable(text):
    kept, said = _kept_or_said(text)

    assert said.isprintable()
    if kept is not None:
        assert kept == text.strip()
        assert checked_text(kept) == kept
        assert kept.encode("utf-8").decode("utf-8") == kept


def _kept_or_said(text: str) -> tuple[str | None, str]:
    try:
        return checked_text(text), ""
    except BadText as refused:
        return None, str(refused)
