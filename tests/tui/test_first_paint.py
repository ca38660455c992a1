"""What a screen shows at its first paint, before anything on it was laid out a second time."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from records.demo import demo_record
from records.entering.field import Field, Kind, Option
from records.store.file import RecordFile
from records.units import Unit
from tests.bench.terminal import Terminal
from tui.sizes import HORIZONTAL, VERTICAL, size_classes
from tui.widgets.drawing import State, draw

REFERENCE = Field("/job/reference", "Reference", Kind.TEXT, value="LOOM-1")
LENGTH = Field("/feed/length", "Length", Kind.FIGURE, value=46.0, unit=Unit.METRE)
SORT = Field("/x", "Sort", Kind.CHOICE, value=1, options=(Option("buried", 1),))


@pytest.mark.parametrize(
    ("field", "drafts", "shown"),
    [
        (REFERENCE, {}, "▸ Reference     LOOM-1"),
        (LENGTH, {}, "▸ Length        46"),
        (SORT, {}, "▸ Sort          buried"),
        (REFERENCE, {"/job/reference": "LOOM-2 or"}, "▸ Reference     LOOM-2 or"),
    ],
)
def test_the_value_in_hand_is_there_before_the_input_has_its_place(
    field: Field, drafts: dict[str, str], shown: str
) -> None:
    drawing = draw([field], State(at=0, drafts=drafts), 60)
    assert drawing.lines[0].plain.rstrip() == shown


def test_a_text_longer_than_its_input_does_not_run_past_it() -> None:
    field = Field("/x", "Place", Kind.TEXT, value="a shed behind the orchard " * 4)
    drawing = draw([field], State(at=0), 40)
    column, _, room = drawing.entry
    assert drawing.lines[0].plain[column + room :].startswith(" …")


@pytest.mark.parametrize(
    ("size", "classes"),
    [
        ((47, 13), ("-tiny", "-flat")),
        ((48, 14), ("-narrow", "-low")),
        ((69, 23), ("-narrow", "-low")),
        ((70, 24), ("-normal", "-tall")),
        ((109, 60), ("-normal", "-tall")),
        ((110, 24), ("-wide", "-tall")),
        ((0, 0), ("-tiny", "-flat")),
    ],
)
def test_a_screen_has_the_classes_of_its_size_from_the_start(
    size: tuple[int, int], classes: tuple[str, ...]
) -> None:
    assert size_classes(*size) == classes
    assert set(classes) <= {name for _, name in (*HORIZONTAL, *VERTICAL)}


@pytest.mark.slow
def test_a_record_is_said_to_be_opened_then_its_step_stands_with_what_is_in_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for each in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(each, str(tmp_path))
    path = tmp_path / "a\N{RIGHT-TO-LEFT OVERRIDE}b.farboard"
    RecordFile.create(path, demo_record()).close()
    terminal = Terminal([sys.executable, "-m", "tui", str(path)])
    try:
        seen: list[str] = []
        for _ in range(120):
            terminal.read_until_quiet(quiet=0.5, limit=1)
            seen += terminal.screens()
            if "LOOM-1" in seen[-1]:
                break
    finally:
        terminal.close()
    said = next(at for at, screen in enumerate(seen) if screen.startswith("Opening a�b.farboard …"))
    stands = next(at for at, screen in enumerate(seen) if "Reference" in screen)
    assert said < stands
    rows = [line.partition("Reference")[2].strip() for line in seen[stands].splitlines()]
    assert "LOOM-1" in rows


@pytest.mark.slow
def test_what_is_typed_while_a_record_is_being_opened_is_in_the_field_then(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for each in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(each, str(tmp_path))
    path = tmp_path / "job.farboard"
    RecordFile.create(path, demo_record()).close()
    terminal = Terminal([sys.executable, "-m", "tui", str(path)])
    try:
        for _ in range(120):
            terminal.read_until_quiet(quiet=0.01, limit=0.5)
            if any("Opening" in screen for screen in terminal.screens()):
                break
        terminal.press(b"LOOM-9")
        for _ in range(120):
            terminal.read_until_quiet(quiet=0.5, limit=1)
            if "Reference                 LOOM-9" in terminal.screens()[-1]:
                break
        assert "Reference                 LOOM-9" in terminal.words
    finally:
        terminal.close()
