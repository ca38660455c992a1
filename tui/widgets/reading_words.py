"""The lines round a reading: how far the stage is, and the keys."""

from __future__ import annotations

from textual.content import Content

from records.judgement.todo.progress import Standing
from records.taking.queue import Entry, Order
from records.taking.stage_settings import StageSettings, is_insulation
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


def keys_line(entry: Entry, settings: StageSettings, again: bool) -> Content:
    """Return the keys of the bench, those that mean something here."""
    acts = [("c", "can't"), ("x", "not needed")]
    if not entry.is_open and not again:
        acts = [("a", "test again")]
    acts += [("t", "note"), ("w", "why")]
    if is_insulation(entry.measurement):
        acts.append(("v", "500 V" if settings.at_lower(entry.slot) else "250 V"))
    else:
        acts.append(("o", "others"))  # there is room for one of the two
    acts.append(("m", "missing"))
    stage = [
        ("^O", settings.order.other.value),
        ("p", "who, meter"),
        ("l", "from notes"),
        ("F9", "list" if settings.grid else "grid"),
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
