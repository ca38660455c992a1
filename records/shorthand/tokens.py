"""A line taken apart: words and figures, each with everything that it could mean."""

from __future__ import annotations

import re
from collections.abc import Set
from dataclasses import dataclass

from records.shorthand.figures import figure_readings, is_figure, says_form, unit_words
from records.shorthand.split import split
from records.shorthand.vocabulary import SLOT_BESIDE, SMALL, Reading, phrases
from records.terms import CableKind

_MOST_WORDS = 4
_CURVE = re.compile(r"[bcd]")
_BARE = re.compile(r"[0-9][0-9.,]*")


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a phrase or a figure of a line."""

    text: str
    """As typed."""
    start: int
    end: int
    readings: tuple[Reading, ...]
    """All that it could mean here; empty if nothing."""
    why: str = ""
    """Why it means nothing, where there is more to say than that."""

    @property
    def word(self) -> str:
        """The text in small letters, one space between words."""
        return " ".join(self.text.casefold().split())


def tokens(line: str, slots: Set[str], small: Set[str] = frozenset()) -> tuple[Token, ...]:
    """Return the words and figures of a line that say something.

    Args:
        line: As typed.
        slots: What the line may fill; readings of anything else are left out.
        small: Words that say nothing here, beside those that never do.
    """
    pieces = _pieces(line)
    words = [each.word for each in pieces]
    if any(says_form(each) for each in words):
        small = small | {"fuse"}  # that of the connection unit
    read = [_read(pieces, words, at) for at in range(len(pieces))]
    strange = {at for at, piece in enumerate(pieces) if _is_strange(piece, read[at], small)}
    found: list[Token] = []
    for at, piece in enumerate(pieces):
        if piece.word in SMALL | small:
            continue
        readings, why = read[at]
        if at + 1 in strange and _BARE.fullmatch(piece.word):
            found.append(_unlike(line, piece, pieces[at + 1]))
            continue
        if at in strange and at and _BARE.fullmatch(words[at - 1]):
            continue  # with its figure
        if piece.word in SLOT_BESIDE:
            beside = (each for near, _ in read[max(at - 1, 0) : at + 2] for each in near)
            if any(SLOT_BESIDE[piece.word] in each for each in beside):
                continue
            why = f"“{piece.text}” needs its figure beside it."
        if "name" not in slots and any("name" in each for each in readings):
            readings = tuple({"where": each["name"]} for each in readings)
        within = tuple(each for each in readings if set(each) <= slots)
        if readings and not within:
            why = f"“{piece.text}” does not belong here."
        found.append(Token(piece.text, piece.start, piece.end, _with_pvc(within, words), why))
    return tuple(found)


def _is_strange(piece: Token, read: tuple[tuple[Reading, ...], str], small: Set[str]) -> bool:
    """Whether a word is not understood: beside a bare figure it may be its unit, such as feet."""
    word = piece.word
    known = word in SMALL | small or word in SLOT_BESIDE or read[0] or read[1]
    return not known and not is_figure(word)


def _unlike(line: str, figure: Token, word: Token) -> Token:
    """Return a figure and the word after it as one: what the word makes of it is not known."""
    text = line[figure.start : word.end]
    why = f"“{text}” is not understood: give the figure its unit, like 12m, and a name its quotes."
    return Token(text, figure.start, word.end, (), why)


def _read(pieces: list[Token], words: list[str], at: int) -> tuple[tuple[Reading, ...], str]:
    """Return what a word or figure can mean where it stands, and why it means nothing."""
    if pieces[at].readings:
        return pieces[at].readings, ""
    before = words[at - 1] if at else ""
    after = words[at + 1] if at + 1 < len(words) else ""
    return figure_readings(words[at], before, after, words)


def _with_pvc(readings: tuple[Reading, ...], words: list[str]) -> tuple[Reading, ...]:
    """Return readings in which armoured cable may be PVC, if the line says PVC anywhere."""
    if "pvc" in words and any(each.get("cable") is CableKind.SWA_XLPE for each in readings):
        return (*readings, {"cable": CableKind.SWA_PVC})
    return readings


def _pieces(line: str) -> list[Token]:
    """Return the line's words, longest phrases first, figures joined to their units."""
    raw = [each for each in split(line) if not each.is_break]
    folded = [each.text.casefold() for each in raw]
    pieces: list[Token] = []
    at = 0
    while at < len(raw):
        count, readings = _phrase(folded, at)
        if not count:
            count = 1
            text = folded[at]
            after = folded[at + 1] if at + 1 < len(raw) else ""
            name = raw[at].quoted
            if name is not None:
                readings = ({"name": name},) if name else ()
            elif text == "pvc":
                readings = ({"cable": CableKind.SWA_PVC},)
            elif _BARE.fullmatch(text) and _two_words(folded, at + 1) in unit_words():
                count = 3
            elif _belong(text, after):
                count = 2
        start, end = raw[at].start, raw[at + count - 1].end
        pieces.append(Token(line[start:end], start, end, readings))
        at += count
    return pieces


def _two_words(folded: list[str], at: int) -> str:
    return " ".join(folded[at : at + 2]) if at + 1 < len(folded) else ""


def _belong(one: str, other: str) -> bool:
    """Whether two words are one: a figure and its unit, or a curve and its rating."""
    if _BARE.fullmatch(one):
        return other in unit_words() or bool(_CURVE.fullmatch(other))
    return bool(_CURVE.fullmatch(one) and _BARE.fullmatch(other))


def _phrase(folded: list[str], at: int) -> tuple[int, tuple[Reading, ...]]:
    """Return how many words the longest phrase from here has, and what it can mean."""
    known = phrases()
    for count in range(min(_MOST_WORDS, len(folded) - at), 0, -1):
        readings = known.get(" ".join(folded[at : at + count]))
        if readings is not None:
            return count, readings
    return 0, ()
