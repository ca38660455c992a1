"""What the line bench prints: a reading to take, a caution, the question before the live tests."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement.todo.standing import Standing
from records.model.record import Record
from records.notices import CERTIFIER_FIRST, NOT_A_CERTIFICATE
from records.taking.bench import Bench
from records.taking.card import Card
from records.taking.cautions import GATE, Caution
from records.taking.finding_text import detail
from records.taking.in_hand import card_in_hand, circumstances, warnings
from records.taking.live_question import LiveQuestion
from records.taking.outcome import verdict_lines
from records.taking.prompt import Ask, Prompt
from records.taking.queue import Entry
from records.terms import Stage


def heading(record: Record, stage: Stage, standing: Standing) -> tuple[str, ...]:
    """Return what is said first."""
    about = ", ".join(filter(None, (record.job.reference, record.job.place)))
    return (
        f"Farboard, line by line: {stage.value}" + (f", {about}." if about else "."),
        f"{NOT_A_CERTIFICATE} {CERTIFIER_FIRST}",
        progress_words(standing),
        "? and Enter explains the answers; quit leaves.",
    )


def progress_words(standing: Standing) -> str:
    """Return how far the stage is; what could not be taken is still to be settled."""
    bad = f"{standing.open} open findings" if standing.open != 1 else "1 open finding"
    return f"{standing.taken} of {standing.wanted} readings taken or not needed, {bad}."


def prompt_words(bench: Bench, now: Prompt) -> str:
    """Return what stands before the answer."""
    match now.kind:
        case Ask.QUESTION:
            return "yes or no"
        case Ask.KEEP:
            return "keep, or another answer"
        case Ask.CAUTION:
            return "ok"
        case Ask.TAKEN | Ask.JOINED:
            return "taken; again, or Enter" if now.kind is Ask.TAKEN else "go, or skip"
        case _ if bench.entry is not None:
            test = bench.entry.measurement
            asked = "y or n" if test.is_check else f"in {test.unit.value}"
            return f"{test.symbol}, {asked}" if test.is_check else f"{test.symbol} {asked}"
    return "Answer"


def in_hand_lines(bench: Bench, now: Prompt) -> Iterator[str]:
    """Yield all that is needed to answer what is asked for now."""
    entry, card = bench.entry, card_in_hand(bench)
    if entry is None or card is None:
        yield now.why
    elif now.caution is not None:
        yield f"Next: {entry.place}, {entry.measurement.symbol}."
        yield from _caution_lines(now.caution)
    else:
        yield from (f"Caution. {each}" for each in warnings(bench, now))
        yield from _card_lines(bench, entry, card)
        if now.kind in (Ask.TAKEN, Ask.JOINED):
            yield from verdict_lines(entry)
        if now.kind is Ask.JOINED:
            yield now.why


def _card_lines(bench: Bench, entry: Entry, card: Card) -> Iterator[str]:
    place, symbol = entry.place, entry.measurement.symbol
    test = f" {card.test}." if card.test not in ("", symbol) else ""
    room = f" In: {card.room}." if card.room else ""
    count = f"{bench.position.at + 1} of {len(bench.queue.entries)}"
    yield f"Reading {count}. {place}, {symbol}.{test}{room}"
    yield from (f"So far, {line}" for line in card.before)
    if card.changed:
        yield card.changed
    yield f"Between: {card.between}."
    yield f"With: {', '.join(filter(None, (card.instrument, card.setting)))}."
    yield f"First: {card.first}"
    if card.leads:
        yield f"Caution. {card.leads}"
    yield f"By: {', '.join(circumstances(bench))}."
    yield f"Expected: {card.expect.removesuffix('.')}."
    source = f", {card.source}" if card.limit and card.source else ""
    yield f"Limit: {card.limit or 'none'}{source}."


def lasts(line: str) -> bool:
    """Whether a line of a card need not be said again while it stays the same."""
    return line.startswith(("With: ", "By: "))


def why_lines(bench: Bench) -> Iterator[str]:
    """Yield what the verdicts on the reading in hand rest on."""
    for line in bench.entry.lines if bench.entry is not None else ():
        for part in detail(bench.session.record, line):
            first, *more = part.text.split("\n")
            yield f"{part.label}: {first}"
            yield from more


def _caution_lines(caution: Caution) -> Iterator[str]:
    yield f"Caution. {caution.title}."
    yield from caution.lines
    yield "Type ok once you have read this and mean to go on."


def question_lines(question: LiveQuestion) -> Iterator[str]:
    """Yield what stands before the question on live tests."""
    yield from question.bad
    if question.can_be_yes:
        yield from GATE
        yield from question.good
        yield question.title
