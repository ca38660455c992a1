"""Compares what a document says with what the record gives: which figure differs, and where."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from records.document.paragraphs import Pages, added_in
from records.document.story import Paragraph

_CLOSELY = 250_000
"""Pairs of paragraphs that are still held against each other one by one, in one stretch."""
_ALIKE = 0.5
_A_FEW = 60


@dataclass(frozen=True, slots=True)
class Difference:
    """One paragraph that differs."""

    place: str
    says: str | None
    """What the document says; None: the paragraph is not there."""
    record: str | None
    """What the record gives; None: the record has no such paragraph."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """How a document stands to the one that its record gives."""

    differences: tuple[Difference, ...] = ()
    added: tuple[Difference, ...] = ()
    """What was written in the certifier's places: no change of what the record says."""
    redrawn: bool = False
    """Whether drawings are not as Farboard draws them: another program saved, or changed, them."""

    @property
    def same(self) -> bool:
        """Whether the document says what the record gives, the certifier's places apart."""
        return not self.differences


def compared(document: Pages, record: Pages) -> Comparison:
    """Compare a document with the one that was made again from the record."""
    found: list[Difference] = []
    added: list[Difference] = []
    for ours, theirs in _aligned(record.body, document.body):
        _look(ours, theirs, found, added)
    found += _sets(record.margins, document.margins)
    found += _sets(record.aside, document.aside)
    found += _edges(record, document)
    for mine, yours in zip(record.about, document.about or _NO_TITLE, strict=False):
        if mine.text != yours.text:
            found.append(Difference(mine.place, yours.text or None, mine.text or None))
    # One that is missing isn't a lie: word processors drop those of shapes when they save.
    for each in sorted(document.alternatives - record.alternatives):
        found.append(Difference("words of a picture for whoever can’t see it", each, None))
    more = document.drawings - record.drawings
    if more:
        found.append(
            Difference(
                "drawings and pictures", f"{document.drawings} in all", f"{record.drawings} in all"
            )
        )
    return Comparison(tuple(found), tuple(added), document.drawn != record.drawn)


_NO_TITLE = (Paragraph("", ""), Paragraph("", ""))


def _edges(record: Pages, document: Pages) -> Iterator[Difference]:
    """Yield what every head and foot says, and one of the document doesn't."""
    always: dict[str, frozenset[str]] = {}
    for edge, said in record.edges:
        always[edge.part] = always.get(edge.part, said) & said
    there = {each.plain for each in document.margins}
    told = set()
    for edge, said in document.edges:
        for text in sorted(always.get(edge.part, frozenset()) - said):
            # What is on no page at all is told already.
            if (text in there or not document.margins) and (edge.place, text) not in told:
                told.add((edge.place, text))
                yield Difference(edge.place, None, text)


def _look(
    ours: Sequence[Paragraph],
    theirs: Sequence[Paragraph],
    found: list[Difference],
    added: list[Difference],
) -> None:
    """Say how two stretches differ that stand at the same place."""
    if len(ours) == len(theirs) == 1 and ours[0].own and ours[0].own == theirs[0].own:
        text = added_in(ours[0], theirs[0])
        if text is None:
            found.append(Difference(ours[0].place, theirs[0].plain, ours[0].plain))
        elif text:
            added.append(Difference(ours[0].place, text, None))
        return
    places = [each for each in ours if each.own and not _fixed(each)]
    rest = [each for each in ours if not each.own or _fixed(each)]
    for mine, yours in _pairs(rest, theirs):
        if mine is None and yours is not None and places and not yours.own:
            added.append(Difference(places[0].place, yours.plain, None))
        elif yours is None or yours.plain or mine is not None:
            place = mine.place if mine is not None else yours.place if yours is not None else ""
            found.append(Difference(place, _words(yours) or None, _words(mine) or None))


def _words(it: Paragraph | None) -> str | None:
    return None if it is None else it.plain


def _fixed(place: Paragraph) -> str:
    """Return the text that stands in a certifier's place before anything is written there."""
    return place.plain


