"""A record as JSON and back, by RFC 8259, and what is refused on the way in."""

from __future__ import annotations

import json
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.demo import demo_record
from records.errors import BadRecord
from records.model.record import Record
from records.store.exchange import LARGEST, from_json, to_json
from tests.store.conftest import reading, small_record


def _said(text: str) -> str:
    with pytest.raises(BadRecord) as caught:
        from_json(text)
    return str(caught.value)


def _job(**fields: object) -> str:
    return json.dumps({"job": fields})


@pytest.mark.parametrize("record", [Record(), small_record(), demo_record()])
def test_nothing_is_lost_on_the_way_out_and_in(record: Record) -> None:
    assert from_json(to_json(record)) == record


def test_equal_records_give_equal_text_whatever_order_their_parts_came_in() -> None:
    doc = json.loads(to_json(demo_record()))
    turned = {name: doc[name] for name in reversed(doc)}
    assert to_json(from_json(json.dumps(turned))) == to_json(demo_record())


def test_what_comes_out_is_strict_json_of_readable_lines() -> None:
    """RFC 8259, section 6: no NaN and no Infinity."""

    def refuse(word: str) -> float:
        raise AssertionError(word)

    text = to_json(demo_record())
    json.loads(text, parse_constant=refuse)
    assert text.endswith("}\n")
    assert "\\u" not in text
    assert max(map(len, text.splitlines())) < 300


def test_a_byte_order_mark_is_passed_over() -> None:
    """RFC 8259, section 8.1: a reader may ignore it."""
    assert from_json("\ufeff{}") == Record()


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "no JSON: line 1, column 1"),
        ("{", "no JSON: line 1, column 2"),
        ('{"job": }', "no JSON: line 1, column 9"),
        ("5", "a record is one object"),
        ("[]", "a record is one object"),
        ("[" * 100_000, "nested too deep"),
        ('{"a":' * 100_000, "nested too deep"),
        (json.dumps({"job": {"place": [[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]}}), "too deep"),
        ('{"job": {}, "job": {}}', "names “job” twice"),
        ('{"origin": {"ze": NaN}}', "NaN is no value"),
        ('{"origin": {"ze": -Infinity}}', "-Infinity is no value"),
        ('{"origin": {"ze": 1e999}}', "1e999 is too large"),
        ('{"origin": {"ze": ' + "9" * 5000 + "}}", "too large for any reading"),
        (
            '{"origin": {"ze": "0.35"}}',
            "Origin, Ze: “0.35” is not possible; it must be a number in Ω",
        ),
        ('{"origin": {"ze": true}}', "Origin, Ze: True is not possible; it must be a number in Ω"),
        ('{"format": 4}', "format 4 is not known to this Farboard; it reads formats 1 to 3."),
        ('{"nothing": 1}', "“nothing”: a record has no such field"),
        ('{"job": {"\\u001b[31m": 1}}', "a record has no such field"),
        (_job(place="a\x1b[31m"), "Job, Place: Character 2 (U+001B) is a control character"),
        (_job(place="a\u202eb"), "Job, Place: Character 2 (U+202E)"),
        (_job(place="x" * 1_000_000), "Job, Place: This text has 1,000,000 characters"),
        ('{"job": {"place": "\\ud800"}}', "Job, Place: Character 1 (U+D800)"),
        ('{"job": {"place": "a\nb"}}', "no JSON: line 1, column 21"),
        (_job(started="yesterday"), "it must be a day, like 2026-03-20"),
        (_job(people=[{"id": "P1"}, {"id": "P1"}]), "the same person id"),
        (_job(people=[{"id": "../../etc"}]), "“../../etc” is no id"),
        (json.dumps({"circuits": [{"id": f"C{n}"} for n in range(1, 99)]}), "60 is the most"),
        (
            json.dumps({"circuits": [{"id": "C2", "runs": [{"length": 0}]}]}),
            "Circuit C2, run 1, Length: 0 m is not possible; it must be more than 0 and "
            "at most 2,000 m.",
        ),
    ],
)
def test_what_is_no_record_is_refused_with_where_and_why(text: str, sentence: str) -> None:
    said = _said(text)
    assert sentence in said
    assert len(said) < 600
    assert said.isprintable()


def test_a_text_too_large_for_any_record_is_refused_unread() -> None:
    assert "too large" in _said(" " * (LARGEST + 1))


def test_a_reading_of_what_is_not_there_is_refused() -> None:
    doc = {"readings": [reading(1).model_dump(mode="json")]}
    assert "which is not in this record" in _said(json.dumps(doc))


@given(st.text(max_size=40))
def test_any_text_is_a_record_or_one_printable_sentence(text: str) -> None:
    try:
        from_json(text)
    except BadRecord as error:
        said = str(error)
    else:
        said = ""
    assert said == "" or said.isprintable()


def test_a_record_with_bytes_turned_over_is_taken_whole_or_refused() -> None:
    right = to_json(small_record())
    chance = random.Random(17)
    for _ in range(500):
        at = chance.randrange(len(right))
        text = right[:at] + chr(chance.randrange(32, 0x250)) + right[at + 1 :]
        try:
            found = from_json(text)
        except BadRecord as error:
            outcome = str(error)
        else:
            outcome = to_json(found)
        assert outcome.replace("\n", "").isprintable()
