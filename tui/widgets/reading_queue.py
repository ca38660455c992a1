"""The readings of a stage in the order they are taken, with the current one in sight."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content, Span
from textual.message import Message

from records.judgement.wording import said
from records.model.reading import NotNeeded, NotTaken
from records.taking.queue import Entry, Queue
from tui.look import verdict_style
from tui.widgets.pointed import POINTER
from tui.widgets.scrolled_lines import ScrolledLines


class ReadingQueue(ScrolledLines):
    """A list to look at; the keys stay with the field, a click goes to an entry."""

    CENTRED = True  # what comes before and after tells where one is

    @dataclass
    class Clicked(Message):
        """An entry was clicked."""

        index: int

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._entries: tuple[Entry, ...] = ()
        self._rows: list[str | int] = []
        """Of each row its heading, or which entry it has."""
        self._row_of: list[int] = []
        """Where each entry is among the rows."""
        self._drawn: dict[tuple[int, int], Content] = {}
        """Rows that were drawn, by their place and width."""

    def show(self, queue: Queue, at: int | None) -> None:
        """Show a queue with one entry marked as the current one."""
        if queue.entries is not self._entries:
            self._entries = queue.entries
            self._rows, self._row_of, self._drawn = [], [], {}
            heading = ""
            for index, each in enumerate(queue.entries):
                if each.group != heading:
                    heading = each.group
                    self._rows.append(heading)
                self._row_of.append(len(self._rows))
                self._rows.append(index)
        self.go_to(self._row_of[at] if at is not None else self.current)

    def count(self) -> int:
        """Return how many rows there are: headings and entries."""
        return len(self._rows)

    def row(self, at: int, width: int) -> Content:
        """Return a heading or an entry, cut at its end if it is too long."""
        if (at, width) not in self._drawn:
            what = self._rows[at]
            line = Content.styled(what, "bold") if isinstance(what, str) else self._line(what)
            line = line.truncate(width, ellipsis=True)
            self._drawn[at, width] = line.pad_right(width - line.cell_length)
        line = self._drawn[at, width]
        if at != self.current:
            return line
        return Content(f"{POINTER}{line.plain[1:]}", [Span(0, width, "on $current"), *line.spans])

    def clicked(self, at: int, x: int) -> None:
        """Say which entry was clicked."""
        what = self._rows[at]
        if isinstance(what, int):
            self.post_message(self.Clicked(what))

    def _line(self, index: int) -> Content:
        # The verdict comes first: what a narrow window cuts off is the end of a name, no value.
        entry = self._entries[index]
        value = f" {entry.verdict.mark} {_value(entry):<{_WIDE}}"
        return Content.assemble((value, verdict_style(entry.verdict)), entry.brief)


def _value(entry: Entry) -> str:
    if entry.is_open:
        return f"{entry.verdict.value} "
    taken = entry.attempts[-1].taken
    if isinstance(taken, NotTaken):
        return "could not be taken "
    if isinstance(taken, NotNeeded):
        return "not needed "
    return f"{entry.verdict.value} {said(taken, entry.measurement)} "


_WIDE = 19
"""Columns for verdict and value."""
