"""A form: rows to walk through by the arrow keys, with one input that stands in the current row."""

from __future__ import annotations

from collections.abc import Callable, MutableMapping, Sequence
from dataclasses import dataclass

from textual import events, on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.message import Message
from textual.widgets import Input

from records.entering.field import Field, Kind, Several
from records.entering.typed_field import echo, read_field
from records.errors import FarboardError
from tui.widgets.answer_list import AnswerList
from tui.widgets.attempts import Attempts
from tui.widgets.drawing import Drawing, draw
from tui.widgets.entry import Entry
from tui.widgets.lines import Lines
from tui.widgets.rows import Act, Link, Row, Stop, first_stop, key_at, line_at, stops


class Form(VerticalScroll, can_focus=False):
    """Rows, a cursor, one input.

    Enter accepts what is typed and goes on; so do the arrows and Tab when something was typed.
    What is refused stays as it was typed, with the reason under it.
    """

    @dataclass
    class Untaken(Message):
        """Text was typed on a row that doesn't take it."""

        row: Stop
        line: Field | None = None
        """The line of the page in which the text stands now."""

    def __init__(
        self,
        keep: Callable[[Field, object], None],
        act: Callable[[Link | Act], None],
        drafts: MutableMapping[str, str],
        moved: Callable[[Stop | None], None],
        *,
        id: str | None = None,
    ) -> None:
        """Make an empty form.

        Args:
            keep: Puts a value on disk; raises FarboardError, whose message is then shown. It is
                called and not told by a message, so that a key typed right after Enter already
                finds the next row.
            act: Opens a link or does an act, at once for the same reason.
            drafts: Takes what was typed and not accepted, by field.
            moved: Told of the row that the cursor goes to, in time for the same paint: of a
                message it would hear after that.
            id: The widget's id.
        """
        super().__init__(id=id)
        self._keep, self._act, self._attempts = keep, act, Attempts(drafts)
        self._moved = moved
        self.rows: tuple[Row, ...] = ()
        self._at = -1
        self._answers = AnswerList()
        self._lines, self._entry = Lines(lambda width: self._drawn(width - 1)), Entry(self)
        # Until it is known where it stands, it covers the blank before the first label.
        self._entry.styles.offset = Drawing().entry[:2]
        self._entry.add_class("-idle")

    def compose(self) -> ComposeResult:
        """Compose the lines and the input over them."""
        yield self._lines
        yield self._entry

    @property
    def row(self) -> Stop | None:
        """The row that the cursor is on."""
        row = self.rows[self._at] if 0 <= self._at < len(self.rows) else None
        return row if isinstance(row, Stop) else None

    def show(self, rows: Sequence[Row], *, at: str | None = None, fresh: bool = False) -> None:
        """Show rows; the cursor stays on its row if that is still there.

        Args:
            rows: What to show.
            at: Key of the row to stand on; None: the one it stands on now.
            fresh: Whether this is another page, with nothing to carry over.
        """
        typed = None if fresh or at is not None else self._typed()
        was = at if at is not None else (self.row.key if self.row and not fresh else None)
        if fresh:
            self._attempts.fresh()
        self.rows = tuple(rows)
        found = [at for at in stops(rows) if key_at(rows, at) == was]
        if found and typed is not None:
            self._at = found[0]
            self._redraw()
        else:
            nearest = min(stops(rows), key=lambda at: abs(at - max(self._at, 0)), default=-1)
            self._stand(found[0] if found else (first_stop(rows) if fresh else nearest))

    def settle(self) -> bool:
        """Accept what is typed in the current row, or keep it as a draft; False if refused."""
        if self._answers.is_open:
            self._close()
        return self._typed() is None or self._accept()

    def pending(self) -> tuple[Field, object] | None:
        """Return the field in hand and the value that Enter would accept, if it is another one.

        Of a line of shorthand it is its text.

        Raises:
            FarboardError: If what is typed is no such value.
        """
        row = self.row
        if not isinstance(row, Field):
            return None
        if row.kind is Kind.LINE:
            text = self._entry.value.strip()
            return (row, text) if text else None
        if self._answers.is_open:
            self._narrow()
            picked = self._answers.picked
            value = picked.value if picked is not None else row.value
        else:
            typed = self._typed()
            value = row.value if typed is None else read_field(row, typed)
        return (row, value) if value != row.value else None

    def stash(self) -> None:
        """Keep what is typed in the current row as a draft, without accepting it."""
        typed = self._typed()
        if typed is not None and self.row is not None:
            self._attempts.drafts[self.row.key] = typed

    def focus_entry(self) -> None:
        """Put the keyboard here."""
        self.screen.set_focus(self._entry)

    # What the entry asks.

    def key(self, key: str) -> bool:
        """Act on a key that is no text."""
        if key == "space":
            return self._space()
        if self._answers.is_open:
            self._key_in_list(key)
        elif key == "enter":
            self._enter()
        elif key == "escape":
            return self._put_back()
        elif key in ("down", "tab", "up", "shift+tab", "pagedown", "pageup"):
            steps = {"pagedown": self.size.height // 2, "pageup": -(self.size.height // 2)}
            self._walk(steps.get(key, 1 if key in ("down", "tab") else -1))
        return True

    def offer(self, character: str) -> bool:
        """Say whether the current row takes text; a choice opens its list for it."""
        row = self.row
        if not isinstance(row, Field):
            if row is None or character in " ?":
                return False
            return self._goes_to_line(row)
        if row.is_choice and not self._answers.is_open:
            if character == "?":
                return False
            self._show_list("")
        return True

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""
        if self.row is not None:
            self._attempts.refusals[self.row.key] = why
            self._redraw()

    # Fields.

    def _enter(self) -> None:
        row = self.row
        if isinstance(row, Field):
            if row.is_choice:
                self._show_list("")
            elif row.kind is Kind.LINE and self._entry.value.strip():
                self._accept()  # and stay, for the next
            elif self._accept():
                self._onward()
        elif row is not None:
            self._act(row)

    def _accept(self) -> bool:
        row, typed = self.row, self._entry.value
        if not isinstance(row, Field) or row.is_choice:
            return True
        if row.kind is Kind.LINE and typed.strip():
            self._keep(row, typed)
            return row.key not in self._attempts.refusals
        if not self._attempts.is_new(row, typed):
            self._attempts.forget(row.key)
            return True
        try:
            return self._take(row, read_field(row, typed))
        except FarboardError as error:
            if not self._is_whole_line(row, typed):
                self._refuse(row, typed, str(error))
            return False

    def _goes_to_line(self, row: Stop) -> bool:
        """Go to the line of the page, for text typed where none is taken; False: there is none."""
        at = line_at(self.rows)
        line = None if at is None else self.rows[at]
        self.post_message(self.Untaken(row, line if isinstance(line, Field) else None))
        if at is not None:
            self._stand(at)
        return at is not None

    def _is_whole_line(self, row: Field, typed: str) -> bool:
        """Move a whole line that was typed in one field to the page's line, to be read there."""
        moved = self._attempts.moves_to_line(row, typed, self.rows)
        return moved and self._goes_to_line(row)

    def _take(self, row: Field, value: object) -> bool:
        """Put a value on disk; only then show it as kept."""
        attempts, typed, before = self._attempts, self._entry.value, self.rows
        draft = attempts.drafts.pop(row.key, None)
        attempts.filled = set()
        self._entry.fill(row.bare)  # what `keep` redraws must not take it for text still typed
        try:
            if value != row.value:
                self._keep(row, value)
                attempts.kept.add(row.key)
            if isinstance(value, Several):
                attempts.fills(before, self.rows)
        except FarboardError as error:
            if draft is not None:
                attempts.drafts[row.key] = typed
            self._entry.fill(typed)
            self._refuse(row, typed, str(error))
            return False
        attempts.refusals.pop(row.key, None)
        return True

    def line_read(self, key: str, left: str, why: str) -> None:
        """Leave in a line what was not understood of it, with the reason; nothing if all was."""
        self._attempts.leave(key, left, why)
        if self.row is not None and self.row.key == key:
            self._entry.fill(left, select=False)
        self._redraw()

    def _refuse(self, row: Field, typed: str, why: str) -> None:
        self._attempts.refuse(row, typed, why)
        self._redraw()

    def _put_back(self) -> bool:
        """Put the accepted value back; False if there was nothing to put back."""
        row = self.row
        typed = self._typed()
        if not isinstance(row, Field) or (not self._attempts.forget(row.key) and typed is None):
            return False
        self._stand(self._at)
        return True

    def _typed(self) -> str | None:
        """Return what is typed in the current row and differs from what is on disk."""
        row = self.row
        if not isinstance(row, Field) or row.is_choice:
            return None
        typed = self._entry.value
        return typed if self._attempts.is_new(row, typed) else None

    # Lists of answers.

    def _space(self) -> bool:
        row = self.row
        if isinstance(row, Field) and row.is_choice and not self._answers.is_open:
            self._show_list("")
            return True
        return not isinstance(row, Field)

    def _show_list(self, typed: str) -> None:
        row = self.row
        assert isinstance(row, Field)
        self._entry.fill(typed)
        self._answers.open(row, typed)
        self._redraw()

    def _key_in_list(self, key: str) -> None:
        self._narrow()
        if key in ("enter", "tab"):
            row, picked = self.row, self._answers.picked
            if picked is not None and isinstance(row, Field):
                if self._answers.unclear:
                    self._ask_which(row)
                    return
                self._close()
                if self._take(row, picked.value):
                    self._onward()
            elif isinstance(row, Field):
                self._is_whole_line(row, self._entry.value)
        elif key == "escape":
            self._close()
        else:
            self._answers.move(key)
            self._redraw()

    def _ask_which(self, row: Field) -> None:
        """Leave the list open: what was typed could be two things, and is not guessed."""
        words = " or ".join(each.label.rstrip(".") for each in self._answers.unclear[:3])
        self._attempts.refusals[row.key] = f"It could be {words}. Choose with ↓ and ↑, then Enter."
        self._answers.asked()
        self._redraw()

    def _close(self) -> None:
        self._answers.close()
        self._entry.fill("")
        self._redraw()

    def _narrow(self) -> None:
        if isinstance(self.row, Field):
            self._answers.narrow(self.row, self._entry.value)

    @on(Input.Changed)
    def _text_changed(self, event: Input.Changed) -> None:
        event.stop()
        row = self.row
        self._narrow()
        # Word of a change may come after the text was refused: the reason stays then.
        if row is not None and self._attempts.drafts.get(row.key) != self._entry.value:
            self._attempts.refusals.pop(row.key, None)
        self._redraw()

    # Moving and drawing.

    def _walk(self, step: int) -> None:
        row = self.row
        # Refused once, the person was told why; going on leaves the text as a draft.
        told = row is not None and self._attempts.is_told(row.key, self._entry.value)
        if not told and not self._accept():
            return
        there = stops(self.rows)
        if self._at in there:
            goal = min(max(there.index(self._at) + step, 0), len(there) - 1)
            self._stand(there[goal])

    def _onward(self) -> None:
        """Go to the next row that was not filled by the same entry."""
        self._walk(1)
        filled, ahead = self._attempts.filled, (at for at in stops(self.rows) if at > self._at)
        while self.row is not None and self.row.key in filled and (at := next(ahead, None)):
            self._stand(at)
        self._attempts.filled = set()

    def _stand(self, at: int) -> None:
        self._at = at
        self._answers.close()
        row = self.row
        text = ""
        if isinstance(row, Field) and not row.is_choice:
            text = self._attempts.drafts.get(row.key, row.bare)
        self._entry.suggest(row.suggestions if isinstance(row, Field) else ())
        self._entry.fill(text)
        self._redraw()
        is_draft = row is not None and row.key in self._attempts.drafts
        self._entry.fill(text, self._lines.drawing.entry[2], select=not is_draft)
        self._moved(row)

    def _redraw(self) -> None:
        width = self.scrollable_content_region.width - 1
        if width <= 0:
            return  # not laid out yet; the lines draw themselves as soon as they are
        drawing = self._drawn(width)
        self._lines.show(drawing)
        column, line, room = drawing.entry
        self._entry.styles.offset = (column, line)
        self._entry.styles.width = room
        self._entry.set_class(room == 1, "-idle")
        if self._lines.size.height == len(drawing.lines):
            self._scroll_to_cursor()
        else:  # how far it can scroll is known once it is laid out
            self.call_after_refresh(self._scroll_to_cursor)

    def _drawn(self, width: int) -> Drawing:
        row = self.row
        understood = echo(row, self._entry.value) if isinstance(row, Field) else ""
        if isinstance(row, Field) and row.kind is Kind.LINE and row.key in self._attempts.refusals:
            understood = ""  # the reason says it
        state = self._attempts.state(self._at, understood, self._answers)
        return draw(self.rows, state, max(width, 12))

    def _scroll_to_cursor(self) -> None:
        # A heading or a caution over the first row is part of what the row is read with.
        # So is the line of shorthand over it: it has to be seen to be used.
        is_first = self._at <= first_stop(self.rows)
        region = self._lines.drawing.around(self._at, is_first, self.size.height)
        if region is not None:
            self.scroll_to_region(region, animate=False, force=True, immediate=True)

    def on_resize(self) -> None:
        """Draw for the new width; what is typed stays."""
        self._redraw()

    def on_click(self, event: events.Click) -> None:
        """Go to the row that was clicked, or take the answer."""
        offset = event.get_content_offset(self._lines)
        owners = self._lines.drawing.owners
        if offset is None or not 0 <= offset.y < len(owners):
            return
        at, option = owners[offset.y]
        if option is not None:
            self._answers.at = option
            self._key_in_list("enter")
        elif isinstance(self.rows[at], Stop) and at != self._at and self.settle():
            self._stand(at)
            if not isinstance(self.rows[at], Field):
                self._enter()
        elif at == self._at and not self._entry.is_mouse_over:
            self._enter()
        self.focus_entry()
