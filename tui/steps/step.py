"""What all ten steps share: the head, the rail, the body, the message line and the keys."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.screen import Screen
from textual.widgets import Static

from records import terms
from records.days import moment_words
from records.errors import FarboardError
from tui.keys import EVERY_STEP, Keys
from tui.left_screens import LeftAnyTime
from tui.look import Tone
from tui.sizes import HORIZONTAL, TOO_SMALL, VERTICAL
from tui.widgets.head import Head
from tui.widgets.key_line import KeyLine
from tui.widgets.message_line import Said
from tui.widgets.rail import Rail

if TYPE_CHECKING:
    from records.expected.results import Result
    from records.model.reading import Place, Quantity, Slot
    from records.session import Session
    from records.taking.undo import Turned
    from tui.steps.host import Host

Command = tuple[str, str, Callable[[], object]]
"""Name of a command, what it does with its key, and the act."""


class Step(LeftAnyTime[None], Screen[None]):
    """One stage of the walk.

    A step names itself (`step`, `STEP_TITLE`, `HELP`), composes its body (`compose_body`), and
    looks at the record again whenever it changed (`record_changed`). It may say what stands
    behind the figures it shows (`figures`, `figure_in_focus`) and object to being left
    (`may_leave`). All the rest is here.
    """

    step: ClassVar[terms.Step]
    STEP_TITLE: ClassVar[str] = ""
    HELP: ClassVar[str] = ""
    """What the step is for and how to work it: paragraphs, for the help screen."""
    OPEN_NAMED: ClassVar[int] = 3
    """Findings that are named when the step is come to."""
    KEYS: ClassVar[Keys] = ()
    """The keys that are its own, for the help screen."""

    HORIZONTAL_BREAKPOINTS = HORIZONTAL
    VERTICAL_BREAKPOINTS = VERTICAL
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1,question_mark", "help", "Help", key_display="F1", id="help"),
        Binding("f2", "working", "Working", key_display="F2", id="working"),
        Binding("f3,ctrl+pageup", "previous_step", "Back", key_display="F3", id="back"),
        Binding("f4,ctrl+pagedown", "next_step", "Next", key_display="F4", id="next"),
        Binding("f6", "choose_step", "Steps", key_display="F6", id="steps"),
        Binding(
            "ctrl+g", "picture", "Picture", show=False, tooltip="Curve, loop, ring", id="picture"
        ),
        Binding("ctrl+z", "undo", "Undo", key_display="^Z", id="undo"),
        Binding("ctrl+y", "redo", "Redo", show=False, id="redo"),
    ]

    def compose(self) -> ComposeResult:
        """Compose the frame round the body."""
        yield Head(id="head")
        with Horizontal(id="middle"):
            yield Rail(id="rail")
            with Vertical(id="body"):
                yield Static(self.STEP_TITLE, id="step-title", markup=False)
                yield from self.compose_body()
        yield Said(id="said")
        yield KeyLine()
        yield Static(TOO_SMALL, id="too-small", markup=False)

    def compose_body(self) -> ComposeResult:
        """Compose what is particular to the step."""
        return iter(())

    def on_mount(self) -> None:
        """Fill head and rail."""
        self.refresh_frame()
        # Working out the rail takes longer than a frame: the step itself is shown first.
        self.call_after_refresh(self._show_standing)

    def _show_standing(self) -> None:
        self.refresh_rail()
        said = self.query_one("#said", Said)
        if not said.text:
            self.tell(self.open_words(), "warn")

    def open_words(self) -> str:
        """Return what the rail counts as open in this step, by name; empty if nothing is."""
        from records.judgement.todo.progress import open_in
        from records.taking.finding_text import short_name

        found = open_in(self.session.review, self.step)
        if not found:
            return ""
        names = [
            f"{each.verdict.mark} {short_name(self.session.record, each).partition(' · ')[0]}"
            for each in found
        ]
        left = len(names) - self.OPEN_NAMED
        more = f"; {left} more in Review" if left > 0 else ""
        return f"{len(names)} open: {'; '.join(names[: self.OPEN_NAMED])}{more}."

    def is_here(self) -> bool:
        """Say whether it is still open, and its record as well."""
        return self.farboard.is_open and super().is_here()

    @property
    def session(self) -> Session:
        """The opened record."""
        return self.farboard.session

    @property
    def farboard(self) -> Host:
        """The app, as screens see it."""
        return cast("Host", self.app)

    def tell(self, text: str, tone: Tone = "plain") -> None:
        """Show one sentence at the foot of the screen."""
        self.query_one("#said", Said).say(text, tone)

    def set_title(self, title: str) -> None:
        """Show where in the step the person is, such as `Feed › run 2`."""
        self.query_one("#step-title", Static).update(title)

    def record_changed(self) -> None:
        """Look at the record again; called after every accepted change, undo and redo."""

    def may_leave(self) -> bool:
        """Say whether the step can be left now; it tells the person why not."""
        return True

    def stash(self) -> None:
        """Put what is typed and not accepted into the session's drafts, before the program ends."""

    def figures(self) -> Sequence[tuple[str, Result]]:
        """Return the figures on the screen that have a working, each under its name."""
        return ()

    def figure_in_focus(self) -> int:
        """Return which of `figures` the cursor is on."""
        return 0

    def pictured(self) -> tuple[Place | None, Quantity | None]:
        """Return what pictures begin with: the part in hand, and what is read there now."""
        return None, None

    def commands(self) -> Iterable[Command]:
        """Yield what the palette offers on this step alone: the keys of its own that say enough."""
        for each in type(self).BINDINGS:
            if isinstance(each, Binding) and each.tooltip:
                key = each.key_display or each.key.split(",")[0]
                act = partial(self.run_action, each.action)
                parts = key.split("+")
                shown = "+".join(map(str.capitalize, parts)) if len(key) > 1 else key
                yield each.description, f"{each.tooltip} ({shown})", act

    def help_in_focus(self) -> str:
        """Return what there is to know about the field that the cursor is on; may be empty."""
        return ""

    def session_changed(self) -> None:
        """Bring the whole screen up to date with the record."""
        self.refresh_frame()
        self.record_changed()
        self.refresh_rail()
        if self.session.trouble:
            self.tell(self.session.trouble, "bad")

    def refresh_frame(self) -> None:
        """Show the job's name and the state of the file."""
        head = self.query_one("#head", Head)
        job = self.session.record.job
        head.job = job.reference or job.place or self.session.file.path.name
        trouble = "NOT ON DISK" if self.session.trouble else ""
        looking = "READ ONLY" if self.session.at is None else f"AS AFTER CHANGE {self.session.at}"
        notes = self.session.notes_of
        counts = f"NOTES OF {moment_words(notes)}" if notes is not None else ""
        head.state = trouble or (looking if self.session.read_only else counts)

    def refresh_rail(self) -> None:
        """Show how every step stands."""
        rail = self.query_one("#rail", Rail)
        rail.current = self.step
        rail.standings = self.session.progress

    @on(Rail.Chosen)
    def _step_clicked(self, event: Rail.Chosen) -> None:
        self.farboard.go(event.step)

    def action_previous_step(self) -> None:
        """Go to the step before."""
        self._by(-1)

    def action_next_step(self) -> None:
        """Go to the step after."""
        self._by(+1)

    def _by(self, offset: int) -> None:
        steps = tuple(terms.Step)
        at = steps.index(self.step) + offset
        if 0 <= at < len(steps):
            self.farboard.go(steps[at])
        else:
            self.tell(f"{self.step.value} is the {'last' if offset > 0 else 'first'} step.")

    def action_choose_step(self) -> None:
        """Open the list of steps."""
        self.farboard.choose_step()

    def action_help(self) -> None:
        """Explain the screen and the field."""
        keys = (*self.KEYS, *EVERY_STEP)
        self.farboard.read(self.step.value, self.HELP, self.help_in_focus(), keys)

    def action_working(self) -> None:
        """Show formula, values and sources of the figure in focus."""
        from tui.dialogs.working import Working

        figures = self.figures()
        if figures:
            self.app.push_screen(Working(figures, self.figure_in_focus()))
        else:
            self.tell("Nothing on this page is calculated, so there is no working to show.")

    def action_picture(self) -> None:
        """Show curve, loop and ring of the part in hand."""
        from tui.dialogs.picture import Picture

        self.app.push_screen(Picture(self.session, *self.pictured()))

    def turned(self, slot: Slot | None) -> None:
        """Stand where an undo or a redo changed something; `slot` if that was a reading."""

    def action_undo(self) -> None:
        """Take the last change back."""
        from records.taking.undo import undo

        self._turn(undo)

    def action_redo(self) -> None:
        """Make the change again that was taken back."""
        from records.taking.undo import redo

        self._turn(redo)

    def _turn(self, act: Callable[[Session], Turned]) -> None:
        try:
            found = act(self.session)
        except FarboardError as error:
            self.tell(str(error), "bad")
            return
        if found.done:
            self.turned(found.slot)
        self.tell(found.outcome.words, found.outcome.tone)
