"""Verdicts in a list, the worst first."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets.option_list import Option

from records.judgement.review_types import Judged
from records.judgement.trust import mark_of
from records.model.record import Record
from records.taking.finding_text import awaits_test, how_bad, short_name
from records.terms import Stage
from tui.widgets.pointed import Pointed
from tui.widgets.verdict import marked


class VerdictList(Pointed):
    """One line for each verdict; the current one is shown beside or below it in full."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id, compact=True)
        self._verdicts: tuple[Judged, ...] = ()

    def show(self, record: Record, lines: Sequence[Judged], key: str | None) -> None:
        """List verdicts, with the cursor on the one with this key, else where it was."""
        at = self.highlighted or 0
        self._verdicts = tuple(lines)
        self.set_options([Option(_line(record, each), id=str(at)) for at, each in enumerate(lines)])
        keys = [each.key for each in lines]
        if lines:
            self.highlighted = keys.index(key) if key in keys else min(at, len(lines) - 1)

    @property
    def current(self) -> Judged | None:
        """The verdict that the cursor is on."""
        at = self.highlighted
        return self._verdicts[at] if at is not None and at < len(self._verdicts) else None


def _line(record: Record, judged: Judged) -> Content:
    return Content.assemble(
        " ",
        marked(judged.verdict),
        mark_of(judged),
        Content.styled(" · done, test again" if awaits_test(judged) else "", "$quiet"),
        f"  {short_name(record, judged, how_bad(judged))}",
        " (before covering)" if _is_early(judged) else "",
    )


def _is_early(judged: Judged) -> bool:
    return judged.slot is not None and judged.slot.stage is Stage.BEFORE_COVERING
