"""The wizard: holds the opened record, knows the steps, sets the look."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events
from textual.app import App
from textual.binding import Binding, BindingType
from textual.driver import Driver
from textual.screen import Screen
from textual.types import CSSPathType

from records.errors import FarboardError, LookOnly
from records.terms import Step as WalkStep
from tui.drivers import UNDECODABLE, Undecodable, taking_any_bytes
from tui.keys_ahead import KeysAhead
from tui.last_steps import note_step
from tui.local_state import Kept
from tui.look import PLAIN, THEMES, Tone, missing_colours
from tui.own_settings import OwnSettings
from tui.screens import load_ahead, screen_of
from tui.sizes import size_classes
from tui.stop_signals import listen

if TYPE_CHECKING:
    from records.session import Session
    from tui.dialogs.dialog import HelpWanted
    from tui.keys import Keys

_SETTLED = 2.0
"""Seconds after which all that the first screen needs is loaded."""


class FarboardApp(App[None]):
    """The whole program in the terminal."""

    # Without these, the first screen and each dialog would have all of Textual's rules gone
    # through again; those of the steps are read as the steps come, see `go`.
    CSS_PATH: ClassVar[CSSPathType | None] = [
        "app.tcss",
        "steps/start.tcss",
        *sorted(Path(__file__).parent.glob("dialogs/*.tcss")),
    ]
    TITLE = "Farboard"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "ctrl+p", "choose_command", "Commands", priority=True, key_display="^P", id="commands"
        ),
        Binding("ctrl+q,f10", "leave", "Leave", priority=True, key_display="^Q", id="leave"),
    ]

    def __init__(
        self,
        path: Path | None = None,
        read_only: bool = False,
        kept: Kept | None = None,
        at: int | None = None,
        begin: Callable[[Session], WalkStep] | None = None,
    ) -> None:
        """Prepare the wizard.

        Args:
            path: The record to open; None: the start screen.
            read_only: Whether to open it for looking only.
            kept: What is remembered beside records; None: where this system keeps such things.
            at: The number of the change after which to look at it; None: as it stands.
            begin: Gives the step to begin with, once `path` is open; None: the first. What it
                raises as `FarboardError` is said as if the record could not be opened.
        """
        super().__init__()
        self.keys_ahead = KeysAhead(self)
        self.animation_level = "none"
        self.kept = Kept() if kept is None else kept
        self._path, self._read_only, self._at = path, read_only, at
        self._begin = begin
        self._session: Session | None = None
        self._begin_at: WalkStep | None = None
        """The step to begin with, once the record that was named is open."""
        self._cannot: tuple[str, Path | None] | None = None
        """Why a record can't be opened, till it is said; and which, if it can be looked at."""
        self._ended = False
        for theme in THEMES:
            self.register_theme(theme)
        # To set it as one does later would have all rules gone through a second time before the
        # first paint.
        self.own = OwnSettings(self, self.kept.settings, self.say)
        self.keys_ahead.opening = self.own.opening
        self.set_reactive(App.theme, PLAIN if self.no_color else self.own.look)
        self.stylesheet.set_variables(self.get_css_variables())
        self.set_class(self.current_theme.dark, "-dark-mode", update=False)
        self.set_class(not self.current_theme.dark, "-light-mode", update=False)

    @property
    def is_open(self) -> bool:
        """Whether a record is open."""
        return self._session is not None

    @property
    def session(self) -> Session:
        """The opened record.

        Raises:
            FarboardError: If none is open.
        """
        if self._session is None:
            raise FarboardError("No record is open.")
        return self._session

    def on_load(self) -> None:
        """Open the record that is named, before the terminal is taken over."""
        if self._path is not None:
            self._begin_at = self._opened(self._path, self._read_only, self._at)

    def get_default_screen(self) -> Screen[Any]:
        """Return the screen beneath all others, which can't be left: the start, if it is first."""
        return self._made(None) if self._path is None else super().get_default_screen()

    async def on_event(self, event: events.Event) -> None:
        """Hold keys while a dialog is opening: they are meant for it."""
        if isinstance(event, events.Key) and not event.is_forwarded:
            if self._ended or self.keys_ahead.holds(event):
                return
            self.keys_ahead.expect_dialog(event)
        await super().on_event(event)

    def on_mount(self) -> None:
        """Show the record that was opened; the start is there already."""
        if not self.is_headless:
            # Without this the window's closing ends the program with the terminal left as it is.
            listen(self._leave_at_once)
        self.set_class("FARBOARD_TOUCH" in os.environ, "-touch")
        if not gc.isenabled():
            self.set_timer(_SETTLED, _collect_again)
        if self._path is not None:
            # Not now: nothing is painted yet, so what a step leaves for after would come before.
            self.call_later(self._go_on, self._begin_at)
        else:
            self._say_known()
            self.call_after_refresh(lambda: self.set_timer(0.05, self._warm))

    def on_unmount(self) -> None:
        """Close the record, however the program ended."""
        self._let_go()

    # Records.

    def open_later(self, path: Path, *, read_only: bool = False) -> None:
        """Open a record, once the dialog that it was chosen in is gone."""
        self.call_after_refresh(lambda: self._go_on(self._opened(path, read_only, None)))

    def create(self, path: Path) -> None:
        """Make a blank record and open it."""
        from tui.opening import created

        self._go_on(self._take(lambda: created(path), path))

    def open_demo(self) -> None:
        """Open a copy of the demo job."""
        from tui.opening import demo

        self._go_on(self._take(demo, None))
        if self._session is not None:
            self.say(f"A copy to play with: {self._session.file.path}")

    def _opened(self, path: Path, read_only: bool, at: int | None) -> WalkStep | None:
        from tui.opening import opened

        copies = self.kept.data / "copies"
        return self._take(lambda: opened(path, read_only, at, copies), path)

    def _take(self, make: Callable[[], Session], path: Path | None) -> WalkStep | None:
        """Take over a record; return the step to show, or None if it can't be opened."""
        try:
            session = make()
            step = self._first(session)
        except FarboardError as error:
            self._cannot = str(error), path if isinstance(error, LookOnly) else None
            return None
        self._session = session
        note_step("a record is open" + (" to look only" if session.read_only else ""))
        session.changed = self._record_changed
        if path is not None:
            session.drafts.update(self.kept.drafts(path))
            self.kept.opened(path)
        return step

    def _go_on(self, step: WalkStep | None) -> None:
        self._show(self._made(step))
        self._say_known()

    def _say_known(self) -> None:
        """Say what is to be known of a record that was opened, why one can't be, or of settings."""
        from tui.record_questions import say_it_cannot_be_opened, what_to_know

        if known := what_to_know(self._session, self.own.trouble):
            self.say(known, "warn")
        if self._cannot is not None:
            (why, path), self._cannot = self._cannot, None
            look = None if path is None else lambda: self.open_later(path, read_only=True)
            self.call_later(say_it_cannot_be_opened, self, why, look)

    def _first(self, session: Session) -> WalkStep:
        """Return the step to begin with; only the record that was named at the start has another.

        Raises:
            FarboardError: If the record hasn't what was asked for; it is closed again.
        """
        begin, self._begin = self._begin, None
        if begin is None:
            return WalkStep.JOB
        try:
            return begin(session)
        except FarboardError:
            session.close()
            raise

    def say(self, text: str, tone: Tone = "plain") -> None:
        """Show a sentence on the step, or the first screen, that is about to be shown."""

        def say() -> None:
            for each in reversed(self.screen_stack):
                if hasattr(each, "tell"):
                    each.tell(text, tone)
                    return

        self.call_after_refresh(say)

    def _show(self, screen: Screen[None]) -> None:
        """Show a screen in place of the one there is, if that is not the one beneath all others."""
        note_step(type(screen).__name__)
        if len(self.screen_stack) > 1:
            self.switch_screen(screen)
        else:
            self.push_screen(screen)

    def _made(self, step: WalkStep | None) -> Screen[None]:
        """Return a screen with its rules, for the size there is: the start if there is no step."""
        screen = screen_of(step)()
        screen.set_class(True, *size_classes(*self.size), update=False)
        for rules in screen.css_path:
            if not self.stylesheet.has_source(str(rules)):
                self.stylesheet.read(rules)
        return screen

    def action_close_record(self) -> None:
        """Go back to the start screen; what is typed and not accepted is kept as a draft."""
        if self._session is not None:
            self._stash()
            self._let_go()
            self._go_on(None)

    # Steps.

    def go(self, step: WalkStep) -> None:
        """Show a step, unless the one on screen objects."""
        from tui.steps.step import Step

        if isinstance(self.screen, Step):
            if not self.screen.is_mounted:  # a key pressed ahead, before the step is there
                self.call_later(self.go, step)
                return
            if not self.screen.may_leave():
                return
        self._show(self._made(step))

    def choose_step(self) -> None:
        """Open the list of steps."""
        from tui.dialogs.choose import Choose
        from tui.dialogs.steps import step_lines

        steps = tuple(WalkStep)
        here = getattr(self.screen, "step", steps[0])
        self.push_screen(
            Choose("Go to a step", step_lines(self.session.progress), at=steps.index(here)),
            lambda at: self.go(steps[at]) if at is not None else None,
        )

    def read(self, title: str, screen: str, field: str, keys: Keys) -> None:
        """Show the help of a screen, with its keys and those that are the same everywhere."""
        from tui.dialogs.reader import Reader, help_text
        from tui.keys import LEAVING

        self.push_screen(Reader(f"Help: {title}", help_text(screen, field, (*keys, *LEAVING))))

    def on_help_wanted(self, event: HelpWanted) -> None:
        """Show the help of a dialog over it."""
        from tui.dialogs.reader import Reader, dialog_help

        title = f"Help: {event.title}" if event.title else "Help"
        self.push_screen(Reader(title, dialog_help(event.words, event.keys)))

    def ask(self, title: str, wrong: Callable[[str], str], then: Callable[[str], None]) -> None:
        """Ask for one line of text; `then` is called with an answer that is right."""
        from tui.dialogs.ask import Ask

        self.push_screen(Ask(title, wrong), lambda text: then(text) if text else None)

    def _record_changed(self) -> None:
        from tui.steps.step import Step

        note_step("the record changed")
        for screen in self.screen_stack:
            if isinstance(screen, Step):
                screen.session_changed()

    # Leaving.

    async def action_leave(self) -> None:
        """Leave; how the installation is left is asked first, if anything was live."""
        from tui.steps.leaving import ask_first

        self._stash()
        ask_first(self, self._session, self._leave_now)

    def _leave_now(self) -> None:
        """Leave; what is typed and not accepted is kept as a draft, and said so."""
        if self._session is None or not self._session.drafts:
            self._end()
            return
        from records.drafts import draft_words
        from tui.record_questions import ask_about_drafts

        ask_about_drafts(self, draft_words(self._session.drafts, self._session.record), self._end)

    def _end(self) -> None:
        self._let_go()
        self._ended = True
        self.exit()

    def _leave_at_once(self) -> None:
        """Leave because the system says so; nothing accepted or typed is lost."""
        self._ended = True
        with suppress(Exception):  # a screen that is only half there has nothing typed in it
            self._stash()
        self._end()

    def _handle_exception(self, error: Exception) -> None:
        """Stop with a plain message, nothing lost; the trace goes to a file."""
        from tui.crash_report import telling
        from tui.left_screens import came_too_late

        if self._ended:  # all is on disk; what was under way can't end well
            self.exit()
            return
        if came_too_late(self, error):
            return
        record = self._session.file.path if self._session is not None else None
        with suppress(Exception):  # whatever failed may fail again here; the message goes first
            self._stash()
            self._let_go()
        super()._handle_exception(telling(error, self.kept.folder, record))

    def get_driver_class(self) -> type[Driver]:
        """Return what the wizard is drawn and typed into with."""
        return taking_any_bytes(super().get_driver_class())

    def on_undecodable(self, _: Undecodable) -> None:
        """Say why nothing came of what was typed."""
        self.say(UNDECODABLE, "warn")

    def _stash(self) -> None:
        from tui.steps.step import Step

        for screen in self.screen_stack:
            if isinstance(screen, Step) and screen.is_mounted:
                screen.stash()

    def _let_go(self) -> None:
        if self._session is not None:
            self.kept.keep_drafts(self._session.file.path, self._session.drafts)
            self._session.close()
            self._session = None

    # Look and commands.

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Return the colours that our rules name and Textual's own looks don't have."""
        return missing_colours(self.current_theme)

    def action_choose_command(self) -> None:
        """Offer all commands of the screen; over a dialog there are none."""
        from tui.dialogs.commands import choose_command
        from tui.palette import offered

        choose_command(self, offered(self, self.screen))

    def _warm(self) -> None:
        """Load what opens and judges a record while the person reads the first screen."""
        self.run_worker(load_ahead, thread=True, exit_on_error=False)


def _collect_again() -> None:
    """Collect what is let go of; what was loaded stays, and is not looked through with each key."""
    gc.freeze()
    gc.enable()
