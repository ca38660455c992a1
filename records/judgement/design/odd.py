"""A line for entries that can't be so beside each other."""

from __future__ import annotations

from records.evidence import Source
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.terms import Verdict


def odd(
    facts: Facts,
    place: Place,
    pair: str,
    why: str,
    enter: str,
    *,
    title: str = "",
    verdict: Verdict = Verdict.OUTSIDE,
    causes: tuple[str, ...] = (),
    source: Source = cite.COMMON,
    weight: int = 20,
) -> Judged:
    """Return the finding about a pair of entries that contradict each other.

    Args:
        facts: The record.
        place: Where they are entered.
        pair: Name of the pair, the end of the finding's key.
        why: What stands there, and why both can't be.
        enter: What to look at, and to enter.
        title: What it is about, in words; empty: the pair's name.
        verdict: How sure it is.
        causes: How it may have come about.
        source: The rule, or common practice.
        weight: How urgent, within one verdict.
    """
    return line(facts, place, pair, title or pair)._replace(
        verdict=verdict,
        why=why,
        causes=causes,
        next_check=do(Act.ENTER, enter).text(),
        source=source,
        weight=weight,
    )


WRONG = ("one of the two was entered wrongly",)
