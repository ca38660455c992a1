"""What an ohmmeter shows with its tips joined: its zero, before a series and after it."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.model.job import Instrument
from records.model.reading import Figure, Reading, Slot
from records.terms import Sign, Verdict
from records.units import Unit

NULLED = 0.02
"""Ω that a nulled meter shows with its tips joined at most: two last digits. Common practice."""
_UNSTEADY = 0.03
"""Ω that leads which aren't nulled may differ from what was entered: common practice."""


def _meter(facts: Facts, slot: Slot) -> Instrument | None:
    last = facts.last(slot)
    return facts.instrument(last) if last is not None else None


def _most(facts: Facts, slot: Slot) -> Bound:
    meter = _meter(facts, slot)
    if meter is not None and meter.nulled is False:
        most = (meter.leads or _LEADS) + _UNSTEADY
        note = "its leads, which it doesn't null" if meter.leads else "leads that aren't nulled"
        return Limit(Sense.MOST, round(most, 2), Unit.OHM, cite.COMMON, note=note)
    return Limit(Sense.MOST, NULLED, Unit.OHM, cite.COMMON, note="the leads nulled, tips joined")


_LEADS = 0.3
"""Ω that test leads have at most: common practice."""


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is not Verdict.OUTSIDE:
            continue  # next to nothing is what is wanted: near it is as good
        if figure.sign is Sign.OVER:
            yield each._replace(
                pattern="leads open",
                weight=60,
                says="Its tips joined, it shows no path: every conductor would read as open.",
                causes=(
                    "an open lead or a blown fuse in a probe",
                    "the leads are in the wrong sockets",
                ),
                next_check=do(Act.AGAIN, "New leads, tips joined: 0.00. Then the series."),
            )
            continue
        yield each._replace(
            pattern="leads not at nought",
            verdict=Verdict.UNLIKELY,
            weight=35,
            says=f"All that is read with these leads is {figure.value:.2f} Ω too high.",
            causes=("the leads are not nulled", "worn or dirty tips, or a poor clip"),
            next_check=do(
                Act.AGAIN,
                "Null, see 0.00 with the tips joined, and repeat what was "
                "read since the last good check.",
            ),
        )


LEADS_ZERO = Rule(_most, beside=_beside)
