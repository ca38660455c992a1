"""Whatever text a record can hold comes out as typed: never as markup, tag or broken file."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.document.context import context
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.errors import BadText
from records.expected.results import Expected
from records.judgement.review_types import Review
from records.model.record import Record
from records.text import checked_text
from tests.document import job
from tests.document.reading_back import margins, opened, text

HOSTILE = (
    "R&D <shed> {{ 7*7 }}",
    "Sockets [/] [ring]",
    "</w:t></w:r></w:p>",
    "{% for %}",
    "{%tr endfor %}",
    "{{ cycler.__init__.__globals__ }}",
    "{_{ 7*7 }_} {_% raw %_} {# gone #}",
    "{%p if x %} {{r y }}",
    "<0.05 & >999 \"quoted\" 'so'",
    "&amp; &lt; &#123;",
    "]]> <![CDATA[ <!-- x -->",
    "é Ω ½ ✓ 漢字 🔌 a  b",
    "\\1 \\g<0> %s {0} $HOME",
)
FREE_TEXT = {
    "reference",
    "place",
    "description",
    "name",
    "serial",
    "note",
    "where",
    "what",
    "electrode",
    "reason",
    "method",
    "done",
    "typed",
    "despite",
}


def _reworded(piece: Any, word: Callable[[], str], key: str = "") -> Any:
    """Return a dumped record with each free text replaced."""
    if isinstance(piece, dict):
        return {name: _reworded(inside, word, name) for name, inside in piece.items()}
    if isinstance(piece, list):
        return [_reworded(each, word, key) for each in piece]
    enums = key == "method" and piece in ("A", "B", "C", "D", "E", None)
    return word() if key in FREE_TEXT and isinstance(piece, str) and not enums else piece


def _record(word: Callable[[], str]) -> Record:
    return Record.model_validate(_reworded(job.record().model_dump(mode="json"), word), strict=None)


def test_hostile_text_in_each_field_comes_out_as_typed():
    turn = itertools.cycle(HOSTILE)
    used: list[str] = []

    def word() -> str:
        used.append(f"{next(turn)} n{len(used)}")
        return used[-1]

    record = _record(word)
    document = opened(filled(TEMPLATE.read_bytes(), job.filled_context(record), job.MADE))
    printed = text(document) + "\n".join(margins(document))

    assert len(used) > 2 * len(HOSTILE)
    assert [each for each in used if each not in printed] == []
    assert "49" not in printed.replace("n49", "")


@settings(max_examples=25, deadline=None)
@given(st.text(min_size=3, max_size=40))
def test_any_text_that_a_record_takes_is_printed_or_refused_at_entry(typed: str):
    try:
        clean = checked_text(typed)
    except BadText:
        return
    if len(clean) < 3:
        return
    record = _record(lambda: clean)
    empty = Review(())
    words = context(record, Expected(), empty, {}, fingerprint="F", made=job.MADE)
    printed = text(opened(filled(TEMPLATE.read_bytes(), words, job.MADE)))

    assert clean in printed


@pytest.mark.parametrize("name", ["00\u00ad", "shed\u00adroof", "LOOM\u20111"])
def test_a_hyphen_that_only_breaks_lines_hides_no_head_of_a_page(name: str):
    record = _record(lambda: name)
    empty = Review(())
    words = context(record, Expected(), empty, {}, fingerprint="F", made=job.MADE)

    assert name in text(opened(filled(TEMPLATE.read_bytes(), words, job.MADE)))


@pytest.mark.parametrize("char", ["\x00", "\x07", "\x1b", "\u202e", "\ud800", "\n"])
def test_a_control_character_never_gets_into_a_record(char: str):
    with pytest.raises(ValueError, match="control character"):
        _record(lambda: f"sockets{char}ring")


def test_the_longest_text_leaves_head_and_rows_readable():
    long = ("Wiring of a very long name " * 80)[:2000].strip()
    record = _record(lambda: long)
    document = opened(filled(TEMPLATE.read_bytes(), job.filled_context(record), job.MADE))

    assert long in text(document)
    assert all(len(each) < 600 for each in margins(document))
