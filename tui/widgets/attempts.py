"""What was typed in the fields of a form, and how it went: a draft, refused with a reason, kept."""

from __future__ import annotations

from collections.abc import MutableMapping, Sequence

from records.entering.field import Field
from tui.widgets.answer_list import AnswerList
from tui.widgets.drawing import State
from tui.widgets.rows import Row, line_at


class Attempts:
    """By the key of the field; drafts outlive the form, the rest is of one page."""

    def __init__(self, drafts: MutableMapping[str, str]) -> None:
        """Begin a page.

        Args:
            drafts: What was typed and not accepted.
        """
        self.drafts = drafts
        self.refusals: dict[str, str] = {}
        self.kept: set[str] = set()
        self.filled: set[str] = set()
        """Rows that the last entry filled beside its own."""

    def fresh(self) -> None:
        """Begin another page."""
        self.refusals, self.kept = {}, set()

    def refuse(self, field: Field, typed: str, why: str) -> None:
        """Leave a text as it was typed, with the reason why it was not taken."""
        self.refusals[field.key] = why
        if not field.is_choice:
            self.drafts[field.key] = typed

    def leave(self, key: str, left: str, why: str) -> None:
        """Leave in a line what was not understood of it, with the reason; nothing if all was."""
        if why:
            self.drafts[key], self.refusals[key] = left, why
        else:
            self.forget(key)

    def forget(self, key: str) -> bool:
        """Forget what was typed in a field; False if there was nothing."""
        draft, refusal = self.drafts.pop(key, None), self.refusals.pop(key, None)
        return draft is not None or refusal is not None

    def moves_to_line(self, field: Field, typed: str, rows: Sequence[Row]) -> bool:
        """Leave a text in the line of the page, if it says several things at once as a line does.

        A line in which something is typed already keeps that.
        """
        at = line_at(rows)
        line = None if at is None else rows[at]
        if not isinstance(line, Field) or line.whole is None or line.key in self.drafts:
            return False
        if not line.whole(typed):
            return False
        self.forget(field.key)
        self.drafts[line.key] = typed
        return True

    def is_told(self, key: str, typed: str) -> bool:
        """Whether somebody was told already why this text was not taken."""
        return key in self.refusals and self.drafts.get(key) == typed

    def is_new(self, field: Field, typed: str) -> bool:
        """Whether a text differs from what the field has on disk."""
        return typed.strip() != field.bare or field.key in self.drafts

    def fills(self, before: Sequence[Row], after: Sequence[Row]) -> None:
        """Mark as kept all that one entry filled."""
        known = {each.key: each.value for each in before if isinstance(each, Field)}
        fields = (each for each in after if isinstance(each, Field))
        self.filled = {each.key for each in fields if known.get(each.key) != each.value}
        self.kept |= self.filled

    def state(self, at: int, echo: str, answers: AnswerList) -> State:
        """Return all that a form is drawn with beside its rows.

        Args:
            at: The row that the cursor is on.
            echo: What the typed text is understood as.
            answers: The list of answers, open or not.
        """
        offer, picked = answers.options, answers.at
        return State(at, echo, offer, picked, self.refusals, self.drafts, self.kept)
