"""Keys that a person sets beside the usual ones, where a terminal takes those for itself."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches

USUAL = {
    "help": "f1,question_mark",
    "working": "f2",
    "back": "f3,ctrl+pageup",
    "next": "f4,ctrl+pagedown",
    "what-if": "f5",
    "steps": "f6",
    "copy": "f7",
    "remove": "f8",
    "insert": "ctrl+n",
    "picture": "ctrl+g",
    "undo": "ctrl+z",
    "redo": "ctrl+y",
    "commands": "ctrl+p",
    "leave": "ctrl+q,f10",
}
"""What a key can be set for, by the id of its binding, with the keys that always do it."""

_OPENING = ("help", "working", "steps", "picture", "commands", "back", "next")
_LETTERS = "blrt"
"""Letters that do nothing yet with Ctrl held: neither here, nor in a line of text, nor in a
terminal, where Ctrl with I, M, H or J is Tab, Enter or Backspace."""
_FREE = re.compile(rf"f11|f12|(?:shift|ctrl)\+f(?:[1-9]|1[0-2])|ctrl\+[{_LETTERS}]")
FREE = "F11, F12, F1 to F12 with Shift or Ctrl, or Ctrl with b, l, r or t"


def wrong_key(name: str, key: str, others: Mapping[str, str]) -> str:
    """Return what is wrong with a key that is set; empty if nothing.

    Args:
        name: What it is set for.
        key: The key, such as `Ctrl+T`.
        others: Keys that are set already, with what for.
    """
    if name not in USUAL:
        close = get_close_matches(name, USUAL, n=1)
        meant = f"Did you mean “{close[0]}”?" if close else f"Take one of {', '.join(USUAL)}."
        return f"No key can be set for “{name}”. {meant}"
    if not _FREE.fullmatch(plain(key)):
        return f"“{key}” can't be set for {name}. Take {FREE}."
    taken = next((each for each, its in others.items() if plain(its) == plain(key)), None)
    return f"“{key}” is set for {taken} already. Take another for {name}." if taken else ""


def keymap(own: Mapping[str, str]) -> dict[str, str]:
    """Return the keys of each binding that has one of the person's: theirs before the usual."""
    return {name: f"{plain(key)},{USUAL[name]}" for name, key in own.items()}


def opening_keys(own: Mapping[str, str]) -> frozenset[str]:
    """Return the keys that open a dialog or another step, the person's own among them."""
    keys = [own[name] for name in _OPENING if name in own]
    usual = [key for name in _OPENING for key in USUAL[name].split(",") if "_" not in key]
    return frozenset((*usual, *map(plain, keys)))


def plain(key: str) -> str:
    """Return a key as the screen names it: `Ctrl+T` is `ctrl+t`."""
    return re.sub(r"\s*[+-]\s*", "+", key.strip().casefold())
