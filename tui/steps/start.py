"""The first screen: open a record, begin one, or look at the demo."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from records.entering.field import Field
from records.notices import NEVER_CERTIFIES
from records.text import printable
from tui.keys import WALKING
from tui.look import Tone
from tui.sizes import HORIZONTAL, TOO_SMALL, VERTICAL
from tui.widgets.form import Form
from tui.widgets.head import Head
from tui.widgets.hint import Hint
from tui.widgets.key_line import KeyLine
from tui.widgets.message_line import Said
from tui.widgets.rows import Act, Heading, Link, Note, Row, Stop

if TYPE_CHECKING:
    from tui.dialogs.commands import Command
    from tui.steps.host import Host

SUFFIX = ".farboard"
WHAT = (
    "A record of your test readings for an outbuilding wired from a house. Before each reading "
    "it says what the meter should show; at once after, what the reading means."
)
CAUTION = (
    f"{NEVER_CERTIFIES} Isolate, lock off, prove dead. Agree the "
    "work with the person who will certify it before it starts; local rules come first."
)
HELP = (
    "A record is one file for one job; it ends in .farboard and can lie anywhere. Each value "
    "that you accept is on disk at once: there is nothing to save.\n\n"
    "The demo is a made-up job with mistakes in it, opened as a copy: change what you "
    "like.\n\n"
    "Nothing needs a network. A new record goes where you say: its folder is in its name.\n\n"
    "Ctrl+P, then Look, Dates, Comma or Keys changes what you are used to. "
    "New here? Open the demo. F1 on each screen ends with all symbols spelt out."
)


class Start(Screen[None]):
    """Recent records, a new one, another file, the demo."""

    HORIZONTAL_BREAKPOINTS = HORIZONTAL
    VERTICAL_BREAKPOINTS = VERTICAL
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1,question_mark", "help", "Help", key_display="F1", id="help"),
    ]

    def compose(self) -> ComposeResult:
        """Compose the screen."""
        yield Head(id="head")
        with Vertical(id="start"):
            brand = Content.styled("F A R B O A R D", "bold $primary")
            yield Static(Content("\n").join([brand, Content(WHAT)]), id="what", markup=False)
            yield Form(self._no_fields, self._do, {}, self._moved, id="form")
            yield Hint(id="hint")
        yield Said(id="said")
        yield KeyLine()
        yield Static(TOO_SMALL, id="too-small", markup=False)

    def on_mount(self) -> None:
        """List what can be opened."""
        form = self.query_one("#form", Form)
        form.show(self._rows(), fresh=True)
        form.focus_entry()

    @property
    def farboard(self) -> Host:
        """The app, as screens see it."""
        return cast("Host", self.app)

    def tell(self, text: str, tone: Tone = "plain") -> None:
        """Show one sentence at the foot."""
        self.query_one("#said", Said).say(text, tone)

    def action_help(self) -> None:
        """Explain the screen."""
        where = f"Your settings are in {printable(str(self.farboard.kept.settings))}."
        self.farboard.read("Start", f"{HELP}\n\n{where}", "", WALKING)

    def commands(self) -> Iterator[Command]:
        """Yield what can be begun, for the list of commands."""
        from tui.dialogs.commands import Command

        for row in self._rows():
            if isinstance(row, Link | Act):
                name = row.label.removeprefix("+ ").capitalize()
                words = row.summary if isinstance(row, Link) else row.hint
                yield Command(name, words, partial(self._do, row))

    def _rows(self) -> list[Row]:
        recent = self.farboard.kept.recent()
        here = f"Records are kept in this folder: {printable(str(Path.cwd()))}."
        rows: list[Row] = []
        if recent:
            rows.append(Heading("Opened last"))
            rows += [
                Link(
                    str(path), printable(path.stem), printable(str(path.parent)), "Enter opens it."
                )
                for path in recent
            ]
        rows += [
            Heading("Begin"),
            Act("new", "+ a new record", f"{here} Asks for a name; the file is made at once."),
            Act("open", "open another file", f"{here} Lists what is there."),
            Act("demo", "the demo: a weaver's loom shed behind an orchard", "A copy to play with."),
            Note(CAUTION, "warn"),
        ]
        return rows

    def _no_fields(self, field: Field, value: object) -> None:
        raise LookupError(f"The start screen has no field {field.label} for {value!r}.")

    def _do(self, row: Link | Act) -> None:
        from tui.dialogs.ask import Ask

        if isinstance(row, Link):
            self.farboard.open_later(Path(row.key))
        elif row.key == "new":
            title = f"A new record: type its name. It goes in {printable(str(Path.cwd()))}"
            self.app.push_screen(Ask(title, wrong_new), self._then(self.farboard.create))
        elif row.key == "open":
            from tui.dialogs.open_file import OpenFile

            self.app.push_screen(OpenFile(wrong_old, SUFFIX), self._then(self.farboard.open_later))
        else:
            self.farboard.open_demo()

    def _then(self, do: Callable[[Path], None]) -> Callable[[str | None], None]:
        return lambda text: do(file_of(text)) if text else None

    def _moved(self, row: Stop | None) -> None:
        self.query_one("#hint", Hint).show(row)


def file_of(text: str) -> Path:
    """Return the file that a typed name means: with the suffix, from the folder one is in."""
    path = Path(text).expanduser()
    named = path if path.suffix == SUFFIX or path.exists() else path.with_name(path.name + SUFFIX)
    return named.absolute()


def wrong_new(text: str) -> str:
    """Return what is wrong with the name of a new record; empty if nothing."""
    if not text or text.endswith(("/", os.sep)):
        return "Type a name, like loom-shed: the file will be loom-shed.farboard."
    try:
        path = file_of(text)
        if path.exists():
            return f"{printable(path.name)} is there already: open it, or type another name."
        if not path.parent.is_dir():
            return f"There is no folder {printable(str(path.parent))}: make it first."
    except (OSError, ValueError, RuntimeError) as error:
        return f"“{printable(text[:40])}” can't be a file name ({_why(error)}): type a plainer one."
    return ""


def wrong_old(text: str) -> str:
    """Return what is wrong with the name of a record to open; empty if nothing."""
    if not text:
        return "Type the name of a record, like loom-shed.farboard."
    try:
        path = file_of(text)
        if not path.is_file():
            return f"There is no file {printable(str(path))}: check the name and the folder."
    except (OSError, ValueError, RuntimeError) as error:
        return f"“{printable(text[:40])}” can't be a file name ({_why(error)}): check it."
    return ""


def _why(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
