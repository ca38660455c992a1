"""Options to choose from, with a pointer before the one that Enter takes."""

from __future__ import annotations

from collections.abc import Sequence

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
        self._prompts = [Content(str(each.prompt)) if not isinstance(each.prompt, Content)
                         else each.prompt for each in options]  # fmt: skip
        self._pointed: int | None = None
        made = (
            Option(_line(prompt, False), each.id, each.disabled)
            for prompt, each in zip(self._prompts, options, strict=True)
        )
        super().__init__(*made, id=id, compact=True)

    def offer(self, options: Sequence[Option]) -> None:
        """Offer other options, and stand on the first."""
        self._pointed = None
        self.clear_options()
        self._prompts = [Content(str(each.prompt)) if not isinstance(each.prompt, Content)
                         else each.prompt for each in options]  # fmt: skip
        self.add_options(
            Option(_line(prompt, False), each.id, each.disabled)
            for prompt, each in zip(self._prompts, options, strict=True)
        )
        self.highlighted = 0 if options else None

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Move the pointer."""
        super().watch_highlighted(highlighted)
        before, self._pointed = self._pointed, highlighted
        for at in {before, highlighted}:
            if at is not None and at < self.option_count:
                self.replace_option_prompt_at_index(at, _line(self._prompts[at], at == highlighted))


def _line(prompt: Content, here: bool) -> Content:
    return Content.assemble((f"{POINTER} " if here else "  ", "bold $primary"), prompt)
