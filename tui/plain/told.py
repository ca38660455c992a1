"""What the line bench says about a reading, a caution, the question before the live tests."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from records.days import moment_words
from records.interlock.comes_off import Owed
from records.interlock.may_take import Lock, Refusal
from records.judgement.todo.standing import Standing
from records.judgement.wording import in_full
from records.model.record import Record
from records.taking.card import Card, named
from records.taking.cautions import GATE, Caution
from records.taking.finding_text import detail
from records.taking.instruments import by_eye, instrument_for
from records.taking.leads import in_hand
from records.taking.live_question import LiveQuestion
from records.taking.queue import Entry, Queue
from records.taking.sentences import ended, ground
from records.taking.sitting import Sitting, is_insulation, volts
from records.terms import Stage

ALL_DONE = "Everything of this stage has something entered."


def heading(record: Record, stage: Stage, standing: Standing) -> tuple[str, ...]:
    """Return what is said first."""
    about = ", ".join(filter(None, (record.job.reference, record.job.place)))
    return (
        f"Farboard, line by line: {stage.value}" + (f", {about}." if about else "."),
        "An installer's test record, not a certificate. Local rules and the certifier come first.",
        progress_words(standing),
        "? and Enter explains the answers; quit leaves.",
    )


def progress_words(standing: Standing) -> str:
    """Return how far the stage is; what could not be taken is still to be settled."""
    bad = f"{standing.open} open findings" if standing.open != 1 else "1 open finding"
    return f"{standing.taken} of {standing.wanted} readings taken or not needed, {bad}."


def card_lines(card: Card, at: int, queue: Queue, around: str) -> Iterator[str]:
    """Yield all that is needed to take one reading."""
    entry = queue.entries[at]
    place, symbol = entry.place, entry.measurement.symbol
    test = f" {card.test}." if card.test not in ("", symbol) else ""
    room = f" In: {card.room}." if card.room else ""
    yield f"Reading {at + 1} of {len(queue.entries)}. {place}, {symbol}.{test}{room}"
    yield from (f"So far, {line}" for line in card.before)
    if card.changed:
        yield card.changed
    yield f"Between: {card.between}."
    yield f"With: {', '.join(filter(None, (card.instrument, card.setting)))}."
    yield f"First: {card.first}"
    if card.leads:
        yield f"Caution. {card.leads}"
    yield f"By: {around}."
    yield f"Expected: {card.expect.removesuffix('.')}."
    source = f", {card.source}" if card.limit and card.source else ""
    yield f"Limit: {card.limit or 'none'}{source}."


def lasts(line: str) -> bool:
    """Whether a line of a card need not be said again while it stays the same."""
    return line.startswith(("With: ", "By: "))


def warnings(stop: Refusal | None, earth: Owed | None) -> Iterator[str]:
    """Yield what keeps a reading from being taken here and now."""
    if earth is not None:
        yield f"Caution. {earth.question}"
    elif stop is not None and stop.lock is not Lock.CAUTION:
        yield f"Caution. {stop.words}"


def around_words(
    record: Record, sitting: Sitting, entry: Entry, person: str, notes_of: datetime | None
) -> str:
    """Return who takes the next reading of an entry, with which instrument, and how."""
    test = entry.measurement
    meter = instrument_for(record, entry.slot.stage, test, sitting.instruments)
    with_what = in_hand(meter, test) if meter else "no instrument chosen (meter:)"
    voltage = volts(sitting, entry.slot, test)
    why = sitting.at_lower(entry.slot) if is_insulation(test) else ""
    parts = (
        named(record, sitting.by(record, person)) or "nobody named yet (by:)",
        "" if by_eye(test) else with_what,
        f"{voltage:g} V d.c." if voltage else "",
        f"because {why}" if why else "",
        f"from notes of {moment_words(notes_of)}" if notes_of else "",
        f"method: {sitting.method}" if sitting.method else "",
        f"note: {sitting.note}" if sitting.note else "",
    )
    return ", ".join(part for part in parts if part)


def standing_lines(entry: Entry) -> Iterator[str]:
    """Yield how the last reading of an entry stands; the reading itself was said just before."""
    said = value_words(entry)
    for each in entry.lines:
        if each is entry.own or each.is_finding:
            yield f"Verdict: {each.verdict.value}. {ground(each.why, said)}".rstrip()
    if entry.is_bad and entry.judged and entry.judged.next_check:
        yield f"Do next: {entry.judged.next_check}"


def taken_words(entry: Entry) -> str:
    """Return which value an entry has now."""
    return ended(f"{entry.place}, {entry.measurement.symbol}: {value_words(entry)}")


def value_words(entry: Entry) -> str:
    """Return the last reading of an entry in words; empty if there is none."""
    return in_full(entry.attempts[-1].taken, entry.measurement) if entry.attempts else ""


def why_lines(record: Record, entry: Entry) -> Iterator[str]:
    """Yield what the verdicts on an entry rest on."""
    for line in entry.lines:
        for part in detail(record, line):
            first, *more = part.text.split("\n")
            yield f"{part.label}: {first}"
            yield from more


def caution_lines(caution: Caution) -> Iterator[str]:
    """Yield a caution that must be read first."""
    yield f"Caution. {caution.title}."
    yield from caution.lines
    yield "Type ok once you have read this and mean to go on."


def gate_lines(question: LiveQuestion) -> Iterator[str]:
    """Yield what stands before the question on live tests."""
    yield from question.bad
    if question.can_be_yes:
        yield from GATE
        yield from question.good
        yield question.title
