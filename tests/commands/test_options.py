"""`farboard options`: the table of what would do, at 80 columns and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from rich.cells import cell_len

from records.demo import demo_record
from records.model.buying import Buying
from records.model.record import Record
from records.model.wiring import Run as Cable
from records.options.feed import feed_options, longest_run
from records.store.exchange import to_json
from records.store.table_text import from_bytes
from tests.commands.conftest import Run
from tests.judgement.jobs import SOUND

pytestmark = pytest.mark.slow


def written(tmp_path: Path, record: Record, name: str = "job.json") -> Path:
    path = tmp_path / name
    path.write_text(to_json(record), encoding="utf-8")
    return path


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return written(tmp_path, demo_record())


def blank(length: float | None, load: float | None) -> Record:
    record = Record()
    feed = record.feed.model_copy(update={"runs": (Cable(length=length),), "load": load})
    return record.model_copy(update={"feed": feed})


def test_the_feed_is_a_table_of_80_columns_with_both_marks(run: Run, demo: Path) -> None:
    ran = run("options", demo)

    assert ran.returncode == 0
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80
    table = ran.stdout.partition("✗ fails")[0]
    rows = [line for line in table.splitlines() if line[:2] in ("S ", "R ", "✗ ", "✓ ", "! ")]
    found = feed_options(demo_record(), longest_run(demo_record()))
    assert found.smallest is not None
    marked = next(line for line in rows if line.startswith("S "))
    assert f"2c {found.smallest.make.csa:g} XLPE" in marked
    assert any(line.startswith("R ") for line in rows)
    assert all("✗" in line[2:] for line in rows if line.startswith("✗"))


def test_what_was_taken_for_granted_and_the_cautions_are_said(run: Run, tmp_path: Path) -> None:
    said = " ".join(run("options", written(tmp_path, blank(46.0, 26.0))).stdout.split())

    for words in (
        "TN-S is assumed",
        "buried is assumed",
        "32 A is assumed",
        "PME",
        "notifiable",
        "certifier",
    ):
        assert words in said


@pytest.mark.parametrize(
    ("length", "load", "asked"),
    [(None, 26.0, "Enter the length of run 1"), (46.0, None, "Enter Ib of the feed")],
)
def test_without_distance_or_load_it_says_what_to_enter(
    run: Run, tmp_path: Path, length: float | None, load: float | None, asked: str
) -> None:
    ran = run("options", written(tmp_path, blank(length, load)))

    assert ran.returncode == 1
    assert asked in ran.stdout


def test_all_of_it_is_json_with_codes_and_finite_figures(run: Run, demo: Path) -> None:
    data = json.loads(run("options", demo, "--json").stdout)

    found = feed_options(demo_record(), longest_run(demo_record()))
    assert len(data["options"]) == len(found.options)
    chosen = data["options"][data["smallest"]]
    assert (chosen["will_do"], chosen["cable"], chosen["csa_mm2"]) == (True, "swa-xlpe", 25.0)
    assert not any(each["will_do"] for each in data["options"][: data["smallest"]])
    assert chosen["checks"]["drop"]["unit"] == "V"
    assert 0 < chosen["checks"]["drop"]["share_of_limit"] <= 1


def test_a_run_and_the_room_can_be_said(run: Run, demo: Path) -> None:
    data = json.loads(run("options", demo, "feed", "--json", "--run", "1", "--room", "10").stdout)

    assert (data["run"], data["room_percent"]) == (1, 10.0)
    ran = run("options", demo, "--run", "9")
    assert ran.returncode == 2
    assert "it has 3" in ran.stderr


def test_a_circuit_has_ring_and_radial_with_their_longest_length(run: Run, demo: Path) -> None:
    ran = run("options", demo, "c1")

    assert ran.returncode == 0
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80
    assert {"ring", "radial"} <= set(ran.stdout.split())
    data = json.loads(run("options", demo, "C1", "--json", "--radial", "20").stdout)
    assert {each["length_m"] for each in data["options"] if each["form"] == "radial"} == {20.0}


def test_room_says_how_much_and_what_stops_it_and_tries_a_later_load(
    run: Run, tmp_path: Path
) -> None:
    path = written(tmp_path, SOUND.model_copy(update={"readings": ()}))
    small = run("options", path, "room", "--later", "0.5")
    large = run("options", path, "room", "--later", "9")

    assert (small.returncode, large.returncode) == (0, 1)
    assert "At the board: 3.5 A more, then C2 Radial: voltage drop" in small.stdout
    assert "every check holds" in small.stdout
    assert "would not do" in large.stdout
    assert json.loads(run("options", path, "room", "--json").stdout)["rooms"][0]["more"] == 3.5


def test_what_cannot_be_chosen_is_answered_with_what_can(run: Run, demo: Path) -> None:
    ran = run("options", demo, "C9")

    assert ran.returncode == 2
    for word in ("feed", "C1", "C7", "room"):
        assert word in ran.stderr


def test_nothing_is_changed_in_the_file(run: Run, demo: Path) -> None:
    before = demo.read_bytes()
    for words in ((), ("C1",), ("room",)):
        run("options", demo, *words)

    assert demo.read_bytes() == before


def test_both_earths_stand_side_by_side_in_80_columns(run: Run, demo: Path) -> None:
    ran = run("options", demo, "earth")

    assert ran.returncode == 0
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80
    head = next(line for line in ran.stdout.splitlines() if "EXPORTED" in line)
    assert "ELECTRODE" in head
    data = json.loads(run("options", demo, "earth", "--json").stdout)
    assert data["chosen"] == "exported"
    assert {each["state"] for each in data["electrode"]} == {"there", "add", "decide"}


def test_the_list_of_what_to_buy_goes_to_a_sheet_and_over_none(
    run: Run, demo: Path, tmp_path: Path
) -> None:
    out = tmp_path / "list.csv"
    ran = run("options", demo, "buy", "-o", out, "--allowance", "0")

    assert ran.returncode == 0
    assert "41 m 3-core 16 mm² armoured (XLPE)" in ran.stdout
    table = from_bytes(out.read_bytes())
    assert table.headings == ("Sort", "What", "Quantity", "Unit", "For", "Note")
    rows = [each.cells for each in table.rows]
    assert ("cable", "3-core 16 mm² armoured (XLPE)", "41", "m", "Feed, run 2", "") in rows
    assert run("options", demo, "buy", "-o", out).returncode == 2
    assert run("options", demo, "buy", "-o", out, "--force").returncode == 0
    assert run("options", demo, "feed", "-o", tmp_path / "other.csv").returncode == 2
    assert not (tmp_path / "other.csv").exists()
    assert json.loads(run("options", demo, "buy", "--json").stdout)["missing"] == []


def test_designs_are_compared_with_the_checks_that_stand_otherwise(
    run: Run, tmp_path: Path
) -> None:
    here = SOUND.model_copy(update={"readings": ()})
    thin = here.feed.runs[0].model_copy(update={"csa": 2.5})
    other = here.model_copy(update={"feed": here.feed.model_copy(update={"runs": (thin,)})})
    one, two = written(tmp_path, here), written(tmp_path, other, "thin.json")
    ran = run("options", one, "compare", "--with", two)

    assert ran.returncode == 0
    said = " ".join(ran.stdout.split())
    assert "Feed, run 1, Line conductor 10 mm² 2.5 mm²" in said
    assert "Feed: In ≤ Iz ✓ 54.0 A (at least 40 ! ✗ 26.1 A (at least" in said
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80
    data = json.loads(run("options", one, "compare", "--with", two, "--json").stdout)
    assert any(each["sides"][1]["worse"] for each in data["checks"])
    assert data["inputs"][0]["sides"] == ["10 mm²", "2.5 mm²"]
    three = run("options", one, "compare", "--with", two, "--with", one)
    assert max(map(cell_len, three.stdout.splitlines())) <= 80
    same = run("options", one, "compare", "--with", one)
    assert "The designs are the same" in same.stdout
    assert run("options", one, "compare").returncode == 2
    assert run("options", one, "compare", *["--with", two] * 3).returncode == 2


@pytest.mark.parametrize(
    "words",
    [
        ("room", "--run", "1"),
        ("feed", "--radial", "20"),
        ("feed", "--later", "3"),
        ("earth", "--allowance", "5"),
        ("C1", "--room", "10"),
        ("buy", "--with", "x.json"),
    ],
)
def test_an_option_that_would_do_nothing_is_refused(
    run: Run, demo: Path, words: tuple[str, ...]
) -> None:
    ran = run("options", demo, *words)

    assert ran.returncode == 2
    assert "leave it out" in ran.stderr


@pytest.mark.parametrize(
    "words",
    [
        ("feed", "--room", "nan"),
        ("room", "--later", "nan"),
        ("buy", "--allowance", "nan"),
        ("C1", "--radial", "nan"),
        ("feed", "--room", "-3"),
        ("feed", "--room", "abc"),
        ("room", "--later", "inf"),
        ("room", "--later", "30"),
        ("feed", "--run", "0"),
        ("feed", "--run", "9"),
        ("buy", "-o", "list.xls"),
        ("buy", "-o", "no-such-folder/list.csv"),
        ("compare", "--with", "no-such-file.json"),
        ("C3", "--radial", "20"),
        ("nothing",),
    ],
)
def test_what_can_t_be_is_refused_in_a_sentence(
    run: Run, demo: Path, words: tuple[str, ...]
) -> None:
    ran = run("options", demo, *words)

    assert ran.returncode == 2
    assert ran.stderr.strip().endswith((".", ")"))
    assert "Traceback" not in ran.stderr


def test_the_list_as_a_page_opens_in_a_browser(run: Run, demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "list.html"

    assert run("options", demo, "buy", "-o", out).returncode == 0
    page = out.read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>")
    assert "3-core 16 mm² armoured (XLPE)" in page
    assert run("options", demo, "buy", "-o", out).returncode == 2


def test_room_and_allowance_of_the_record_count_unless_others_are_typed(
    run: Run, tmp_path: Path
) -> None:
    record = SOUND.model_copy(update={"readings": (), "buying": Buying(room=0.0, allowance=0.0)})
    path = written(tmp_path, record)

    assert "First that leaves 0 % of load" in run("options", path).stdout
    assert "First that leaves 10 % of load" in run("options", path, "--room", "10").stdout
    assert "cable with 0 % over" in run("options", path, "buy").stdout
    assert "cable with 10 % over" in run("options", path, "buy", "--allowance", "10").stdout
