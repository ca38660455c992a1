"""Which of its readings each word of a line has: what contradicts a certain word is left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from records.shorthand.tokens import Token
from records.shorthand.vocabulary import RCBO, Reading
from records.terms import DeviceKind


@dataclass
class Settled:
    """What is certain of a line, what has to be asked, and what means nothing."""

    values: dict[str, object]
    """By slot."""
    open: list[tuple[Token, tuple[Reading, ...]]] = field(default_factory=list)
    """Words that could mean more than one thing still."""
    clash: list[tuple[Token, Reading]] = field(default_factory=list)
    """Certain words that contradict each other: none of them is taken."""
    left: list[Token] = field(default_factory=list)
    """Words that mean nothing here."""


def settle(tokens: Iterable[Token], known: Mapping[str, object]) -> Settled:
    """Return what a line says, whatever the order of its words.

    A reading is dropped only because a certain word says otherwise, never as less likely.

    Args:
        tokens: The words with all their readings.
        known: What is certain beforehand, such as answers to questions.
    """
    found, waiting = Settled(dict(known)), list(tokens)
    while True:
        fitting = [(each, _fitting(each, found.values)) for each in waiting]
        sure = [(token, fit[0]) for token, fit in fitting if len(fit) == 1]
        clash = [
            (token, reading)
            for token, reading in sure
            if any(not agree(reading, other) for _, other in sure)
        ]
        for token, _ in clash or sure:
            waiting.remove(token)
        if clash:
            found.clash += clash
            # What they speak about stays open: neither may settle another word.
            spoken = {slot for _, reading in clash for slot in reading}
            waiting = [each for each in waiting if not _hold(each, spoken, found)]
            continue
        if not sure:
            break
        for _, reading in sure:
            found.values |= reading
    for token, fit in fitting:
        if token in waiting:
            if fit:
                found.open.append((token, fit))
            else:
                found.left.append(token)
    return found


def _hold(token: Token, spoken: set[str], found: Settled) -> bool:
    fit = _fitting(token, found.values)
    if not any(spoken & set(each) for each in fit):
        return False
    if len(fit) == 1:
        found.clash.append((token, fit[0]))
    else:
        found.open.append((token, fit))
    return True


def _fitting(token: Token, values: Mapping[str, object]) -> tuple[Reading, ...]:
    return tuple(each for each in token.readings if agree(each, values))


def agree(one: Mapping[str, object], other: Mapping[str, object]) -> bool:
    """Whether two readings can both be meant."""
    if any(slot in other and other[slot] != value for slot, value in one.items()):
        return False
    both = {**one, **other}
    family = both.get("family")
    if isinstance(family, DeviceKind) and both.get("curve") is not None:
        return False  # a fuse has no curve B, C or D
    return not (family == RCBO and both.get("rcd"))
