"""All commands of a screen, in the order of the work: some words of one find it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from textual import on
from textual.app import App, ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from tui.dialogs.dialog import Dialog
from tui.dialogs.text_dialog import TypedIn
from tui.widgets.choices import Choices
from tui.widgets.entry import Entry

_PAGE = 8
"""Lines that PageUp and PageDown go."""

_WIDEST = 26
"""Cells for a name before what the command does."""


class Command(NamedTuple):
    """One command."""

    name: str
    words: str
    """What it does, with its key."""
    act: Callable[[], object]


class Commands(TypedIn[Command]):
    """Type part of a name, move, Enter: the answer is the command; None after Esc."""

    KEYS_LINE = "↑ ↓ move · Enter does it · Esc closes"
    HELP = (
        "All that can be done here, in the order of the work. Type part of what you look for, "
        "such as “live” or “undo”: the list shows what has it. Enter does what the pointer is at."
    )

    def __init__(self, commands: Sequence[Command]) -> None:
        """Prepare the list.

        Args:
            commands: In the order of the work.
        """
        super().__init__("What do you want to do? Type a word of it")
        self._all = tuple(commands)
        self._shown = self._all
        self._sought = ""
        self._wide = min(max(len(each.name) for each in self._all), _WIDEST) + 2

    def compose_inside(self) -> ComposeResult:
        """Compose the line and the list."""
        yield Entry(self)
        yield Choices(*map(self._option, self._all), id="dialog-scroll")
        yield Static("", id="dialog-why", markup=False)

    def on_mount(self) -> None:
        """Stand on the first command, and take what is typed."""
        listed = self.query_one(Choices)
        listed.can_focus = False
        listed.highlighted = 0
        self.set_focus(self.query_one(Entry))

    def key(self, key: str) -> bool:
        """Move in the list, take its command, or close."""
        listed = self.query_one(Choices)
        if key == "escape":
            self.dismiss(None)
        elif key == "enter":
            self._find(self.query_one(Entry).value)  # it may not have been told yet
            at = listed.highlighted
            if at is not None and self._shown:
                self.dismiss(self._shown[at])
        elif key in ("down", "tab", "pagedown"):
            for _ in range(_PAGE if key == "pagedown" else 1):
                listed.action_cursor_down()
        elif key in ("up", "shift+tab", "pageup"):
            for _ in range(_PAGE if key == "pageup" else 1):
                listed.action_cursor_up()
        else:
            return False
        return True

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""
        self.query_one("#dialog-why", Static).update(why)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        self._find(event.value)

    def _find(self, typed: str) -> None:
        """Offer what has the words that are typed."""
        if typed == self._sought:
            return
        self._sought = typed
        words = typed.casefold().split()
        fitting = [each for each in self._all if _fits(each, words)]
        self._shown = tuple(sorted(fitting, key=lambda each: not _fits_name(each, words)))
        self.query_one(Choices).offer([self._option(each) for each in self._shown])
        none = f"No command has “{typed.strip()[:40]}”: type another word, or less of it."
        self.query_one("#dialog-why", Static).update("" if self._shown else none)

    @on(OptionList.OptionSelected)
    def _tapped(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(self._shown[event.option_index])

    def _option(self, each: Command) -> Option:
        name = f"{each.name:<{self._wide}}"
        return Option(Content.assemble((name, "bold"), (each.words, "$quiet")))


def _fits(each: Command, words: Sequence[str]) -> bool:
    text = f"{each.name} {each.words}".casefold()
    return all(word in text for word in words)


def _fits_name(each: Command, words: Sequence[str]) -> bool:
    name = each.name.casefold()
    return all(word in name for word in words)


def choose_command(app: App[Any], offered: Iterable[Command]) -> None:
    """Offer commands, and do the one chosen; over a dialog there are none.

    Args:
        app: Shows them.
        offered: What there is to choose; not looked at over a dialog.
    """
    if isinstance(app.screen, Dialog):
        return

    def act(chosen: Command | None) -> None:
        if chosen is not None:
            app.call_later(chosen.act)

    app.push_screen(Commands(list(offered)), act)
