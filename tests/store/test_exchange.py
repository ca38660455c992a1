"""A record as JSON and back, by RFC 8259, and what is refused on the way in."""

from __future__ import annotations

import json
import random
import time
import tracemalloc
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.demo import demo_record
from records.errors import BadRecord
from records.model.record import MOST_READINGS, Record
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


def _with_reading(at: str) -> str:
    return json.dumps(
        {
            "readings": [
                {
                    "id": "M1",
                    "slot": {"quantity": "Ze", "place": {"part": "origin"}, "stage": "live tests"},
                    "taken": {"kind": "figure", "value": 0.3, "typed": "0.3"},
                    "at": "AT",
                }
            ]
        }
    ).replace('"AT"', at)


@pytest.mark.parametrize(
    "day",
    [
        '"20260320"',
        "20260320",
        "1774000000",
        '"1774000000"',
        "1.5",
        '"2026-03-20T00:00:00Z"',
        '"20.03.2026"',
        "true",
        '"2026-3-2"',
        '"2026-02-30"',
    ],
)
def test_a_day_is_read_as_iso_8601_writes_it_or_not_at_all(day: str) -> None:
    """Bare digits were taken for seconds since 1970: a calibration of 20 March 2026 was one of
    23 August 1970."""
    assert "a day, like 2026-03-20" in _said(f'{{"job": {{"started": {day}}}}}')
    assert from_json('{"job": {"started": "2026-03-20"}}').job.started == date(2026, 3, 20)


@pytest.mark.parametrize(
    "at",
    [
        "1774000000",
        '"1774000000"',
        "1774000000.5",
        '"2026-03-20T14:05"',
        '"2026-03-20"',
        '"20260320T140500Z"',
        '"2026-03-20 25:00Z"',
    ],
)
def test_a_moment_is_read_as_iso_8601_writes_it_with_its_zone(at: str) -> None:
    said = _said(_with_reading(at))
    assert "Reading M1" in said
    assert "a day and time with its zone, like 2026-03-20T14:05:00Z" in said


@pytest.mark.parametrize(
    ("text", "place"),
    [
        (
            '{"readings": [{"id": "M1"}, {"id": "M2", "taken": {"value": 1e400}}]}',
            "/readings/1/taken/value",
        ),
        ('{"circuits": [{"runs": [{"length": NaN}]}]}', "/circuits/0/runs/0/length"),
        ('{"job": {"place": 123456789012345678901}}', "/job/place"),
    ],
)
def test_a_number_that_is_none_is_refused_with_its_place(text: str, place: str) -> None:
    assert f"It is at {place}." in _said(text)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('{"readings": [' + "1," * 6_000_000 + "1]}", "too many"),
        ('{"circuits": [{"id": "C1", "runs": [' + "1," * 900_000 + "1]}]}", "too many entries"),
        ('{"circuits": [' + "1," * 61 + "1]}", "60 is the most"),
        ('{"readings": [' + '{"id":"M1"},' * 19_999 + "1]}", "Reading M1"),
        ("{" + ",".join(f'"{n}": 1' for n in range(90_000)) + "}", "fields"),
        ("{" + ",".join(f'"{n}": 1' for n in range(90_000)) + ', "7": 2}', "“7” twice"),
        ("[" * 5_000_000, "nested too deep"),
    ],
)
def test_what_is_piled_up_is_refused_in_little_time_and_memory(text: str, sentence: str) -> None:
    """30 MB of “1,1,1,…” took 9.8 GB; a text with 11,000 names, one of them twice, 42 s."""
    tracemalloc.start()
    begun = time.process_time()
    try:
        said = _said(text)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert sentence in said
    assert len(said) < 1000
    assert peak < 300_000_000
    assert time.process_time() - begun < 30  # no measure of speed: it was minutes


def test_a_record_with_all_the_readings_it_may_have_is_taken() -> None:
    one = json.loads(_with_reading('"2026-03-20T14:05:00Z"'))["readings"][0]
    many = [{**one, "id": f"M{n}"} for n in range(1, MOST_READINGS + 1)]
    assert len(from_json(json.dumps({"readings": many})).readings) == MOST_READINGS
    many.append({**one, "id": "M99999"})
    assert "20,000 is the most" in _said(json.dumps({"readings": many}))
