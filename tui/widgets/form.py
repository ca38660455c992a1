"""A form: rows to walk through by the arrow keys, with one input that stands in the current row."""

from __future__ import annotations

from collections.abc import Callable, MutableMapping, Sequence
from dataclasses import dataclass

from textual import events, on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.geometry import Region
from textual.message import Message
from textual.widgets import Input

from records.errors import FarboardError
from tui.widgets.drawing import Drawing, State, draw
from tui.widgets.entering import echo, offered, read_field
from tui.widgets.entry import Entry
from tui.widgets.lines import Lines
from tui.widgets.rows import Act, Field, Kind, Link, Option, Row, Several, Stop


class Form(VerticalScroll, can_focus=False):
    """Rows, a cursor, one input.

    Enter accepts what is typed and goes on; so do the arrows and Tab when something was typed.
    What is refused stays as it was typed, with the reason under it.
    """

    @dataclass
    class Moved(Message):
        """The cursor stands on another row."""

        row: Stop | None

    @dataclass
    class Untaken(Message):
        """Text was typed on a row that takes none."""

        row: Stop

    def __init__(
        self,
        keep: Callable[[Field, object], None],
        act: Callable[[Link | Act], None],
        drafts: MutableMapping[str, str],
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
            id: The widget's id.
        """
        super().__init__(id=id)
        self._keep, self._act, self._drafts = keep, act, drafts
        self.rows: tuple[Row, ...] = ()
        self._at = -1
        self._open: tuple[Option, ...] | None = None
        self._picked = 0
        self._for = ""
        self._refusals: dict[str, str] = {}
        self._kept: set[str] = set()
        self._filled: set[str] = set()
        """Rows that the last entry filled beside its own."""
        self._moved = False
        """Whether an answer of the open list was moved to."""
        self._lines, self._entry = Lines(self._drawn), Entry(self)

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
            self._refusals, self._kept = {}, set()
        self.rows = tuple(rows)
        stops = self._stops()
        found = [each for each in stops if self._key_at(each) == was]
        if found and typed is not None:
            self._at = found[0]
            self._redraw()
        else:
            nearest = min(stops, key=lambda each: abs(each - max(self._at, 0)), default=-1)
            self._stand(found[0] if found else (self._first(stops) if fresh else nearest))

    def _first(self, stops: list[int]) -> int:
        """Return the row that a page begins at: a line of shorthand stands above it, one ↑ away."""
        rows = ((at, self.rows[at]) for at in stops)
        plain = (at for at, row in rows if not (isinstance(row, Field) and row.kind is Kind.LINE))
        return next(plain, stops[0] if stops else -1)

    def settle(self) -> bool:
        """Accept what is typed in the current row, or keep it as a draft; False if refused."""
        if self._open is not None:
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
        if self._open is not None:
            self._narrow()
            value = self._open[self._picked].value if self._open else row.value
        else:
            typed = self._typed()
            value = row.value if typed is None else read_field(row, typed)
        return (row, value) if value != row.value else None

    def stash(self) -> None:
        """Keep what is typed in the current row as a draft, without accepting it."""
        typed = self._typed()
        if typed is not None and self.row is not None:
            self._drafts[self.row.key] = typed

    def focus_entry(self) -> None:
        """Put the keyboard here."""
        self.screen.set_focus(self._entry)

    # What the entry asks.

    def key(self, key: str) -> bool:
        """Act on a key that is no text."""
        if key == "space":
            return self._space()
        if self._open is not None:
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
            if row is not None and character not in " ?":
                self.post_message(self.Untaken(row))
            return False
        if row.is_choice and self._open is None:
            if character == "?":
                return False
            self._show_list("")
        return True

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""
        if self.row is not None:
            self._refusals[self.row.key] = why
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
            return row.key not in self._refusals
        if typed.strip() == row.bare and row.key not in self._drafts:
            self._refusals.pop(row.key, None)
            return True
        try:
            return self._take(row, read_field(row, typed))
        except FarboardError as error:
            self._refuse(row, typed, str(error))
            return False

    def _take(self, row: Field, value: object) -> bool:
        """Put a value on disk; only then show it as kept."""
        typed = self._entry.value
        draft = self._drafts.pop(row.key, None)
        before = {each.key: each.value for each in self.rows if isinstance(each, Field)}
        self._filled = set()
        self._entry.fill(row.bare)  # what `keep` redraws must not take it for text still typed
        try:
            if value != row.value:
                self._keep(row, value)
                self._kept.add(row.key)
            if isinstance(value, Several):
                self._filled = {
                    each.key
                    for each in self.rows
                    if isinstance(each, Field) and before.get(each.key) != each.value
                }
                self._kept |= self._filled
        except FarboardError as error:
            if draft is not None or not row.is_choice:
                self._drafts[row.key] = typed
            self._entry.fill(typed)
            self._refuse(row, typed, str(error))
            return False
        self._refusals.pop(row.key, None)
        return True

    def line_read(self, key: str, left: str, why: str) -> None:
        """Leave in a line what was not understood of it, with the reason; nothing if all was."""
        if why:
            self._drafts[key], self._refusals[key] = left, why
        else:
            self._drafts.pop(key, None)
            self._refusals.pop(key, None)
        if self.row is not None and self.row.key == key:
            self._entry.fill(left, select=False)
        self._redraw()

    def _refuse(self, row: Field, typed: str, why: str) -> None:
        self._refusals[row.key] = why
        if not row.is_choice:
            self._drafts[row.key] = typed
        self._redraw()

    def _put_back(self) -> bool:
        """Put the accepted value back; False if there was nothing to put back."""
        row = self.row
        if not isinstance(row, Field) or (
            self._typed() is None and row.key not in (*self._drafts, *self._refusals)
        ):
            return False
        self._drafts.pop(row.key, None)
        self._refusals.pop(row.key, None)
        self._stand(self._at)
        return True

    def _typed(self) -> str | None:
        """Return what is typed in the current row and differs from what is on disk."""
        row = self.row
        if not isinstance(row, Field) or row.is_choice:
            return None
        typed = self._entry.value
        return typed if typed.strip() != row.bare or row.key in self._drafts else None

    # Lists of answers.

    def _space(self) -> bool:
        row = self.row
        if isinstance(row, Field) and row.is_choice and self._open is None:
            self._show_list("")
            return True
        return not isinstance(row, Field)

    def _show_list(self, typed: str) -> None:
        row = self.row
        assert isinstance(row, Field)
        self._entry.fill(typed)
        self._open, self._for, self._moved = offered(row, typed), typed, False
        values = [each.value for each in self._open]
        self._picked = values.index(row.value) if row.value in values else 0
        self._redraw()

    def _key_in_list(self, key: str) -> None:
        self._narrow()
        options = self._open or ()
        if key in ("enter", "tab"):
            row = self.row
            if options and isinstance(row, Field):
                meant = [each for each in options if isinstance(each.value, Several)]
                if len(meant) > 1 and not self._moved:
                    self._ask_which(row, meant)
                    return
                self._close()
                if self._take(row, options[self._picked].value):
                    self._onward()
        elif key == "escape":
            self._close()
        else:
            self._moved = True
            step = {"up": -1, "shift+tab": -1, "down": 1, "pageup": -5, "pagedown": 5}[key]
            self._picked = min(max(self._picked + step, 0), max(len(options) - 1, 0))
            self._redraw()

    def _ask_which(self, row: Field, meant: Sequence[Option]) -> None:
        """Leave the list open: what was typed could be two things, and is not guessed."""
        words = " or ".join(each.label.rstrip(".") for each in meant[:3])
        self._refusals[row.key] = f"It could be {words}. Choose with ↓ and ↑, then Enter."
        self._moved = True  # the question is asked; Enter takes what the pointer is at
        self._redraw()

    def _close(self) -> None:
        self._open = None
        self._entry.fill("")
        self._redraw()

    def _narrow(self) -> None:
        """Offer what fits the text as it now stands: word of a change may come after Enter."""
        row = self.row
        if isinstance(row, Field) and self._open is not None and self._for != self._entry.value:
            self._for = self._entry.value
            self._open, self._picked, self._moved = offered(row, self._for), 0, False

    @on(Input.Changed)
    def _text_changed(self, event: Input.Changed) -> None:
        event.stop()
        row = self.row
        self._narrow()
        # Word of a change may come after the text was refused: the reason stays then.
        if row is not None and self._drafts.get(row.key) != self._entry.value:
            self._refusals.pop(row.key, None)
        self._redraw()

    # Moving and drawing.

    def _stops(self) -> list[int]:
        return [at for at, row in enumerate(self.rows) if isinstance(row, Stop)]

    def _key_at(self, at: int) -> str:
        row = self.rows[at]
        return row.key if isinstance(row, Stop) else ""

    def _walk(self, step: int) -> None:
        row = self.row
        # Refused once, the person was told why; going on leaves the text as a draft.
        told = row is not None and self._drafts.get(row.key) == self._entry.value
        told = told and row is not None and row.key in self._refusals
        if not told and not self._accept():
            return
        stops = self._stops()
        if self._at in stops:
            goal = min(max(stops.index(self._at) + step, 0), len(stops) - 1)
            self._stand(stops[goal])

    def _onward(self) -> None:
        """Go to the next row that was not filled by the same entry."""
        self._walk(1)
        while self.row is not None and self.row.key in self._filled and self._at != self._last:
            self._stand(self._stops()[self._stops().index(self._at) + 1])
        self._filled = set()

    @property
    def _last(self) -> int:
        return self._stops()[-1]

    def _stand(self, at: int) -> None:
        self._at, self._open = at, None
        row = self.row
        text = ""
        if isinstance(row, Field) and not row.is_choice:
            text = self._drafts.get(row.key, row.bare)
        self._entry.suggest(row.suggestions if isinstance(row, Field) else ())
        self._entry.fill(text)
        self._redraw()
        is_draft = row is not None and row.key in self._drafts
        self._entry.fill(text, self._lines.drawing.entry[2], select=not is_draft)
        self.post_message(self.Moved(row))

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
        self.call_after_refresh(self._scroll_to_cursor)

    def _drawn(self, width: int) -> Drawing:
        row = self.row
        understood = echo(row, self._entry.value) if isinstance(row, Field) else ""
        if isinstance(row, Field) and row.kind is Kind.LINE and row.key in self._refusals:
            understood = ""  # the reason says it
        state = State(
            self._at, understood, self._open, self._picked, self._refusals, self._drafts, self._kept
        )
        return draw(self.rows, state, max(width, 12))

    def _scroll_to_cursor(self) -> None:
        mine = [line for line, (row, _) in enumerate(self._lines.drawing.owners) if row == self._at]
        if mine:
            first, last = mine[0], mine[-1]
            # A heading or a caution over the first row is part of what the row is read with.
            # So is the line of shorthand over it: it has to be seen to be used.
            top = 0 if self._at <= self._first(self._stops()) else max(first - 1, 0)
            region = Region(0, top, 1, max(last - top + 1, 1))
            if region.height > self.size.height:
                region = Region(0, first, 1, self.size.height)
            self.scroll_to_region(region, animate=False, force=True)

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
            self._picked = option
            self._key_in_list("enter")
        elif isinstance(self.rows[at], Stop) and at != self._at and self.settle():
            self._stand(at)
            if not isinstance(self.rows[at], Field):
                self._enter()
        elif at == self._at and not self._entry.is_mouse_over:
            self._enter()
        self.focus_entry()
