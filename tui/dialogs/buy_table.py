"""The list of what to buy, to read and to write out."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from records.options.confirm import BEFORE_BUYING
from tui.dialogs.table import Line, Table, Told

if TYPE_CHECKING:
    from records.options.buy import BuyList, Item

HEAD = ("amount", "what", "for")
_WHAT, _FOR = 48, 18


class BuyTable(Table[str]):
    """Shows the list; w gives back that it is to be written."""

    KEYS_LINE = "s order · n not listed · w writes a file · Esc closes"
    HELP = (
        "What the design asks for: cable with your allowance (Before buying), devices and glands. "
        "Boxes come from the places that are entered. No prices and no makers. What isn't "
        "entered yet can't be listed: n says what that is. w writes the list for a spreadsheet, "
        "or as a page to print."
    )
    NOTES = "Not on the list until it is entered"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("w", "write", show=False)]

    def __init__(self, bought: BuyList) -> None:
        """Prepare the table."""
        title = f"To buy, cable with {bought.allowance:g} % over what is entered"
        lines = [_line(each) for each in bought.items]
        super().__init__(title, HEAD, lines, (BEFORE_BUYING,), bought.missing)

    def action_write(self) -> None:
        """Close, to have it written."""
        self.dismiss("write")


def _line(item: Item) -> Line:
    uses = ", ".join(item.uses)
    told = Told(item.sort.value, f"{item.what}, for {uses}. {item.note}".strip())
    texts = (f"{item.quantity} {item.unit or '×'}", _cut(item.what, _WHAT), _cut(uses, _FOR))
    return Line(texts, (told, told, told))


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"
