"""A person's settings while the wizard runs: each is changed at once, and in the file."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from textual.app import App

from records.habits import HABITS, Comma, DayOrder
from records.text import printable
from tui.look import DARK, PAPER, PLAIN, Tone
from tui.own_keys import FREE, USUAL, keymap, opening_keys
from tui.settings import change_setting, read_settings, use_habits

if TYPE_CHECKING:
    from tui.dialogs.reader import Reader

Kind = TypeVar("Kind", bound=Enum)
_OURS = {
    DARK: "dark, for a dim shed (usual)",
    PAPER: "light, for daylight",
    PLAIN: "no colour",
}
_DATES = {
    DayOrder.DAY_FIRST: "day first: 5/3/26 is 5 March 2026 (usual)",
    DayOrder.MONTH_FIRST: "month first: 5/3/26 is 3 May 2026",
}
_COMMA = {
    Comma.ASK: "refused: you are asked which you mean (usual)",
    Comma.DECIMAL: "1.25: the comma is a decimal comma",
    Comma.THOUSANDS: "1250: the comma parts thousands",
}


class OwnSettings:
    """What is set, and the questions that change it."""

    def __init__(self, app: App[Any], path: Path, tell: Callable[[str, Tone], object]) -> None:
        """Read the settings and use them.

        Args:
            app: The wizard.
            path: The settings file; it need not be there.
            tell: Shows a sentence.
        """
        self._app, self._path, self._tell = app, path, tell
        settings = read_settings(path)
        use_habits(settings)
        self._keys: Mapping[str, str] = settings.keys
        app.set_keymap(keymap(settings.keys))
        self.opening = opening_keys(settings.keys)
        """Keys that open a dialog wherever they act."""
        trouble = list(settings.trouble)
        self.look = settings.look if settings.look in app.available_themes else DARK
        """The theme to show."""
        if settings.look and settings.look != self.look:
            name = printable(settings.look)[:40]
            trouble.append(f"There is no look “{name}”: Ctrl+P, then Look, lists them.")
        self.trouble = " ".join(trouble)
        """What was wrong with the file; empty if nothing."""

    def choose_look(self) -> None:
        """Ask for the colours: ours first, then all that Textual has."""
        others = sorted(name for name in self._app.available_themes if name not in _OURS)
        names = [*_OURS, *others]
        lines = [_OURS.get(name, name) for name in names]

        def take(at: int) -> None:
            self._app.theme = names[at]
            self._keep("look", names[at], f"The look is now {names[at]}.")

        self._ask("Look", lines, names.index(self._app.theme), take)

    def choose_dates(self) -> None:
        """Ask how dates in figures are read."""

        def take(order: DayOrder) -> None:
            HABITS.dates = order

        self._choose("What does 5/3/26 mean?", "dates", _DATES, HABITS.dates, take)

    def choose_comma(self) -> None:
        """Ask how a comma before three digits is read."""

        def take(comma: Comma) -> None:
            HABITS.comma = comma

        title = "How is 1,250 read? (0,35 is always 0.35)"
        self._choose(title, "comma", _COMMA, HABITS.comma, take)

    def show_keys(self) -> None:
        """Say how keys are set, and which are."""
        self._app.push_screen(self._about_keys())

    def _about_keys(self) -> Reader:
        from textual.content import Content

        from tui.dialogs.reader import Reader

        now = tuple((key, name) for name, key in self._keys.items())
        return Reader(
            "Your own keys",
            [
                Content(
                    "Does your terminal take a key for itself, such as F1 or F10? Set another:"
                ),
                Content(f'In {printable(str(self._path))}, write\n[keys]\nsteps = "Ctrl+T"'),
                Content("It acts beside the usual key from the next start."),
                Content(f"Free are {FREE}."),
                Content(f"You can set a key for: {', '.join(USUAL)}."),
                Content.styled("Set now", "bold"),
                now or (("none", "no key is set yet"),),
            ],
        )

    def _choose(
        self,
        title: str,
        name: str,
        words: dict[Kind, str],
        now: Kind,
        take: Callable[[Kind], None],
    ) -> None:
        kinds = list(words)

        def taken(at: int) -> None:
            take(kinds[at])
            said = words[kinds[at]].removesuffix(" (usual)")
            self._keep(name, kinds[at].value, f"Set: {said}.")

        self._ask(title, list(words.values()), kinds.index(now), taken)

    def _ask(self, title: str, lines: Sequence[str], at: int, take: Callable[[int], None]) -> None:
        from tui.dialogs.choose import Choose

        self._app.push_screen(
            Choose(title, lines, at=at), lambda at: take(at) if at is not None else None
        )

    def _keep(self, name: str, value: str, said: str) -> None:
        why = change_setting(self._path, name, value)
        self._tell(f"{said} {why}".strip(), "warn" if why else "good")
