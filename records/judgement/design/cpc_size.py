"""Design check of the protective conductor's size, where the device limits the energy."""

from __future__ import annotations

from records.expected.results import What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.facts import FEED, Facts
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.terms import Verdict

_AT_ONCE = 0.1
"""s under which the formula needs the device's let-through energy (Regulation 543.1.3)."""


def let_through(facts: Facts, place: Place, found: Judged) -> Judged:
    """Return the check of a cpc's size; not shown where only the maker's figure can show it.

    The formula takes at least 0.1 s. A breaker that opens at once lets through less than that,
    by how much stands on its maker's sheet: a conductor that is too thin by the formula may be
    thick enough.

    Args:
        facts: The record.
        place: The feed or a circuit.
        found: The check by Table 54.7 and by the formula.
    """
    if found.verdict is not Verdict.OUTSIDE or not _opens_at_once(facts, place):
        return found
    return found._replace(
        verdict=Verdict.NOT_TAKEN,
        why=f"{_figures(found)} Not shown: the breaker opens within {_AT_ONCE:g} s. "
        "Then the energy that it lets through decides, and only its maker can say that. By the "
        "tables and the formula alone the cpc is too thin.",
        causes=(),
        next_check=(
            do(
                Act.ASK,
                "Ask the maker for the let-through energy I²t at that current: at most k²S².",
            )
            + do(Act.PLAN, "Else a larger cpc.")
        ).text(),
        source=cite.LET_THROUGH,
    )


def needs_current(facts: Facts, place: Place, found: Judged) -> Judged:
    """Return the check of a cpc's size; not shown where only an assumed current would fail it.

    Args:
        facts: The record.
        place: The feed or a circuit.
        found: The check at the currents that are known.
    """
    size, least = facts.design(place, What.CPC_SIZE), facts.design(place, What.CPC_LEAST)
    if found.verdict is not Verdict.WITHIN or not isinstance(size, Worked):
        return found
    if not isinstance(least, Worked) or least.high is None or size.value >= least.high - SLACK:
        return found
    if least.assumed:
        return found._replace(
            verdict=Verdict.NOT_TAKEN,
            next_check=least.assumed,
            source=cite.LET_THROUGH,
            why=f"{_figures(found)} Needs a current. {least.note}",
        )
    return found._replace(
        verdict=Verdict.NEAR,
        source=cite.LET_THROUGH,
        next_check=_READ_OR_LARGER.text(),
    )


_READ_OR_LARGER = do(
    Act.ASK, "Ask the certifier for a closer reading of Ze, or choose a larger cpc."
)


def _figures(found: Judged) -> str:
    shown = f"S {found.expected}" if found.expected is not None else "S"
    return f"{shown}; must be {found.limit}."


def _opens_at_once(facts: Facts, place: Place) -> bool:
    """Whether a breaker opens at once even at the lowest current, so at any higher one too."""
    circuit = next((each for each, at in facts.circuits() if at == place), None)
    device = facts.record.feed.device if place == FEED else circuit.device if circuit else None
    time = facts.design(place, What.TIME)
    if device is None or device.kind is None or device.kind.is_fuse:
        return False
    residual = facts.design(place, What.TIME_RCD)
    # The residual current part of an RCBO opens the same contacts, whatever its curve.
    return any(
        isinstance(each, Worked) and _latest(each) <= _AT_ONCE + SLACK
        for each in ((time, residual) if device.kind.is_rcbo else (time,))
    )


def _latest(time: Worked) -> float:
    return time.value if time.high is None else time.high
