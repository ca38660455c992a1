"""What a verdict rests on: the published figures that decide it, and how far each is trusted."""

from __future__ import annotations

from collections.abc import Sequence

from records.evidence import Source
from records.expected.results import What, Worked
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.model.reading import Quantity
from records.terms import Basis, Verdict

MARK = "†"
"""Stands beside a verdict that a figure from memory decides."""
MEANING = (
    f"{MARK} a figure from memory decides this verdict: the certifier holds it against the book."
)
TRUST: dict[Basis, str] = {
    Basis.MEMORY: "From memory ({}): hold each against the book before you rely on its verdicts",
    Basis.COMMON_PRACTICE: "Common practice ({}): no standard says so",
    Basis.WORKED_OUT: "Calculated by the formula named ({})",
    Basis.READ: "Read in a copy ({}), not in the standard itself",
}
"""How far figures can be relied on, by their basis, the least first; `{}`: how many."""
_AGAINST: dict[What, What] = {
    What.IZ: What.IN,
    What.VOLT_DROP: What.VOLT_DROP_LIMIT,
    What.ZS: What.ZS_LIMIT,
    What.BREAKING: What.BREAKING,
    What.CPC_SIZE: What.CPC_LEAST,
    What.TIME: What.TIME_REQUIRED,
}
"""By design check, the figure that it is held against."""
_LIMITS = (What.ZS_LIMIT, What.ZS_LIMIT_COLD)
_BY_READING: dict[Quantity, tuple[What, ...]] = {
    Quantity.ZS: _LIMITS,
    Quantity.ZDB: _LIMITS,
    Quantity.ELECTRODE: (What.RA_LIMIT,),
}
"""By reading, the figures that are its limit."""
_THERMAL = "breaker_thermal"
_AT_ONCE = 0.1 + 1e-9
"""s within which a breaker opens by its magnetic part (BS EN 60898-1, Table 7)."""
_MINOR = ("alpha", "operating_temperature")
"""Constants of the metal and its warmth: a tenth off, they move a loop by some hundredths."""
_DECIDED = (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR, Verdict.WITHIN)


def with_grounds(facts: Facts, lines: Sequence[Judged]) -> tuple[Judged, ...]:
    """Return the lines, each with what its verdict was worked out from."""
    return tuple(_with_grounds(facts, each) for each in lines)


def _with_grounds(facts: Facts, line: Judged) -> Judged:
    grounds = _of_design(facts, line) if line.what is not None else _of_reading(facts, line)
    return line._replace(grounds=grounds) if grounds else line


def _of_design(facts: Facts, line: Judged) -> tuple[Worked, ...]:
    bound = _AGAINST.get(line.what) if line.what is not None else None
    against = facts.design(line.place, bound) if bound is not None else None
    return tuple(each for each in (line.expected, against) if isinstance(each, Worked))


def _of_reading(facts: Facts, line: Judged) -> tuple[Worked, ...]:
    if line.slot is None:
        return ()
    place = line.place
    found = [facts.design(place, what) for what in _BY_READING.get(line.slot.quantity, ())]
    if line.slot.quantity is Quantity.ZDB and not any(isinstance(each, Worked) for each in found):
        found = [facts.design(FEED if place == BOARD else place, what) for what in _LIMITS]
    if line.verdict is Verdict.UNLIKELY and line.expected is not None:
        found.append(line.expected)
    return tuple(each for each in found if isinstance(each, Worked))


def deciding(line: Judged) -> tuple[Source, ...]:
    """Return the published figures that decide a verdict, each once; none where it is open."""
    if line.verdict not in _DECIDED:
        return ()
    cited = [source for each in line.grounds for source in each.cited()]
    cited += [line.limit.source] if line.limit is not None else []
    cited += [line.source] if line.source is not None else []
    beside = {_THERMAL} if _at_once(line) else set()
    found = (each for each in cited if each.figure and each.table not in beside)
    return tuple({each.figure: each for each in found}.values())


def _at_once(line: Judged) -> bool:
    """Whether a breaker opens at once, so that its slow, thermal part decides nothing."""
    time = line.expected
    if line.what is not What.TIME or not isinstance(time, Worked):
        return False
    return (time.value if time.high is None else time.high) <= _AT_ONCE


def from_memory(line: Judged) -> tuple[str, ...]:
    """Return those of them that stand here from memory, as printed, with their table."""
    return tuple(
        each.figure
        for each in deciding(line)
        if each.basis is Basis.MEMORY and each.table not in _MINOR
    )


def mark_of(line: Judged) -> str:
    """Return the mark beside a verdict that a figure from memory decides; empty for others."""
    return MARK if from_memory(line) else ""


def memory_note(line: Judged) -> str:
    """Return the note to that mark: which figures to hold against the book."""
    found = from_memory(line)
    if not found:
        return ""
    more = f"; and {len(found) - _MOST} more" if len(found) > _MOST else ""
    return f"{MARK} From memory, to be confirmed: {'; '.join(found[:_MOST])}{more}."


_MOST = 3
"""Figures that a note names; `farboard sources --decisive` names them all."""
