"""The words of a line on places: names, figures in mm, and which figure belongs to which word."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from records.errors import BadPlace, BadQuantity, BadText
from records.shorthand.split import split
from records.text import checked_text
from records.typed import read_typed
from records.units import Unit

_FIGURE = re.compile(r"[+-]?[0-9][0-9.,]*(?:mm|m|cm)?|[+-]?\.[0-9]+(?:mm|m)?", re.IGNORECASE)
_SMALL = 10.0
"""Below this a figure with decimals and no unit could be metres."""
_LONG = 300
_MOST = 14
"""Figures and their words between two commas: each doubles the ways to read them."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word as typed; in quotes it is a name."""

    text: str
    quoted: bool = False

    @property
    def low(self) -> str:
        """In small letters; a name in quotes is no word of ours."""
        return "" if self.quoted else self.text.casefold()

    @property
    def is_figure(self) -> bool:
        """Whether it is a figure."""
        return not self.quoted and bool(_FIGURE.fullmatch(self.text))


Group = tuple[Word, ...]
"""What stands between two commas."""


def groups(line: str) -> tuple[Group, ...]:
    """Return the words of a line, parted by its commas.

    Raises:
        BadPlace: If it is too long, or holds what no line may.
    """
    try:
        text = checked_text(line)
    except BadText as error:
        raise BadPlace(str(error)) from None
    if len(text) > _LONG:
        raise BadPlace(f"That line is over {_LONG} characters long. Type it in two.")
    found: list[list[Word]] = [[]]
    for piece in split(re.sub(r"(?<=[0-9m])\s*[x×]\s*(?=[0-9])", " x ", text)):
        if piece.is_break:
            found.append([])
        elif piece.quoted is not None:
            found[-1].append(Word(piece.quoted, quoted=True))
        else:
            found[-1].append(Word(piece.text))
    return tuple(tuple(each) for each in found if each)


def millimetres(text: str) -> float:
    """Return a figure in mm; with m or cm after it, turned into mm.

    Raises:
        BadPlace: If it is no figure of a length, or could be metres as well.
    """
    low = text.casefold()
    try:
        if low.endswith("cm"):
            return read_typed(low[:-2], Unit.NUMBER).value * 10
        if low.endswith("m") and not low.endswith("mm"):
            return round(read_typed(low, Unit.METRE).value * 1000, 6)
        value = read_typed(low.removesuffix("mm"), Unit.NUMBER).value
    except BadQuantity as error:
        raise BadPlace(str(error)) from None
    if value < 0:
        raise BadPlace(f"“{text}” is below zero. Measure from the corner and the floor.")
    if value < _SMALL and not value.is_integer() and not low.endswith("mm"):
        raise BadPlace(f"“{text}”: type {text} m, or {text} mm.")
    return value


@dataclass(frozen=True, slots=True)
class Said:
    """What a group says: figures by the word beside them, and what is left over."""

    roles: dict[str, float]
    figures: tuple[str, ...]
    """Without a word that says what they are."""
    words: Group
    """Other words."""


def paired(group: Sequence[Word], known: Iterable[str]) -> Said:
    """Return which figure belongs to which word: neighbours, so that least is left over.

    Args:
        group: Words between two commas.
        known: The words that a figure belongs to.
    Raises:
        BadPlace: If it can be read in two ways, or a word stands twice.
    """
    roles = frozenset(known)
    items = [each for each in group if each.is_figure or each.low in roles]
    others = tuple(each for each in group if not each.is_figure and each.low not in roles)
    if len(items) > _MOST:
        raise BadPlace("That is too much between two commas. Type it in two lines.")
    fits = _fits(tuple(items), roles)
    least = min(len(left) for _, left in fits)
    best = [(pairs, left) for pairs, left in fits if len(left) == least]
    if any(pairs != best[0][0] for pairs, _ in best):
        figures = " ".join(each.text for each in items)
        raise BadPlace(
            f"“{figures}” can be read in two ways. Say what each figure is, with commas."
        )
    pairs, left = best[0]
    found: dict[str, float] = {}
    for role, text in pairs:
        if role in found:
            raise BadPlace(f"“{role}” is there twice. Type it once.")
        found[role] = millimetres(text)
    rest = tuple(each for each in left if not each.is_figure)
    return Said(found, tuple(each.text for each in left if each.is_figure), (*others, *rest))


_Fit = tuple[tuple[tuple[str, str], ...], tuple[Word, ...]]


def _fits(items: tuple[Word, ...], roles: frozenset[str]) -> list[_Fit]:
    if not items:
        return [((), ())]
    first, *rest = items
    found: list[_Fit] = [(pairs, (first, *left)) for pairs, left in _fits(tuple(rest), roles)]
    if rest:
        second = rest[0]
        if first.is_figure is not second.is_figure:
            role, figure = (second, first) if first.is_figure else (first, second)
            found += [
                (((role.low, figure.text), *pairs), left)
                for pairs, left in _fits(tuple(rest[1:]), roles)
            ]
    return found


def unknown(words: Iterable[Word], right: str) -> BadPlace:
    """Return that words aren't understood, with what would be right."""
    named = ", ".join(f"“{each.text}”" for each in words)
    return BadPlace(f"{named}: not understood here. {right}")
