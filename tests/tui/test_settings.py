"""What a person sets: kept in one file, changed from the wizard, and never in the way."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from textual.binding import Binding
from textual.theme import BUILTIN_THEMES

from records.days import read_day
from records.errors import BadQuantity
from records.habits import HABITS, Comma, DayOrder, Habits
from records.terms import Step as WalkStep
from records.typed import read_typed
from records.units import Unit
from tests.tui.driving import blank, wizard
from tui.app import FarboardApp
from tui.own_keys import USUAL
from tui.screens import screen_of
from tui.settings import change_setting, read_settings, use_habits
from tui.steps.start import Start


@pytest.fixture(autouse=True)
def _usual_habits() -> Iterator[None]:
    yield
    HABITS.dates, HABITS.comma = Habits().dates, Habits().comma


def _written(folder: Path, text: str) -> Path:
    path = folder / "kept" / "settings.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(text)
    return path


def test_a_month_first_person_types_month_first_and_iso_8601_stays_what_it_is() -> None:
    HABITS.dates = DayOrder.MONTH_FIRST
    assert read_day("5/3/26") == date(2026, 5, 3)
    assert read_day("25/3/26") == date(2026, 3, 25)
    assert read_day("2026-03-05") == date(2026, 3, 5)
    with pytest.raises(BadQuantity, match="month, day and year"):
        read_day("soon")


def test_a_comma_before_three_digits_is_read_as_the_person_writes_it() -> None:
    with pytest.raises(BadQuantity, match=r"1\.250 or 1250"):
        read_typed("1,250", Unit.AMPERE)
    HABITS.comma = Comma.DECIMAL
    assert read_typed("1,250", Unit.AMPERE).value == 1.25
    HABITS.comma = Comma.THOUSANDS
    assert read_typed("1,250", Unit.AMPERE).value == 1250
    assert read_typed("0,35", Unit.OHM).value == 0.35


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("look = [", "has a slip"),
        ('dates = "years-first"', 'Write "day-first" or "month-first"'),
        ("dates = 7", 'Write "day-first" or "month-first"'),
        ("look = 3", "look goes in quotes"),
        ('loko = "nord"', "Did you mean “look”"),
        ('kyes = "a"', "Did you mean “keys”"),
        ('colour = "red"', "It knows look, dates, comma and [keys]"),
        ("keys = 3", "write [keys]"),
        ("[keys]\nsteps = 4", "goes in quotes"),
        ('[keys]\nstep = "F11"', "Did you mean “steps”"),
        ('[keys]\nsteps = "F2"', "can't be set for steps"),
        ('[keys]\nsteps = "s"', "can't be set for steps"),
        ('[keys]\nsteps = "Ctrl+I"', "can't be set for steps"),
        ('[keys]\nsteps = "F11"\nhelp = "f11"', "is set for steps already"),
        ("x" * 200_000, "can't be read"),
    ],
)
def test_a_slip_in_the_file_is_a_sentence(tmp_path: Path, text: str, said: str) -> None:
    (trouble,) = read_settings(_written(tmp_path, text)).trouble
    assert said in trouble


async def test_the_wizard_says_the_slips_and_opens(tmp_path: Path) -> None:
    for text, *said in (
        ('look = "a\\u001b[31m"\n[keys]\nsteps = "F2"', "�", "can't be set for steps"),
        ("x" * 200_000, "can't be read"),
    ):
        path = _written(tmp_path, text)
        async with wizard(None, tmp_path, size=(120, 40)) as driver:
            for words in said:
                assert words in driver.words
            assert "+ a new record" in driver.screen
        path.unlink()


def test_one_slip_leaves_the_rest_of_the_file_in_force(tmp_path: Path) -> None:
    path = _written(tmp_path, 'dates = "month-first"\ncomma = 4\n[keys]\nhelp = "F12"\n')
    settings = read_settings(path)
    assert settings.dates is DayOrder.MONTH_FIRST
    assert settings.keys == {"help": "F12"}
    assert len(settings.trouble) == 1


def test_a_change_leaves_what_the_person_wrote_and_a_broken_file_alone(tmp_path: Path) -> None:
    mine = '# mine\ndates = "day-first"  # ours\n[keys]\nhelp = "F12"\n'
    path = _written(tmp_path, mine)
    assert change_setting(path, "comma", "decimal") == ""
    assert change_setting(path, "dates", "month-first") == ""
    settings = read_settings(path)
    assert (settings.dates, settings.comma) == (DayOrder.MONTH_FIRST, Comma.DECIMAL)
    assert settings.keys == {"help": "F12"}
    assert path.read_text().startswith("# mine\n")

    path.write_text("look = [")
    assert "has a slip" in change_setting(path, "look", "nord")
    assert path.read_text() == "look = ["


def test_the_first_change_makes_a_file_that_says_what_can_be_set(tmp_path: Path) -> None:
    path = tmp_path / "new" / "settings.toml"
    assert change_setting(path, "look", "nord") == ""
    settings = read_settings(path)
    assert settings.look == "nord"
    assert settings.trouble == ()
    text = path.read_text()
    assert all(f"#{name} =" in text for name in ("dates", "comma", "steps"))
    assert all(name in text for name in USUAL)


async def test_a_key_of_ones_own_acts_beside_the_usual_one_and_habits_are_set_by_commands(
    tmp_path: Path,
) -> None:
    _written(tmp_path, '[keys]\nsteps = "Ctrl+T"\nhelp = "F12"\ncommands = "Ctrl+L"\n')
    async with blank(tmp_path) as driver:
        assert "^t Steps" in driver.screen
        for key, title in (
            ("ctrl+t", "Go to a step"),
            ("f6", "Go to a step"),
            ("f12", "Help: Job"),
            ("f1", "Help: Job"),
            ("ctrl+l", "What do you want to do"),
            ("ctrl+p", "What do you want to do"),
        ):
            await driver.keys(key)
            await driver.settled()
            assert title in driver.screen, key
            await driver.keys("escape")

        await driver.keys("ctrl+p", *"dates", "enter", "2")
        await driver.keys("ctrl+p", *"comma", "enter", "3")
        await driver.settled()
    HABITS.dates, HABITS.comma = Habits().dates, Habits().comma
    use_habits(read_settings(tmp_path / "kept" / "settings.toml"))
    assert (HABITS.dates, HABITS.comma) == (DayOrder.MONTH_FIRST, Comma.THOUSANDS)


def test_the_keys_that_can_be_set_are_those_that_act() -> None:
    kinds = [FarboardApp, Start, *(screen_of(step) for step in WalkStep)]
    bound = {
        each.id: each.key
        for kind in kinds
        for base in kind.__mro__
        for each in vars(base).get("BINDINGS", ())
        if isinstance(each, Binding) and each.id and base.__module__.startswith("tui.")
    }
    assert bound == USUAL


async def test_every_look_that_textual_has_can_be_worn(tmp_path: Path) -> None:
    _written(tmp_path, f'look = "{min(BUILTIN_THEMES)}"')
    async with wizard(None, tmp_path) as driver:
        assert driver.app.theme == min(BUILTIN_THEMES)
        for look in sorted(BUILTIN_THEMES):
            driver.app.theme = look
            await driver.settled()
            assert "+ a new record" in driver.screen
