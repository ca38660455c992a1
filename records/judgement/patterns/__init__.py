"""Patterns across readings: each rule looks at the whole record and says what it found."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from records.judgement.concern import Pattern
from records.judgement.facts import Facts

PatternRule = Callable[[Facts], Iterator[Pattern]]

PATTERNS: tuple[PatternRule, ...] = ()
