"""One line for a circuit, a feed or a run: its values, its questions, and what it can't mean."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, replace
from enum import Enum

from records.shorthand.elimination import Settled, settle
from records.shorthand.slot_words import reading_words
from records.shorthand.tokens import Token, tokens
from records.shorthand.vocabulary import (
    BREAKER,
    CIRCUIT_SLOTS,
    DEVICE_SLOTS,
    RCBO,
    RUN_SLOTS,
    Reading,
)
from records.tables.reference_temperatures import GROUND
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, Use

_KINDS = {
    (BREAKER, "B"): DeviceKind.BREAKER_B,
    (BREAKER, "C"): DeviceKind.BREAKER_C,
    (BREAKER, "D"): DeviceKind.BREAKER_D,
    (RCBO, "B"): DeviceKind.RCBO_B,
    (RCBO, "C"): DeviceKind.RCBO_C,
    (RCBO, "D"): DeviceKind.RCBO_D,
}


class Scope(Enum):
    """What a line is about, with the slots that it fills and words that say nothing there."""

    CIRCUIT = (CIRCUIT_SLOTS | DEVICE_SLOTS | RUN_SLOTS, frozenset(("final",)))
    FEED = (DEVICE_SLOTS | RUN_SLOTS | {"load"}, frozenset(("feed", "submain")))
    RUN = (RUN_SLOTS, frozenset(("feed",)))
    DEVICE = (DEVICE_SLOTS, frozenset(("feed",)))

    @property
    def slots(self) -> Set[str]:
        """What it fills."""
        return self.value[0]

    @property
    def small(self) -> Set[str]:
        """Words that say nothing in it."""
        return self.value[1]


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to a question."""

    words: str
    reading: Reading


@dataclass(frozen=True, slots=True)
class Query:
    """What has to be asked about a line."""

    about: str
    """The words that it is about, as typed."""
    choices: tuple[Choice, ...]
    key: str
    """Which question of the line it is; answers are given by it."""

    def __str__(self) -> str:
        *most, last = (each.words for each in self.choices)
        return f"“{self.about}”: {', '.join(most)} or {last}?"


@dataclass(frozen=True, slots=True)
class Line:
    """What a line says."""

    values: Mapping[str, object]
    """By slot, complete with what follows from them."""
    implied: Set[str]
    """Slots of those that follow and were not said: they fill what is empty, and no more."""
    queries: tuple[Query, ...]
    unknown: tuple[str, ...]
    """Words that were not understood, as typed, in their order."""
    reasons: tuple[str, ...]
    """A sentence for each of them."""

    @property
    def said(self) -> Set[str]:
        """Slots of the values that it says itself."""
        return self.values.keys() - self.implied

    @property
    def left(self) -> str:
        """What stays in the line."""
        return " ".join(self.unknown)


def read_line(text: str, scope: Scope, answers: Mapping[str, Reading] | None = None) -> Line:
    """Return what a line says, in whatever order its words stand.

    Args:
        text: As typed.
        scope: What it is about.
        answers: To the questions that the same line asked before, by their keys.
    """
    answers = answers or {}
    words = [
        replace(each, readings=(answers[key],)) if (key := _key(each)) in answers else each
        for each in tokens(text, scope.slots, scope.small)
    ]
    known: dict[str, object] = {}
    for key in answers.keys() - {_key(each) for each in words}:
        known |= answers[key]
    settled = settle(words, known)
    values = dict(settled.values)
    said = set(values)
    queries = _queries(settled)
    if not queries:
        queries = _about_device(values)
    _complete(values)
    left = sorted(settled.left, key=lambda each: each.start)
    return Line(
        values,
        frozenset(values.keys() - said - {"device"}),
        tuple(queries),
        tuple(each.text for each in left),
        tuple(_reason(each) for each in left),
    )


def all_meanings(text: str, scope: Scope) -> tuple[Line, ...]:
    """Return what a line says for every answer to its questions; none if it isn't all understood.

    A line without a question has one meaning. One with more than three questions has too many.
    """
    found, waiting = list[Line](), [dict[str, Reading]()]
    for _ in range(_MOST_QUESTIONS + 1):
        further: list[dict[str, Reading]] = []
        for answers in waiting:
            line = read_line(text, scope, answers)
            if line.unknown:
                continue
            if not line.queries:
                found.append(line)
                continue
            query = line.queries[0]
            further += [answers | {query.key: each.reading} for each in query.choices]
        waiting = further
    return tuple(found) if not waiting else ()


_MOST_QUESTIONS = 3


def _key(token: Token) -> str:
    return str(token.start)


def _reason(token: Token) -> str:
    if token.why:
        return token.why
    if token.readings:
        return f"“{token.text}” contradicts the rest of the line."
    return f"“{token.text}” is not understood."


def _queries(settled: Settled) -> list[Query]:
    found = [
        Query(token.text, tuple(Choice(reading_words(each), each) for each in fit), _key(token))
        for token, fit in sorted(settled.open, key=lambda each: each[0].start)
    ]
    clash = sorted(settled.clash, key=lambda each: each[0].start)
    if clash:
        said = " and ".join(token.text for token, _ in clash)
        choices = {reading_words(each): each for _, each in clash}
        key = f"against {' '.join(_key(token) for token, _ in clash)}"
        found.insert(0, Query(said, tuple(Choice(*each) for each in choices.items()), key))
    return found


def _about_device(values: dict[str, object]) -> list[Query]:
    """Return what the device's kind still wants to know."""
    family, curve = values.get("family"), values.get("curve")
    if family in (RCBO, BREAKER) and curve is None:
        called = "RCBO" if family == RCBO else "circuit-breaker"
        choices = tuple(Choice(f"type {each}", {"curve": each}) for each in "BCD")
        return [Query(called, choices, "curve")]
    if family is None and curve is not None and "residual" in values and not values.get("rcd"):
        return [
            Query(
                f"type {curve} with {values['residual']:g} mA",
                (
                    Choice("an RCBO", {"family": RCBO}),
                    Choice("a circuit-breaker with an RCD apart", {"family": BREAKER}),
                ),
                "family",
            )
        ]
    return []


def _complete(values: dict[str, object]) -> None:
    """Add what follows from the values: the kind of device, and what a cable or method implies."""
    family, curve = values.get("family"), values.get("curve")
    if isinstance(family, DeviceKind):
        values["device"] = family
    elif curve is not None and (family is not None or "residual" not in values):
        values["device"] = _KINDS[str(family or BREAKER), str(curve)]
    elif curve is not None and values.get("rcd"):
        values["device"] = _KINDS[BREAKER, str(curve)]
    if values.get("cable") is CableKind.FLAT:
        values.setdefault("cores", 2)
        values.setdefault("cpc", Cpc.CORE)
    elif values.get("cable") is CableKind.SINGLES and "cpc_csa" in values:
        values.setdefault("cpc", Cpc.SEPARATE)
    if values.get("method") is Method.D:
        values.setdefault("ambient", GROUND)
    if "kind" in values or values.get("form") is Form.FCU:
        values.setdefault("use", Use.FIXED)
