"""The readings of a stage in the order they are taken, with the current one in sight."""

from __future__ import annotations

from dataclasses import dataclass

from textual import on
from textual.content import Content
from textual.geometry import Region
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from records.judgement.wording import said
from records.model.reading import NotNeeded, NotTaken
from records.taking.queue import Entry, Queue
from tui.look import verdict_style
from tui.widgets.pointed import Pointed


class ReadingQueue(Pointed, can_focus=False):
    """A list to look at; the keys stay with the field, a click goes to an entry."""

    @dataclass
    class Clicked(Message):
        """An entry was clicked."""

        index: int

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id, compact=True)
        self._shown: tuple[Entry, ...] = ()
        self._rows: list[int] = []

    def show(self, queue: Queue, at: int | None) -> None:
        """Show a queue with one entry marked as the current one."""
        same = queue.entries is self._shown
        slots = [] if same else [each.slot for each in queue.entries]
        other = not same and slots != [each.slot for each in self._shown]
        if other:
            self._lay_out(queue)
        elif not same:
            for index, (old, new) in enumerate(zip(self._shown, queue.entries, strict=True)):
                if old != new:
                    self.replace_option_prompt_at_index(self._rows[index], _line(new))
        self._shown = queue.entries
        if at is not None:
            self.highlighted = self._rows[at]
            self._centre()  # in the same paint
            if other:  # how far other entries can be scrolled is known only later
                self.call_after_refresh(self._centre)

    def on_mount(self) -> None:
        """Keep the current entry in sight whenever more or less of the list can be scrolled."""
        self.watch(self, "virtual_size", self._centre, init=False)

    def on_resize(self) -> None:
        """Keep the current entry in sight: the card below grows when there is more to say."""
        self._centre()
        self.call_after_refresh(self._centre)

    def _centre(self) -> None:
        # What comes before and after tells where one is. Every entry is one line high.
        if self.highlighted is not None:
            where = Region(0, self.highlighted, max(self.size.width, 1), 1)
            self.scroll_to_region(where, center=True, force=True, animate=False)

    def _lay_out(self, queue: Queue) -> None:
        options, self._rows, heading = [], [], ""
        for index, each in enumerate(queue.entries):
            if each.group != heading:
                heading = each.group
                options.append(Option(Content.styled(heading, "bold"), disabled=True))
            self._rows.append(len(options))
            options.append(Option(_line(each), id=str(index)))
        self.set_options(options)

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.post_message(self.Clicked(int(event.option.id or 0)))


def _line(entry: Entry) -> Content:
    # The verdict stands first: what a narrow window cuts off is the end of a name, never a value.
    value = f" {entry.verdict.mark} {_value(entry):<{_WIDE}}"
    return Content.assemble(
        Content.styled(value, verdict_style(entry.verdict)),
        entry.brief,
    )


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
