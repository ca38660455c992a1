"""A verdict on a screen: mark and word first, colour after."""

from __future__ import annotations

from textual.content import Content

from records.judgement.review_types import Judged
from records.judgement.trust import mark_of
from records.terms import Verdict
from tui.look import Tone, verdict_style

_TONES: dict[Verdict, Tone] = {
    Verdict.OUTSIDE: "bad",
    Verdict.UNLIKELY: "bad",
    Verdict.NEAR: "warn",
    Verdict.WITHIN: "good",
}


def tone_of(verdict: Verdict) -> Tone:
    """Return the tone in which a message about a verdict is said."""
    return _TONES.get(verdict, "plain")


def marked(verdict: Verdict) -> Content:
    """Return mark and word of a verdict: `✗ outside`."""
    return Content.styled(f"{verdict.mark} {verdict.value}", verdict_style(verdict))


def sentence(judged: Judged) -> Content:
    """Return a verdict with its reason: `✗ outside  0.98 Ω is …`."""
    return Content.assemble(marked(judged.verdict), mark_of(judged), "  ", Content(judged.why))
