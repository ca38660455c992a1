"""A bad reading that was read again and is good: what was found stays, and somebody says why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from records.days import moment_words
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.attempts import facts_at
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import Facts
from records.judgement.patterns import PATTERNS
from records.judgement.remedy.after_work import index, touched
from records.judgement.review_types import Judged, Stood, key_of
from records.judgement.wording import listed, said
from records.model.reading import Figure, Reading, Remedy, Slot, Tick, when_taken
from records.model.slots import measured_by
from records.terms import Verdict

_ROUNDS = 3
"""Times that the record is looked at as it was; more series than that are asked about one by one.
Each look costs as much as all patterns do."""
_NAMED = 4
"""Readings that are named one by one."""


@dataclass(frozen=True, slots=True)
class _Episode:
    """A reading that could not stand, and the next one, which can."""

    slot: Slot
    bad: Reading
    how: Stood
    good: Reading


def unexplained(facts: Facts, own: Sequence[Judged]) -> Iterator[Pattern]:
    """Readings that turned from bad to good without a word on what was done.

    Several that were bad by one cause are asked about together.

    Args:
        facts: The record.
        own: The lines of the readings, with how each attempt stood.
    """
    known = remedies_of(facts)
    asked = [each for line in own for each in _episodes(line) if not _explained(each, line, known)]
    asked.sort(key=lambda each: when_taken(each.good))
    alone: dict[Slot, _Episode] = {}
    for _ in range(_ROUNDS):
        if len(asked) < 2:
            break
        found, told = _by_cause(facts, asked)
        yield from found
        if not told:
            alone.setdefault(asked[0].slot, asked[0])
        asked = [each for each in asked[not told :] if each.slot not in told]
    for each in asked:
        alone.setdefault(each.slot, each)
    yield from (_alone(facts, each) for each in alone.values())


def remedies_of(facts: Facts) -> Mapping[str, list[Remedy]]:
    """Return what was done by the key of each reading that it was about; nothing passed on.

    What was done about several readings together stands by their part or circuit as well, and by
    the readings that the work can have touched.
    """
    return facts.reuse.once("remedies", partial(_remedies_of, facts))


def _remedies_of(facts: Facts) -> Mapping[str, list[Remedy]]:
    known = index(facts) if facts.record.remedies else {}
    own = {key_of(slot) for slot in facts.all_slots} if facts.record.remedies else set()
    found: dict[str, list[Remedy]] = {}
    for remedy in facts.record.remedies:
        if not remedy.to_decide:
            keys = {remedy.finding, *(key_of(slot) for slot in remedy.about)}
            if remedy.finding not in own:
                keys.add(_beside(remedy.finding))
            keys |= {_touched(key_of(slot)) for slot in touched(facts, known, remedy)}
            for key in keys:
                found.setdefault(key, []).append(remedy)
    return found


def _episodes(line: Judged) -> Iterator[_Episode]:
    """Yield each turn from a reading that could not stand to one that can."""
    known = list(zip(line.attempts, line.stood, strict=False))
    taken = [(each, how) for each, how in known if isinstance(each.taken, Figure | Tick)]
    for (bad, how), (good, after) in pairwise(taken):
        if line.slot is not None and how.is_bad and not after.is_bad:
            yield _Episode(line.slot, bad, how, good)


def _explained(each: _Episode, line: Judged, by_slot: Mapping[str, list[Remedy]]) -> bool:
    """Whether something was done after the bad reading, and before the same turned bad again.

    A note with the reading that turned it says why as well: it stands beside both.
    """
    if each.good.note:
        return True
    later = [
        reading.at
        for reading, how in zip(line.attempts, line.stood, strict=False)
        if how.is_bad and reading.at > each.good.at
    ]
    remedies = by_slot.get(key_of(each.slot), ())
    if any(each.bad.at <= one.at and not (later and one.at >= later[0]) for one in remedies):
        return True
    # Of an older record: what a finding about several readings was about isn't known any more.
    beside = [one for one in by_slot.get(_beside(key_of(each.slot)), ()) if not one.about]
    # Work on something else that can have touched this as well: a gland, and what is read past it.
    beside += by_slot.get(_touched(key_of(each.slot)), ())
    return any(each.bad.at <= one.at < each.good.at for one in beside)


def _touched(key: str) -> str:
    return f"touched: {key}"


def _beside(key: str) -> str:
    """Return what the keys of all findings of one part or circuit begin with."""
    return "/".join(key.split("/")[:2])


def _by_cause(facts: Facts, asked: Sequence[_Episode]) -> tuple[list[Pattern], set[Slot]]:
    """Ask once where one cause told several bad readings just before the first was read again."""
    first = when_taken(asked[0].good)
    then = facts_at(facts, (first[0], first[1] - 0.5))
    was = {each.slot: each for each in asked if when_taken(each.bad) < first}
    found: list[Pattern] = []
    told: set[Slot] = set()
    for pattern in (each for rule in PATTERNS for each in rule(then)):
        slots = [
            slot for slot in (*pattern.tells, *pattern.gathers) if slot in was and slot not in told
        ]
        if len(slots) > 1:
            told.update(slots)
            found.append(_together(pattern, [was[slot] for slot in slots]))
    return found, told


def _together(pattern: Pattern, asked: Sequence[_Episode]) -> Pattern:
    names = listed([_named(each) for each in asked[:_NAMED]])
    more = f" and {len(asked) - _NAMED} more" if len(asked) > _NAMED else ""
    concern = _concern(
        f"{len(asked)} readings that could not count were read again and now do: {names}{more}. "
        f"Before, one cause told them all: {pattern.concern.says}",
        pattern.concern.causes,
    )
    slots = tuple(each.slot for each in asked)
    mark = pattern.place.point or pattern.mark
    return Pattern(
        concern,
        pattern.place,
        f"{pattern.title}: what was done",
        slots,
        mark=f"{mark} {pattern.concern.pattern}".strip(),
    )


def _alone(facts: Facts, each: _Episode) -> Pattern:
    test = measured_by(each.slot)
    concern = _concern(
        f"It was {said(each.bad.taken, test)} ({each.how.verdict.value}) on "
        f"{moment_words(each.bad.at)} and {said(each.good.taken, test)} on "
        f"{moment_words(each.good.at)}. What was done in between is not said.",
        each.how.causes,
    )
    place, name = each.slot.place, each.slot.quantity.value
    title = f"{facts.title(place)}: {name}, what was done"
    # The key has one part for a point or a mark: a point may have several readings.
    whole, mark = place.whole, f"{place.point or ''} {name}".strip()
    return Pattern(concern, whole, title, (each.slot,), mark=mark)


def _concern(says: str, causes: tuple[str, ...]) -> Concern:
    return Concern(
        "what was done",
        Verdict.UNLIKELY,
        says,
        causes,
        do(
            Act.ENTER,
            "Record what was done, with its day and kind. If nothing was done, record "
            "“first reading was wrong” and why.",
        ),
        cite.RETEST,
        15,
    )


def _named(each: _Episode) -> str:
    where = each.slot.place.point or each.slot.place.circuit or each.slot.place.part.value
    return f"{each.slot.quantity.value} {where}"


def not_undone(line: Judged, known: Mapping[str, list[Remedy]]) -> Judged:
    """Return a line of which a bad reading is no longer the last entry, but was never read again.

    “Could not be taken” or “not needed” after a bad reading puts nothing right: unless something
    was done about it, it stays what it was.
    """
    if not line.stood or isinstance(line.attempts[-1].taken, Figure | Tick):
        return line
    taken = [
        (each, how)
        for each, how in zip(line.attempts, line.stood, strict=True)
        if isinstance(each.taken, Figure | Tick)
    ]
    if not taken or not taken[-1][1].is_bad:
        return line
    bad, how = taken[-1]
    if any(one.at >= bad.at for one in known.get(line.key, ())):
        return line
    return line._replace(
        verdict=how.verdict,
        causes=how.causes,
        why=f"{line.why} That puts nothing right. Before it: {how.why}",
        next_check=do(Act.AGAIN, "Read it again, or record what was done about it.").text(),
    )
