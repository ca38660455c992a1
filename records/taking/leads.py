"""What a person is told of the resistance of the test leads, before and while a figure is typed."""

from __future__ import annotations

from records.judgement.lead_resistance import is_unknown, to_take_off, without_leads
from records.judgement.wording import Taken, amount, less_leads, said
from records.model.entries import LEADS_OFF
from records.model.job import Instrument
from records.model.measurements import Measurement
from records.model.reading import Figure
from records.taking.instruments import words
from records.terms import Sign


def counted(taken: Taken, leads: float | None) -> Taken:
    """Return what is taken as it goes on record: a figure less the leads.

    Args:
        taken: As typed.
        leads: What has to be taken off [Ω]; None: nothing.
    Raises:
        BadQuantity: If the leads can't have so much.
    """
    return without_leads(taken, leads) if isinstance(taken, Figure) else taken


def echo(taken: Taken, leads: float | None, test: Measurement) -> str:
    """Return how a value is understood: `0.35 Ω`, or `0.42 Ω − 0.05 Ω leads = 0.37 Ω`.

    Raises:
        BadQuantity: If the leads can't have so much.
    """
    meant = counted(taken, leads)
    less = less_leads(meant, test)
    if less:
        return f"{less} = {said(meant, test)}"
    note = nothing_off(taken, leads)
    return said(taken, test) + (f", {note}" if note else "")


def fitted(words: str, room: int) -> str:
    """Return an echo as it fits: `0.42 − 0.05 = 0.37 Ω` where the whole of it has no room.

    Args:
        words: What `echo` gives.
        room: Characters that there are.
    """
    if len(words) <= room:
        return words
    for long, short in ((" Ω −", " −"), (" Ω leads", ""), (" taken off", " off")):
        words = words.replace(long, short)
    return words


def nothing_off(taken: Taken, leads: float | None) -> str:
    """Return that nothing is taken off a figure out of range, where it would be off another."""
    if leads is None or not isinstance(taken, Figure) or taken.sign is Sign.EQUAL:
        return ""
    return "no leads taken off"


def in_hand(meter: Instrument, test: Measurement) -> str:
    """Return how the instrument in hand is called, with the leads that are taken off."""
    leads = to_take_off(meter, test)
    less = f", less {amount(leads, test.unit)} leads" if leads is not None else ""
    return f"{words(meter)}{less}"


def first_of(test: Measurement, meter: Instrument | None) -> str:
    """Return what to make sure of before: nulling, unless the meter in hand doesn't."""
    if meter is None or meter.nulled is not False or not test.leads:
        return test.first
    rest = test.first.replace(LEADS_OFF, "").strip()
    leads = to_take_off(meter, test)
    if leads is None:
        return rest
    return (
        f"{rest} {_called(meter)} doesn't null: type what it shows, {amount(leads, test.unit)} "
        "for its leads is taken off."
    ).strip()


def warning_of(test: Measurement, meter: Instrument | None) -> str:
    """Return what to do where the leads count and nobody knows how much; empty if all is well."""
    if meter is None or not is_unknown(meter, test):
        return ""
    return (
        f"{_called(meter)} doesn't null its leads, and what they have is not entered: nothing is "
        "taken off. Join the tips and enter what it shows (step Job), or null it and say so there."
    )


def _called(meter: Instrument) -> str:
    """Return how a meter is called at the beginning of a sentence."""
    return f"{meter.name[:1].upper()}{meter.name[1:]}"
