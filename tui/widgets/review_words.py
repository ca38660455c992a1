"""The lines of words round the review's list."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from textual.content import Content

from records.judgement.review_types import Judged
from records.taking.finding_text import Show
from records.terms import Verdict
from tui.look import verdict_style


def counts_line(findings: Sequence[Judged]) -> Content:
    """Return how many findings there are of each verdict."""
    counted = Counter(each.verdict for each in findings)
    parts = [
        Content.styled(f"{verdict.mark} {counted[verdict]} {verdict.value}", verdict_style(verdict))
        for verdict in Verdict
        if counted[verdict]
    ]
    return Content("  ").join(parts) if parts else Content.styled("✓ no findings", "$success")


def nothing_to_show(show: Show, begun: bool) -> str:
    """Return what stands where a list is empty."""
    if show is Show.WITHIN:
        return "Nothing is within yet: a blank is never a pass."
    if show is Show.PUT_RIGHT:
        return "Nothing that was found has been put right yet."
    if not begun:
        return "Nothing to deal with yet. Enter the design, then the readings."
    return "Nothing to deal with. The certifier still decides."


def keys_of_list(show: Show) -> Content:
    """Return the keys that act on a finding."""
    pairs = (
        ("r", "done"),
        ("d", "decide"),
        ("a", "again"),
        ("g", "go"),
        ("Enter", "all"),
        ("f", show.value),
    )
    return Content("  ").join(
        Content.assemble((key, "bold $primary"), f" {words}") for key, words in pairs
    )
