"""What is told about the reading in hand: how it is taken, by whom, and what makes it unsafe."""

from __future__ import annotations

from collections.abc import Sequence

from records.days import moment_words
from records.expected.results import Result
from records.interlock.may_take import Lock
from records.taking.bench import Bench
from records.taking.card import Card, card, changed_since, how, named
from records.taking.figures import behind
from records.taking.instruments import by_eye
from records.taking.leads import in_hand
from records.taking.prompt import Ask, Prompt
from records.taking.stage_settings import is_insulation, volts


def card_in_hand(bench: Bench) -> Card | None:
    """Return all that is needed to take the reading in hand; None if there is none."""
    entry, session, desk = bench.entry, bench.session, bench.desk
    if entry is None:
        return None
    return card(
        session.record,
        desk.as_tested(entry),
        session.expected.meter.get(entry.slot),
        desk.now(),
        changed_since(session, entry),
        desk.meter(entry.slot),
    )


def all_of_card(bench: Bench, told: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return what is on the card of the reading in hand and is not told elsewhere: name and text.

    Args:
        bench: Where the person stands.
        told: What else is told of it.
    """
    card = card_in_hand(bench)
    if card is None:
        return []
    whole = "\n".join(text for _, text in told)
    limit = " · ".join(filter(None, (card.limit, card.source)))
    found = [
        *(("So far", each, each) for each in card.before),
        ("Judged again", card.changed, card.changed),
        ("Expected", card.expect, card.expect),
        ("Limit", limit, card.limit),
        ("By", " · ".join(circumstances(bench)), "\n\n"),
    ]
    return [(name, text) for name, text, known in found if text and known not in whole]


def unsafe_here(bench: Bench) -> list[str]:
    """Return what is said in red over the reading in hand: leads first, then what is unsafe."""
    card = card_in_hand(bench)
    leads = card.leads if card is not None else ""
    return [*filter(None, [leads]), *warnings(bench, bench.prompt)]


def warnings(bench: Bench, now: Prompt) -> tuple[str, ...]:
    """Return what keeps the reading in hand from being taken, and what makes it unsafe.

    Args:
        bench: Where the person stands.
        now: What is asked for there.
    """
    earth = bench.desk.interlock.earth
    if earth is not None:
        return (earth.question,)
    found = [now.why] if now.kind is Ask.LOCKED else []
    if now.stop is not None and now.stop.lock not in (Lock.CAUTION, Lock.ANSWER):
        found.append(now.stop.words)
    return tuple(found)


def circumstances(bench: Bench) -> tuple[str, ...]:
    """Return who takes the reading in hand, with which instrument, and how."""
    entry, session, settings = bench.entry, bench.session, bench.desk.settings
    if entry is None:
        return ()
    test, record, names = entry.measurement, session.record, bench.names
    meter = bench.desk.meter(entry.slot)
    chosen = in_hand(meter, test) if meter else f"no instrument chosen ({names.meter})"
    voltage = volts(settings, entry.slot, test)
    why = settings.at_lower(entry.slot) if is_insulation(test) else ""
    notes_of = session.notes_of
    parts = (
        named(record, settings.by(record, session.person)) or f"nobody named yet ({names.person})",
        "" if by_eye(test) else chosen,
        f"{voltage:g} V d.c." if voltage else "",
        f"because {why}" if why else "",
        f"from notes of {moment_words(notes_of)}" if notes_of else "",
        f"method: {settings.method}" if settings.method else "",
        f"note: {settings.note}" if settings.note else "",
    )
    return tuple(part for part in parts if part)


def how_in_hand(bench: Bench) -> str:
    """Return in one paragraph how the reading in hand is taken; empty if there is none."""
    entry = bench.entry
    if entry is None:
        return ""
    return how(bench.desk.as_tested(entry).measurement, bench.desk.meter(entry.slot))


def figures_in_hand(bench: Bench) -> list[tuple[str, Result]]:
    """Return the expectation of the reading in hand, then what follows for its place."""
    entry, session = bench.entry, bench.session
    return [] if entry is None else behind(session.record, session.expected, entry)
