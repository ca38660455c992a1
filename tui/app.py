"""The wizard: holds the opened record, knows the steps, sets the look."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType

from records.errors import FarboardError
from records.terms import Step as WalkStep
from tui.look import DARK, PAPER, PLAIN, THEMES

if TYPE_CHECKING:
    from tui.session import Session
    from tui.steps.step import Step

_MODULES = {step: f"tui.steps.{step.name.lower()}" for step in WalkStep}


class FarboardApp(App[None]):
    """The whole program in the terminal."""

    CSS_PATH = "app.tcss"
    TITLE = "Farboard"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q,f10", "leave", "Leave", priority=True, key_display="^q"),
    ]

    def __init__(self, path: Path | None = None, read_only: bool = False) -> None:
        """Prepare the wizard.

        Args:
            path: The record to open; None: the start screen.
            read_only: Whether to open it for looking only.
        """
        super().__init__()
        self.animation_level = "none"
        self._path, self._read_only = path, read_only
        self._session: Session | None = None
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = PLAIN if self.no_color else DARK

    @property
    def session(self) -> Session:
        """The opened record.

        Raises:
            FarboardError: If none is open.
        """
        if self._session is None:
            raise FarboardError("No record is open.")
        return self._session

    def on_mount(self) -> None:
        """Open the record, or show the start screen."""
        if self._path is not None:
            self.open_record(self._path, read_only=self._read_only)

    def open_record(self, path: Path, *, read_only: bool = False) -> None:
        """Open a record file and show its first step."""
        from records.store.file import RecordFile

        from tui.session import Session

        self._session = Session(RecordFile.open(path, read_only=read_only))
        self._session.changed = self._record_changed
        self.go(WalkStep.JOB)

    def go(self, step: WalkStep) -> None:
        """Show a step, unless the one on screen objects."""
        from tui.steps.step import Step

        if isinstance(self.screen, Step):
            if self.screen.may_leave():
                self.switch_screen(_screen_of(step)())
        else:
            self.push_screen(_screen_of(step)())

    def choose_step(self) -> None:
        """Open the list of steps."""

    def show_help(self, step: Step) -> None:
        """Explain a step and the field in focus."""

    def show_working(self, step: Step) -> None:
        """Show the working of the figure in focus."""

    def undo(self) -> None:
        """Take the last change back."""

    def redo(self) -> None:
        """Make the change again that was taken back."""

    async def action_leave(self) -> None:
        """Leave the program."""
        self.exit()

    def action_toggle_look(self) -> None:
        """Change between the dark and the light look."""
        self.theme = PAPER if self.theme == DARK else DARK

    def _record_changed(self) -> None:
        from tui.steps.step import Step

        for screen in self.screen_stack:
            if isinstance(screen, Step):
                screen.session_changed()


def _screen_of(step: WalkStep) -> type[Step]:
    from tui.steps.step import Step

    module = import_module(_MODULES[step])
    for each in vars(module).values():
        if isinstance(each, type) and issubclass(each, Step) and each.__module__ == module.__name__:
            return each
    raise LookupError(f"{module.__name__} has no step in it.")
