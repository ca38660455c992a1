"""One page of a design step: rows, and what happens when one is opened, copied or taken out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from records.entering.field import Field
from records.entering.model_fields import fields_of
from records.entering.remark import Asked, Remark
from tui.look import Tone
from tui.widgets.rows import Act, Heading, Link, Note, Row

if TYPE_CHECKING:
    from records.model.kinds import Piece
    from records.model.reading import Place

Doing = Callable[[], None]
Trail = tuple[str, ...]
"""Where a page stands in its step: `("C2", "run", "0")`; the first page of a step is `()`."""


@dataclass
class Page:
    """Rows of a form with what they do."""

    title: str
    place: Place | None = None
    """The part of the installation that the page is about, for what follows from it."""
    rows: list[Row] = field(default_factory=list)
    doings: dict[str, Doing] = field(default_factory=dict)
    copies: dict[str, Doing] = field(default_factory=dict)
    """What the copy key does, by the key of a row; under "" for the whole page."""
    removals: dict[str, Doing] = field(default_factory=dict)
    """What the take-out key does, likewise."""
    inserts: dict[str, Doing] = field(default_factory=dict)
    """What the key does that puts one in before."""
    moves_up: dict[str, Doing] = field(default_factory=dict)
    """What the key does that moves an entry up in its list."""
    moves_down: dict[str, Doing] = field(default_factory=dict)
    """The same, down."""
    lines: dict[str, Callable[[str], None]] = field(default_factory=dict)
    """What takes a line of shorthand, by the key of its field."""

    trials: dict[str, Callable[[str], list[dict[str, Any]]]] = field(default_factory=dict)
    """What gives the changes of a line, by the key of its field; those that can be tried first."""

    def line(
        self,
        field: Field,
        take: Callable[[str], None],
        trial: Callable[[str], list[dict[str, Any]]] | None = None,
    ) -> None:
        """Add a field for a line of shorthand.

        Args:
            field: The field.
            take: Takes what is typed.
            trial: Gives the changes that it would make, to be tried before; None: it can't be.
        """
        self.rows.append(field)
        self.lines[field.key] = take
        if trial is not None:
            self.trials[field.key] = trial

    def heading(self, text: str) -> None:
        """Add a line over the rows that come."""
        self.rows.append(Heading(text))

    def note(self, text: str, tone: Tone = "plain") -> None:
        """Add words to read."""
        self.rows.append(Note(text, tone))

    def remark(self, remark: Remark) -> None:
        """Add words to read, in the tone that they need."""
        self.note(remark.text, "warn" if remark.urgent else "plain")

    def ask(self, piece: Piece, pointer: str, asked: Iterable[Asked]) -> None:
        """Add what is asked of a piece of the record, and what is to be read between.

        Args:
            piece: As it stands.
            pointer: Where it stands in the record.
            asked: Names of its fields, and remarks, in order.
        """
        for each in asked:
            if isinstance(each, Remark):
                self.remark(each)
            else:
                self.fields(fields_of(piece, pointer, each))

    def fields(self, fields: Sequence[Field]) -> None:
        """Add fields."""
        self.rows.extend(fields)

    def link(
        self,
        key: str,
        label: str,
        summary: str,
        open: Doing,
        *,
        copy: Doing | None = None,
        take_out: Doing | None = None,
        hint: str = "",
    ) -> None:
        """Add something that can be opened."""
        keys = ["Enter opens it"]
        if copy is not None:
            self.copies[key] = copy
            keys.append("F7 copies it")
        if take_out is not None:
            self.removals[key] = take_out
            keys.append("F8 removes it")
        self.rows.append(Link(key, label, summary, hint or ", ".join(keys) + "."))
        self.doings[key] = open

    def act(self, key: str, label: str, do: Doing, hint: str = "") -> None:
        """Add something to do."""
        self.rows.append(Act(key, label, hint))
        self.doings[key] = do
