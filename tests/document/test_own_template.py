"""The template for a person to edit: its guide, what it is filled with, and it agree."""

from __future__ import annotations

import io
import re
from typing import Any

import pytest
from docx import Document

from records.demo import demo_record
from records.document.build_template import build
from records.document.comparison import compared
from records.document.filling import filled
from records.document.guide import guide
from records.document.ink import is_value
from records.document.own_template import example_contexts, template_with_guide
from records.document.paragraphs import pages
from records.document.schedule import schedule_bytes
from records.errors import BadTemplate
from tests.document import job

pytestmark = pytest.mark.slow

COMMENT = re.compile(r"\{#p (.*) #\}")


@pytest.fixture(scope="module")
def mine() -> bytes:
    return template_with_guide()


@pytest.fixture(scope="module")
def lines(mine: bytes) -> list[str]:
    texts = [each.text for each in Document(io.BytesIO(mine)).paragraphs]
    return [found[1] for text in texts if (found := COMMENT.fullmatch(text))]


def names(value: Any, name: str = "") -> set[str]:
    if isinstance(value, dict) and not is_value(value):
        return {
            found
            for each, inside in value.items()
            for found in names(inside, f"{name}.{each}" if name else each)
        }
    if isinstance(value, list):
        return {f"{name}, a list", *(n for each in value for n in names(each, f"{name} › it"))}
    return {name}


def names_in(lines: list[str]) -> set[str]:
    """Return the names that a guide explains; without contexts it says only how it is used."""
    return {line.split(" (")[0] for line in lines} - set(guide([]))


def test_the_guide_has_every_name_that_schedules_are_filled_with(lines: list[str]) -> None:
    """Those of jobs that were no examples for it, one with a finding of each kind."""
    known = names_in(lines)
    for each in (*example_contexts(), job.filled_context()):
        assert names(each) <= known, names(each) - known


def test_the_guide_explains_no_name_that_there_is_not(lines: list[str]) -> None:
    there = {name for each in example_contexts() for name in names(each)}
    assert names_in(lines) == there
    assert len(there) > 100


def test_no_list_is_empty_in_all_of_the_examples() -> None:
    """What an empty list would hold, the guide could not tell."""
    there = {name for each in example_contexts() for name in names(each)}
    for each in there:
        if each.endswith(", a list"):
            assert any(n.startswith(each.removesuffix(", a list") + " › it") for n in there), each


def test_each_name_that_the_template_asks_for_is_in_the_guide(lines: list[str]) -> None:
    """The first name of each tag is a name of the guide, or the row of a list."""
    tags = re.findall(
        r"\{\{(.*?)\}\}", " ".join(each.plain for each in pages(io.BytesIO(build())).body)
    )
    known = {re.split(r"[.,]", each)[0] for each in names_in(lines)}
    loops = set(
        re.findall(
            r"for (\w+) in", " ".join(each.plain for each in pages(io.BytesIO(build())).body)
        )
    )
    asked = {re.split(r"\W", each.strip())[0] for each in tags}
    assert asked - {""} <= known | loops
    assert len(asked) > 10


def test_filled_it_says_what_the_template_without_a_guide_says(mine: bytes) -> None:
    without = schedule_bytes(demo_record(), fingerprint=job.FINGERPRINT, made=job.MADE)
    with_it = schedule_bytes(
        demo_record(), fingerprint=job.FINGERPRINT, made=job.MADE, template=mine
    )
    found = compared(pages(io.BytesIO(with_it)), pages(io.BytesIO(without)))
    assert found.differences == ()


def test_no_line_of_the_guide_can_end_its_comment() -> None:
    hostile = {"job": {"place": "a #} {{ 7 * 7 }} {% endfor %} \n #p"}}
    (line,) = [each for each in guide([hostile]) if each.startswith("job.place")]
    assert not set("{}#%") & set(line)


def refusal(*texts: str) -> str:
    document = Document()
    document.add_heading("My sheet", 1)
    for each in texts:
        document.add_paragraph(each)
    out = io.BytesIO()
    document.save(out)
    with pytest.raises(BadTemplate) as refused:
        filled(out.getvalue(), job.filled_context(), job.MADE)
    return str(refused.value)


def test_a_mistake_is_answered_with_its_place_and_the_nearest_name() -> None:
    said = refusal("All well", "Where: {{ job.plase }}")
    assert "“plase” (under “My sheet”, in “Where: {{ job.plase }}”)" in said
    assert "try “place”" in said
    assert "under “My sheet”" in refusal("All well", "Where: {{ job..place }}")
