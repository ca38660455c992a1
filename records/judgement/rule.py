"""What a rule for one kind of reading is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from records.expected.results import NotWorkedOut, Worked
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import CERTIFIER
from records.judgement.compare import away, meets
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.uncertainty import distance, guard, nearest_edge
from records.judgement.wording import number, rounded
from records.model.reading import Figure, Reading, Slot
from records.model.slots import measured_by
from records.terms import Sign, Verdict
from records.units import Unit

Bound = Limit | NotWorkedOut | None
"""A limit; or why it isn't known; or None where the trade knows none."""


def no_bound(_facts: Facts, _slot: Slot) -> Bound:
    """Return that there is no limit."""
    return None


def no_concerns(_facts: Facts, _reading: Reading, _figure: Figure) -> Iterator[Concern]:
    """Return that the limit is all there is to say."""
    return iter(())


def beside_limit(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    """Return what a limit has to say about a figure, if it isn't plainly within."""
    verdict = meets(figure, limit, guard(facts, reading))
    if verdict is Verdict.NEAR:
        away = f"only {_away(facts, reading, figure, limit)}"
        if figure.sign is not Sign.EQUAL:
            away = "by how much doesn't show"
        yield Concern(
            "near-limit",
            verdict,
            f"Inside the limit, but {away}.",
            next_check=do(Act.AGAIN, "Repeat with the better method or meter.") + CERTIFIER,
            source=limit.source,
        )
    elif verdict is Verdict.OUTSIDE:
        yield Concern("limit", verdict, _over(facts, reading, figure, limit), source=limit.source)


def beyond(figure: Figure, limit: Limit, usual: str) -> str:
    """Return how far a figure is off what is only usual: a rule of thumb is no limit to be outside.

    Args:
        figure: What the meter showed, on the wrong side of `limit`.
        limit: What is usual.
        usual: What it is that shows so much: `a short conductor shows`.
    """
    edge = nearest_edge(figure.value, limit)
    if figure.sign is not Sign.EQUAL:
        return f"{'More' if figure.sign is Sign.OVER else 'Less'} than {usual}."
    side = "more" if figure.value > edge else "less"
    return f"{rounded(abs(figure.value - edge), limit.unit, limit.digits)} {side} than {usual}."


def no_proof(figure: Figure, limit: Limit, unit: Unit) -> Concern:
    """Return the concern about a figure whose sign leaves open on which side of a limit it is.

    It shows no fault, so it has no causes: another range has to tell.
    """
    check = do(Act.AGAIN, "Read again on a range that shows the figure.")
    if figure.sign is Sign.UNDER and limit.sense is Sense.LEAST:
        meant = f"> {number(figure.value, 0)} {unit.value}"
        check = do(Act.ENTER, f"If {meant} was meant, type that. Else:") + check
    says = f"That is no proof of {limit}: use a range that reaches it."
    return Concern("no-proof", Verdict.OUTSIDE, says, (), check, limit.source)


def _away(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> str:
    entry = measured_by(reading.slot)
    return distance(figure.value, limit, guard(facts, reading), entry.unit, entry.digits)


def _over(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> str:
    # What can lie on either side of a limit doesn't come here: `says_nothing` is asked first.
    if figure.sign is Sign.OVER:
        return "More than the meter can show, and with that over the limit."
    if figure.sign is Sign.UNDER:
        return "Less than the meter can show, and with that under the limit."
    return f"Outside the limit: {_away(facts, reading, figure, limit)}."


@dataclass(frozen=True, slots=True)
class Rule:
    """How a figure of one kind is judged."""

    bound: Callable[[Facts, Slot], Bound] = no_bound
    concerns: Callable[[Facts, Reading, Figure], Iterator[Concern]] = no_concerns
    beside: Callable[[Facts, Reading, Figure, Limit], Iterator[Concern]] = beside_limit
    """What the limit has to say."""


def off_expectation(
    facts: Facts, reading: Reading, figure: Figure, least: float, share: float
) -> tuple[float, Worked] | None:
    """Return by how much a figure is off what was worked out for it, or None if it agrees.

    Args:
        facts: The record.
        reading: Whose slot has the expectation.
        figure: What the meter showed.
        least: What it may be off at least, in the unit of the reading.
        share: What it may be off as a share of the expectation, if that is more.
    """
    result = facts.meter(reading.slot)
    if not isinstance(result, Worked):
        return None
    difference = away(figure, result, max(least, share * result.value))
    return (difference, result) if difference else None


def said_off(difference: float, expected: Worked) -> str:
    """Return a difference in words: `0.12 Ω above what is expected`."""
    side = "above" if difference > 0 else "below"
    digits = max(2, expected.digits)
    return f"{rounded(abs(difference), expected.unit, digits)} {side} what is expected"
