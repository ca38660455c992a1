"""What is missing, circuit by circuit, and what isn't needed; a blank is never a pass."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from records.document.groups import STAGES, group_name, grouped, point_name, together, what_name
from records.document.words import joined
from records.judgement.review_types import Judged, Review
from records.judgement.todo.standing import Standing
from records.model.reading import NotNeeded, NotTaken
from records.model.record import Record
from records.terms import STEP_OF_STAGE, Step, Verdict

Line = dict[str, str]


def missing_readings(review: Review) -> int:
    """Return how many readings are missing: not taken, or could not be."""
    return sum(each.slot is not None for each in _open(review))


def unknown_checks(review: Review) -> int:
    """Return how many checks of the design can't be made yet for want of an entry."""
    return sum(each.slot is None for each in _open(review))


def missing(record: Record, review: Review) -> list[Line]:
    """Return what is missing by name, a line for each circuit or part."""
    return [
        {
            "where": group_name(record, place),
            "number": str(len(lines)),
            "what": ". ".join(_by_stage(record, lines)),
        }
        for place, lines in grouped(record, _open(review), lambda line: line.place)
    ]


def not_needed(record: Record, review: Review) -> list[Line]:
    """Return what was set aside as not needed, with the reason."""
    rows: dict[tuple[str, str], list[str]] = {}
    for line in review.lines:
        if line.verdict is Verdict.NOT_NEEDED:
            taken = line.attempts[-1].taken if line.attempts else None
            why = taken.reason if isinstance(taken, NotNeeded) else line.why
            rows.setdefault((group_name(record, line.place), why), []).append(_what(record, line))
    return [
        {"where": where, "what": "; ".join(dict.fromkeys(whats)), "why": why}
        for (where, why), whats in rows.items()
    ]


def inputs_missing(standings: Mapping[Step, Standing]) -> list[Line]:
    """Return what the steps that describe the job still need; readings are listed by circuit."""
    return [
        {"step": step.value, "needs": " ".join(each.needs)}
        for step, each in standings.items()
        if step not in _COUNTED and each.needs
    ]


def entries_missing(standings: Mapping[Step, Standing]) -> int:
    """Return how many entries the steps that describe the job still need."""
    return sum(len(each.needs) for step, each in standings.items() if step not in _COUNTED)


_COUNTED = (*STEP_OF_STAGE.values(), Step.REVIEW, Step.HAND_OVER)


def _open(review: Review) -> list[Judged]:
    return [each for each in review.lines if each.verdict is Verdict.NOT_TAKEN]


def _by_stage(record: Record, lines: list[Judged]) -> Iterable[str]:
    for stage, name in STAGES.items():
        inside = [each for each in lines if each.slot is not None and each.slot.stage is stage]
        plain = [each.slot for each in inside if each.slot is not None and not each.attempts]
        tried = [_tried(record, each) for each in inside if each.attempts]
        if inside:
            yield f"{name.capitalize()}: {joined((together(record, plain), *tried), '; ')}"
    for line in lines:
        if line.slot is None:
            yield f"Design: {line.title.rsplit(': ', 1)[-1]}: {line.why.rstrip('.')}"


def _tried(record: Record, line: Judged) -> str:
    taken = line.attempts[-1].taken
    why = taken.reason if isinstance(taken, NotTaken) else line.why
    return f"{_what(record, line)}, could not be taken: {why.rstrip('.')}"


def _what(record: Record, line: Judged) -> str:
    if line.slot is None:
        return line.title
    return joined((what_name(line.slot), point_name(record, line.slot.place)))
