"""`farboard explain`: one working, the list of what has one, typing errors, completion."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from records.demo import demo_record
from records.expected.naming import explained, find, place_name
from records.expected.plan import expected
from records.expected.results import Worked
from records.model.reading import place_of
from records.store.exchange import to_json
from records.terms import Part
from tests.commands.conftest import Run
from tests.expected.jobs import circuit, job
from tests.expected.jobs import run as cable
from tui.commands.explain import _completed, explain


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """Return the demo job as JSON."""
    path = tmp_path / "demo.json"
    path.write_text(to_json(demo_record()), encoding="utf-8")
    return path


@pytest.fixture
def plain(tmp_path: Path) -> Path:
    """Return a job of one circuit whose figures are done by hand below, as JSON."""
    record = job(
        circuits=[circuit(runs=[cable(length=20.0)])],
        feed={
            "device": {"kind": "BS 88-3 fuse", "rating": 32.0},
            "runs": [cable(csa=6.0, length=10.0)],
        },
    )
    path = tmp_path / "plain.json"
    path.write_text(to_json(record), encoding="utf-8")
    return path


def test_a_working_has_formula_values_result_and_sources(run: Run, plain: Path) -> None:
    ran = run("explain", plain, "r1+r2:C1")

    assert ran.returncode == 0
    # 20 m of 2.5/1.5 mm²: (7.41 + 12.1) mΩ/m at 20 °C × (1 + 0.00393 × 50) = 0.467 Ω
    assert "R1+R2 = 0.47 Ω" in ran.stdout
    assert "20 m × (8.866 + 14.48) mΩ/m" in ran.stdout
    assert "IEC 60228" in ran.stdout
    assert "Formula" in ran.stdout
    assert "Sources" in ran.stdout


def test_the_feed_and_capitals(run: Run, plain: Path) -> None:
    lower, upper = run("explain", plain, "drop:feed"), run("explain", plain, "DROP:Feed")

    assert lower.returncode == 0
    assert lower.stdout == upper.stdout
    assert "mV/A/m" in lower.stdout
    assert "Appendix 4" in lower.stdout


def test_each_source_tells_its_edition_and_basis(run: Run, demo: Path) -> None:
    said = " ".join(run("explain", demo, "zs-limit:C2").stdout.split())

    assert "BS 7671:2018+A2:2022, Table 41.3" in said
    assert "(from memory)" in said or "(read in a " in said


def test_without_what_everything_is_listed_and_every_name_can_be_explained(
    run: Run, demo: Path
) -> None:
    listed = run("explain", demo)
    record = demo_record()
    names = {each.name for each in explained(expected(record))}

    assert listed.returncode == 0
    assert names == {
        word.lstrip("?")
        for word in listed.stdout.split()
        if ":" in word and word.lstrip("?") in names
    }
    assert {"zs:C2", "r1+r2:C1", "drop:feed", "zdb:board", "meter-zs:C2"} <= names
    assert max(map(len, listed.stdout.splitlines())) <= 80


def test_what_could_not_be_worked_out_says_why_and_exits_with_1(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "bare.json"
    path.write_text(to_json(job(circuits=[circuit(runs=[cable(length=None)])])), encoding="utf-8")
    ran = run("explain", path, "zs:C1")

    assert ran.returncode == 1
    assert "not calculated: the length is not entered yet (Circuits, C1, run 1)." in ran.stdout


@pytest.mark.parametrize("word", ["zz:C9", "zs", "zs:C99", ":", "\N{SNOWMAN}"])
def test_an_unknown_name_is_one_sentence_with_the_nearest_names(
    run: Run, demo: Path, word: str
) -> None:
    ran = run("explain", demo, word)

    assert ran.returncode == 2
    assert not ran.stdout
    assert f"“{word}” is none of the figures of this record." in ran.stderr
    assert "all are listed" in ran.stderr


def test_no_record_and_no_design_do_no_harm(run: Run, tmp_path: Path) -> None:
    missing = run("explain", "nowhere.farboard", "zs:C1")
    assert missing.returncode == 2
    assert "nowhere.farboard" in missing.stderr
    empty = tmp_path / "empty.json"
    empty.write_text(json.dumps({"format": 1}), encoding="utf-8")

    assert run("explain", empty).returncode in (0, 2)


def test_tab_completes_the_names_of_the_record(demo: Path) -> None:
    ctx = explain.make_context("explain", [str(demo)])
    parameter = explain.params[1]
    found = [each.value for each in _completed(ctx, parameter, "ZS:c")]

    assert "zs:C2" in found
    assert all(each.startswith("zs:C") for each in found)
    ctx.params["file"] = demo.with_name("nowhere")
    assert _completed(ctx, parameter, "zs") == []


def test_a_name_means_one_figure_whatever_its_stage() -> None:
    known = explained(expected(demo_record()))
    crossed = [each for each in known if each.name.startswith("meter-cross-")]

    assert crossed
    assert all(len(find(known, each.name)) >= 1 for each in known)
    assert find(known, "no such figure") == ()
    assert place_name(place_of(Part.CIRCUIT, "C1", "P2")) == "C1.P2"
    assert place_name(place_of(Part.BOARD, None, "B1")) == "board.B1"
    figures = [each for each in find(known, "zs:C2") if isinstance(each.result, Worked)]
    assert len(figures) == 1
