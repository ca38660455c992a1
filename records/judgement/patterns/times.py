"""The order and the pace of the readings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from records.days import day_words, moment_words
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.model.reading import Figure, Quantity, Reading, Slot, Tick, slot_of
from records.terms import Stage, Verdict

_MANY = 20
_PACE = timedelta(minutes=2)


def _first(facts: Facts, slot: Slot) -> Reading | None:
    done = (each for each in facts.attempts(slot) if isinstance(each.taken, Figure | Tick))
    return next(done, None)


def covered_late(facts: Facts) -> Iterator[Pattern]:
    """A reading from before covering that is younger than the dead test of the same."""
    late = []
    for slot in facts.all_slots:
        if slot.stage is not Stage.BEFORE_COVERING:
            continue
        early = _first(facts, slot)
        after = _first(facts, slot_of(slot.quantity, slot.place, Stage.DEAD))
        if early is not None and after is not None and early.at > after.at:
            late.append(slot)
    if late:
        concern = Concern(
            "covered before read",
            Verdict.UNLIKELY,
            f"{len(late)} reading{'s' * (len(late) > 1)} from before covering "
            "came after the dead test of the same.",
            ("times filled in afterwards", "entered at the wrong stage"),
            do(Act.ASK, "Ask when they were taken. Mark readings that come from notes."),
            cite.COMMON,
            15,
        )
        yield Pattern(concern, BOARD, "Order of the stages", tuple(late))


def before_start(facts: Facts) -> Iterator[Pattern]:
    """Readings from before the work began."""
    started = facts.record.job.started
    if started is None:
        return
    early = tuple(
        slot
        for slot in facts.all_slots
        if (last := facts.last(slot)) is not None and last.at.date() < started
    )
    if early:
        concern = Concern(
            "before the start",
            Verdict.UNLIKELY,
            f"{len(early)} reading{'s' * (len(early) > 1)} from before the work started "
            f"on {day_words(started)}.",
            ("the clock was wrong", "the day the work started was entered wrongly"),
            do(Act.ENTER, "Check the clock and the start day."),
            cite.COMMON,
            10,
        )
        yield Pattern(concern, BOARD, "Readings and the start of the work", early)


def button_first(facts: Facts) -> Iterator[Pattern]:
    """The test button pressed before the timed test: it can free a stiff mechanism."""
    for slot in facts.all_slots:
        if slot.quantity is not Quantity.RCD_BUTTON:
            continue
        timed = slot_of(Quantity.RCD_TIME, slot.place, slot.stage)
        pressed, measured = _first(facts, slot), _first(facts, timed)
        if pressed is not None and measured is not None and pressed.at < measured.at:
            concern = Concern(
                "button before time",
                Verdict.NEAR,
                "The test button was pressed before the time was measured: that can free a stiff "
                "mechanism and hide it. The certifier decides if the time counts.",
                ("the order of the tests",),
                do(Act.ASK, "Nothing to put right. Tell the certifier."),
                cite.COMMON,
            )
            title = f"{facts.title(slot.place)}: order of the RCD tests"
            yield Pattern(concern, slot.place, title, (timed, slot))


def hurried(facts: Facts) -> Iterator[Pattern]:
    """More readings in a short time than a person can take."""
    taken = [
        each
        for attempts in facts.readings.values()
        for each in attempts
        if isinstance(each.taken, Figure | Tick) and each.from_notes is None
    ]
    taken.sort(key=lambda each: (each.at, each.id))
    for first, last in zip(taken, taken[_MANY - 1 :], strict=False):
        if last.at - first.at <= _PACE:
            stretch = [each for each in taken if first.at <= each.at <= first.at + _PACE]
            concern = Concern(
                "too fast",
                Verdict.UNLIKELY,
                f"{len(stretch)} readings within two minutes from {_said(first)}: "
                "nobody tests so fast.",
                ("filled in afterwards, not marked as from notes", "copied"),
                do(Act.ASK, "Ask. Mark them as entered later from notes; the certifier samples."),
                cite.COMMON,
                20,
            )
            about = tuple(dict.fromkeys(each.slot for each in stretch))
            yield Pattern(concern, BOARD, "Pace of the readings", about)
            return


def _said(reading: Reading) -> str:
    return moment_words(reading.at)
