"""A verdict on a screen: mark and word first, colour after."""

from __future__ import annotations

from textual.content import Content

from records.judgement.review_types import Judged
from records.judgement.trust import mark_of
from records.taking.outcome import next_check, told_verdicts
from records.taking.queue import Entry
from records.terms import Verdict
from tui.look import verdict_style


def marked(verdict: Verdict) -> Content:
    """Return mark and word of a verdict: `✗ outside`."""
    return Content.styled(f"{verdict.mark} {verdict.value}", verdict_style(verdict))


def sentence(judged: Judged) -> Content:
    """Return a verdict with its reason: `✗ outside  0.98 Ω is …`."""
    return Content.assemble(marked(judged.verdict), mark_of(judged), "  ", Content(judged.why))


def standing_words(entry: Entry) -> Content:
    """Return how the last reading of an entry stands, what to do about it first.

    A small window has three lines here, and the verdict is in the list.
    """
    lines = [sentence(each) for each in told_verdicts(entry)]
    check = next_check(entry)
    return Content("\n").join([Content(check), *lines] if check else lines)
