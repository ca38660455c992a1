"""The look: slate and brass for a dim shed, paper and ink for daylight, and one without colour."""

from __future__ import annotations

from typing import Literal

from textual.theme import Theme

from records.terms import Verdict

Tone = Literal["good", "warn", "bad", "plain", "dim"]

DARK, PAPER, PLAIN = "farboard-dark", "farboard-paper", "farboard-plain"

THEMES = (
    Theme(
        name=DARK,
        primary="#d0a85c",
        secondary="#8fb3c4",
        accent="#d0a85c",
        foreground="#dde4e8",
        background="#182027",
        surface="#1f2931",
        panel="#283540",
        success="#86c995",
        warning="#e9bd5b",
        error="#ff8a7a",
        dark=True,
        variables={
            "quiet": "#9aa8b2",
            "ink": "#14191d",
            "rule": "#3a4a57",
            "block-cursor-foreground": "#14191d",
            "block-cursor-blurred-background": "#d0a85c 15%",
            "current": "#3a3c37",
            "scrollbar": "#7b8b97",
            "scrollbar-background": "#182027",
        },
    ),
    Theme(
        name=PAPER,
        primary="#7a5610",
        secondary="#2f5d73",
        accent="#7a5610",
        foreground="#20262b",
        background="#f6f2e8",
        surface="#fdfbf5",
        panel="#e9e2d2",
        success="#1f6332",
        warning="#7d4f00",
        error="#a01f16",
        dark=False,
        variables={
            "quiet": "#565d60",
            "ink": "#fdfbf5",
            "rule": "#c9bfa8",
            "block-cursor-foreground": "#fdfbf5",
            "block-cursor-blurred-background": "#7a5610 15%",
            "current": "#e9e2d3",
            "scrollbar": "#857a63",
            "scrollbar-background": "#f6f2e8",
        },
    ),
    Theme(
        # Every tone is the ink itself: what differs is said by mark, word, bold and reverse. Only
        # lines that are nothing but order are grey, so that a curve stands out from its grid.
        name=PLAIN,
        primary="#ffffff",
        secondary="#ffffff",
        accent="#ffffff",
        foreground="#ffffff",
        background="#000000",
        surface="#000000",
        panel="#000000",
        success="#ffffff",
        warning="#ffffff",
        error="#ffffff",
        dark=True,
        variables={
            "quiet": "#ffffff",
            "ink": "#000000",
            "rule": "#808080",
            "current": "#4c4c4c",
            "block-cursor-foreground": "#000000",
            "scrollbar": "#a0a0a0",
            "scrollbar-background": "#303030",
        },
    ),
)

_STYLES: dict[Tone, str] = {
    "good": "$success",
    "warn": "bold $warning",
    "bad": "bold $error",
    "plain": "",
    "dim": "$quiet",
}

MARKS: dict[Tone, str] = {"good": "✓", "warn": "!", "bad": "✗", "plain": "", "dim": ""}


def missing_colours(theme: Theme) -> dict[str, str]:
    """Return colours for what our rules name and a theme that is not ours doesn't have."""
    if "quiet" in theme.variables:
        return {}
    if theme.ansi:  # the terminal's own colours can't be blended
        default = dict.fromkeys(("quiet", "ink", "current"), "ansi_default")
        return {"rule": "ansi_bright_black", **default}
    from textual.color import Color

    ground = Color.parse(theme.background or ("#121212" if theme.dark else "#ffffff"))
    ink = Color.parse(theme.foreground or ("#e0e0e0" if theme.dark else "#101010"))
    bar = Color.parse(theme.primary)
    return {
        "quiet": ground.blend(ink, 0.72).hex,
        "rule": ground.blend(ink, 0.3).hex,
        "current": ground.blend(bar, 0.15).hex,
        "ink": bar.get_contrast_text(1.0).hex,
    }


def style(tone: Tone) -> str:
    """Return the content style of a tone: a theme colour, with weight for what matters."""
    return _STYLES[tone]


def verdict_style(verdict: Verdict) -> str:
    """Return the content style of a verdict; its mark and its word stand beside it always."""
    return _VERDICTS[verdict]


_VERDICTS = {
    Verdict.OUTSIDE: "bold $error",
    Verdict.UNLIKELY: "bold $error",
    Verdict.NEAR: "bold $warning",
    Verdict.NOT_TAKEN: "$quiet",
    Verdict.WITHIN: "$success",
    Verdict.NOT_NEEDED: "$quiet",
}
