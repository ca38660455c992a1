"""One cause, one finding: the lines of readings that a pattern explains point to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from records.judgement.concern import Pattern, graver
from records.judgement.review_types import Judged, key_of
from records.model.reading import Slot
from records.terms import Stage, Verdict


def with_causes(own: Sequence[Judged], patterns: Sequence[Pattern]) -> list[Judged]:
    """Return the lines of readings, then one for each pattern that has a line of its own.

    Args:
        own: The lines of the readings.
        patterns: What was found across readings.
    Returns:
        What a pattern explains points to it, and so does a pattern all of whose readings another
        one explains.
    """
    causes = _heaviest([each for each in patterns if not each.beside])
    late = _heaviest([each for each in patterns if each.beside])
    lines = [_beside(_told(line, causes), late) for line in own]
    parts: dict[str, list[Judged]] = {}
    for line in lines:
        if line.part_of:
            parts.setdefault(line.part_of, []).append(line)
    for each in patterns:
        if each.into is None:
            if each.beside:  # it takes over nothing that the readings show
                lines.append(_line(each, (), None))
                continue
            told = _by_another(each, causes)
            lines.append(_line(each, parts.get(pattern_key(each), ()), told))
    return lines


def pattern_key(pattern: Pattern) -> str:
    """Return the key of a pattern's line."""
    if pattern.into is not None:
        return key_of(pattern.into)
    place = pattern.place
    stage = max((slot.stage for slot in pattern.about), key=list(Stage).index)
    parts = (place.part.code, place.circuit or "-", place.point or pattern.mark or "-")
    return "/".join((*parts, stage.code, pattern.concern.pattern))


def _told(line: Judged, causes: Mapping[Slot, Pattern]) -> Judged:
    cause = causes.get(line.slot) if line.slot is not None else None
    if cause is None or line.slot not in cause.gathers:
        return _pointing(line, cause)
    if not line.is_trouble:
        return line
    return line._replace(why=_see(line, cause), part_of=pattern_key(cause))


def _heaviest(patterns: Sequence[Pattern]) -> dict[Slot, Pattern]:
    """Return the most urgent pattern by each of the readings that it is the cause of."""
    found: dict[Slot, Pattern] = {}
    for pattern in patterns:
        for slot in (*pattern.tells, *pattern.gathers):
            known = found.get(slot)
            if known is None or pattern.concern.weight > known.concern.weight:
                found[slot] = pattern
    return found


def _by_another(pattern: Pattern, causes: Mapping[Slot, Pattern]) -> Pattern | None:
    """Return the pattern that explains all readings of another, less urgent one."""
    slots = (*pattern.tells, *pattern.gathers)
    found = {id(causes[slot]) for slot in slots}
    if len(found) != 1 or causes[slots[0]] is pattern:
        return None
    return causes[slots[0]]


def _line(pattern: Pattern, parts: Sequence[Judged], told_by: Pattern | None) -> Judged:
    """Return the line of a pattern: it is as grave as the gravest of its parts."""
    concern = pattern.concern
    stages = {slot.stage for slot in pattern.about}
    stage = stages.pop() if len(stages) == 1 else None
    verdict = concern.verdict
    for each in parts:
        verdict = graver(verdict, each.verdict)
    return Judged(
        pattern_key(pattern),
        verdict,
        pattern.place,
        pattern.title,
        concern.says,
        causes=concern.causes,
        next_check=concern.next_check.text(stage, pattern.place.part),
        source=concern.source,
        # What its parts can lead to, it can lead to as well.
        patterns=tuple(
            dict.fromkeys((concern.pattern, *(name for each in parts for name in each.patterns)))
        ),
        weight=max((concern.weight, *(each.weight for each in parts))),
        about=pattern.about,
        once=pattern.once,
        part_of=pattern_key(told_by) if told_by is not None else "",
    )


def _pointing(line: Judged, pattern: Pattern | None) -> Judged:
    if pattern is None or line.verdict in (Verdict.NOT_TAKEN, Verdict.NOT_NEEDED):
        return line
    if pattern.into == line.slot:
        return line
    # What is outside or near its own limit is so whatever explains it, unless that is as grave.
    concern = pattern.concern
    verdict = graver(line.verdict, concern.verdict)
    hides = pattern.carries or graver(concern.verdict, line.verdict) is concern.verdict
    key = pattern_key(pattern) if hides else ""
    return line._replace(verdict=verdict, why=_see(line, pattern), part_of=key)


def _beside(line: Judged, beside: Mapping[Slot, Pattern]) -> Judged:
    """Return a line that says when its reading was taken; what it shows stays a finding."""
    pattern = beside.get(line.slot) if line.slot is not None else None
    if pattern is None or line.verdict.is_finding:
        return line
    return _pointing(line, pattern)


def _see(line: Judged, pattern: Pattern) -> str:
    return f"{line.why} See “{pattern.title}”."
