"""What rests on memory and decides a verdict says so beside it, and is listed for a record."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from records.document.schedule import write_schedule
from records.expected.plan import expected
from records.judgement.review import preview
from records.judgement.review_types import Judged
from records.judgement.trust import MARK, deciding, from_memory, mark_of, memory_note
from records.model.record import Record
from records.model.wiring import Device
from records.store.exchange import to_json
from records.taking.finding_text import detail
from records.terms import Basis, DeviceKind, Use, Verdict
from tests.commands.conftest import Run
from tests.document.reading_back import opened, text
from tests.judgement.jobs import SOUND, circuit, line, own, sound_job, zs
from tui.widgets.verdict import sentence
from tui.widgets.verdict_list import _line as list_line


def with_device(kind: DeviceKind, rating: float, **more: object) -> Record:
    return circuit(SOUND, "C2", device=Device(kind=kind, rating=rating, breaking=6.0), **more)


def zs_of(record: Record) -> Judged:
    return line(record, "circuit/C2/-/design/Zs")


TYPE_D = with_device(DeviceKind.BREAKER_D, 40.0, use=Use.FIXED, load=20.0)
"""Over 32 A of fixed equipment, so 5 s: a limit that no copy has."""


def test_a_limit_of_type_d_at_5_s_is_marked_and_one_of_type_b_is_not():
    """BS 7671, Table 41.3: type B read in a text book; D at 5 s in no copy of 2008 or 2011."""
    marked, plain = zs_of(TYPE_D), zs_of(with_device(DeviceKind.BREAKER_B, 20.0))

    assert "D · 5 s · 40: 0.55 Ω" in memory_note(marked)
    assert mark_of(marked) == MARK
    assert mark_of(plain) == ""


def test_a_reading_of_such_a_loop_is_marked_as_well():
    assert "D · 5 s · 40" in memory_note(own(sound_job(TYPE_D), zs("C2")))
    assert memory_note(own(sound_job(), zs("C2"))) == ""


@pytest.mark.parametrize(
    ("end", "figure"),
    [
        ("feed/-/-/design/Iz", "Current-carrying capacity, armoured 70 °C"),
        ("feed/-/-/design/Iz", "burial, Cc, buried: 0.9"),
        ("circuit/C2/-/design/cpc size", "energy limiting class 3"),
    ],
)
def test_ratings_buried_factors_and_class_3_are_marked(end, figure):
    assert any(figure in each for each in from_memory(line(SOUND, end)))


def test_what_is_open_is_decided_by_nothing():
    open_one = line(SOUND, "circuit/C2/-/live/Zs")

    assert open_one.verdict is Verdict.NOT_TAKEN
    assert deciding(open_one) == ()


def test_a_breaker_that_opens_at_once_is_not_decided_by_its_slow_part():
    time = line(SOUND, "circuit/C2/-/design/disconnection time, overcurrent device")

    assert time.verdict is Verdict.WITHIN
    assert not [each for each in deciding(time) if each.table == "breaker_thermal"]


def test_a_reading_that_is_being_typed_shows_it_too():
    record = sound_job(TYPE_D)
    reading = next(each for each in record.readings if each.slot == zs("C2"))
    bare = record.model_copy(
        update={"readings": tuple(each for each in record.readings if each is not reading)}
    )

    assert mark_of(preview(bare, expected(bare), reading)) == MARK
    assert MARK in sentence(preview(bare, expected(bare), reading)).plain


def test_the_list_and_the_detail_on_the_screen_show_it():
    marked = zs_of(TYPE_D)

    assert MARK in list_line(TYPE_D, marked).plain
    shown = [each.text for each in detail(TYPE_D, marked) if each.label == "To confirm"]
    assert shown == [memory_note(marked)]
    plain = zs_of(with_device(DeviceKind.BREAKER_B, 20.0))
    assert not [each for each in detail(SOUND, plain) if each.label == "To confirm"]


@pytest.fixture
def saved(tmp_path: Path) -> Path:
    path = tmp_path / "d.json"
    path.write_text(to_json(TYPE_D), encoding="utf-8")
    return path


def test_check_shows_the_mark_its_meaning_once_and_json_the_figures(run: Run, saved: Path):
    said = " ".join(run("check", saved, "--all").stdout.split())
    data = json.loads(run("check", saved, "--json").stdout)

    assert f"Zs, hot {MARK}" in said
    assert said.count("a figure from memory decides this verdict") == 1
    found = next(
        each
        for each in (*data["findings"], *data["others"])
        if each["key"] == "circuit/C2/-/design/Zs"
    )
    assert any("D · 5 s · 40" in each for each in found["from_memory"])


def test_the_document_has_the_mark_beside_the_verdict_and_a_note(tmp_path: Path):
    out = tmp_path / "d.docx"
    write_schedule(TYPE_D, out, fingerprint="", made=datetime(2026, 5, 1, tzinfo=UTC))
    words = text(opened(out.read_bytes()))

    assert f"{MARK} N" in words
    assert "D · 5 s · 40: 0.55 Ω" in words
    assert "a figure from memory decides this verdict" in words


def test_sources_lists_what_decides_a_record_the_least_sure_first(run: Run, saved: Path):
    said = run("sources", "--decisive", saved).stdout
    flat = " ".join(said.split())

    assert flat.index("From memory (") < flat.index("Read in a copy (")
    assert "D · 5 s · 40: 0.55 Ω" in flat
    assert "D · 5 s · 32" not in flat
    assert "Zs, hot" in flat
    assert max(map(len, said.splitlines())) <= 80


def test_sources_can_be_narrowed_and_says_where_nothing_decides(run: Run, saved: Path, tmp_path):
    only = run("sources", "41.3", "--decisive", saved).stdout
    assert "Table 41.3" in only
    assert "Table 4D5" not in only
    blank = tmp_path / "blank.json"
    blank.write_text(to_json(Record.model_validate({})), encoding="utf-8")
    assert "No verdict on this record" in run("sources", "--decisive", blank).stdout


def test_every_figure_of_a_table_can_be_cited_by_itself():
    """Two rows of one table are two figures, and one place to look."""
    sources = [each for each in deciding(line(SOUND, "feed/-/-/design/Iz")) if each.figure]

    assert len({each.figure for each in sources}) == len(sources)
    assert all(each.basis in Basis for each in sources)
