"""Findings for the review: which ones, in which order, and all there is to say about each."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from records.expected.results import Result, Worked
from records.judgement.harm import is_of_fabric
from records.judgement.review_types import Judged, Life, Review
from records.judgement.trust import memory_note
from records.judgement.wording import done_line, in_full, said
from records.judgement.wording import listed as in_words
from records.model.reading import Figure, Remedy, Slot
from records.model.record import Record
from records.model.slots import measured_by, title
from records.taking.card import attempts, clock, expectation, limit_line, named
from records.taking.sentences import parted
from records.terms import Verdict


class Show(StrEnum):
    """Which verdicts are listed."""

    FINDINGS = "findings"
    PROBLEMS = "problems"
    PUT_RIGHT = "put right"
    WITHIN = "within"
    ALL = "all"

    @property
    def next(self) -> Show:
        """The one after this, round the end."""
        every = list(Show)
        return every[(every.index(self) + 1) % len(every)]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph of the detail, under its label."""

    label: str
    text: str


def listed(review: Review, show: Show) -> tuple[Judged, ...]:
    """Return the verdicts to list, the worst first, then in the order of the work."""
    if show is Show.FINDINGS:
        return review.findings
    if show is Show.PROBLEMS:
        return tuple(each for each in review.findings if each.verdict is not Verdict.NOT_TAKEN)
    if show is Show.PUT_RIGHT:
        return review.put_right
    fine = tuple(each for each in review.lines if not each.verdict.is_finding)
    if show is Show.WITHIN:
        return tuple(each for each in fine if each.verdict is Verdict.WITHIN)
    return (*review.findings, *fine)


def next_finding(review: Review, show: Show, before: Sequence[str], key: str | None) -> str | None:
    """Return the key of the finding to deal with after one that was tested again; None if none.

    Args:
        review: As it is now.
        show: Which verdicts are listed.
        before: Keys of the list as it was before the test.
        key: Of the finding that was tested again.
    """
    bad = {each.key for each in listed(review, show) if each.is_finding}
    here = before.index(key) if key in before else -1
    return next((each for each in before[here + 1 :] if each in bad), None)


def value_of(judged: Judged) -> str:
    """Return the last reading in words, for a list; empty if there is none."""
    if judged.attempts:
        last = judged.attempts[-1]
        return f"{said(last.taken, measured_by(last.slot))} {judged.meter_mark}".strip()
    return ""


def found_lines(judged: Judged) -> tuple[str, ...]:
    """Return what was found before the last reading, each with its verdict and its causes."""
    return tuple(
        " · ".join(
            filter(
                None,
                (
                    f"{in_full(reading.taken, measured_by(reading.slot))} {how.words}",
                    clock(reading.at),
                    f"likely: {'; '.join(how.causes[:_CAUSES])}" if how.causes else "",
                ),
            )
        )
        for reading, how in judged.found
    )


_CAUSES = 3
"""Causes that a finding is told with."""


def _in_full(judged: Judged) -> str:
    if judged.attempts:
        last = judged.attempts[-1]
        return f"{in_full(last.taken, measured_by(last.slot))} {judged.meter_mark}".strip()
    return "not taken yet" if judged.slot else ""


def how_bad(judged: Judged) -> str:
    """Return a figure and its limit for a list, or what was expected of it if it is unlikely.

    `342 ms, at most 300 ms`; `0.28 Ω, expected 0.64 Ω`.

    Where nothing was read or calculated: what was said instead, or what is wrong in few words.
    """
    value = value_of(judged)
    if not judged.attempts and isinstance(judged.expected, Worked):
        value = str(judged.expected)
    elif judged.attempts and not isinstance(judged.attempts[-1].taken, Figure):
        return value
    if judged.verdict is Verdict.UNLIKELY and judged.attempts and _is_figure(judged.expected):
        return f"{value}, expected {judged.expected}"
    if value:
        return f"{value}, {judged.limit}" if judged.limit is not None else value
    if judged.slot is not None or not judged.is_trouble:
        return ""
    wrong = _FIRST_CLAUSE.split(judged.why, maxsplit=1)[0].strip()
    wrong = f"{wrong[:1].lower()}{wrong[1:]}" if wrong[1:2].islower() else wrong
    return wrong.removeprefix(f"the {judged.title[:1].lower()}{judged.title[1:]} ")


def _is_figure(result: Result | None) -> bool:
    return isinstance(result, Worked)


_FIRST_CLAUSE = re.compile(r"[;(]|\.(?= |$)|: ")


