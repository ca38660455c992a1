"""What is loaded when: the first screen comes fast, and the domain knows no screen."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[1]

SCREEN = {"textual", "rich", "click"}
UNITS = {"pint"}
DOCUMENT = {"docx", "docxtpl", "lxml", "jinja2", "PIL"}
RECORD = {"pydantic", "jsonpatch", "sqlite3"}
TESTS_ONLY = {"numpy", "scipy", "hypothesis", "pytest", "power_grid_model"}


def loaded_by(code: str, *, whole: bool = False) -> set[str]:
    """Return the outer names of all that a fresh Python loads for some code, or the whole ones."""
    out = subprocess.run(
        [sys.executable, "-c", f"{code}\nimport sys\nprint(*sys.modules)"],
        check=True,
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    return {name if whole else name.partition(".")[0] for name in out.stdout.split()}


@pytest.mark.parametrize(
    "module",
    [
        "records.model.record",
        "records.expected.plan",
        "records.judgement.review",
        "records.judgement.todo.progress",
        "records.store.file",
        "records.store.history_text",
        "records.document.schedule",
        "records.demo",
    ],
)
def test_the_domain_loads_no_screen_no_units_no_word_processor(module: str) -> None:
    found = loaded_by(f"import {module}")
    assert found & (SCREEN | UNITS | DOCUMENT | TESTS_ONLY) == set()


@pytest.mark.parametrize("module", ["records.terms", "records.units", "records.typed"])
def test_words_and_units_load_next_to_nothing(module: str) -> None:
    assert loaded_by(f"import {module}") & (RECORD | UNITS | SCREEN) == set()


def test_pint_comes_when_a_unit_was_typed_and_not_before() -> None:
    typed = "from records.typed import read_typed; from records.units import Unit\n"
    assert "pint" not in loaded_by(typed + "read_typed('0.35', Unit.OHM)")
    assert "pint" in loaded_by(typed + "read_typed('350 mohm', Unit.OHM)")


@pytest.mark.parametrize(
    "module", ["tui.app", "tui.steps.start", "tui.commands.opening", "tui.commands.wizard"]
)
def test_what_the_first_screen_is_made_of_loads_no_record(module: str) -> None:
    found = loaded_by(f"import {module}")
    assert found & (RECORD | UNITS | DOCUMENT | TESTS_ONLY) == set()


def test_the_start_screen_stands_before_anything_heavy_is_loaded(tmp_path: Path) -> None:
    code = f"""
import asyncio, sys
from pathlib import Path
from tui.app import FarboardApp
from tui.local_state import Kept

FarboardApp._warm = lambda app: None  # what is loaded in the background once it stands

async def main():
    app = FarboardApp(kept=Kept(Path({str(tmp_path)!r})))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert app.screen.query("*"), "nothing on screen"
        print(*sys.modules)
asyncio.run(main())
"""
    found = loaded_by(code)
    assert "textual" in found
    assert found & (RECORD | UNITS | DOCUMENT | TESTS_ONLY) == set()


@pytest.mark.parametrize("module", ["tui.opening", "tui.steps.job", "tui.steps.dead_tests"])
def test_a_record_and_the_steps_it_opens_at_stand_before_anything_is_judged(module: str) -> None:
    found = loaded_by(f"import {module}", whole=True)
    assert found & {"records.model.record", "records.store.file"}
    assert found & {"records.judgement.review", "records.expected.plan"} == set()


def test_the_whole_walk_from_record_to_review_needs_no_screen() -> None:
    code = (
        "from records.demo import demo_record\n"
        "from records.expected.plan import expected\n"
        "from records.judgement.review import review\n"
        "record = demo_record()\n"
        "assert review(record, expected(record)).findings\n"
    )
    found = loaded_by(code)
    assert found & (SCREEN | DOCUMENT | UNITS | TESTS_ONLY) == set()
