"""Options to choose from, with a pointer before the one that Enter takes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from tui.widgets.pointed import POINTER


class Choices(OptionList):
    """A list for dialogs; an option may be colourful and may take more than one line."""

    def __init__(self, *options: Option, id: str | None = None) -> None:
        """Make the list.

        Args:
            options: Their prompts are `Content`; room for the pointer is made here.
            id: The widget's id.
        """
        self._prompts = [_content(each) for each in options]
        self._pointed: int | None = None
        self._gap = ""
        super().__init__(*self._made(options), id=id, compact=True)

    def offer(self, options: Sequence[Option]) -> None:
        """Offer other options, and stand on the first."""
        self._pointed = None
        self._prompts = [_content(each) for each in options]
        self.clear_options()
        self.add_options(self._made(options))
        self.highlighted = 0 if options else None

    def on_mount(self) -> None:
        """Give a finger lines twice as high."""
        if self.app.has_class("-touch"):
            self._gap = "\n"
            for at in range(self.option_count):
                self.replace_option_prompt_at_index(at, self._line(at))

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Move the pointer."""
        super().watch_highlighted(highlighted)
        before, self._pointed = self._pointed, highlighted
        for at in {before, highlighted}:
            if at is not None and at < self.option_count:
                self.replace_option_prompt_at_index(at, self._line(at))

    def action_page_up(self) -> None:
        """Move up by a page, once it is known how high one is."""
        self._by_page(super().action_page_up)

    def action_page_down(self) -> None:
        """Move down by a page, once it is known how high one is."""
        self._by_page(super().action_page_down)

    def _by_page(self, move: Callable[[], None]) -> None:
        if self.scrollable_content_region:
            move()
        else:  # typed before the list has its size
            self.call_after_refresh(move)

    def _made(self, options: Sequence[Option]) -> list[Option]:
        return [Option(self._line(at), each.id, each.disabled) for at, each in enumerate(options)]

    def _line(self, at: int) -> Content:
        pointer = f"{POINTER} " if at == self._pointed else "  "
        return Content.assemble((pointer, "bold $primary"), self._prompts[at], self._gap)


def _content(option: Option) -> Content:
    prompt = option.prompt
    return prompt if isinstance(prompt, Content) else Content(str(prompt))
