"""A step that is filled in: pages of fields, with what follows from them beside."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical

from records.drafts import closed_up
from records.entering.field import Field, Kind, Several
from records.errors import BadRecord, FarboardError
from tui import keys
from tui.steps.page import Doing, Page, Trail
from tui.steps.step import Step
from tui.widgets.follows import Follows, Strip
from tui.widgets.form import Form
from tui.widgets.hint import Hint
from tui.widgets.rows import Act, Link, Stop

if TYPE_CHECKING:
    from records.entering.following import Following
    from records.expected.results import Result
    from records.model.reading import Place, Quantity


class FormStep(Step):
    """Shows pages; a page is made again from the record whenever that changes."""

    KEYS = keys.FORM
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "up", "Up", show=False),
        Binding(
            "f5",
            "would_do",
            "What it would do",
            show=False,
            tooltip="Checks before and after what is typed",
            id="what-if",
        ),
        Binding("f7", "copy", "Copy", show=False, id="copy"),
        Binding("f8", "take_out", "Remove", show=False, id="remove"),
        Binding("ctrl+n", "insert", "Insert", show=False, id="insert"),
        Binding("ctrl+up", "move_up", "Move up", show=False),
        Binding("ctrl+down", "move_down", "Move down", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.trail: Trail = ()
        """Which page is shown."""
        self._shown: Page | None = None
        self._cursors: dict[Trail, str] = {}
        self._follows: tuple[Following, ...] = ()

    def page(self, trail: Trail) -> Page | None:
        """Return the page at `trail`; None if what it is about is no longer in the record."""
        raise LookupError(f"{type(self).__name__} has no page {trail}.")

    def compose_body(self) -> ComposeResult:
        """Compose the form, what follows, and the words on the field in focus."""
        with Horizontal(id="work"):
            with Vertical(id="left"):
                yield Form(self._keep, self._do, self.session.drafts, self._moved, id="form")
                yield Hint(id="hint")
            yield Follows(id="follows")
        yield Strip(id="strip")

    def on_mount(self) -> None:
        """Come back to where the step was left."""
        left = self.session.places.get(self.step)
        if isinstance(left, tuple):
            self.trail, self._cursors = left
        self._show(fresh=True)
        self.form.focus_entry()

    @property
    def form(self) -> Form:
        """The form."""
        return self.query_one("#form", Form)

    def record_changed(self) -> None:
        """Make the page again."""
        self._show()

    def may_leave(self) -> bool:
        """Accept what is typed; what is refused holds the person up once, with the reason."""
        row = self.form.row
        if not self.form.settle():
            name = row.label if isinstance(row, Field) else "The field"
            self.tell(f"{name} is not kept yet. Correct it, or go on and it stays a draft.", "warn")
            return False
        if row is not None:
            self._cursors[self.trail] = row.key
        self.session.places[self.step] = (self.trail, self._cursors)
        return True

    def _show_standing(self) -> None:
        self.refresh_rail()
        if self.trail:  # the first page names its findings under the form
            super()._show_standing()

    def stash(self) -> None:
        """Keep what is typed as a draft; it is not accepted behind the person's back."""
        self.form.stash()

    def figures(self) -> Sequence[tuple[str, Result]]:
        """Return what follows, as it stands beside the form, then all else of the same part."""
        from records.entering.following import behind

        shown = [(each.name, each.result) for each in self._follows]
        place = self._shown.place if self._shown is not None else None
        return [*shown, *behind(self.session, place, shown)] if place is not None else shown

    def pictured(self) -> tuple[Place | None, Quantity | None]:
        """Return the part that the page is about."""
        return (self._shown.place if self._shown is not None else None), None

    def help_in_focus(self) -> str:
        """Return what the model says about the field."""
        row = self.form.row
        return f"{row.label}: {row.hint}" if row is not None and row.hint else ""

    # What pages do.

    def open(self, trail: Trail) -> None:
        """Show another page of the step, if the one shown can be left."""
        row = self.form.row
        if self.form.settle():
            if row is not None:
                self._cursors[self.trail] = row.key
            self.trail = trail
            self._show(fresh=True)

    def opening(self, trail: Trail) -> Doing:
        """Return what opens a page."""
        return lambda: self.open(trail)

    def alter(self, ops: list[dict[str, Any]], said: str) -> bool:
        """Change the record and say so; if that is refused, say why and return False."""
        try:
            self.session.change(ops)
        except FarboardError as error:
            self.tell(str(error), "bad")
            return False
        self.tell(said, "good")
        return True

    def take_out(self, pointer: str, name: str) -> None:
        """Take an entry out of a list of the record; the page above its own is shown after."""
        from records.store.edits import take_out

        entries, _, at = pointer.rpartition("/")
        if self.alter(take_out(pointer), f"{name} is removed; Ctrl+Z brings it back."):
            closed_up(self.session.drafts, entries, int(at))
            self._show()

    def taking_out(self, pointer: str, name: str) -> Doing:
        """Return what takes an entry out."""
        return lambda: self.take_out(pointer, name)

    def action_up(self) -> None:
        """Go to the page above."""
        if self.trail:
            self.open(self._above(self.trail))

    def action_would_do(self) -> None:
        """Show the checks that what is typed or picked would change; nothing is kept."""
        from tui.dialogs.changes import changes

        try:
            pending = self.form.pending()
            if pending is None:
                self.tell("Type another value, or open the list and move to an answer; then F5.")
                return
            field, value = pending
            changes(self, self.session, field.label, self._would_make(field, value))
        except FarboardError as error:
            self.tell(str(error), "bad")

    def _would_make(self, field: Field, value: object) -> list[dict[str, Any]]:
        """Return the changes that Enter would make with a value of a field.

        Raises:
            FarboardError: If it can't be told before, or what is typed can't be taken.
        """
        trials = self._shown.trials if self._shown is not None else {}
        trial = trials.get(field.key)
        if field.kind is Kind.TEXT and trials:
            from records.entering.whole_line import is_line_in_text

            trial = next(iter(trials.values())) if is_line_in_text(field, str(value)) else None
        if trial is None and field.kind is not Kind.LINE:
            return self._changes(field, value)[0]
        if trial is None:
            raise BadRecord("This line can't be tried first: Enter takes it, Ctrl+Z takes it back.")
        return trial(str(value))

    def action_copy(self) -> None:
        """Copy the entry that the cursor is on, or that the page is about."""
        self._by_key("copies", "Nothing here can be copied.")

    def action_take_out(self) -> None:
        """Take out the entry that the cursor is on, or that the page is about."""
        self._by_key("removals", "Nothing here can be removed.")

    def action_insert(self) -> None:
        """Put an entry in before the one that the cursor is on."""
        self._by_key("inserts", "Nothing can be put in here.")

    def action_move_up(self) -> None:
        """Move the entry that the cursor is on up in its list."""
        self._by_key("moves_up", "Nothing here can be moved up.")

    def action_move_down(self) -> None:
        """Move the entry that the cursor is on down in its list."""
        self._by_key("moves_down", "Nothing here can be moved down.")

    def _by_key(self, name: str, nothing: str) -> None:
        doings: dict[str, Doing] = getattr(self._shown, name, {})
        row = self.form.row
        do = doings.get(row.key if row is not None else "") or doings.get("")
        if do is None:
            self.tell(nothing)
        else:
            do()

    def _keep(self, field: Field, value: object) -> None:
        lines = self._shown.lines if self._shown is not None else {}
        if field.kind is Kind.LINE:
            lines[field.key](str(value))
            return
        if field.kind is Kind.TEXT and lines:
            from records.entering.whole_line import is_line_in_text

            if is_line_in_text(field, str(value)):
                next(iter(lines.values()))(str(value))
                return
        ops, said_more = self._changes(field, value)
        self.session.change(ops)
        if isinstance(value, Several):
            self.tell(f"{value.words} It is on disk.", "good")
            return
        said = next(
            (each for each in self.form.rows if isinstance(each, Field) and each.key == field.key),
            field,
        )
        self.tell(f"{field.label}: {said.shown or 'not said'} is on disk.{said_more}", "good")

    def _changes(self, field: Field, value: object) -> tuple[list[dict[str, Any]], str]:
        """Return the changes that a value of a field makes, and what to say of those it brings."""
        from records.entering.line_changes import implied_ops, run_at, several_ops
        from records.store.edits import put

        run = run_at(self.session.record, field.pointer)
        if isinstance(value, Several):
            return several_ops(field, value, run), ""
        more, brings = implied_ops(field, value, run)
        return [*put(field.pointer, value), *more], brings

    def _do(self, row: Link | Act) -> None:
        if self._shown is not None and row.key in self._shown.doings:
            self._shown.doings[row.key]()

    @staticmethod
    def _above(trail: Trail) -> Trail:
        # ("C2", "run", "0") stands under ("C2",): an entry of a list is two names long.
        return trail[:-2] if len(trail) > 1 else ()

    def _show(self, *, fresh: bool = False) -> None:
        page = self.page(self.trail)
        while page is None:
            self.trail, fresh = self._above(self.trail), True
            page = self.page(self.trail)
        self._shown = page
        self.set_title(page.title)
        self.form.show(page.rows, at=self._cursors.get(self.trail) if fresh else None, fresh=fresh)
        self.call_after_refresh(self._show_follows)

    def _show_follows(self) -> None:
        from records.entering.following import following, needs_first

        place = self._shown.place if self._shown is not None else None
        self._follows = following(self.session, place) if place is not None else ()
        needs = needs_first(self.session.progress[self.step].needs, place)
        found = "" if self._follows else self.open_words()
        self.query_one("#follows", Follows).show(self._follows, needs, found)
        self.query_one("#strip", Strip).show(self._follows, needs, found)

    @on(Form.Untaken)
    def _not_taken(self, event: Form.Untaken) -> None:
        row, line = event.row, event.line
        if line is not None:
            takes = "takes one answer" if isinstance(row, Field) else "takes no text"
            self.tell(f"“{row.label}” {takes}. What you type is in “{line.label}” now.", "warn")
            return
        does = "does it" if isinstance(row, Act) else "opens it"
        self.tell(f"“{row.label}” takes no text: Enter {does}, then type.", "warn")

    def _moved(self, row: Stop | None) -> None:
        self.query_one("#hint", Hint).show(row)
