"""The room that a design leaves, as it is worked out; and a load tried that comes later."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.worker import get_current_worker

from records.options.confirm import CONFIRM
from tui.dialogs.table import Line, Table, Told

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.room import Room

HEAD = ("where", "room", "what stops it", "apart from that")
_CONFIRM = (f"Each alone, all else as it is. ✗ fails already. {CONFIRM}",)
_WHERE, _STOPS, _APART = 21, 25, 24
"""Cells for the words of a row; all of them stand under the table."""


class RoomTable(Table[None]):
    """Shows how much more load and length the design takes, each alone."""

    KEYS_LINE = "F2 working · s order · k a load to come, in kW · Esc closes"
    HELP = (
        "How many more amperes the board and each circuit take, and how many more metres each run. "
        "Each is tried alone, all else as it is. One step more and the check named fails.\n\n"
        "k tries a load that may come later, on its own circuit. The record stays as it is."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("k", "later", show=False),
        Binding("enter", "working", show=False, priority=True),
    ]

    def __init__(self, record: Record) -> None:
        """Prepare the table.

        Args:
            record: The job as it is.
        """
        from records.options.room import assumed_for_room

        assumed = assumed_for_room(record)
        notes = (assumed,) if assumed else ()
        super().__init__("Room left: being calculated …", HEAD, (), _CONFIRM, notes)
        self._record = record

    def on_mount(self) -> None:
        """Begin to work it out, away from the keys."""
        super().on_mount()
        self._work_out()

    @work(thread=True, exclusive=True, group="room")
    def _work_out(self) -> None:
        from records.options.room import each_room

        worker = get_current_worker()
        for each in each_room(self._record):
            if worker.is_cancelled:
                return
            self.app.call_from_thread(self._add, _line(each))
        if not worker.is_cancelled:
            self.app.call_from_thread(self._done)

    def _add(self, line: Line) -> None:
        if self.is_attached:
            at, column = self.at, self.table.cursor_column
            self.lines.append(line)
            self.fill(at or 0, column)

    def _done(self) -> None:
        from textual.widgets import Static

        if self.is_attached:
            self.query_one("#dialog-title", Static).update("Room left")

    @work
    async def action_later(self) -> None:
        """Ask for a load, and say what would fail with it."""
        from tui.dialogs.ask import Ask

        given = await self.app.push_screen_wait(
            Ask("A load to come, on its own circuit, in kW", self._wrong)
        )
        if given is not None:
            self._tell_later(given)

    def _wrong(self, text: str) -> str:
        from records.errors import FarboardError
        from records.options.room import with_load_later

        try:
            with_load_later(self._record, _kilowatts(text))
        except FarboardError as error:
            return str(error)
        return ""

    def _tell_later(self, text: str) -> None:
        from textual.content import Content

        from records.options.room import later_words, with_load_later
        from tui.dialogs.reader import Reader

        kilowatts = _kilowatts(text)
        lines = later_words(with_load_later(self._record, kilowatts), kilowatts)
        blocks = [Content(each) for each in (*lines, "Nothing in the record has changed.")]
        self.app.push_screen(Reader(f"{kilowatts:g} kW more", blocks))


def _kilowatts(text: str) -> float:
    """Return a load as it was typed [kW]; raises FarboardError with what would be right."""
    from records.errors import BadQuantity
    from records.typed import read_typed
    from records.units import Unit

    value = read_typed(text, Unit.KILOWATT).value
    if value <= 0:
        raise BadQuantity("Type a load above 0, such as 3 or 3kW.")
    return value


def _line(room: Room) -> Line:
    from records.options.room import room_words

    figure, stops = room_words(room)
    titles = [Told(each.title, each.why, each.expected) for each in room.stops]
    if room.apart is not None:
        titles += [Told(each.title, each.why, each.expected) for each in room.apart.stops]
    whole = Told(room.where, f"{figure} more, {stops}." if room.more is not None else stops)
    texts = (
        _cut(_short(room.where), _WHERE),
        figure,
        _cut(_stop(room), _STOPS),
        _cut(
            "" if room.apart is None else f"{room_words(room.apart)[0]}, {_stop(room.apart)}",
            _APART,
        ),
    )
    return Line(texts, (whole,) * len(texts), titles)


def _short(where: str) -> str:
    """Return where, without the name of a circuit: `C1, furthest point`."""
    named, _, rest = where.rpartition(", ")
    return f"{named.split()[0]}, {rest}" if named.startswith("C") else where


def _stop(room: Room) -> str:
    """Return what stops it, short: `C4: voltage drop`."""
    if room.more is None:
        return "needs an input"
    if not room.stops:
        return "nothing up to there"
    first = room.stops[0]
    what = first.title.rpartition(": ")[2]
    at = first.place.circuit or first.place.part.value
    return f"{'✗ ' if room.already else ''}{at}: {what}"


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"
