"""Which acts show in a sentence, and whether the state that they need is said before them.

The table says what an act needs; this says by which words it is known, whatever was declared.
Taking a reading again by its own card is no act here: the card says the state that it needs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from records.judgement.advice import Act, State

_CLAUSE = r"(?:and|or|then|first|next|,|;|:|\.|^)\s*(?:then |first )?"
"""Where a clause begins: only there is a verb told to somebody."""
_SHOWS: dict[Act, tuple[str, ...]] = {
    Act.READ_DEAD: (
        rf"{_CLAUSE}(?:read|repeat) (?:again )?(?:the )?(?:R1\+R2|Rn\+R2|insulation|earths)",
    ),
    Act.OPEN: (
        rf"{_CLAUSE}open (?:up )?(?:the|this|that|each|every|its|a|what)\b",
        rf"{_CLAUSE}(?:split|halve)\b",
        rf"{_CLAUSE}look (?:behind|inside|into)\b",
        rf"{_CLAUSE}(?:tighten|remake|reseal|dry (?:and|the|out|it))\b",
        rf"{_CLAUSE}cut (?:the|it|its)\b[^.]*\bback\b",
        r"\bread across (?:each|the)\b",
        r"\bat its terminals\b",
    ),
    Act.LIFT: (
        rf"{_CLAUSE}(?:lift|disconnect|unscrew)\b",
        rf"{_CLAUSE}take\b(?:(?!\blinks?\b)[^.;])*\b(?:out|off)\b",
        r"\b(?:neutrals?|electrode|bonds?)\b[^.;:]{0,15}(?<!was )(?<!were )\blifted\b",
        r"\bout of (?:its|the|their) (?:bar|device)\b",
        r"\b(?:loads|lamps|drivers|electronics|surge protection|everything|neutral)\b"
        r"(?:(?!\b(?:not|never|leave|is)\b)[^.;:])*\bout\b(?! again)",
    ),
    Act.UNLINK: (
        rf"{_CLAUSE}take (?:(?:the|every) )?links? out\b(?! again)",
        r"(?:^|\.\s)links? out\b",
    ),
    Act.EARTH_OFF: (
        r"\b(?:conductor|bond|armour|core)\b(?:(?!\bis\b)[^.;:]){0,20}\boff\b(?! and)",
        r"\boff (?:the electrode|its clamp|the earth bar)\b",
    ),
    Act.CHANGE: (
        rf"{_CLAUSE}(?:change|replace|swap) (?:it|the (?:RCD|RCBO|device|AFDD|cable|rod))",
        rf"{_CLAUSE}put (?:it|them|the cartridge) (?:back|in)\b",
    ),
    Act.JOIN: (rf"{_CLAUSE}(?:join|cross-connect) (?:opposite|the ends|the legs|line|L and)",),
    Act.FIT: (r"\bclamp (?:round|on)\b", r"\bcover back\b"),
    Act.READ_LIVE: (
        r"\bhigh-current range\b",
        r"\b(?:at its incoming terminals|line probe on)\b",
    ),
    Act.DRIVE: (
        rf"{_CLAUSE}(?:drive|dig|hammer)\b",
        r"\b(?:deeper|more rods|another rod)\b",
    ),
}
_PATTERNS = {act: re.compile("|".join(shows), re.IGNORECASE) for act, shows in _SHOWS.items()}
_SAID = {
    State.DEAD: re.compile(r"prove dead|proved dead|prove it dead", re.IGNORECASE),
    State.COMPETENT: re.compile(r"competent|certifier", re.IGNORECASE),
    State.SERVICES: re.compile(r"buried services|wall and the ground", re.IGNORECASE),
}


def known() -> set[Act]:
    """Return the acts that are known by their words."""
    return set(_SHOWS)


def acts_in(text: str) -> Iterator[tuple[Act, int]]:
    """Yield the acts that a text asks for, each with where it first shows."""
    for act, pattern in _PATTERNS.items():
        found = pattern.search(text)
        if found is not None:
            yield act, found.start()


def unsafe(text: str) -> tuple[Act, ...]:
    """Return the acts that a text asks for without the state that they need said before them."""
    return tuple(act for act, at in acts_in(text) if not _SAID[act.needs].search(text[: at + 1]))
