"""What is asked for safety goes on record in few places, and each of them asks the interlock."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLACES = {
    "readings": {"records/taking/desk.py", "records/taking/sheet_taken.py"},
    "certifier_readings": {"records/taking/desk.py", "records/taking/sheet_taken.py"},
    "cautions_read": {"records/taking/desk.py"},
    "live_gate": {"records/taking/desk.py"},
    "remedies": {"records/taking/desk.py"},
    "left": {"records/taking/how_left.py"},
}
"""By list of the record: what may add to it. A sheet is kept as it came, and is judged."""
CHANGES = ("append", "put", "insert", "take_out", "swap")


def changes(path: Path) -> Iterator[str]:
    """Yield the list that each change of a module is about; the two of readings for `list_for`."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        if node.func.id not in CHANGES or not node.args:
            continue
        pointer = node.args[0]
        if any(isinstance(each, ast.Name) and each.id == "list_for" for each in ast.walk(pointer)):
            yield from ("readings", "certifier_readings")
        first = pointer.values[0] if isinstance(pointer, ast.JoinedStr) else pointer
        if isinstance(first, ast.Constant) and str(first.value).startswith("/"):
            yield str(first.value).split("/")[1]


@cache
def all_changes() -> list[tuple[str, set[str]]]:
    """Return each module with the lists that it changes; all of them are read for it, once."""
    paths = [path for top in ("records", "tui") for path in (ROOT / top).rglob("*.py")]
    return [(path.relative_to(ROOT).as_posix(), set(changes(path))) for path in paths]


@pytest.mark.parametrize("name", PLACES)
def test_only_known_places_change_what_safety_rests_on(name: str) -> None:
    assert {path for path, lists in all_changes() if name in lists} == PLACES[name]


def test_changes_of_the_design_are_found_the_same_way() -> None:
    assert "circuits" in set(changes(ROOT / "tui" / "steps" / "circuits.py"))
    assert "feed" in set(changes(ROOT / "records" / "entering" / "take_over.py"))