def _pairs(
    ours: Sequence[Paragraph], theirs: Sequence[Paragraph]
) -> Iterator[tuple[Paragraph | None, Paragraph | None]]:
    """Return which paragraph became which; what has no other half is missing or added."""
    if len(ours) == len(theirs) or max(len(ours), len(theirs)) > _A_FEW:
        for at in range(max(len(ours), len(theirs))):
            yield (
                ours[at] if at < len(ours) else None,
                theirs[at] if at < len(theirs) else None,
            )
        return
    left = list(theirs)
    for mine in ours:
        there = next((at for at, each in enumerate(left) if _alike(mine.plain, each.plain)), None)
        if there is None:
            yield mine, None
            continue
        for each in left[:there]:
            yield None, each
        yield mine, left[there]
        left = left[there + 1 :]
    for each in left:
        yield None, each


def _alike(one: str, other: str) -> bool:
    return SequenceMatcher(None, one[:200], other[:200], autojunk=False).ratio() >= _ALIKE


def _sets(ours: Sequence[Paragraph], theirs: Sequence[Paragraph]) -> Iterator[Difference]:
    here, there = {each.plain for each in theirs}, {each.plain for each in ours}
    missing = [each for each in ours if each.plain not in here]
    more = [each for each in theirs if each.plain not in there]
    for mine, yours in _pairs(missing, more):
        either = mine or yours
        if either is not None:
            yield Difference(either.place, _words(yours), _words(mine))


def _key(it: Paragraph) -> tuple[str, ...]:
    return it.own or ("", it.text)


def _aligned(
    ours: Sequence[Paragraph], theirs: Sequence[Paragraph]
) -> Iterator[tuple[Sequence[Paragraph], Sequence[Paragraph]]]:
    """Return the stretches that differ, and each certifier's place beside itself."""
    a, b = [_key(each) for each in ours], [_key(each) for each in theirs]
    waiting = [(0, len(a), 0, len(b))]
    while waiting:
        a0, a1, b0, b1 = waiting.pop()
        while a0 < a1 and b0 < b1 and a[a0] == b[b0]:
            if ours[a0].own:
                yield ours[a0 : a0 + 1], theirs[b0 : b0 + 1]
            a0, b0 = a0 + 1, b0 + 1
        tail = 0
        while a0 < a1 and b0 < b1 and a[a1 - 1] == b[b1 - 1]:
            a1, b1, tail = a1 - 1, b1 - 1, tail + 1
        waiting.extend(
            (a1 + at, a1 + at + 1, b1 + at, b1 + at + 1)
            for at in reversed(range(tail))
            if ours[a1 + at].own
        )
        if a0 == a1 and b0 == b1:
            continue
        inner = _cuts(a, b, a0, a1, b0, b1)
        if inner is None:
            yield ours[a0:a1], theirs[b0:b1]
        else:
            waiting.extend(reversed(inner))


def _cuts(
    a: Sequence[tuple[str, ...]],
    b: Sequence[tuple[str, ...]],
    a0: int,
    a1: int,
    b0: int,
    b1: int,
) -> list[tuple[int, int, int, int]] | None:
    """Return the parts between what is found once on both sides, in order; None if nothing is."""
    in_a, in_b = Counter(a[a0:a1]), Counter(b[b0:b1])
    at_b = {key: at for at, key in enumerate(b[b0:b1], start=b0) if in_b[key] == 1}
    pairs = [(at, at_b[a[at]]) for at in range(a0, a1) if in_a[a[at]] == 1 and a[at] in at_b]
    anchors = _rising(pairs)
    if not anchors:
        if not in_a.keys() & in_b.keys() or (a1 - a0) * (b1 - b0) > _CLOSELY:
            return None
        matcher = SequenceMatcher(None, a[a0:a1], b[b0:b1], autojunk=False)
        anchors = [
            (a0 + block.a + at, b0 + block.b + at)
            for block in matcher.get_matching_blocks()
            for at in range(block.size)
        ]
    parts = []
    last_a, last_b = a0, b0
    for at, there in anchors:
        parts += [(last_a, at, last_b, there), (at, at + 1, there, there + 1)]
        last_a, last_b = at + 1, there + 1
    return [*parts, (last_a, a1, last_b, b1)]


def _rising(pairs: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return the longest part of the pairs in which both numbers rise."""
    ends: list[int] = []
    tops: list[int] = []
    before: list[int | None] = []
    for at, (_, there) in enumerate(pairs):
        where = bisect_left(ends, there)
        before.append(tops[where - 1] if where else None)
        if where == len(ends):
            ends.append(there)
            tops.append(at)
        else:
            ends[where], tops[where] = there, at
    found: list[tuple[int, int]] = []
    last = tops[-1] if tops else None
    while last is not None:
        found.append(pairs[last])
        last = before[last]
    return found[::-1]
