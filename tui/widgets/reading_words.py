"""The lines round a reading: how far the stage is, who takes it with what, and the keys."""

from __future__ import annotations

from datetime import datetime

from textual.content import Content

from records.days import moment_words
from records.judgement.todo.progress import Standing
from records.model.record import Record
from records.taking.card import named
from records.taking.instruments import by_eye, instrument_for
from records.taking.leads import in_hand
from records.taking.queue import Entry, Order
from records.taking.sitting import Sitting, is_insulation, volts
from tui.look import style

_BAR = 10


def progress_line(standing: Standing, order: Order) -> Content:
    """Return how far a stage is: a bar, counts, what is open, the order of work."""
    done = _BAR * standing.taken // standing.wanted if standing.wanted else 0
    bad = f"{standing.open} open" if standing.open else "none open"
    return Content.assemble(
        Content.styled("█" * done + "░" * (_BAR - done), "$primary"),
        Content.styled(f" {standing.taken} of {standing.wanted} taken", "bold"),
        " · ",
        Content.styled(bad, style("bad") if standing.open else ""),
        Content.styled(f" · {order.value}", style("dim")),
    )


def around_words(
    record: Record, sitting: Sitting, entry: Entry, person: str, notes_of: datetime | None
) -> Content:
    """Return who takes the next reading of an entry, with which instrument, and how."""
    stage, test = entry.slot.stage, entry.measurement
    who = named(record, sitting.by(record, person)) or "nobody named yet (p, or the step Job)"
    meter = instrument_for(record, stage, test, sitting.instruments)
    if by_eye(test):
        with_what = ""
    elif meter is None:
        with_what = "no instrument chosen (p, or the step Job)"
    else:
        with_what = in_hand(meter, test)
    voltage = volts(sitting, entry.slot, test)
    why = sitting.at_lower(entry.slot) if is_insulation(test) else ""
    parts = [
        who,
        with_what,
        f"{voltage:g} V d.c." if voltage else "",
        f"because {why}" if why else "",
        f"from notes of {moment_words(notes_of)}" if notes_of else "",
        f"method: {sitting.method}" if sitting.method else "",
        f"note: {sitting.note}" if sitting.note else "",
    ]
    return Content(" · ".join(part for part in parts if part))


def keys_line(entry: Entry, sitting: Sitting, again: bool) -> Content:
    """Return the keys of the bench, those that mean something here."""
    acts = [("c", "can't"), ("x", "not needed")]
    if not entry.is_open and not again:
        acts = [("a", "test again")]
    acts += [("t", "note"), ("w", "why")]
    if is_insulation(entry.measurement):
        acts.append(("v", "500 V" if sitting.at_lower(entry.slot) else "250 V"))
    else:
        acts.append(("o", "others"))  # there is room for one of the two
    acts.append(("m", "missing"))
    stage = [
        ("F5", sitting.order.other.value),
        ("p", "who, meter"),
        ("l", "from notes"),
        ("F9", "list" if sitting.grid else "grid"),
    ]
    return Content("\n").join((_keys(acts), _keys(stage)))


def looking_keys() -> Content:
    """Return the keys of a stage that is locked: none that takes anything."""
    pairs = [("Enter", "asks the question"), ("↑ ↓", "looks on"), ("w", "why"), ("m", "missing")]
    return Content("\n").join((_keys(pairs), _keys([("F3", "step back"), ("F4", "step on")])))


def _keys(pairs: list[tuple[str, str]]) -> Content:
    return Content("  ").join(
        Content.assemble((key, "bold $primary"), f" {words}") for key, words in pairs
    )