def short_name(record: Record, judged: Judged, figure: str = "") -> str:
    """Return what a verdict is about in few words, what tells it apart first, for a list.

    `C3 RCD time: 342 ms · Lights inside`; where it is about neither a reading nor a figure of
    the design, its title. Where something is on a surface comes last.

    Args:
        record: For the names.
        judged: The verdict.
        figure: What was read or calculated, to come before the name, which may be cut.
    """
    circuit = next((each for each in record.circuits if each.id == judged.place.circuit), None)
    what = judged.slot.quantity.value if judged.slot else judged.title.partition(": ")[2]
    what = what.replace("cross-connected", "crossed")
    where = ""
    if is_of_fabric(judged.key):
        what, _, where = what.partition(" on ")
    if not what or (circuit is None and judged.slot is None):
        head, name = judged.title, ""
    elif circuit is None:
        head, name = f"{title(record, judged.place)} {what}", ""
    else:
        points = (each.name for each in circuit.points if each.id == judged.place.point)
        head, name = " ".join((circuit.id, *points, what)), where or circuit.name
    return " · ".join(filter(None, (f"{head}: {figure}" if figure else head, name)))


def slot_name(record: Record, slot: Slot) -> str:
    """Return how a reading is called where it stands alone: place, symbol, stage."""
    return f"{title(record, slot.place)} · {slot.quantity.value} · {slot.stage.value}"


def tests_after(record: Record, review: Review, remedy: Remedy) -> str:
    """Return which tests some work makes void, in a few words; empty if none."""
    asked = (each for each in review.findings if "earlier tests again" in each.patterns)
    found = next((each for each in asked if f"/{remedy.id}/" in each.key), None)
    if found is None:
        return ""
    parts: dict[str, list[str]] = {}
    for slot in found.about:
        name = title(record, slot.place.whole)
        parts.setdefault(name, []).append(slot.quantity.value)
    return "; ".join(
        f"{name}: {in_words(list(dict.fromkeys(each)))}" for name, each in parts.items()
    )


def awaits_test(judged: Judged) -> bool:
    """Whether something was done about a finding, and it was not tested again since."""
    return judged.is_trouble and judged.life is Life.REMEDIED


def detail(record: Record, judged: Judged) -> tuple[Paragraph, ...]:
    """Return the whole of a verdict: reading, expectation, limit, ground, causes, life."""
    return tuple(Paragraph(label, text) for label, text in _detail(record, judged) if text)


def would_mend(record: Record, judged: Judged) -> tuple[Paragraph, ...]:
    """Return what would put a failing design check right, calculated now: it takes a moment."""
    from records.judgement.remedy.smallest_change import mends  # and with it all checks of a design

    found = mends(record, judged)
    lines = "\n".join(f"{number}. {each}" for number, each in enumerate(found, start=1))
    return (Paragraph("Any one would put it right", lines),) if found else ()


def _detail(record: Record, judged: Judged) -> Iterator[tuple[str, str]]:
    # What is wrong, what to do next, the likely cause: a small window shows no more at once.
    facts, reason = parted(judged.why)
    if judged.slot is None:
        yield "Check", reason
    else:
        yield "Reading", f"{facts} {judged.meter_mark}".strip() if facts else _in_full(judged)
    yield "Do next", judged.next_check
    yield (
        "Likely cause",
        "\n".join(
            f"{number}. {cause}" for number, cause in enumerate(judged.causes[:_CAUSES], start=1)
        ),
    )
    if judged.slot is not None:
        yield "Why", reason
    yield "Stage", judged.slot.stage.value if judged.slot else ""
    yield "Changed", judged.judged_again
    yield "State", judged.life.value if judged.life else ""
    if judged.slot is None and judged.expected is not None:
        yield "Calculated", expectation(judged.expected)
    elif judged.expected is not None and not facts:
        yield "Expected", expectation(judged.expected)
    if isinstance(judged.expected, Worked):
        yield "Working", f"{judged.expected.formula}: {judged.expected.put_in}"
    if not facts or judged.limit is None:
        yield "Limit", limit_line(judged.limit)
    sources = (judged.limit.source if judged.limit is not None else None, judged.source)
    yield "Source", "\n".join(dict.fromkeys(str(each) for each in sources if each is not None))
    yield "To confirm", memory_note(judged)
    yield "Found", "\n".join(found_lines(judged))
    yield "Attempts", "\n".join(attempts(record, judged))
    yield (
        "Done",
        "\n".join(
            " · ".join(filter(None, (done_line(each), clock(each.at), named(record, each.by))))
            for each in judged.remedies
        ),
    )
