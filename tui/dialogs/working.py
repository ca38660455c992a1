"""How figures were worked out: formula, values put in, sources."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from records.tables.rounding import span_words
from tui.dialogs.dialog import Dialog
from tui.widgets.choices import Choices

if TYPE_CHECKING:
    from records.expected.results import Result


class Working(Dialog[None]):
    """Lists figures and shows the working of the one that the bar is on."""

    KEYS_LINE = "↑ ↓ other figure · PageUp PageDown scroll the working · Esc closes"
    HELP = (
        "Each figure with its formula, the values put in, and where they come from. “From memory” "
        "in a source says that nobody held it against the book."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f2,enter,q", "close", show=False),
        Binding("pagedown,space", "scroll(1)", show=False, priority=True),
        Binding("pageup", "scroll(-1)", show=False, priority=True),
    ]

    def __init__(self, figures: Sequence[tuple[str, Result]], at: int) -> None:
        """Prepare the list.

        Args:
            figures: Each under its name.
            at: The one to begin with.
        """
        super().__init__("How it was calculated")
        self._figures, self._at = figures, min(max(at, 0), len(figures) - 1)

    def compose_inside(self) -> ComposeResult:
        """Compose list and working."""
        # The figure stands first: what finds no room is the end of a name.
        wide = max(len(brief(each)) for _, each in self._figures)
        yield Choices(
            *(
                Option(Content.assemble((f"{brief(each):<{wide}}", "bold"), f"  {name}"))
                for name, each in self._figures
            )
        )
        with VerticalScroll(id="dialog-scroll", can_focus=False):
            yield Static("", id="working", markup=False)

    def on_mount(self) -> None:
        """Begin with the figure in focus."""
        figures = self.query_one(OptionList)
        figures.highlighted = self._at
        self.set_focus(figures)

    def action_scroll(self, way: int) -> None:
        """Scroll the working."""
        scroll = self.query_one("#dialog-scroll")
        scroll.scroll_relative(y=way * max(scroll.size.height - 1, 1), animate=False)

    @on(OptionList.OptionHighlighted)
    def _stand(self, event: OptionList.OptionHighlighted) -> None:
        name, result = self._figures[event.option_index]
        self.query_one("#working", Static).update(Content("\n").join(working(name, result)))
        self.query_one("#dialog-scroll").scroll_home(animate=False)

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.dismiss(None)


def brief(result: Result) -> str:
    """Return a figure as one reads it in a list."""
    return "not calculated" if hasattr(result, "why") else str(result)


def working(name: str, result: Result) -> list[Content]:
    """Return the working of a figure, line by line; for one that has none, the reason."""
    from records.expected.results import NotWorkedOut

    if isinstance(result, NotWorkedOut):
        return [
            Content.styled(f"{name}: not calculated", "bold $warning"),
            Content(result.why),
        ]
    lines = [Content.assemble((f"{name}: ", "bold $primary"), (str(result), "bold"))]
    if result.formula:
        lines.append(_line("formula", result.formula))
    if result.put_in:
        lines.append(_line("values", f"{result.symbol} = {result.put_in}"))
    if result.low is not None and result.high is not None:
        span = span_words(result.low, result.high, result.unit, result.digits)
        lines.append(_line("between", span))
    for source in result.sources:
        lines.append(_line("source", str(source)))
    if result.note:
        lines.append(_line("note", result.note))
    return lines


def _line(word: str, said: str) -> Content:
    return Content.assemble((f"{word:<10}", "$quiet"), said)
