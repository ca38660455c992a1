"""The context of the sheet of gaps: how far each step is, what is missing, what isn't needed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from records.document.groups import STAGES, group_of, point_name, row_name, together, what_name
from records.document.words import joined
from records.judgement.review_types import Judged, Review
from records.judgement.todo.standing import Standing
from records.model.reading import NotNeeded, NotTaken, Place
from records.model.record import Record
from records.terms import Step, Verdict

_MOST_NEEDS = 4

Line = dict[str, str]


def standing(review: Review) -> list[Line]:
    """Return how many lines of the review stand how, for the first sheet."""
    return [
        {
            "verdict": f"{verdict.mark} {verdict.value}",
            "number": str(sum(each.verdict is verdict for each in review.lines)),
            "meaning": _MEANINGS[verdict],
        }
        for verdict in Verdict
    ]


_MEANINGS = {
    Verdict.OUTSIDE: "beyond the limit, or was found wrong",
    Verdict.UNLIKELY: "not beyond a limit, but at odds with what it should be, with another "
    "reading or with a rule of thumb",
    Verdict.NEAR: "inside the limit by less than the meter’s own uncertainty, only when worked out "
    "exactly, or for the certifier to decide; not a pass",
    Verdict.NOT_TAKEN: "missing, or could not be taken; not a pass",
    Verdict.WITHIN: "inside the limit and where it should be",
    Verdict.NOT_NEEDED: "set aside, with the reason",
}


def steps(standings: Mapping[Step, Standing]) -> list[Line]:
    """Return how far each step of the work is, and what it still needs."""
    return [
        {
            "name": step.value,
            "state": f"{each.state.mark} {each.state.value}",
            "taken": f"{each.taken} of {each.wanted}" if each.wanted else "–",
            "open": str(each.open) if each.open else "–",
            "needs": _needs(each.needs),
        }
        for step, each in standings.items()
    ]


def _needs(needs: tuple[str, ...]) -> str:
    rest = len(needs) - _MOST_NEEDS
    more = f"… and {rest} more." if rest > 0 else ""
    return joined((*needs[:_MOST_NEEDS], more), " ") or "nothing"


def missing(record: Record, review: Review) -> list[Line]:
    """Return what was not taken or could not be judged, place by place and stage by stage."""
    slots: dict[tuple[Place, str], list[Judged]] = {}
    others: list[Line] = []
    for line in review.lines:
        if line.verdict is not Verdict.NOT_TAKEN:
            continue
        if line.slot is None or line.attempts:
            others.append(_alone(record, line))
        else:
            key = group_of(line.place), STAGES[line.slot.stage]
            slots.setdefault(key, []).append(line)
    return [
        {
            "where": row_name(record, place),
            "stage": stage,
            "what": together(record, (each.slot for each in lines if each.slot)),
        }
        for (place, stage), lines in slots.items()
    ] + others


def _alone(record: Record, line: Judged) -> Line:
    taken = line.attempts[-1].taken if line.attempts else None
    reason = f"could not be taken: {taken.reason}" if isinstance(taken, NotTaken) else line.why
    return {
        "where": row_name(record, line.place),
        "stage": STAGES[line.slot.stage] if line.slot else "design",
        "what": f"{_what(record, line)}: {reason}",
    }


def not_needed(record: Record, review: Review) -> list[Line]:
    """Return what was set aside as not needed, with the reason."""
    rows: dict[tuple[str, str], list[str]] = {}
    for line in _set_aside(review):
        taken = line.attempts[-1].taken if line.attempts else None
        why = taken.reason if isinstance(taken, NotNeeded) else line.why
        rows.setdefault((row_name(record, line.place), why), []).append(_what(record, line))
    return [
        {"where": where, "what": "; ".join(dict.fromkeys(whats)), "why": why}
        for (where, why), whats in rows.items()
    ]


def _set_aside(review: Review) -> Iterable[Judged]:
    return (each for each in review.lines if each.verdict is Verdict.NOT_NEEDED)


def _what(record: Record, line: Judged) -> str:
    if line.slot is None:
        return line.title
    point = point_name(record, line.slot.place)
    named = joined((what_name(line.slot), point))
    return f"{named} ({STAGES[line.slot.stage]})"
