"""What a person has set on this computer: one small file, changed by hand or in the wizard.

A file that can't be read, or a line of it that says nothing known, is never fatal: the usual
setting holds, and a sentence says so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from records.disk import config_folder, private_folder, read_ordinary, write_whole
from records.habits import HABITS, Comma, DayOrder
from records.text import printable
from tui.own_keys import FREE, USUAL, wrong_key

NAME = "settings.toml"
_LARGEST = 100_000
_FIRST = f"""\
# Settings of Farboard. Change them here, or in the wizard with Ctrl+P.
# A line that you remove has its usual value again.

# Colours: Ctrl+P, then Look, lists what there is.
#look = "farboard-dark"

# What 5/3/26 means: "day-first" is 5 March, "month-first" is 3 May.
#dates = "day-first"

# What the comma of 1,250 means: "ask" refuses it, "decimal" is 1.25, "thousands" is 1250.
#comma = "ask"

# Keys beside the usual ones, where your terminal takes those for itself. Free are:
# {FREE}.
# For: {", ".join(list(USUAL)[:7])},
# {", ".join(list(USUAL)[7:])}.
[keys]
#steps = "Ctrl+T"
"""


@dataclass(slots=True)
class Settings:
    """What is set; what isn't has its usual value."""

    look: str = ""
    """Name of the theme; empty: the usual one."""
    dates: DayOrder = DayOrder.DAY_FIRST
    comma: Comma = Comma.ASK
    keys: dict[str, str] = field(default_factory=dict)
    """What for, and the key."""
    trouble: tuple[str, ...] = ()
    """What was wrong with the file, a sentence each."""


def settings_path() -> Path:
    """Return where the file is; it need not be there."""
    return config_folder() / NAME


def read_settings(path: Path) -> Settings:
    """Return what is set in a file; the usual settings if there is none."""
    try:
        if not path.exists():
            return Settings()
        data = read_ordinary(path, _LARGEST)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return Settings(trouble=(f"{_named(path)} can't be read ({why}). {_USUAL_HOLD}",))
    import tomllib  # most people have no such file

    try:
        said = tomllib.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        why = printable(str(error))[:80]
        return Settings(trouble=(f"{_named(path)} has a slip: {why}. Correct it. {_USUAL_HOLD}",))
    return _settings(said, path)


def use_habits(settings: Settings) -> None:
    """Read what is typed from now on as the person is used to."""
    HABITS.dates, HABITS.comma = settings.dates, settings.comma


def load_habits() -> Settings:
    """Read the person's settings, have what is typed read by them, and return them."""
    settings = read_settings(settings_path())
    use_habits(settings)
    return settings


def change_setting(path: Path, name: str, value: str) -> str:
    """Set one value in the file; return why it could not be kept, empty if it was.

    The rest of the file stays as the person wrote it. A file that can't be read is left alone.
    """
    try:
        there = path.exists()
        text = read_ordinary(path, _LARGEST).decode("utf-8-sig") if there else _FIRST
        import tomllib

        tomllib.loads(text)
        text = _with(text, name, value)
        tomllib.loads(text)
        private_folder(path.parent)
        write_whole(path, text.encode())
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else "it has a slip"
        return f"It holds until you leave: {_named(path)} can't be changed ({why})."
    return ""


_USUAL_HOLD = "Until then the usual settings hold."


def _with(text: str, name: str, value: str) -> str:
    """Return the text of the file with one line of its first part changed, or put in."""
    lines = text.splitlines()
    end = next((at for at, each in enumerate(lines) if each.lstrip().startswith("[")), len(lines))
    for known in (rf"\s*{name}\s*=", rf"#{name} = "):
        at = next((at for at in range(end) if re.match(known, lines[at])), None)
        if at is not None:
            break
    else:
        lines.insert(end, "")
        at = end
    lines[at] = f'{name} = "{value}"'
    return "\n".join(lines) + "\n"


def _settings(said: dict[str, Any], path: Path) -> Settings:
    settings, trouble = Settings(), []
    keys = said.pop("keys", {})
    for name, value in said.items():
        wrong = _set(settings, name, value)
        if wrong:
            trouble.append(f"{_named(path)}: {wrong}")
    if not isinstance(keys, dict):
        trouble.append(f"{_named(path)}: “keys” is a part of the file: write [keys].")
        keys = {}
    for name, key in keys.items():
        wrong = (
            wrong_key(name, key, settings.keys)
            if isinstance(key, str)
            else (f'the key for {name} goes in quotes, like "Ctrl+T".')
        )
        if wrong:
            trouble.append(f"{_named(path)}: {printable(wrong)}")
        else:
            settings.keys[name] = key
    settings.trouble = tuple(trouble)
    return settings


_CHOICES: dict[str, type[DayOrder] | type[Comma]] = {"dates": DayOrder, "comma": Comma}


def _set(settings: Settings, name: str, value: object) -> str:
    """Set one value; return what is wrong with it, empty if nothing."""
    if name == "look" and isinstance(value, str):
        settings.look = value
        return ""
    if name in _CHOICES:
        kind = _CHOICES[name]
        known = [each.value for each in kind]
        if value not in known:
            right = " or ".join(f'"{each}"' for each in known)
            return f"{name} can't be {printable(str(value))[:40]}. Write {right}."
        setattr(settings, name, kind(value))
        return ""
    if name == "look":
        return 'look goes in quotes, like "farboard-dark".'
    close = get_close_matches(name, ["look", "dates", "comma", "keys"], n=1)
    meant = f"Did you mean “{close[0]}”?" if close else "It knows look, dates, comma and [keys]."
    return f"“{printable(name)[:40]}” is no setting. {meant}"


def _named(path: Path) -> str:
    return printable(str(path))
